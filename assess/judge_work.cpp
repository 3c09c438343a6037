#include <map>

#include "assess/context.h"
#include "assess/procedure.h"
#include "assess/record.h"
#include "assess/rehearsal.h"
#include "assess/work_words.h"
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
std::optional<Number> torque(const KitFastener* f, work::FastenerState to) {
  if (!f) return std::nullopt;
  if (to == work::FastenerState::final) {
    if (f->torque) return number(f->torque->value);
    if (!f->passes.empty()) return number(f->passes.back().value);
  }
  if (to == work::FastenerState::part_tight && f->passes.size() > 1)
    return number(f->passes[f->passes.size() - 2].value);
  return std::nullopt;
}

// Instance names without the fastener's id: "left front".
std::string place_of(const work::FastenerEntry& e) {
  const std::string& id = e.instance.group;
  return e.name.size() > id.size() + 1 && e.name.compare(0, id.size(), id) == 0 ? e.name.substr(id.size() + 1)
                                                                                : std::string();
}

template <class Moves>
std::vector<FastenerMove> moves(const work::Roster& roster, const Moves& given, work::Side side, const Told& t) {
  std::vector<FastenerMove> all;
  for (const auto& m : given) {
    FastenerMove move;
    move.id = m.fastener.id;
    move.state = state_word(m.to);
    std::string spec = move.id;
    for (const std::size_t i : roster.fasteners_of(m.fastener, side)) {
      move.instances.push_back(place_of(roster.fasteners[i]));
      if (!roster.fasteners[i].spec.empty()) spec = roster.fasteners[i].spec;
    }
    const auto found = t.fasteners.find(spec);
    if constexpr (requires { m.pass; })
      move.torque = torque(found == t.fasteners.end() ? nullptr : found->second, m.to);
    all.push_back(std::move(move));
  }
  return all;
}

std::string may_bear(std::optional<work::Load> not_before) {
  if (!not_before) return load_word(work::Load::released);
  if (*not_before == work::Load::jacked) return "nothing";
  return load_word(static_cast<work::Load>(static_cast<int>(*not_before) - 1));
}

// What is final and only waits for its second look is not loose.
bool is_loose(const work::LooseItem& item) { return work::below(item.state, work::FastenerState::final); }

LooseItem loose(const work::Roster& roster, const work::LooseItem& item, const Told& t) {
  const work::FastenerEntry& e = roster.fasteners[item.fastener];
  LooseItem l{e.instance.group, place_of(e), state_word(item.state), {}, may_bear(item.not_before)};
  const auto found = t.fasteners.find(e.instance.group);
  if (found != t.fasteners.end()) l.at = without_places(found->second->at.value);
  return l;
}

StepLine line(const work::Walk& walk, std::size_t i, const Told& t) {
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
  l.minutes = step.time;
  l.people = step.people;
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
      for (std::string& text : all)
        if (const auto part = t.parts.find(work::read_selector(text, work::part_ids(walk.roster.procedure)).id);
            part != t.parts.end() && part->second->name.value.find(part->first) == std::string::npos)
          text += ", " + part->second->name.value;
      return all;
    };
    l.removes = parts(given.removes);
    l.fits = parts(given.fits);
    l.undoes = texts(given.undoes);
    // A load of an `each` step comes on after its last side.
    if (walked.step.last_side)
      for (const Text& load : given.loads) l.load += (l.load.empty() ? "" : ", ") + load.value;
  }
  l.tighten = moves(walk.roster, step.tighten, walked.step.side, t);
  l.slacken = moves(walk.roster, step.slacken, walked.step.side, t);
  for (const work::LooseItem& item : walked.loose)
    if (is_loose(item)) l.loose_after.push_back(loose(walk.roster, item, t));
  for (const work::Fault& fault : walk.faults)
    if (fault.at == i) l.faults.push_back(fault_message(fault));
  return l;
}

ResumeCard resume_card(const work::Roster& roster, const work::Ledger& ledger, const std::vector<RecordLine>& lines) {
  const work::Resume r = work::resume(roster, ledger);
  ResumeCard card;
  for (auto it = lines.rbegin(); it != lines.rend() && card.last_done.size() < 2; ++it)
    if (it->kind == "signed" && !it->struck) card.last_done.push_back(*it);
  const auto support = [](work::Support s) {
    return s == work::Support::on_wheels ? "on wheels" : s == work::Support::jacked ? "jacked" : "on stands";
  };
  card.front = support(r.front);
  card.rear = support(r.rear);
  for (std::size_t i = 0; i < roster.conditions.size(); ++i)
    if (work::condition_holds(roster, ledger.state, i, work::Side::none))
      card.conditions.push_back(roster.conditions[i].name);
  for (const std::size_t i : r.parts_off) card.parts_off.push_back(roster.parts[i].name);
  for (const std::size_t i : r.proofs_open) card.proofs_open.push_back(roster.proofs[i].name);
  for (const std::size_t i : r.next) card.next.push_back(static_cast<int>(i) + 1);
  return card;
}

// Where the work stands by what has been signed.
void judge_ledger(Context& c, const work::Roster& roster, const Told& t) {
  Record record = record_of(c.job, roster);
  for (Finding& f : record.findings) c.add(std::move(f));
  c.out.record = record.lines;
  for (FastenerLine& f : c.out.fasteners)
    if (const auto found = record.reached.find(f.id); found != record.reached.end()) f.reached = found->second;
  const work::Ledger ledger = work::fold(roster, record.events);
  for (const work::LooseItem& item : work::loose_list(roster, ledger.state))
    if (is_loose(item)) c.out.loose_now.push_back(loose(roster, item, t));
  if (record.events.empty()) return;
  for (std::size_t i = 0; i < c.out.steps.size() && i < roster.order.size(); ++i) {
    const work::ExpandedStep& x = roster.order[i];
    c.out.steps[i].done = (ledger.state.done[x.step] & x.mask) == x.mask;
  }
  c.out.resume = resume_card(roster, ledger, record.lines);
  for (const work::RefusedBy& r : work::release(roster, ledger.state).refused_by)
    c.out.release_refused.push_back({code(r.why), {{"subject", r.subject}, {"state", state_word(r.state)}}});
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
  for (std::size_t i = 0; i < walk.steps.size(); ++i) c.out.steps.push_back(line(walk, i, t));

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
  judge_ledger(c, walk.roster, t);
}

}  // namespace trammel
