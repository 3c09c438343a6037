// How the cart stands at every step: loads on stands and jack, what tips it, what keeps it from rolling.
//
// Model: vehicle/support.h, rolling_hold.h, on the empty cart as it came. A part of the kits that states its mass is
// taken off or put on at its own wheel; the others are left where they were. While a condition says that an axle is on
// the jack ("axle on jack"), the jack carries that end's own weight and the stands the rest. What a jack under anything
// else takes is not computed. The pull of a bar: a seized nut of 200 N·m on the shop's longest bar; a bar that slips,
// half again as much (assumed). Tipping is the lesser of the stands on their own feet and the cart over the edge of
// what it stands on, pulled at stand height. Chocks and parking brake hold as the steps have them (work/hold.h), chocks
// at every wheel of that end that stands; friction 0.5 (assumed). An axle with both wheels on the floor gives no hold
// against roll; on four points each stand is held to the most that it may bear. Ignores: the lean of a lifted cart,
// give of stands and tyres, people on the cart.
#pragma once

#include "assess/context.h"

namespace trammel {

// Fills StepLine::support and adds the worst of each kind as a finding.
void judge_support(Context& c);

}  // namespace trammel
