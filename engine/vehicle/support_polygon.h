// How far a cart is from tipping off whatever it stands on.
//
// Model: a rigid cart on points that push and never pull: wheels on the floor, stands, a jack. It stands while its
// centre of gravity lies over the convex hull of those points, seen from above. For an edge of the hull, d the level
// distance of the centre from it (inside positive) and a level pull F at height H over the points, outward across the
// edge: it tips where F H = m g d. The edge with the least F is the one that decides.
// Three points are solved by statics; for four or more see support.h. Jacks that lift a part take that part away
// (`without` in support.h), and may leave the centre outside the rest.
// Frame: the cart's; the points' z are not used: the ground under them is taken as level.
// Ignores: a stand that itself tips on its base (pull_to_tip), sliding, give. A point or a line gives no hold: d <= 0.
//
// Law 1: three-point loads sum to the mass and are all positive exactly while the centre is inside.
// Law 2: inside, another point never makes it worse. Law 3: the mirror changes nothing.
// Source: statics; hull by Andrew's monotone chain (Inf. Proc. Letters 9 (1979) 216).
#pragma once

#include <array>
#include <span>

#include "vehicle/mass.h"

namespace trammel::vehicle {

template <class R = double>
struct Hold {
  LengthOf<R> inside;               // least distance of the centre from an edge; negative outside
  std::array<int, 2> edge{-1, -1};  // the two points of that edge, as given; -1 where there is no hull
};

template <class R>
Hold<R> hold_on(const LumpedMass<R>& whole, std::span<const Vector3<LengthOf<R>>> points);

// The level pull at `height` over the points that tips the cart over that edge; zero or below: it tips by itself.
template <class R>
ForceOf<R> pull_to_tip(const LumpedMass<R>& whole, const Hold<R>& hold, LengthOf<R> height) {
  return whole.mass * as<R>(units::g) * hold.inside / height;
}

// Loads on three points; a negative one lifts off. The points must not stand in a line.
template <class R>
std::array<MassOf<R>, 3> three_point_loads(const LumpedMass<R>& whole,
                                           const std::array<Vector3<LengthOf<R>>, 3>& points);

}  // namespace trammel::vehicle
