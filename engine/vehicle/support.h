// What wheels, stands and jacks bear, and what pull tips the cart off them.
//
// Model: a rigid cart on points that push and never pull. Two points share it by lever along their line, three by
// statics. On four the loads are not statics' to tell: an amount may pass between the two diagonals and leave the sum
// and the moments as they were, so that a stand a little low bears nothing and its neighbours the more. Told are the
// least and the most that each may bear, and the share `even` of four that give alike (the least sum of squares).
// A cart stands while its centre of gravity lies over the convex hull of the points, seen from above. For an edge of
// the hull, d the level distance of the centre from it (inside positive), a level pull F at height H over the points,
// outward across the edge, tips it where F H = m g d; the edge with the least F decides. A stand itself tips on its
// base of half-width b where F H = m g b.
// An axle on the floor gives no hold against roll: it is one point, in its middle.
// Frame: the cart's; the points' z are not used: the ground is taken as level. Below zero: that point lifts off.
// Ignores: give other than that, dynamic pulls, uneven floor. Slip: a pull above mu m g slides instead.
// Source: statics; hull by Andrew's monotone chain (Inf. Proc. Letters 9 (1979) 216).
//
// Law 1: the loads sum to the mass and balance about any point; on three they are all positive exactly while the
// centre is inside. Law 2: a part taken off over a stand unloads that stand by its mass. Law 3: the mirror swaps left
// and right. Law 4: inside, another point never makes the hold worse. Law 5: on four, least <= even <= most, and
// each end of a range bares a point.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "vehicle/mass.h"

namespace trammel::vehicle {

// What a point bears: one value where statics tells it.
template <class R = double>
struct PointLoad {
  MassOf<R> least, even, most;
};

// Two to four points; three must not stand in a line.
template <class R>
std::vector<PointLoad<R>> loads_on(const LumpedMass<R>& whole, std::span<const Vector3<LengthOf<R>>> points);

template <class R = double>
struct Hold {
  LengthOf<R> inside;               // least distance of the centre from an edge; negative outside
  std::array<int, 2> edge{-1, -1};  // the two points of that edge, as given; -1 where there is no hull
};

// A point or a line gives no hold.
template <class R>
Hold<R> hold_on(const LumpedMass<R>& whole, std::span<const Vector3<LengthOf<R>>> points);

// The level pull at `height` over the points that tips the cart over that edge; zero or below: it tips by itself.
template <class R>
ForceOf<R> pull_to_tip(const LumpedMass<R>& whole, const Hold<R>& hold, LengthOf<R> height) {
  return whole.mass * as<R>(units::g) * hold.inside / height;
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

// The same cart with an item gone, or held by a jack instead.
template <class R>
LumpedMass<R> without(const LumpedMass<R>& whole, const LumpedMass<R>& part) {
  const MassOf<R> left = whole.mass - part.mass;
  return {left, (whole.mass * whole.at - part.mass * part.at) / left};
}

}  // namespace trammel::vehicle
