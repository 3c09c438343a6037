// When a cart tips: sideways on a tilt table or in a bend, rigid and on its springs, and backwards on a hill.
//
// Rigid: the cart turns about the line through the outer wheels' contacts. With d the distance across the cart (along
// y) from the centre of gravity to that line and h its height: factor d/h; tilt angle atan(d/h). With one track and
// the centre in the middle d = T/2, the static stability factor T/(2h). The side that the centre leans to counts.
// On springs (own quasi-static equilibrium, steady bend on level ground, a = lateral acceleration / g):
//   body    sum S_i = m_s g [e (a cos p + sin p) + |y_s| cos p],   e = height of sprung centre over the roll axis
//   axle i  M_i = S_i + a g q_i,   q_i = (sprung mass borne) x (roll centre height) + m_ui h_ui
//   spring  S_i = K_i (p - t_i);  tyres  M_i = k_i (T_i^2 / 2) t_i while both wheels stand; never above W_i T_i / 2
// p body roll, t axle roll (positive outward). An axle whose inner wheel is off turns with the body at constant M.
// The threshold is the largest a that an upright equilibrium can hold. Rigid limit: sum(W_i T_i / 2) / (m g h).
// Range: p below 20 deg. Ignores: lateral tyre shift, jacking, drift of the roll centres, dynamics: a swerve or a
// kerb tips a cart below this. First order (Gillespie ch. 9, from memory): T/2h / (1 + R (1 - h_r/h)), R in rad/g.
// Backwards: tan = a2/h to the rear contacts; forwards: a1/h. Bend: v = sqrt(a g radius), to the path of the centre.
// Sources: NHTSA rollover rulemaking ch. V, 49 CFR 575 notice (SSF-1); statics; Jazar ch. 2 (PARK-TILT tip-back).
// Law 1: springs and tyres made stiff give the rigid limit. Law 2: never above it. Law 3: higher is never better.
#pragma once

#include "vehicle/axle_load.h"

namespace trammel::vehicle {

// T / (2h), as published.
template <class R>
R static_stability_factor(LengthOf<R> track, LengthOf<R> height) {
  return track / (2.0 * height);
}

// Distance across the cart from the centre of gravity to the nearer side's tip line.
template <class R>
LengthOf<R> tip_distance(const LumpedMass<R>& whole, const Footprint<R>& footprint);

// d/h of a rigid cart: also its tilt-table ratio.
template <class R>
R rigid_threshold(const LumpedMass<R>& whole, const Footprint<R>& footprint) {
  return tip_distance(whole, footprint) / whole.at.z;
}
template <class R>
AngleOf<R> rigid_tilt_angle(const LumpedMass<R>& whole, const Footprint<R>& footprint) {
  return atan2(tip_distance(whole, footprint), whole.at.z);
}

// Roll stiffness of an axle's two springs: rate each, spaced `apart` (for independent suspension the wheel rate and
// the track), with an anti-roll bar's or bush's share added.
template <class R>
RollStiffnessOf<R> roll_stiffness(StiffnessOf<R> each, LengthOf<R> apart, RollStiffnessOf<R> added = {}) {
  return each * apart * apart * R(0.5) / as<R>(units::radian) + added;
}

template <class R = double>
struct RollAxle {
  RollStiffnessOf<R> stiffness;  // of the springs, body against axle
  LengthOf<R> roll_centre_height;
  std::optional<StiffnessOf<R>> tyre_rate;  // one tyre, vertical; rigid where nothing
};

template <class R = double>
struct RollModel {
  MassSum<R> mass;
  Footprint<R> footprint;
  RollAxle<R> front, rear;
};

template <class R>
R front_share(const RollModel<R>& m) {
  return m.front.stiffness / (m.front.stiffness + m.rear.stiffness);
}

enum class RollOutcome {
  found,
  cannot_stand_upright,  // the springs are softer than the body's weight over the roll axis: no numbers
  beyond_model           // body roll passes 20 deg before the cart tips: threshold is that at 20 deg, tips no sooner
};
template <class R = double>
struct RollThreshold {
  RollOutcome outcome{};
  R threshold{};          // lateral acceleration / g at which it tips
  AngleOf<R> roll;        // body roll there
  AngleOf<R> roll_per_g;  // roll gradient at the start of a bend
  R first_lift{};         // a at which the first inner wheel leaves the ground
  bool front_lifts_first = false;
};
template <class R>
RollThreshold<R> roll_threshold(const RollModel<R>& model);

// The same cart on a tilt table: at angle b gravity pushes m g cos b on to the springs and m g sin b across, so that
// tan b = threshold at gravity g cos b. It rolls less than in a bend of the same ratio, and tips a little later.
template <class R = double>
struct SprungTilt {
  RollOutcome outcome{};
  AngleOf<R> angle;  // of the table, where the cart tips
  AngleOf<R> roll;   // of the body against the table
};
template <class R>
SprungTilt<R> sprung_tilt_angle(const RollModel<R>& model);

// Gillespie's first order: a rigid threshold lowered by the shift of the centre of gravity in roll.
template <class R>
R first_order_threshold(R rigid, AngleOf<R> roll_per_g, LengthOf<R> roll_axis_height, LengthOf<R> height) {
  return rigid / (R(1.0) + roll_per_g.si() * (R(1.0) - roll_axis_height / height));
}

// Speed at which a steady bend of this radius asks for `threshold` times g, and the other way round.
template <class R>
SpeedOf<R> bend_speed(R threshold, LengthOf<R> radius) {
  using std::sqrt;
  return SpeedOf<R>::from_si(sqrt((threshold * as<R>(units::g) * radius).si()));
}
template <class R>
R bend_demand(SpeedOf<R> speed, LengthOf<R> radius) {
  return speed * speed / (radius * as<R>(units::g));
}

// The same on a road that falls by `outward` to the outside of the bend (negative: banked). Exact for a rigid cart:
// v^2 = g radius tan(atan(threshold) - outward). Nothing where the cart tips standing there.
template <class R>
std::optional<SpeedOf<R>> bend_speed_on_side_slope(R threshold, LengthOf<R> radius, AngleOf<R> outward) {
  using std::atan, std::tan;
  const R left = atan(threshold) - outward.si();
  if (!(value_of(left) > 0.0)) return std::nullopt;
  return bend_speed(R(tan(left)), radius);
}

// The grade angle on which a standing cart tips over its rear wheels (nose uphill) or front wheels (nose downhill).
template <class R>
AngleOf<R> tip_back_angle(const LumpedMass<R>& whole, LengthOf<R> wheelbase) {
  return atan2(wheelbase + whole.at.x, whole.at.z);
}
template <class R>
AngleOf<R> tip_forward_angle(const LumpedMass<R>& whole) {
  return atan2(-whole.at.x, whole.at.z);
}

// The share of the weight on the front axle while pulling off uphill: it steers badly when light, and at zero the
// cart rears up. (a2 cos - h (sin + pull/g)) / l; `pull` is the acceleration along the hill.
template <class R>
R front_share_uphill(const LumpedMass<R>& whole, LengthOf<R> wheelbase, AngleOf<R> grade, AccelerationOf<R> pull) {
  const LengthOf<R> a2 = wheelbase + whole.at.x;
  return (a2 * cos(grade) - whole.at.z * (sin(grade) + pull / as<R>(units::g))) / wheelbase;
}

}  // namespace trammel::vehicle
