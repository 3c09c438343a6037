// What keeps the wheels of one end from rolling: chocks, and the cart's own brake as its drive line lets it hold.
//
//   at the wheels     holds every wheel of its end that stands on the floor, while "parking brake on"
//   motor shaft       the same, behind an open differential: holds only with both wheels of its end fitted and on the
//                     floor, since a wheel in the air turns backwards instead
//   power-off shaft   as the motor shaft, and on by itself; "brake released" (lever, tow switch) lets it go: so before
//                     the cart is rolled by hand; and it is on again before the cart is driven or given back
// An end with no wheel on the floor holds nothing. How hard each pulls: vehicle/rolling_hold.h.
// Law: lifting a wheel or taking it off never adds hold. Source: statics; open differential: Gillespie ch. 2 (from
// memory).
#pragma once

#include "work/ledger.h"

namespace trammel::work {

struct Hold {
  bool chocked = false, braked = false;
  bool any() const { return chocked || braked; }
};
Hold hold_of(const Roster& roster, const State& state, End end);  // front or rear
// Whether the brake of either end is applied, be it that it holds nothing.
bool brake_applied(const Roster& roster, const State& state);
// The end whose brake is on by itself while the power is off; none: neither.
End power_off_end(const Roster& roster);
// Whether any condition with this meaning holds on every side that can make it.
bool known_holds(const Roster& roster, const State& state, Known known);

}  // namespace trammel::work
