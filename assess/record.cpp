#include "assess/record.h"

#include "assess/context.h"
#include "assess/record_reader.h"
#include "assess/standing.h"
#include "assess/work_words.h"
#include "work/words.h"

namespace trammel {

using work::FastenerState;

namespace {

bool loosens(const work::Roster& r, const work::Step& step, work::Side side, std::size_t i) {
  return std::any_of(step.slacken.begin(), step.slacken.end(), [&](const work::Slacken& s) {
    const std::vector<std::size_t> all = r.fasteners_of(s.fastener, side);
    return std::find(all.begin(), all.end(), i) != all.end();
  });
}

}  // namespace

RecordReader::RecordReader(const Job& job, const work::Roster& roster, const std::set<std::string>& disputed)
    : job_(job), roster_(roster), completed_(completed_events(job)), terms_(job) {
  for (const KitUse& use : job.kits) {
    for (const KitFastener& f : use.kit.fastener) fasteners_[f.id.value] = &f;
    for (const KitStep& s : use.kit.step) steps_[s.id.value] = &s;
  }
  decimal_ = job.decimal_sign && job.decimal_sign->value == "," ? ',' : '.';
  for (const work::FastenerEntry& e : roster.fasteners)
    out_.reached[e.instance.group].emplace_back().instance = place_of(e);
  std::map<std::string, std::size_t> next;
  for (const work::FastenerEntry& e : roster.fasteners)
    booked_.emplace_back().shown = &out_.reached[e.instance.group][next[e.instance.group]++];
  out_.ledger = work::open_ledger(roster);
  for (const work::FastenerEntry& e : roster.fasteners)
    if (disputed.contains(e.spec.empty() ? e.instance.group : e.spec))
      add(work::TorqueDecided{e.name, std::nullopt}, "", {});
}

Record RecordReader::read() {
  const std::vector<unsigned char> struck = struck_entries(job_);
  for (std::size_t n = 0; n < completed_.events.size(); ++n) {
    number_ = static_cast<int>(n) + 1;
    about_.clear();
    checking_ = false;
    const Event& event = completed_.events[n];
    tell(event, struck[n] != 0);
    if (!struck[n]) std::visit([&](const auto& e) { take(e); }, event);
  }
  for (const AdditionFault& f : completed_.faults) {
    number_ = f.number;
    about_.clear();
    find(Outcome::condition, "entry " + std::to_string(f.number), {f.code, {{"what", f.what}}}, {}, own_words);
  }
  owed();
  put_right();
  return std::move(out_);
}

void RecordReader::tell(const Event& event, bool struck) {
  const auto line = [&](const char* kind, std::string what, const std::string& who, const std::optional<Text>& when) {
    out_.lines.push_back({number_, kind, std::move(what), who, when ? when->value : "", struck});
  };
  if (const auto* s = std::get_if<Signed>(&event))
    line("signed", s->step.value + (s->side ? " " + s->side->value : ""), s->who.value, s->when);
  if (const auto* t = std::get_if<TorqueEntry>(&event))
    line("torque", t->fastener.value, t->who ? t->who->value : "", t->when);
  if (const auto* f = std::get_if<FoundSo>(&event))
    line("found", f->fastener.value + " " + f->state.value + (f->by ? ", " + f->by->value : ""), f->who.value, f->when);
  if (const auto* u = std::get_if<Undo>(&event)) line("undo", std::to_string(u->entry.value), u->who.value, u->when);
  if (const auto* a = std::get_if<Addition>(&event))
    line("addition", std::to_string(a->entry.value), a->who.value, a->when);
}

Finding& RecordReader::find(Outcome outcome, const std::string& subject, Message message, const Place& place,
                            std::string source) {
  Finding f;
  f.outcome = outcome;
  f.subject = subject;
  f.message = std::move(message);
  f.message.arguments.emplace_back("entry", std::to_string(number_));
  f.source = std::move(source);
  f.basis = Basis::measured;
  f.place = place;
  out_.findings.push_back(std::move(f));
  if (!about_.empty()) may_be_mended_.push_back({out_.findings.size() - 1, number_, about_, checking_});
  return out_.findings.back();
}

void RecordReader::unknown(const Text& text) {
  find(Outcome::condition, text.value, {"entry-names-nothing", {{"text", text.value}}}, text.place, own_words);
}

// What an entry lacks or says wrongly of itself.
void RecordReader::tell_faults(std::vector<EntryFault> faults, const std::string& subject, const Place& entry,
                               const char* called) {
  for (EntryFault& f : faults) {
    Message message{f.code, std::move(f.more)};
    message.arguments.emplace_back("subject", called ? called : subject);
    message.arguments.emplace_back("id", subject);
    find(Outcome::condition, subject, std::move(message), f.place.value_or(entry), common_practice);
  }
}

RecordReader::Instances RecordReader::named(const Text& text) const {
  return roster_.fasteners_of(work::read_selector(text.value, work::fastener_ids(roster_.procedure)), work::Side::none);
}

std::vector<std::string> RecordReader::names(const Instances& instances) const {
  std::vector<std::string> all;
  for (const std::size_t i : instances) all.push_back(roster_.fasteners[i].name);
  return all;
}

// "F3" for the whole group, "F3 left front 1, F3 left front 2" for some of it.
std::string RecordReader::told(const Instances& instances) const {
  const std::string& group = roster_.fasteners[instances.front()].instance.group;
  if (instances.size() > 1 && instances.size() == roster_.fastener_group.at(group).size()) return group;
  std::string text;
  for (std::size_t k = 0; k < instances.size() && k < 4; ++k)
    text += (k == 0 ? "" : ", ") + roster_.fasteners[instances[k]].name;
  return instances.size() > 4 ? text + " …" : text;
}

const KitFastener* RecordReader::kit_of(std::size_t i) const {
  const work::FastenerEntry& e = roster_.fasteners[i];
  const auto found = fasteners_.find(e.spec.empty() ? e.instance.group : e.spec);
  return found == fasteners_.end() ? nullptr : found->second;
}

void RecordReader::take(const Signed& s) {
  const auto found = roster_.step(s.step.value);
  if (!found) return unknown(s.step);
  const work::Step& step = roster_.procedure.steps[*found];
  using work::Side;
  std::vector<Side> sides = {Side::none};
  if (s.side)
    sides = {s.side->value == "left" ? Side::left : Side::right};
  else if (step.sides == work::Sides::each)
    sides = {Side::left, Side::right};
  else if (step.sides == work::Sides::left)
    sides = {Side::left};
  else if (step.sides == work::Sides::right)
    sides = {Side::right};
  terms_of(s, step, sides);
  torqued_again(s, step, sides);
  for (const Side side : sides) {
    const auto text = [](const std::optional<Text>& t) { return t ? t->value : std::string(); };
    out_.booked[{step.id, side_word(side)}] = {s.who.value, text(s.when), text(s.evidence), text(s.second),
                                               text(s.instead)};
    const work::State before = now();
    add(work::StepDone{s.step.value, side}, s.who.value, s.when);
    made_final(step, side, before);
    for (const work::Tighten& t : step.tighten)
      if (t.to == FastenerState::verified)
        for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) second_look(s, i);
  }
}

void RecordReader::terms_of(const Signed& s, const work::Step& step, const std::vector<work::Side>& sides) {
  const std::string subject = "step " + step.id;
  std::vector<std::string> things;
  for (const work::Side side : sides) {
    things.push_back(step.id + " " + side_word(side));
    for (const work::Tighten& t : step.tighten)
      if (t.to == FastenerState::final)
        for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) things.push_back(roster_.fasteners[i].name);
  }
  tell_faults(terms_.who_and_when(number_, s.who, s.when, things), subject, s.step.place);
  if (!step.evidence.empty() && !says(s.evidence))
    tell_faults({lacking("@lacks-evidence", "--evidence TEXT")}, subject, s.step.place);
  // A hold point is passed by two people; by one alone as the kit says.
  if (s.instead) alone(s, subject);
  if (step.hold_point && !s.instead && (!says(s.second) || same_person(s.second->value, s.who.value)))
    find(Outcome::condition, subject,
         {says(s.second) ? "record-hold-same" : "record-hold", {{"step", step.id}, {"who", s.who.value}}}, s.step.place,
         common_practice);
}

// What one who works alone does instead of the second look holds where the kit says how, in a shop of one.
bool RecordReader::may_be_alone(const Signed& s) const {
  const auto found = steps_.find(s.step.value);
  const bool shop_of_one = !job_.shop || !job_.shop->technicians || job_.shop->technicians->value == 1;
  return says(s.instead) && shop_of_one && found != steps_.end() && says(found->second->one_person);
}

void RecordReader::alone(const Signed& s, const std::string& subject) {
  if (may_be_alone(s)) return;
  const auto found = steps_.find(s.step.value);
  const bool said = found != steps_.end() && says(found->second->one_person);
  find(Outcome::condition, subject,
       {"record-instead", {{"step", s.step.value}, {"why", said ? "@instead-shop-of-two" : "@instead-not-said"}}},
       s.instead->place, own_words);
}

// A signature that makes it final uses up what was entered since it was last loosened, or still wants it.
void RecordReader::made_final(const work::Step& step, work::Side side, const work::State& before) {
  for (const work::Tighten& t : step.tighten)
    if (t.to == FastenerState::final)
      for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) {
        if (!work::asked_of(roster_, before, i).wants_entry()) continue;
        if (work::on_ladder(now().fasteners[i]) && below(now().fasteners[i], FastenerState::final)) continue;
        Booked& b = booked_[i];
        const bool anew = below(before.fasteners[i], FastenerState::final) || loosens(roster_, step, side, i);
        if (b.entered && !(b.used && anew))
          b.used = true;
        else
          b.entered = false, b.owed = true;
      }
  loosened(before);
  for (std::size_t i = 0; i < booked_.size(); ++i)
    if (loosens(roster_, step, side, i) && below(now().fasteners[i], FastenerState::final)) forget(i);
}

void RecordReader::loosened(const work::State& before) {
  for (std::size_t i = 0; i < booked_.size(); ++i)
    if (!below(before.fasteners[i], FastenerState::final) && below(now().fasteners[i], FastenerState::final)) forget(i);
}

// What another step made final and this one takes to its torque again: how far it moved is what the check is for.
void RecordReader::torqued_again(const Signed& s, const work::Step& step, const std::vector<work::Side>& sides) {
  std::set<std::string> silent;
  for (const work::Side side : sides) {
    for (const work::Slacken& t : step.slacken)
      for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) booked_[i].final_at = 0;
    for (const work::Tighten& t : step.tighten)
      for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) {
        if (t.to != FastenerState::final) continue;
        Booked& b = booked_[i];
        if (b.final_at != 0 && b.final_by != step.id && !t.fresh && b.checked < b.final_at)
          silent.insert(roster_.fasteners[i].instance.group);
        b.final_at = number_;
        b.final_by = step.id;
      }
  }
  for (const std::string& id : silent)
    find(Outcome::condition, id, {"record-not-checked-again", {{"id", id}, {"step", step.id}}}, s.step.place,
         common_practice);
}

// A second look by the one who tightened it is no second look.
void RecordReader::second_look(const Signed& s, std::size_t i) {
  TorqueReached& r = *booked_[i].shown;
  r.second = says(s.second) && same_person(s.who.value, r.who) ? s.second->value : s.who.value;
  r.instead = s.instead ? s.instead->value : "";
  const std::string& group = roster_.fasteners[i].instance.group;
  if (r.who.empty() || !same_person(r.second, r.who) || may_be_alone(s)) return;
  if (!same_person_.insert(s.step.value + group).second) return;
  find(Outcome::condition, group, {"record-same-person", {{"id", group}, {"step", s.step.value}, {"who", s.who.value}}},
       s.who.place, common_practice);
}

void RecordReader::take(const Undo& u) {
  tell_faults(terms_.who_and_when(number_, u.who, u.when, {}), "entry " + std::to_string(number_), u.entry.place);
  const int n = u.entry.value;
  if (n < 1 || n >= number_)
    find(Outcome::condition, "entry " + std::to_string(n), {"record-undo-of-nothing", {{"number", std::to_string(n)}}},
         u.entry.place, own_words);
}

void RecordReader::take(const Addition& a) {
  tell_faults(terms_.who_and_when(number_, a.who, a.when, {}), "entry " + std::to_string(number_), a.entry.place);
}

// Signed as final, and nothing of what was reached: said once for each fastener.
void RecordReader::owed() {
  for (const work::Fastener& fastener : roster_.procedure.fasteners) {
    const std::string& id = fastener.id;
    const Instances& group = roster_.fastener_group.at(id);
    Instances without;
    for (const std::size_t i : group)
      if (booked_[i].owed) without.push_back(i);
    if (without.empty()) continue;
    const work::Asked asked = work::asked_of(roster_, now(), without.front());
    const KitFastener* kit = kit_of(without.front());
    Finding f;
    f.outcome = Outcome::condition;
    f.subject = told(without);
    f.message = {asked.measured ? "record-no-measure" : "record-no-torque",
                 {{"id", f.subject},
                  {"group", id},
                  {"count", std::to_string(without.size())},
                  {"of", std::to_string(group.size())},
                  {"set_by", kit && kit->set_by ? kit->set_by->value : std::string()}}};
    f.source = common_practice;
    f.basis = Basis::measured;
    out_.findings.push_back(std::move(f));
  }
}

// What a later entry has put right stays on the page as a note: a torque behind a wrong one; a torque, or where the
// kit asks none the state, and a decision behind what was found.
void RecordReader::put_right() {
  for (const Mended& m : may_be_mended_) {
    Finding& f = out_.findings[m.finding];
    const bool decided = wants_decision(f.message.code);
    const bool right = std::all_of(m.instances.begin(), m.instances.end(), [&](std::size_t i) {
      const Booked& b = booked_[i];
      return work::rung(now().fasteners[i]) >= work::rung(FastenerState::final) && (!decided || b.decided > m.entry) &&
             ((m.check ? b.counted : b.made) > m.entry || !work::asked_of(roster_, now(), i).wants_entry());
    });
    if (right) f.outcome = Outcome::note;
  }
}

bool wants_decision(const std::string& code) {
  return code == "record-seized" || code == "record-damaged" || code == "record-substituted" ||
         code == "record-above-window" || code == "record-above-limit" || code == "record-in-dispute" ||
         code == "record-past-proof" || code == "record-strength-unknown" || code == "record-stand-in-stops" ||
         code == "record-stand-in-unread";
}

Record record_of(const Job& job, const work::Roster& roster, const std::set<std::string>& disputed) {
  return RecordReader(job, roster, disputed).read();
}

}  // namespace trammel
