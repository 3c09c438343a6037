#include <algorithm>
#include <map>
#include <set>

#include "assess/context.h"
#include "assess/joint_asked.h"
#include "assess/procedure.h"
#include "assess/record.h"
#include "assess/rehearsal.h"
#include "assess/unfinished_work.h"
#include "assess/work_words.h"
#include "messages/catalogue.h"
#include "work/asked.h"
#include "work/judge_step.h"
#include "work/resume.h"
#include "work/walk.h"
#include "work/words.h"

namespace trammel {
namespace {

const char* code(work::Refusal why) {
  using enum work::Refusal;
  switch (why) {
    case fastener_below_final:
      return "refused-below-final";
    case fastener_off_ladder:
      return "refused-off-ladder";
    case fastener_not_checked:
      return "refused-not-checked";
    case proof_never_made:
      return "refused-proof-never-made";
    case proof_voided:
      return "refused-proof-voided";
    case proof_disputed:
      return "refused-proof-disputed";
    case part_off:
      return "refused-part-off";
    case part_not_fitted:
      return "refused-part-not-fitted";
    case step_not_done:
      return "refused-step-not-done";
    case end_not_on_wheels:
      return "refused-end-not-on-wheels";
  }
  return "refused-below-final";
}

// What the kits say of each step and fastener, by id.
struct Told {
  struct OfStep {
    const KitStep* step = nullptr;
    const Kit* kit = nullptr;
  };
  std::map<std::string, OfStep> steps;
  std::map<std::string, const KitFastener*> fasteners;
  std::map<std::string, const Part*> parts;
};
Told told(const Job& job) {
  Told t;
  for (const KitUse& use : job.kits) {
    for (const KitStep& s : use.kit.step) t.steps[s.id.value] = {&s, &use.kit};
    for (const KitFastener& f : use.kit.fastener) t.fasteners[f.id.value] = &f;
    for (const Part& p : use.kit.part) t.parts[p.id.value] = &p;
  }
  return t;
}

// The torque of one pass: the last for final, the one before it for part-tight.
std::optional<Number> torque(const work::Asked& asked, work::FastenerState to) {
  if (!asked.valid) return std::nullopt;
  if (to == work::FastenerState::final && !asked.passes.empty()) return number(asked.passes.back());
  if (to == work::FastenerState::part_tight && asked.passes.size() > 1)
    return number(asked.passes[asked.passes.size() - 2]);
  return std::nullopt;
}

// `now`: as the record leaves it, so that what was decided is what is asked. Instances of which another torque is
// asked stand on a line of their own.
template <class Moves>
std::vector<FastenerMove> moves(const work::Roster& roster, const work::State& now, const Moves& given,
                                work::Side side) {
  std::vector<FastenerMove> all;
  for (const auto& m : given) {
    const std::size_t first = all.size();
    for (const std::size_t i : roster.fasteners_of(m.fastener, side)) {
      std::optional<Number> asked;
      if constexpr (requires { m.pass; }) asked = torque(work::asked_of(roster, now, i), m.to);
      const auto alike =
          std::find_if(all.begin() + static_cast<std::ptrdiff_t>(first), all.end(), [&](const FastenerMove& l) {
            return l.torque.has_value() == asked.has_value() && (!asked || l.torque->si == asked->si);
          });
      if (alike == all.end())
        all.push_back({m.fastener.id, {place_of(roster.fasteners[i])}, state_word(m.to), asked});
      else
        alike->instances.push_back(place_of(roster.fasteners[i]));
    }
    if (all.size() == first) all.push_back({m.fastener.id, {}, state_word(m.to), std::nullopt});
  }
  return all;
}

StepLine line(const Job& job, const work::Walk& walk, const work::State& now, std::size_t i, const Told& t) {
  const work::WalkedStep& walked = walk.steps[i];
  const work::Step& step = walk.roster.procedure.steps[walked.step.step];
  StepLine l;
  l.number = static_cast<int>(i) + 1;
  l.id = step.id;
  l.side = side_word(walked.step.side);
  l.act = step.title;
  l.stage = step.stage;
  l.evidence = step.evidence;
  l.tools = step.tools;
  l.cautions = step.hazards;
  l.hold = step.hold_point;
  l.optional = step.optional;
  l.person_under = step.person_under;
  l.repeat_until = step.repeat_until;
  l.minutes = step.time;
  l.people = step.people;
  l.short_handed = step.people > (job.shop && job.shop->technicians ? job.shop->technicians->value : 1);
  const auto found = t.steps.find(step.id);
  if (found != t.steps.end()) {
    const auto texts = [](const std::vector<Text>& given) {
      std::vector<std::string> all;
      for (const Text& text : given) all.push_back(text.value);
      return all;
    };
    const KitStep& given = *found->second.step;
    l.kit = found->second.kit->name.value;
    l.needs = texts(given.needs);
    // Parts by the name on the bag, ids kept where they are not the name already.
    const auto parts = [&](const std::vector<Text>& given_parts) {
      std::vector<std::string> all = texts(given_parts);
      for (std::string& text : all) {
        if (const auto part = t.parts.find(work::read_selector(text, work::part_ids(walk.roster.procedure)).id);
            part != t.parts.end() && part->second->name.value.find(part->first) == std::string::npos)
          text += ", " + part->second->name.value;
        // "rear wheel scrap, on the pile": the word for what never goes back stands apart.
        const std::size_t comma = std::min(text.find(','), text.size());
        if (text.substr(0, comma).ends_with(" scrap")) text.insert(comma - 6, ",");
      }
      return all;
    };
    l.removes = parts(given.removes);
    l.fits = parts(given.fits);
    l.undoes = texts(given.undoes);
    l.work = texts(given.work);
    if (given.accessory) l.accessory = given.accessory->value;
    if (given.one_person) l.one_person = given.one_person->value;
    // A load of an `each` step comes on after its last side.
    if (walked.step.last_side)
      for (const Text& load : given.loads) l.load += (l.load.empty() ? "" : ", ") + load.value;
  }
  l.tighten = moves(walk.roster, now, step.tighten, walked.step.side);
  l.slacken = moves(walk.roster, now, step.slacken, walked.step.side);
  l.unfinished = unfinished_work(job, walk.roster, walked.after);
  for (const work::Fault& fault : walk.faults)
    if (fault.at == i) l.faults.push_back(fault_message(fault));
  return l;
}

ResumeCard resume_card(const work::Roster& roster, const work::Ledger& ledger, const Unfinished& unfinished,
                       const std::vector<RecordLine>& lines) {
  const work::Resume r = work::resume(roster, ledger.state);
  ResumeCard card;
  for (auto it = lines.rbegin(); it != lines.rend() && card.last_done.size() < 2; ++it)
    if (it->kind == "signed" && !it->struck) card.last_done.push_back(*it);
  const auto support = [](work::Support s) {
    return s == work::Support::on_wheels ? "on wheels" : s == work::Support::jacked ? "jacked" : "on stands";
  };
  card.front = support(r.front);
  card.rear = support(r.rear);
  // Of what was done, only what holds a part up holds anything, and only until the cart is down.
  std::set<std::string> holds_nothing;
  for (const work::Step& s : roster.procedure.steps)
    for (const work::Deed& d : s.deeds)
      if (!unfinished.up || (d.verb != work::Verb::strap && d.verb != work::Verb::lower && d.verb != work::Verb::raise))
        holds_nothing.insert(work::condition_of(d));
  for (std::size_t i = 0; i < roster.conditions.size(); ++i)
    if (!holds_nothing.contains(roster.conditions[i].name) &&
        work::condition_holds(roster, ledger.state, i, work::Side::none))
      card.conditions.push_back(roster.conditions[i].name);
  card.parts_off = unfinished.off;
  for (const std::size_t i : r.proofs_open) card.proofs_open.push_back(roster.proofs[i].name);
  for (const std::size_t i : r.next) card.next.push_back(static_cast<int>(i) + 1);
  return card;
}

// A step signed while what it needs was not so, or a load came on what was not ready for it: the gravest reasons, and
// how many more. What the rehearsal says of the steps themselves is not said again.
void judge_signed(Context& c, const work::Roster& roster, const Record& record,
                  const std::vector<work::Fault>& planned) {
  constexpr std::size_t most = 5;
  std::set<work::FaultKey> known;
  for (const work::Fault& f : planned) known.insert(key(f));
  struct Reason {
    Outcome outcome;
    Message message;
    std::string of;  // the same of the same group: told once
    std::size_t count;
  };
  struct Early {
    std::string step;
    std::vector<Reason> reasons;
  };
  std::map<int, Early> said;  // by entry
  work::Ledger ledger = work::open_ledger(roster);
  for (std::size_t e = 0; e < record.events.size(); ++e) {
    const work::State before = ledger.state;
    ledger = work::apply(roster, std::move(ledger), record.events[e]);
    const auto* done = std::get_if<work::StepDone>(&record.events[e].what);
    for (std::size_t at = 0; done && at < roster.order.size(); ++at) {
      const work::ExpandedStep& x = roster.order[at];
      if (roster.procedure.steps[x.step].id != done->step || x.side != done->side) continue;
      std::vector<work::Fault> faults;
      judge_step(roster, at, before, ledger.state, faults);
      for (const work::Fault& f : faults) {
        if (fault_outcome(f) == Outcome::note || known.contains(key(f))) continue;
        Early& early = said[record.entry_of[e]];
        early.step = done->step;
        const std::string of = fault_message(f).code + " " + roster.group_of(f.subject);
        const auto alike =
            std::find_if(early.reasons.begin(), early.reasons.end(), [&](const Reason& r) { return r.of == of; });
        if (alike != early.reasons.end())
          ++alike->count;
        else
          early.reasons.push_back({fault_outcome(f), fault_message(f), of, 1});
      }
    }
  }
  for (auto& [entry, early] : said) {
    std::stable_sort(early.reasons.begin(), early.reasons.end(),
                     [](const Reason& a, const Reason& b) { return a.outcome > b.outcome; });
    const auto add = [&, number = entry](Outcome outcome, const char* code, const std::string& what) {
      Finding f;
      f.outcome = outcome;
      f.subject = "step " + early.step;
      f.message = {code, {{"step", early.step}, {"what", what}, {"entry", std::to_string(number)}}};
      f.source = "the kits' own steps, held against the record";
      f.basis = Basis::measured;
      c.add(std::move(f));
    };
    const std::size_t shown = std::min(most, early.reasons.size());
    for (std::size_t k = 0; k < shown; ++k) {
      const Reason& r = early.reasons[k];
      add(r.outcome, "record-too-early",
          trammel::word(r.message, {}) + (r.count > 1 ? " (" + std::to_string(r.count) + "×)" : ""));
    }
    if (shown < early.reasons.size())
      add(early.reasons[shown].outcome, "record-too-early-more", std::to_string(early.reasons.size() - shown));
  }
}

// What was reached of each instance, and what is asked of it where that is not what is asked of its group.
void tell_reached(Context& c, const work::Roster& roster, const Record& record) {
  for (FastenerLine& f : c.out.fasteners)
    if (const auto found = record.reached.find(f.id); found != record.reached.end()) f.reached = found->second;
  std::map<std::string, std::size_t> next;
  for (std::size_t i = 0; i < roster.fasteners.size(); ++i) {
    const std::string& id = roster.fasteners[i].instance.group;
    const std::size_t n = next[id]++;
    const auto torque = work::asked_of(roster, record.ledger.state, i).torque();
    for (FastenerLine& f : c.out.fasteners)
      if (f.id == id && n < f.reached.size() && torque && f.torque_asked && f.torque_asked->si != torque->si())
        f.reached[n].asked = number(*torque);
  }
}

// Fasteners of which the kit asks a torque that the fastener room stops.
std::set<std::string> torque_disputed(const Assessment& a) {
  std::set<std::string> ids;
  for (const FastenerLine& f : a.fasteners)
    for (const Flagged& flag : f.flags)
      if (torque_stop(flag.message.code)) ids.insert(f.id);
  return ids;
}

// Where the work stands by what has been signed.
void judge_ledger(Context& c, const work::Roster& roster, Record record, const std::vector<work::Fault>& planned) {
  for (Finding& f : record.findings) c.add(std::move(f));
  judge_signed(c, roster, record, planned);
  c.out.record = record.lines;
  const work::Ledger& ledger = record.ledger;
  tell_reached(c, roster, record);
  c.out.unfinished = unfinished_work(c.job, roster, ledger.state);
  if (record.lines.empty()) return;
  for (std::size_t i = 0; i < c.out.steps.size() && i < roster.order.size(); ++i) {
    const work::ExpandedStep& x = roster.order[i];
    c.out.steps[i].done = (ledger.state.done[x.step] & x.mask) == x.mask;
    if (const auto found = record.booked.find({c.out.steps[i].id, c.out.steps[i].side}); found != record.booked.end())
      c.out.steps[i].booked = found->second;
  }
  for (const std::size_t i : work::done_again(roster, ledger.state)) {
    c.out.steps[i].done = false;
    c.out.steps[i].again = true;
  }
  c.out.resume = resume_card(roster, ledger, c.out.unfinished, record.lines);
  for (const work::RefusedBy& r : work::release(roster, ledger.state).refused_by)
    c.out.release_refused.push_back({code(r.why), {{"subject", r.subject}, {"state", state_word(r.state)}}});
}

// What the pack brings: what is not on the cart yet, and what asks for a new nut.
void count_pack(Context& c, const work::Roster& roster) {
  for (FastenerLine& line : c.out.fasteners) {
    if (line.reuse == "new") continue;
    line.from_pack = static_cast<std::size_t>(
        std::count_if(roster.fasteners.begin(), roster.fasteners.end(), [&](const work::FastenerEntry& e) {
          return e.instance.group == line.id && e.as_found == work::FastenerState::out;
        }));
  }
}

}  // namespace

void judge_work(Context& c) {
  if (c.job.kits.empty()) return;
  JobProcedure procedure = job_procedure(c.job);
  for (Finding& f : procedure.findings) c.add(std::move(f));
  if (procedure.procedure.steps.empty()) return c.add(not_computed("the order of work", {"step"}));
  const Told t = told(c.job);
  const work::Rehearsal rehearsal = work::rehearse(procedure.procedure);
  const work::Walk& walk = rehearsal.walk;
  Record record = record_of(c.job, walk.roster, torque_disputed(c.out));
  for (std::size_t i = 0; i < walk.steps.size(); ++i)
    c.out.steps.push_back(line(c.job, walk, record.ledger.state, i, t));

  for (RehearsedFinding& found : rehearsed(c.job, rehearsal)) c.add(std::move(found.finding));
  if (rehearsal.found.empty()) {
    Finding f;
    f.outcome = Outcome::met;
    f.subject = "order of work";
    f.message = {
        "work-walked",
        {{"steps", std::to_string(walk.steps.size())}, {"fasteners", std::to_string(walk.roster.fasteners.size())}}};
    f.source = "the kits' own steps, rehearsed";
    f.basis = Basis::kit;
    c.add(std::move(f));
  }
  count_pack(c, walk.roster);
  judge_ledger(c, walk.roster, std::move(record), walk.faults);
}

}  // namespace trammel
