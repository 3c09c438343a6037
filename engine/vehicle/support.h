// What stands carry as parts come off, and what pull tips the cart off them.
//
// Model: one axle's wheels on the floor and two stands across the cart (three-point: the axle on the floor gives
// no hold against roll), or four stands. Three-point, x from the axle on the floor:
//   stands together m (x_g - x_a)/(x_s - x_a); left less right by the whole side moment m y_g about the middle.
// Four stands are solved as a rigid cart on hard ground, which they never are: shared as two three-point cases
// would, each pair by lever; it is given for comparison, not to rely on.
// Pull to tip: a level force F at height H tips what stands on a base of half-width b under load m g: F H = m g b.
// Frame: the cart's. A negative load says that the cart tips off: the centre of gravity is outside the supports.
// Ignores: give of stands and tyres, dynamic pulls, uneven floor. Slip: a pull above mu m g slides instead.
// Source: statics.
//
// Law 1: the loads sum to the mass and balance about any point. Law 2: a part taken off over a stand unloads that stand
// by its mass. Law 3: the mirror swaps left and right.
#pragma once

#include "vehicle/mass.h"

namespace trammel::vehicle {

template <class R = double>
struct StandPair {
  LengthOf<R> x;     // both stands, cart frame
  LengthOf<R> half;  // from the middle plane to each stand
};

template <class R = double>
struct StandLoads {
  MassOf<R> left, right;
  MassOf<R> axle;  // what stays on the floor
};

// One pair of stands, the other end on its wheels at axle_x.
template <class R>
StandLoads<R> loads_on_stands(const LumpedMass<R>& whole, LengthOf<R> axle_x, const StandPair<R>& stands) {
  const MassOf<R> both = whole.mass * ((whole.at.x - axle_x) / (stands.x - axle_x));
  const MassOf<R> side = whole.mass * (whole.at.y / (2.0 * stands.half));
  return {0.5 * both + side, 0.5 * both - side, whole.mass - both};
}

template <class R = double>
struct FourStandLoads {
  MassOf<R> front_left, front_right, rear_left, rear_right;
};
template <class R>
FourStandLoads<R> loads_on_four_stands(const LumpedMass<R>& whole, const StandPair<R>& front,
                                       const StandPair<R>& rear) {
  const MassOf<R> behind = whole.mass * ((whole.at.x - front.x) / (rear.x - front.x));
  const MassOf<R> ahead = whole.mass - behind;
  const auto left = [&](const MassOf<R>& m, const StandPair<R>& s) {
    return m * (R(0.5) + whole.at.y / (2.0 * s.half));
  };
  const MassOf<R> fl = left(ahead, front), rl = left(behind, rear);
  return {fl, ahead - fl, rl, behind - rl};
}

// The same cart with an item gone, or held by a jack instead.
template <class R>
LumpedMass<R> without(const LumpedMass<R>& whole, const LumpedMass<R>& part) {
  const MassOf<R> left = whole.mass - part.mass;
  return {left, (whole.mass * whole.at - part.mass * part.at) / left};
}

// The least level force at `height` that tips the stands' load over the edge of their base.
template <class R>
ForceOf<R> pull_to_tip(MassOf<R> on_stands, LengthOf<R> half_base, LengthOf<R> height) {
  return on_stands * as<R>(units::g) * half_base / height;
}
// The level force of a bar on a nut: torque over the bar's length.
template <class R>
ForceOf<R> bar_pull(TorqueOf<R> torque, LengthOf<R> bar) {
  return torque / bar;
}

}  // namespace trammel::vehicle
