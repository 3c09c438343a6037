#include "assess/record.h"

#include <algorithm>
#include <set>

#include "assess/context.h"
#include "assess/standing.h"
#include "assess/work_words.h"
#include "work/words.h"

namespace trammel {
namespace {

// What a reading may differ from what is asked: wrench, eye and hand. assumed; a castle nut goes on to its next slot.
constexpr double window = 0.10, castle_window = 0.30;

// A nut that moves less than this before the wrench clicks has not settled; common practice, no source.
const Angle accepted_turn = 5.0 * units::degree;

class Reader {
 public:
  Reader(const Job& job, const work::Roster& roster) : job_(job), roster_(roster) {
    for (const KitUse& use : job.kits)
      for (const KitFastener& f : use.kit.fastener) fasteners_[f.id.value] = &f;
    for (const work::FastenerEntry& e : roster.fasteners)
      out_.reached[e.instance.group].emplace_back().instance = place_of(e);
    over_.assign(roster.fasteners.size(), 0);
  }

  Record read() {
    const std::vector<unsigned char> struck = struck_entries(job_);
    for (std::size_t n = 0; n < job_.events.size(); ++n) {
      number_ = static_cast<int>(n) + 1;
      first_[number_] = out_.events.size() + 1;
      struck_ = struck[n] != 0;
      about_.clear();
      if (const auto* s = std::get_if<Signed>(&job_.events[n])) sign(*s);
      if (const auto* t = std::get_if<TorqueEntry>(&job_.events[n])) torque(*t);
      if (const auto* f = std::get_if<FoundSo>(&job_.events[n])) found(*f);
      if (const auto* u = std::get_if<Undo>(&job_.events[n])) undo(*u);
    }
    first_[number_ + 1] = out_.events.size() + 1;
    missing();
    put_right();
    return std::move(out_);
  }

 private:
  void add(auto what, const std::string& who, const std::optional<Text>& when) {
    out_.events.push_back({out_.events.size() + 1, who, when ? when->value : "", std::move(what)});
    out_.entry_of.push_back(number_);
  }
  void line(const char* kind, std::string what, const std::string& who, const std::optional<Text>& when) {
    out_.lines.push_back({number_, kind, std::move(what), who, when ? when->value : "", struck_});
  }
  Finding& find(Outcome outcome, const std::string& subject, Message message, const Place& place, std::string source) {
    Finding f;
    f.outcome = outcome;
    f.subject = subject;
    f.message = std::move(message);
    f.message.arguments.emplace_back("entry", std::to_string(number_));
    f.source = std::move(source);
    f.basis = Basis::measured;
    f.place = place;
    out_.findings.push_back(std::move(f));
    if (!about_.empty()) mended_by_.push_back({out_.findings.size() - 1, number_, about_});
    return out_.findings.back();
  }
  // What a later entry has put right stays on the page as a note: a torque behind a wrong one; a torque, or where the
  // kit asks none the state, and a decision behind what was found.
  void put_right() {
    const work::State now = work::fold(roster_, out_.events).state;
    std::set<std::string> decided;
    for (const Event* event : standing_events(job_))
      if (const auto* d = std::get_if<Decision>(event)) decided.insert(d->about.value);
    for (const Mended& m : mended_by_) {
      Finding& f = out_.findings[m.finding];
      if (wants_decision(f.message.code) && !decided.contains(f.subject)) continue;
      const bool right = std::all_of(m.instances.begin(), m.instances.end(), [&](std::size_t i) {
        const auto last = last_torque_.find(i);
        return work::rung(now.fasteners[i]) >= work::rung(work::FastenerState::final) &&
               (asked(i).empty() || (last != last_torque_.end() && last->second > m.entry));
      });
      if (right) f.outcome = Outcome::note;
    }
  }
  void unknown(const Text& text) {
    find(Outcome::condition, text.value, {"entry-names-nothing", {{"text", text.value}}}, text.place,
         "the job's own words");
  }

  void sign(const Signed& s) {
    line("signed", s.step.value + (s.side ? " " + s.side->value : ""), s.who.value, s.when);
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
    for (const Side side : sides) add(work::StepDone{s.step.value, side}, s.who.value, s.when);
    if (struck_) return;
    if (step.hold_point && (!s.second || s.second->value == s.who.value))
      find(Outcome::condition, "step " + s.step.value,
           {s.second ? "record-hold-same" : "record-hold", {{"step", s.step.value}, {"who", s.who.value}}},
           s.step.place, common_practice);
    for (const Side side : sides)
      for (const work::Slacken& t : step.slacken)
        for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) final_by_.erase(i);
    torqued_again(s, step, sides);
    for (const Side side : sides)
      for (const work::Tighten& t : step.tighten)
        for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) {
          if (t.to == work::FastenerState::final) signed_final_[roster_.fasteners[i].instance.group].push_back(i);
          if (t.to == work::FastenerState::verified) second_look(s, i);
        }
  }

  // What another step made final and this one takes to its torque again: how far it moved is what the check is for.
  void torqued_again(const Signed& s, const work::Step& step, const std::vector<work::Side>& sides) {
    std::set<std::string> silent;
    for (const work::Side side : sides)
      for (const work::Tighten& t : step.tighten)
        for (const std::size_t i : roster_.fasteners_of(t.fastener, side)) {
          if (t.to != work::FastenerState::final) continue;
          const auto before = final_by_.find(i);
          const auto checked = checked_again_.find(i);
          if (before != final_by_.end() && before->second.step != step.id && !t.fresh &&
              (checked == checked_again_.end() || checked->second < before->second.entry))
            silent.insert(roster_.fasteners[i].instance.group);
          final_by_[i] = {number_, step.id};
        }
    for (const std::string& id : silent)
      find(Outcome::condition, id, {"record-not-checked-again", {{"id", id}, {"step", step.id}}}, s.step.place,
           common_practice);
  }

  // A second look by the one who tightened it is no second look.
  void second_look(const Signed& s, std::size_t i) {
    const TorqueReached& r = reached(i);
    if (r.who.empty() || r.who != s.who.value ||
        !same_person_.insert(s.step.value + roster_.fasteners[i].instance.group).second)
      return;
    find(Outcome::condition, roster_.fasteners[i].instance.group,
         {"record-same-person",
          {{"id", roster_.fasteners[i].instance.group}, {"step", s.step.value}, {"who", s.who.value}}},
         s.who.place, common_practice);
  }

  TorqueReached& reached(std::size_t i) {
    const work::FastenerEntry& e = roster_.fasteners[i];
    for (TorqueReached& r : out_.reached[e.instance.group])
      if (r.instance == place_of(e)) return r;
    return out_.reached[e.instance.group].front();
  }

  // The torque asked of an instance, last pass last; its own kit's, or that of a kit that shares the hole.
  std::vector<Torque> asked(std::size_t i) const {
    const work::FastenerEntry& e = roster_.fasteners[i];
    const auto found = fasteners_.find(e.spec.empty() ? e.instance.group : e.spec);
    std::vector<Torque> all;
    if (found == fasteners_.end()) return all;
    for (const auto& pass : found->second->passes) all.push_back(pass.value);
    if (all.empty() && found->second->torque) all.push_back(found->second->torque->value);
    return all;
  }
  bool castle(std::size_t i) const {
    const auto found = fasteners_.find(roster_.fasteners[i].instance.group);
    return found != fasteners_.end() && found->second->stack.value.find("castle") != std::string::npos;
  }

  void torque(const TorqueEntry& t) {
    const std::string who = t.who ? t.who->value : "";
    line("torque", t.fastener.value, who, t.when);
    const auto named = work::read_selector(t.fastener.value, work::fastener_ids(roster_.procedure));
    auto instances = roster_.fasteners_of(named, work::Side::none);
    if (instances.empty()) return unknown(t.fastener);
    if (!t.torque) return;
    for (const Text& place : t.except) {
      const auto left_out = work::read_selector(named.id + " " + place.value, work::fastener_ids(roster_.procedure));
      if (std::erase_if(instances,
                        [&](std::size_t i) { return work::picks(left_out, roster_.fasteners[i].instance); }) == 0)
        unknown(place);
    }
    about_ = instances;
    wrench(t);
    if (t.turned && !struck_) {
      moved_again(t);
      for (const std::size_t i : instances) checked_again_[i] = number_;
    }
    bool said = false;
    for (const std::size_t i : instances) {
      const std::vector<Torque> passes = asked(i);
      const std::string& name = roster_.fasteners[i].name;
      auto state = work::FastenerState::final;
      Outcome outcome = Outcome::met;
      if (!passes.empty()) {
        const Torque want = passes.back(), got = t.torque->value;
        const double high = castle(i) ? castle_window : window;
        const bool over = got > (1.0 + high) * want, under = got < (1.0 - window) * want;
        const bool a_pass = under && std::any_of(passes.begin(), passes.end() - 1, [&](Torque p) {
                              return got >= (1.0 - window) * p && got <= (1.0 + window) * p;
                            });
        if (under) state = work::FastenerState::part_tight;
        if (over || (under && !a_pass)) {
          outcome = Outcome::condition;
          if (!said && !struck_) off_target(t, want, high, over);
          said = true;
        }
        if (over) {
          add(work::Disputed{name}, who, t.when);
          over_[i] = 1;
          if (!struck_) last_torque_[i] = number_;
          if (!struck_) note(i, t, who, outcome);
          continue;
        }
      }
      // Entered again after it was too tight: a person says that it has been seen to.
      if (over_[i]) add(work::Decided{name, work::FastenerState::slack}, who, t.when);
      over_[i] = 0;
      if (!struck_) last_torque_[i] = number_;
      // Below the window it is not final, whatever was signed of it.
      if (state == work::FastenerState::final)
        add(work::TorqueReached{name, state, t.torque->value, t.wrench ? t.wrench->value : ""}, who, t.when);
      else
        add(work::Found{name, state}, who, t.when);
      if (!struck_) note(i, t, who, outcome);
    }
  }
  void note(std::size_t i, const TorqueEntry& t, const std::string& who, Outcome outcome) {
    if (!t.turned) made_fast_.insert(i);
    TorqueReached& r = reached(i);
    r.torque = number(t.torque->value);
    r.wrench = t.wrench ? t.wrench->value : "";
    r.who = who;
    r.when = t.when ? t.when->value : "";
    r.outcome = outcome;
  }
  // Torqued again: accepted where the wrench clicks before the nut moves; the second time that it moves is once too
  // often.
  void moved_again(const TorqueEntry& t) {
    if (!(t.turned->value > accepted_turn)) return;
    const int times = ++moved_[t.fastener.value];
    Finding& f = find(Outcome::condition, t.fastener.value,
                      {times > 1 ? "record-moved-twice" : "record-moved",
                       {{"id", t.fastener.value}, {"turned", number(t.turned->value)}}},
                      t.fastener.place, common_practice);
    f.value = number(t.turned->value);
    f.limit = number(accepted_turn);
    f.margin = number(accepted_turn - t.turned->value);
  }
  void off_target(const TorqueEntry& t, Torque want, double high, bool over) {
    Finding& f = find(Outcome::condition, t.fastener.value,
                      {over ? "record-above-window" : "record-below-window",
                       {{"id", t.fastener.value}, {"torque", number(t.torque->value)}, {"asked", number(want)}}},
                      t.fastener.place, "window about the torque asked: assumed");
    f.value = number(t.torque->value);
    f.limit = number((over ? 1.0 + high : 1.0 - window) * want);
    f.margin = number(over ? (1.0 + high) * want - t.torque->value : t.torque->value - (1.0 - window) * want);
    f.sense = over ? Finding::Sense::at_most : Finding::Sense::at_least;
  }

  // The wrench: known to the shop, within its range, calibrated on that day.
  void wrench(const TorqueEntry& t) {
    if (struck_ || !t.wrench || !job_.shop || job_.shop->wrench.empty()) return;
    const auto found = std::find_if(job_.shop->wrench.begin(), job_.shop->wrench.end(),
                                    [&](const Wrench& w) { return w.id.value == t.wrench->value; });
    const auto say = [&](const char* code, std::string due = {}) {
      find(Outcome::condition, t.fastener.value,
           {code,
            {{"id", t.fastener.value},
             {"wrench", t.wrench->value},
             {"due", std::move(due)},
             {"torque", number(t.torque->value)}}},
           t.wrench->place, common_practice);
    };
    if (found == job_.shop->wrench.end()) return say("record-wrench-unknown");
    if ((found->least && t.torque->value < found->least->value) ||
        (found->most && t.torque->value > found->most->value))
      say("record-wrench-range");
    const std::string day = t.when ? t.when->value.substr(0, 10) : job_.date ? job_.date->value : "";
    if (found->calibration_due && !day.empty() && found->calibration_due->value < day)
      say("record-wrench-overdue", found->calibration_due->value);
  }

  // Seen otherwise than the steps have it: what is seized, damaged or substituted carries nothing until it is dealt
  // with.
  void found(const FoundSo& f) {
    line("found", f.fastener.value + " " + f.state.value + (f.by ? ", " + f.by->value : ""), f.who.value, f.when);
    const auto named = work::read_selector(f.fastener.value, work::fastener_ids(roster_.procedure));
    const auto instances = roster_.fasteners_of(named, work::Side::none);
    const auto state = work::read_fastener_state(f.state.value);
    if (instances.empty() || !state) return unknown(instances.empty() ? f.fastener : f.state);
    for (const std::size_t i : instances) {
      const std::string& name = roster_.fasteners[i].name;
      if (*state == work::FastenerState::substituted)
        add(work::Substituted{name, f.by ? f.by->value : ""}, f.who.value, f.when);
      else
        add(work::Found{name, *state}, f.who.value, f.when);
    }
    if (struck_) return;
    about_ = instances;
    const char* code = *state == work::FastenerState::seized        ? "record-seized"
                       : *state == work::FastenerState::damaged     ? "record-damaged"
                       : *state == work::FastenerState::substituted ? "record-substituted"
                                                                    : "record-found";
    find(Outcome::condition, f.fastener.value,
         {code,
          {{"id", f.fastener.value},
           {"state", f.state.value},
           {"by", f.by ? f.by->value : std::string()},
           {"who", f.who.value},
           {"why", f.why ? ": " + f.why->value : std::string()}}},
         f.fastener.place, "the job's own words");
  }

  void undo(const Undo& u) {
    line("undo", std::to_string(u.entry.value), u.who.value, u.when);
    const int n = u.entry.value;
    const bool earlier = n >= 1 && n < number_;
    if (!earlier) {
      find(Outcome::condition, "entry " + std::to_string(n),
           {"record-undo-of-nothing", {{"number", std::to_string(n)}}}, u.entry.place, "the job's own words");
      return;
    }
    for (std::size_t s = first_[n]; s < first_[n + 1]; ++s) add(work::Undone{s}, u.who.value, u.when);
  }

  // Signed as final, and no torque entered: said once for each fastener.
  void missing() {
    for (const auto& [id, instances] : signed_final_) {
      std::size_t without = 0;
      for (const std::size_t i : instances) without += !asked(i).empty() && !made_fast_.contains(i);
      if (without == 0) continue;
      Finding f;
      f.outcome = Outcome::condition;
      f.subject = id;
      f.message = {"record-no-torque",
                   {{"id", id}, {"count", std::to_string(without)}, {"of", std::to_string(instances.size())}}};
      f.source = common_practice;
      f.basis = Basis::measured;
      out_.findings.push_back(std::move(f));
    }
  }

  const Job& job_;
  const work::Roster& roster_;
  std::map<std::string, const KitFastener*> fasteners_;
  std::map<std::string, std::vector<std::size_t>> signed_final_;
  std::set<std::string> same_person_;
  std::map<int, std::size_t> first_;  // entry -> its first sequence in the ledger
  // A finding about fasteners that a later entry may put right.
  struct Mended {
    std::size_t finding = 0;
    int entry = 0;
    std::vector<std::size_t> instances;
  };
  std::vector<Mended> mended_by_;
  std::vector<std::size_t> about_;          // what the entry that is being read names
  std::map<std::size_t, int> last_torque_;  // fastener entry -> the last torque that stands
  struct MadeFinal {
    int entry = 0;
    std::string step;
  };
  std::map<std::size_t, MadeFinal> final_by_;  // fastener entry -> the signed step that made it final last
  std::set<std::size_t> made_fast_;            // fastener entries with a torque that is no check of an earlier one
  std::map<std::size_t, int> checked_again_;   // fastener entry -> its last torque that says how far it moved
  std::map<std::string, int> moved_;           // torqued again, and how often it moved
  std::vector<unsigned char> over_;
  int number_ = 0;
  bool struck_ = false;
  Record out_;
};

}  // namespace

bool wants_decision(const std::string& code) {
  return code == "record-seized" || code == "record-damaged" || code == "record-substituted" ||
         code == "record-above-window";
}

Record record_of(const Job& job, const work::Roster& roster) { return Reader(job, roster).read(); }

}  // namespace trammel
