// Castle nuts: the nut goes forward to the next slot, never back, and the pin goes in.
//
// With n slots the next one is at most 360/n deg on; over that turn the nut moves P/n along the thread. The torque at
// the slot is read on the wrench. Between a least torque and a limit it is right. Where the limit comes first the nut
// comes off again: a washer thicker or thinner by up to half of P/n, or another nut, brings a slot to the hole within
// the limits; backing off to a slot leaves the joint below its least torque and is never right. A straight, stiff joint
// (no taper, no soft part) rises by up to F = (P/n) E As / L over a whole slot, L the grip: more than the bolt bears
// for most sizes, so a slot there is a matter of shims and not of luck. Range: DIN 935 and its like, 6 slots up to M39
// (from memory); 10 where the nut says so. Ignores: members' own stiffness (the rise is an upper bound), taper seats
// (their rise is only known by the wrench).
#pragma once

#include <optional>

#include "fastener/thread.h"

namespace trammel::fastener {

inline constexpr int usual_slots = 6;

struct CastleStep {
  Angle turn;                 // to the next slot, at most
  Length advance;             // along the thread over that turn
  Length shim;                // a washer's change of thickness that moves the slot by half of that turn
  std::optional<Force> rise;  // of a stiff joint over the whole turn, an upper bound; none without a grip
};
CastleStep castle_step(const Thread& thread, std::optional<Length> grip = std::nullopt, int slots = usual_slots);

enum class CastleAnswer {
  forward,     // below the least torque: on to the next slot
  pin,         // within the limits with a slot at the hole: fit the pin
  change_shim  // the limit is passed: nut off, another washer or nut, start again from the least torque
};
// What to do with a slot at the hole and this torque on the wrench.
CastleAnswer castle_answer(Torque at_slot, Torque least, Torque limit);

}  // namespace trammel::fastener
