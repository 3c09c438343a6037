// Chocks, isolation and live work: the words that known.h understands.
#include <algorithm>

#include "work/judging.h"

namespace trammel::work {
namespace {

struct Words : Judging {
  bool knows(Known k) const {
    return std::any_of(r.conditions.begin(), r.conditions.end(),
                       [&](const NamedMask& c) { return c.meaning.known == k; });
  }

  // Chocks, props and isolation: the words of known.h that this step gives or ends.
  void words() const {
    for (const std::string& c : step().sets) {
      const auto i = r.condition(c);
      if (!i) continue;
      const Meaning& m = r.conditions[*i].meaning;
      for (const End e : {End::front, End::rear})
        if (m.known == Known::chocks && x.last_side && agree(m.end, e) && !on_floor(before, e) && !on_floor(after, e))
          say(FaultKind::chock_holds_nothing, c);
      const auto first = [&](Known wanted) {
        if (!known_holds(r, after, wanted))
          say(FaultKind::battery_out_of_order, c).other =
              std::string(isolation_words[static_cast<std::size_t>(wanted) - static_cast<std::size_t>(Known::key_out)]);
      };
      const bool petrol = knows(Known::fuel_shut) || knows(Known::plug_off) || knows(Known::start_tried);
      const bool after_key = m.known == Known::switch_off || m.known == Known::fuel_shut ||
                             m.known == Known::plug_off || (m.known == Known::negative_off && petrol);
      if (after_key && knows(Known::key_out)) first(Known::key_out);
      if (m.known == Known::negative_off && !petrol) first(Known::switch_off);
      if (m.known == Known::zero_measured) first(Known::negative_off);
      // The try proves all that was done before it; with the plug's lead on it may start the engine.
      if (m.known == Known::start_tried)
        for (const Known before_the_try : {Known::fuel_shut, Known::plug_off, Known::negative_off})
          first(before_the_try);
      if (m.known == Known::isolated && petrol)
        first(Known::start_tried);
      else if (m.known == Known::isolated && knows(Known::negative_off))
        first(Known::zero_measured);
    }
    bool power = false;
    for (const std::string& c : step().clears) {
      const auto i = r.condition(c);
      if (!i) continue;
      const Known k = r.conditions[*i].meaning.known;
      power |= k == Known::isolated || k == Known::switch_off || k == Known::plug_off;
      // The fuel after the battery: a lead that goes on sparks.
      if (k == Known::fuel_shut && known_holds(r, after, Known::negative_off))
        say(FaultKind::battery_out_of_order, c).other = "negative off";
      // The switch last: the lead goes on while nothing can draw.
      if (k == Known::switch_off && known_holds(r, after, Known::negative_off))
        say(FaultKind::battery_out_of_order, c).other = "negative off";
      if (k == Known::negative_off && knows(Known::switch_off) && !known_holds(r, before, Known::switch_off))
        say(FaultKind::battery_out_of_order, c).other = "switch off";
    }
    // With the power back the wheels must not move the cart.
    if (power) {
      const bool lifted = r.procedure.driven != End::none && !on_floor(after, r.procedure.driven);
      if (!lifted && !hold_of(r, after, End::front).any() && !hold_of(r, after, End::rear).any())
        say(FaultKind::power_up_unheld, step().id);
      else if (!lifted && r.procedure.driven != End::none)
        say(FaultKind::power_up_on_the_floor, r.procedure.driven == End::front ? "front" : "rear");
    }
    live();
  }
  // Battery terminals, and whatever carries the battery caution, only with the pack off.
  void live() const {
    const auto off = [&](const State& s) {
      return known_holds(r, s, Known::negative_off) || known_holds(r, s, Known::isolated);
    };
    if (off(before) || off(after)) return;
    const auto battery = [&](const Selector& f) {
      for (std::size_t i : r.fasteners_of(f, x.side))
        if (r.procedure.fasteners[r.fasteners[i].fastener].duty == Duty::battery) return true;
      return false;
    };
    for (const Slacken& s : step().slacken)
      if (battery(s.fastener)) return static_cast<void>(say(FaultKind::battery_live, s.fastener.id));
    for (const Tighten& t : step().tighten)
      if (battery(t.fastener)) return static_cast<void>(say(FaultKind::battery_live, t.fastener.id));
    if (std::find(step().hazards.begin(), step().hazards.end(), "battery") != step().hazards.end())
      say(FaultKind::caution_live, step().id);
  }
};

}  // namespace

void judge_words(const Judging& judging) {
  const Words now{judging};
  now.words();
}

}  // namespace trammel::work
