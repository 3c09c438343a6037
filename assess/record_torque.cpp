// Torques and measures of the record: what was reached against what is asked then.
#include "assess/context.h"
#include "assess/record_reader.h"
#include "assess/set_by.h"
#include "assess/work_words.h"
#include "work/words.h"

namespace trammel {

using work::FastenerState;

namespace {

// A nut that moves less than this before the wrench clicks has not settled; common practice, no source.
const Angle accepted_turn = 5.0 * units::degree;

}  // namespace

void RecordReader::take(const TorqueEntry& t) {
  Instances instances = named(t.fastener);
  if (instances.empty()) return unknown(t.fastener);
  const std::string id = roster_.fasteners[instances.front()].instance.group;
  for (const Text& place : t.except) {
    const auto left_out = work::read_selector(id + " " + place.value, work::fastener_ids(roster_.procedure));
    if (std::erase_if(instances, [&](std::size_t i) { return work::picks(left_out, roster_.fasteners[i].instance); }) ==
        0)
      unknown(place);
  }
  if (instances.empty()) return unknown(t.fastener);
  about_ = instances;
  checking_ = t.turned.has_value();
  tell_faults(terms_.who_and_when(number_, t.who, t.when, names(instances)), told(instances), t.place);
  tell_faults(terms_.wrench(t), told(instances), t.place);
  if (t.turned) {
    moved_again(t);
    for (const std::size_t i : instances) booked_[i].checked = number_;
  }
  std::map<Verdict, Instances> verdicts;
  for (const std::size_t i : instances) verdicts[enter(t, i)].push_back(i);
  for (const auto& [verdict, of] : verdicts) tell_verdict(t, verdict, of);
}

RecordReader::Verdict RecordReader::verdict_of(const TorqueEntry& t, std::size_t i) const {
  const work::Asked asked = work::asked_of(roster_, now(), i);
  const bool fresh = (t.fresh && t.fresh->value) || work::new_one_to_come(roster_, now(), i);
  if (!asked.valid) return Verdict::in_dispute;
  if (asked.measured) {
    if (!t.set) return Verdict::wants_measure;
    const KitFastener* kit = kit_of(i);
    const SetRead read = read_set(kit && kit->set_by ? kit->set_by->value : "", t.set->value, decimal_);
    if (read == SetRead::unreadable) return Verdict::set_unread;
    if (read == SetRead::outside) return Verdict::set_outside;
  } else {
    if (!t.torque) return Verdict::wants_torque;
    const work::TorqueRead read = work::read_against(asked, t.torque->value);
    if (read == work::TorqueRead::above) return Verdict::above;
    if (read == work::TorqueRead::pass) return Verdict::pass;
    if (read == work::TorqueRead::below) return Verdict::below;
  }
  if (asked.spent && !fresh) return Verdict::wants_new;
  if (!work::stands_for_final(roster_, now(), i)) return Verdict::stands_wrong;
  return Verdict::counts;
}

RecordReader::Verdict RecordReader::enter(const TorqueEntry& t, std::size_t i) {
  const Verdict verdict = verdict_of(t, i);
  const std::string& name = roster_.fasteners[i].name;
  const std::string who = t.who ? t.who->value : "";
  Booked& b = booked_[i];
  if (verdict == Verdict::above || (verdict == Verdict::in_dispute && t.torque)) {
    add(work::Disputed{name}, who, t.when);
    b.over = true;
    forget(i);
  } else if (verdict == Verdict::counts) {
    // Entered again after it was too tight: a person says that it has been seen to.
    if (b.over) add(work::Decided{name, FastenerState::slack}, who, t.when);
    b.over = false;
    const bool fresh = (t.fresh && t.fresh->value) || work::new_one_to_come(roster_, now(), i);
    add(work::TorqueReached{name, FastenerState::final, t.torque ? t.torque->value : Torque{},
                            t.wrench ? t.wrench->value : "", fresh},
        who, t.when);
    b.counted = number_;
    // A check of a torque is not the torque that made it final.
    if (!t.turned) {
      b.made = number_;
      b.entered = true;
      b.used = b.owed;
      b.owed = false;
    }
  } else if (work::on_ladder(now().fasteners[i]) || now().fasteners[i] == FastenerState::substituted) {
    // Not what is asked: it is not final, whatever was signed of it.
    add(work::Found{name, FastenerState::part_tight}, who, t.when);
    forget(i);
  }
  TorqueReached& r = *b.shown;
  r.torque = t.torque ? std::optional(number(t.torque->value)) : std::nullopt;
  r.set = t.set ? t.set->value : "";
  r.wrench = t.wrench ? t.wrench->value : "";
  r.who = who;
  r.when = t.when ? t.when->value : "";
  r.outcome = verdict == Verdict::counts || verdict == Verdict::pass ? Outcome::met : Outcome::condition;
  // A check of the torque leaves the second look as it was.
  if (!t.turned) r.second = r.instead = "";
  return verdict;
}

void RecordReader::tell_verdict(const TorqueEntry& t, Verdict verdict, const Instances& of) {
  if (verdict == Verdict::counts || verdict == Verdict::pass) return;
  about_ = of;
  const std::string id = told(of);
  const work::Asked asked = work::asked_of(roster_, now(), of.front());
  const KitFastener* kit = kit_of(of.front());
  const auto say = [&](const char* code, std::vector<std::pair<std::string, Argument>> more = {},
                       std::string source = common_practice) -> Finding& {
    more.emplace_back("id", id);
    if (t.torque) more.emplace_back("torque", number(t.torque->value));
    if (const auto torque = asked.torque()) more.emplace_back("asked", number(*torque));
    return find(Outcome::condition, id, {code, std::move(more)}, t.fastener.place, std::move(source));
  };
  const std::string set_by = kit && kit->set_by ? kit->set_by->value : "";
  switch (verdict) {
    case Verdict::above:
    case Verdict::below: {
      const bool over = verdict == Verdict::above;
      const bool slot = over && asked.limit;
      Finding& f = slot ? say("record-above-limit", {{"limit", number(*asked.limit)}}, "the kit's own limit")
                        : say(over ? "record-above-window" : "record-below-window", {},
                              "window about the torque asked: assumed");
      const Torque limit = over ? work::highest(asked) : work::lowest(asked);
      f.value = number(t.torque->value);
      f.limit = number(limit);
      f.margin = number(over ? limit - t.torque->value : t.torque->value - limit);
      f.sense = over ? Finding::Sense::at_most : Finding::Sense::at_least;
      return;
    }
    case Verdict::in_dispute:
      say("record-in-dispute");
      return;
    case Verdict::stands_wrong:
      say("record-stands-wrong", {{"load", kit && kit->only_on ? kit->only_on->value : "on wheels"}});
      return;
    case Verdict::wants_new:
      say("record-wants-new");
      return;
    case Verdict::wants_measure:
      say("record-wants-measure", {{"set_by", set_by}}, "the kit's own words");
      return;
    case Verdict::wants_torque:
      say("record-wants-torque", {}, "the kit's own words");
      return;
    case Verdict::set_unread:
    case Verdict::set_outside:
      say(verdict == Verdict::set_unread ? "record-set-unread" : "record-set-outside",
          {{"set_by", set_by}, {"set", t.set->value}}, "the kit's own words");
      return;
    case Verdict::counts:
    case Verdict::pass:
      return;
  }
}

// Torqued again: accepted where the wrench clicks before the nut moves; the second time that it moves is once too
// often.
void RecordReader::moved_again(const TorqueEntry& t) {
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

}  // namespace trammel
