// The centre of gravity from scales: level for x and y, one end lifted for the height.
//
// Model, level: m = sum of four readings; x = -l (rear)/m; y = [(fl - fr) Tf/2 + (rl - rr) Tr/2] / m.
// Lifted: the wheel centres of one end are raised until the cart leans by theta about the other wheels, which
// roll free (no brake, no chock that pushes). The reading m0 of the end that stays down grows to m':
//   z = rf + w (rr - rf) + l (m' - m0) / (m tan theta),
// w the share of the mass on the rear wheels while lifted, rf rr loaded radii, theta the lean from level; with
// equal radii sin theta = lift / l, lift the rise of the lifted wheels' centres.
// Frame: the cart's, level. Range: theta 5..30 deg; below 5 deg the scales decide (see the uncertainty).
// Ignores: sag of tyres and springs while lifted: block the springs, blow the tyres up. Exact for a rigid cart.
// Source: ISO 10392:2011, axle lift method (from memory). Jazar's printed example of it (34 cm) contradicts its own
// equation, which gives 1.876 m: not used as a check value.
#pragma once

#include "vehicle/axle_load.h"

namespace trammel::vehicle {

// Kilograms under each wheel, cart level.
template <class R>
LumpedMass<R> level_centre(const WheelLoads<R>& scales, const Footprint<R>& footprint) {
  const MassOf<R> front = scales.front_left + scales.front_right, rear = scales.rear_left + scales.rear_right;
  const MassOf<R> whole = front + rear;
  const auto moment = 0.5 * ((scales.front_left - scales.front_right) * footprint.front_track +
                             (scales.rear_left - scales.rear_right) * footprint.rear_track);
  return {whole, {-(footprint.wheelbase * (rear / whole)), moment / whole, LengthOf<R>()}};
}

// The lean of the cart when one end's wheel centres rise by `lift`.
template <class R>
AngleOf<R> lean(LengthOf<R> lift, LengthOf<R> wheelbase) {
  using std::asin;
  return AngleOf<R>::from_si(asin(lift / wheelbase));
}

enum class LiftedEnd { front, rear };

// Height of the centre of gravity. `level` from level_centre; `axle_lifted` is the reading of the end that stays down.
template <class R>
LengthOf<R> centre_height(const LumpedMass<R>& level, LengthOf<R> wheelbase, LengthOf<R> front_radius,
                          LengthOf<R> rear_radius, LiftedEnd end, MassOf<R> axle_lifted, AngleOf<R> lean_angle) {
  const AxleLoads<R> flat = axle_loads(level, wheelbase);
  const bool front_lifted = end == LiftedEnd::front;
  const MassOf<R> gain = axle_lifted - (front_lifted ? flat.rear : flat.front);
  const R on_rear = (front_lifted ? axle_lifted : level.mass - axle_lifted) / level.mass;
  return front_radius + on_rear * (rear_radius - front_radius) + wheelbase * (gain / level.mass) / tan(lean_angle);
}

}  // namespace trammel::vehicle
