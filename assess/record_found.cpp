// What the record says was found, and what was decided: stand-ins and decided torques as the joints that they make.
#include "assess/context.h"
#include "assess/decided.h"
#include "assess/fastener_words.h"
#include "assess/record_reader.h"
#include "work/words.h"

namespace trammel {

using work::FastenerState;

// Seen otherwise than the steps have it: what is seized, damaged or substituted carries nothing until it is dealt
// with.
void RecordReader::take(const FoundSo& f) {
  const Instances instances = named(f.fastener);
  const auto state = work::read_fastener_state(f.state.value);
  if (instances.empty() || !state) return unknown(instances.empty() ? f.fastener : f.state);
  tell_faults(terms_.who_and_when(number_, f.who, f.when, names(instances)), f.fastener.value, f.fastener.place);
  about_ = instances;
  const bool stands_in = *state == FastenerState::substituted;
  const work::State before = now();
  for (const std::size_t i : instances) {
    const std::string& name = roster_.fasteners[i].name;
    if (stands_in)
      add(work::Substituted{name, f.by ? f.by->value : ""}, f.who.value, f.when);
    else
      add(work::Found{name, *state}, f.who.value, f.when);
    booked_[i].shown->told.push_back(f.state.value + (f.by ? " (" + f.by->value + ")" : "") + ": " + f.who.value +
                                     (f.why ? ", " + f.why->value : ""));
    if (!on_ladder(*state)) forget(i);
  }
  loosened(before);
  const char* code = *state == FastenerState::seized    ? "record-seized"
                     : *state == FastenerState::damaged ? "record-damaged"
                     : stands_in                        ? "record-substituted"
                                                        : "record-found";
  find(Outcome::condition, f.fastener.value,
       {code,
        {{"id", f.fastener.value},
         {"state", f.state.value},
         {"by", f.by ? f.by->value : std::string()},
         {"who", f.who.value},
         {"why", f.why ? ": " + f.why->value : std::string()}}},
       f.fastener.place, own_words);
  if (stands_in) stand_in(f, instances);
}

// What stands in is a joint of its own: the torque asked is asked of it only where it is known to take it.
void RecordReader::stand_in(const FoundSo& f, const Instances& instances) {
  const KitFastener* kit = kit_of(instances.front());
  if (!kit) return;
  const std::string stack = f.by ? stack_with(kit->stack.value, f.by->value) : "";
  for (const std::size_t i : instances) booked_[i].by = stack;
  const auto torque = work::asked_of(roster_, now(), instances.front()).torque();
  if (!torque) return;  // set by a measure, or a pin
  const auto strained = stack.empty() ? std::nullopt : strain(*kit, stack, *torque);
  if (!strained || !strained->takes())
    for (const std::size_t i : instances)
      add(work::TorqueDecided{roster_.fasteners[i].name, std::nullopt}, f.who.value, f.when);
  if (!strained) {
    find(Outcome::condition, f.fastener.value,
         {"record-stand-in-unread", {{"id", f.fastener.value}, {"by", f.by ? f.by->value : std::string()}}},
         f.by ? f.by->place : f.fastener.place, own_words);
    return;
  }
  judge_strain(*strained, *torque, f.fastener.value, f.by->value, f.by->place);
}

// A stop where the torque goes past proof, or where what was put in does not fit; a condition where nobody can tell.
void RecordReader::judge_strain(const Strain& s, Torque torque, const std::string& id, const std::string& what,
                                const Place& place) {
  if (!s.of_proof) {
    find(Outcome::condition, id, {"record-strength-unknown", {{"id", id}, {"by", what}, {"asked", number(torque)}}},
         place, common_practice);
  } else if (!s.takes()) {
    Finding& f = find(
        Outcome::stop, id,
        {"record-past-proof", {{"id", id}, {"by", what}, {"asked", number(torque)}, {"share", share(*s.of_proof)}}},
        place, "proof loads: ISO 898-1, ISO 898-2, SAE J429 (reference/); nut factor of the kit's surface");
    f.value = share(*s.of_proof);
    f.limit = share(1.0);
    f.margin = share(1.0 - *s.of_proof);
    if (s.suggested) f.cure = Message{"cure-torque", {{"computed", number(*s.suggested)}}};
  }
  for (const fastener::Flag flag : s.stops)
    if (!cured_by_torque(flag)) {
      find(Outcome::stop, id, {"record-stand-in-stops", {{"id", id}, {"by", what}, {"why", flag_code(flag)}}}, place,
           "what the fastener room says of the kit's joint with this in it");
    }
}

void RecordReader::take(const Decision& d) {
  const Instances instances = named(d.about);
  tell_faults(terms_.who_and_when(number_, d.who, d.when, names(instances)), d.about.value, d.about.place);
  if (instances.empty()) return;  // of the wheels, or of nothing: told by the release
  about_ = instances;
  for (const std::size_t i : instances) {
    booked_[i].decided = number_;
    booked_[i].shown->told.push_back(d.who.value + ": " + d.decided.value);
  }
  // A torque in its words counts where what is asked is in dispute; elsewhere the key alone does.
  const bool in_dispute = std::any_of(instances.begin(), instances.end(),
                                      [&](std::size_t i) { return !work::asked_of(roster_, now(), i).valid; });
  const auto torque = d.torque || in_dispute ? torque_of(d, job_) : std::nullopt;
  if (!torque) return;
  const KitFastener* kit = kit_of(instances.front());
  std::string judged;  // stacks that were told of already
  for (const std::size_t i : instances) {
    const std::string& name = roster_.fasteners[i].name;
    const bool own = booked_[i].by.empty();
    const auto strained = kit ? strain(*kit, own ? kit->stack.value : booked_[i].by, *torque) : std::nullopt;
    // A stand-in whose strength nobody knows takes what a person decides; past proof nothing is valid.
    const bool past = strained && strained->of_proof && !strained->takes();
    add(work::TorqueDecided{name, past ? std::nullopt : std::optional(*torque)}, d.who.value, d.when);
    const std::string stack = own ? "" : booked_[i].by;
    if (past && judged != "\n" + stack) {
      judged = "\n" + stack;
      judge_strain(*strained, *torque, d.about.value, own ? "@the-kits-own" : stack, d.about.place);
    }
    // What was reached before is held against what is asked now.
    Booked& b = booked_[i];
    if (!b.shown->torque || !b.entered) continue;
    const auto read = work::read_against(work::asked_of(roster_, now(), i), Torque::from_si(b.shown->torque->si));
    if (read == work::TorqueRead::final) continue;
    if (read == work::TorqueRead::above)
      add(work::Disputed{name}, d.who.value, d.when), b.over = true;
    else
      add(work::Found{name, FastenerState::part_tight}, d.who.value, d.when);
    b.shown->outcome = Outcome::condition;
    forget(i);
    b.owed = true;
  }
}

}  // namespace trammel
