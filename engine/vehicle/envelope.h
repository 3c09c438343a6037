// Whether the cart still fits its door and gets over its ramp.
//
// Model: roof height over the ground after the lift against a doorway; the margin carries the uncertainty of both
// (chance_above_zero in uncertain.h says how likely it fits).
// Ramp: the steepest plane through a body point that passes under a wheel: with d the level distance from point to
// wheel centre, c the point's height, r the wheel's loaded radius: angle = asin(r/D) - atan((r - c)/d), D = hypot(d, r
// - c). Approach and departure use the overhanging point and the near wheel; a crest's breakover is the sum of the
// angles to both wheels for the worst point between them. Frame: the cart's, level ground. Ignores: bounce and squat,
// tyre dents, rounding of the crest (a round crest is easier). Law: a point on the ground gives zero. Source: geometry;
// terms of SAE J1100 (from memory).
#pragma once

#include "vehicle/axle_load.h"

namespace trammel::vehicle {

template <class R>
LengthOf<R> headroom(LengthOf<R> doorway, LengthOf<R> roof) {
  return doorway - roof;
}

template <class R>
AngleOf<R> ramp_angle(LengthOf<R> distance, LengthOf<R> height, LengthOf<R> radius) {
  using std::asin;
  const LengthOf<R> up = radius - height;
  return AngleOf<R>::from_si(asin(radius / hypot(distance, up))) - atan2(up, distance);
}

// Breakover angle over one underside point; the cart's is the least over its points.
template <class R>
AngleOf<R> breakover_angle(const Vector3<LengthOf<R>>& point, LengthOf<R> wheelbase, LengthOf<R> front_radius,
                           LengthOf<R> rear_radius) {
  return ramp_angle(-point.x, point.z, front_radius) + ramp_angle(wheelbase + point.x, point.z, rear_radius);
}

}  // namespace trammel::vehicle
