// Stopping, holding on a hill, and whether the brake cable still reaches.
//
// Brake force: B = T / r for the sum of brake torques of the braked axle, at most mu times that axle's load.
// Stop: deceleration b = B/m - g sin(down); distance v t + v^2 / (2 b), t reaction; nothing where b <= 0 (it will
// not stop). Hold, by torque: sin(g) = T / (r m g); so a level pull of m g sin(g) tries the brake as that slope does,
// and torque alone: a sliding tyre tries nothing. Hold, by grip, nose uphill (a1, a2 centre of gravity to front
// and rear axle, h its height, l = a1 + a2):
//   rear brake  tan(g) = mu a1 / (l - mu h)      front brake  tan(g) = mu a2 / (l + mu h)      all  tan(g) = mu
// Nose downhill: front and rear change places. Jazar prints l - mu h for the front brake too, which contradicts his
// own load equation: the front axle unloads uphill. What holds is the least of torque, grip and tip-back.
// While braking on the level the axle loads are m (a2 + h b/g)/l in front and m (a1 - h b/g)/l behind.
// Cable: a straight chord between its two anchors; its growth must come from slack or stroke.
// Ignores: heat fade, wear, wet brakes, dynamics of a pitch, rolling drag (which helps).
// Source: statics; Jazar, Vehicle Dynamics ch. 2, eq 2.44-2.71 (PARK-TILT, sign corrected).
#pragma once

#include <limits>
#include <optional>

#include "vehicle/axle_load.h"

namespace trammel::vehicle {

template <class R>
ForceOf<R> brake_force(TorqueOf<R> torque, LengthOf<R> radius) {
  return torque / radius;
}

enum class Braked { front, rear, all };

// Load on the braked wheels at deceleration b on a slope that falls by `down` ahead, at right angles to the ground.
template <class R>
ForceOf<R> braked_load(const LumpedMass<R>& whole, LengthOf<R> wheelbase, Braked braked, AccelerationOf<R> b,
                       AngleOf<R> down) {
  const ForceOf<R> weight = whole.mass * as<R>(units::g);
  const R lean = sin(down) + b / as<R>(units::g);
  const ForceOf<R> rear = weight * ((-whole.at.x) * cos(down) - whole.at.z * lean) / wheelbase;
  const ForceOf<R> all = weight * cos(down);
  return braked == Braked::all ? all : braked == Braked::rear ? rear : all - rear;
}

template <class R = double>
struct Stop {
  AccelerationOf<R> deceleration;
  LengthOf<R> distance;
  bool locks = false;  // grip, not the brake, sets the deceleration
};

// Nothing where the cart does not slow down. mu < 0 would be a mistake; leave the grip out with mu = nullopt.
template <class R>
std::optional<Stop<R>> stop(const LumpedMass<R>& whole, LengthOf<R> wheelbase, Braked braked, ForceOf<R> brake,
                            SpeedOf<R> speed, AngleOf<R> down, std::optional<R> mu,
                            Quantity<dim::Time, R> reaction = {}) {
  const AccelerationOf<R> g = as<R>(units::g);
  Stop<R> s;
  s.deceleration = brake / whole.mass - g * sin(down);
  if (mu) {
    // Sliding: b = mu N(b)/m - g sin, with N falling or rising linearly in b.
    const LengthOf<R> h = whole.at.z, a1 = -whole.at.x, a2 = wheelbase - a1;
    const R c = cos(down), t = sin(down);
    R grip = *mu * c;  // braking force / weight, all wheels
    if (braked == Braked::rear) grip = *mu * a1 * c / (wheelbase + *mu * h);
    if (braked == Braked::front) grip = *mu * a2 * c / (wheelbase - *mu * h);
    const AccelerationOf<R> sliding = g * (grip - t);
    if (value_of(grip) >= 0.0 && sliding < s.deceleration) {
      s.deceleration = sliding;
      s.locks = true;
    }
  }
  if (!(value_of(s.deceleration) > Acceleration())) return std::nullopt;
  s.distance = speed * reaction + speed * speed / (2.0 * s.deceleration);
  return s;
}

// The deceleration at which each axle's wheels lock on the level, when the front brakes give `front_share` (0..1) of
// the brake force. Rear first turns the cart round; front first keeps it straight and unsteered.
template <class R = double>
struct Locking {
  AccelerationOf<R> front, rear;  // no limit (infinite) for an axle without brakes, or that never locks
  bool rear_first() const { return rear < front; }
};
template <class R>
Locking<R> locking(const LumpedMass<R>& whole, LengthOf<R> wheelbase, R front_share, R mu) {
  const LengthOf<R> a1 = -whole.at.x, a2 = wheelbase - a1, h = whole.at.z;
  const AccelerationOf<R> never = AccelerationOf<R>::from_si(R(std::numeric_limits<double>::infinity()));
  // share b = mu g (a -+ h b/g) / l, solved for b.
  const auto at = [&](const R& share, const LengthOf<R>& a, const LengthOf<R>& gain) {
    const LengthOf<R> denominator = wheelbase * share - mu * gain;
    return value_of(denominator) > Length() ? as<R>(units::g) * (mu * a / denominator) : never;
  };
  return {value_of(front_share) > 0.0 ? at(front_share, a2, h) : never,
          value_of(front_share) < 1.0 ? at(R(1.0) - front_share, a1, -h) : never};
}

// Grade that the parking brake's torque holds; nothing where it holds more than the weight.
template <class R>
std::optional<AngleOf<R>> hold_by_torque(ForceOf<R> brake, MassOf<R> mass) {
  using std::asin;
  const R share = brake / (mass * as<R>(units::g));
  if (!(share < R(1.0))) return std::nullopt;
  return AngleOf<R>::from_si(asin(share));
}

// The level pull that asks as much of the parking brake as that slope does.
template <class R>
ForceOf<R> slope_pull(MassOf<R> mass, AngleOf<R> slope) {
  using std::sin;
  return mass * as<R>(units::g) * sin(slope);
}

enum class Nose { uphill, downhill };

// Grade at which the braked wheels begin to slide.
template <class R>
AngleOf<R> hold_by_grip(const LumpedMass<R>& whole, LengthOf<R> wheelbase, Braked braked, Nose nose, R mu) {
  using std::atan;
  if (braked == Braked::all) return AngleOf<R>::from_si(atan(mu));
  const LengthOf<R> a1 = -whole.at.x, a2 = wheelbase - a1, h = whole.at.z;
  const bool lower = (braked == Braked::rear) == (nose == Nose::uphill);  // the braked axle is the one downhill
  const LengthOf<R> far = braked == Braked::rear ? a1 : a2;
  return atan2(mu * far, lower ? wheelbase - mu * h : wheelbase + mu * h);
}

// How much longer the straight line between a cable's anchors gets.
template <class R>
LengthOf<R> chord_growth(const Vector3<LengthOf<R>>& body, const Vector3<LengthOf<R>>& axle_before,
                         const Vector3<LengthOf<R>>& axle_after) {
  const auto chord = [&](const Vector3<LengthOf<R>>& p) {
    return hypot(hypot(p.x - body.x, p.y - body.y), p.z - body.z);
  };
  return chord(axle_after) - chord(axle_before);
}

}  // namespace trammel::vehicle
