// Wheel nuts: the order that seats a wheel, and the torque of each pass.
//
// Order: each next nut lies as nearly opposite as it can (4: 1 3 2 4; 5: 1 3 5 2 4; 6: 1 4 2 5 3 6), numbered round
// the circle. Passes: a third, two thirds, full torque, the last with the wheel on the ground.
// Common practice, no source. The seat (cone, ball, flat) must be the wheel's own; that is checked elsewhere.
#pragma once

#include <vector>

#include "measure/quantity.h"

namespace trammel::fastener {

// Positions 0 … studs-1 round the circle in the order of tightening; each stands once.
std::vector<int> tightening_order(int studs);
// The torques of `passes` passes up to the final torque, equal steps.
std::vector<Torque> pass_torques(Torque final_torque, int passes = 3);

}  // namespace trammel::fastener
