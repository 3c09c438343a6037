// Wheel nuts: the order that seats a wheel, and the torque of each pass.
//
// Order: each next nut lies as nearly opposite as it can (4: 1 3 2 4; 5: 1 3 5 2 4; 6: 1 4 2 5 3 6), numbered round
// the circle. Passes: a third, two thirds, full torque, the last with the wheel on the ground; each above the one
// before. Engagement: at least one diameter of stud in the nut, counted in turns from first thread to seat. Seat: cone,
// ball or flat, and a cone's whole angle, must be the wheel's own; judge.h holds one against the other. Common
// practice, no source, throughout.
#pragma once

#include <vector>

#include "fastener/thread.h"

namespace trammel::fastener {

// Positions 0 … studs-1 round the circle in the order of tightening; each stands once.
std::vector<int> tightening_order(int studs);
// The torques of `passes` passes up to the final torque, equal steps.
std::vector<Torque> pass_torques(Torque final_torque, int passes = 3);

// True where each pass is above the one before it.
bool passes_rise(const std::vector<Torque>& passes);
// The turns from first thread to seat that put one diameter of stud into the nut.
double least_turns(const Thread& stud);

}  // namespace trammel::fastener
