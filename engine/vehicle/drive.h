// What bigger tyres do to hill climbing and to the motor's heat.
//
// Model: thrust at the wheels F = T i eta / r; the steepest grade that it holds at steady speed solves
//   F / (m g) = sin g + c cos g:   g = asin(t / sqrt(1 + c^2)) - atan(c),  t = F / (m g).
// On the same grade with the same mass thrust is the same, so motor torque and current grow with r (a motor whose
// torque is proportional to current), copper loss with r^2; with another mass they grow with m r and (m r)^2.
// Symbols: T motor torque, i ratio (motor turns per wheel turn), eta efficiency, r loaded radius, c rolling
// coefficient, m mass. A grade in per cent is 100 tan(g). Nothing where thrust exceeds the weight.
// Ignores: air, tyre slip, the controller's limits, battery sag. The grip of the driven axle is asked separately.
// Source: statics; Gillespie ch. 2 (from memory).
//
// Law 1: grade falls as r grows. Law 2: torque_on_grade(grade_held(T)) == T.
#pragma once

#include <optional>

#include "vehicle/uncertain.h"

namespace trammel::vehicle {

template <class R = double>
struct Driveline {
  R ratio{};
  R efficiency{};
  LengthOf<R> radius;
  R rolling{};
};

template <class R>
ForceOf<R> wheel_thrust(TorqueOf<R> motor, const Driveline<R>& d) {
  return motor * d.ratio * d.efficiency / d.radius;
}

template <class R>
std::optional<AngleOf<R>> grade_held(TorqueOf<R> motor, const Driveline<R>& d, MassOf<R> mass) {
  using std::asin, std::atan, std::sqrt;
  const R share = wheel_thrust(motor, d) / (mass * as<R>(units::g)) / sqrt(R(1.0) + d.rolling * d.rolling);
  if (!(share < R(1.0))) return std::nullopt;
  return AngleOf<R>::from_si(asin(share) - atan(d.rolling));
}

template <class R>
TorqueOf<R> torque_on_grade(AngleOf<R> grade, const Driveline<R>& d, MassOf<R> mass) {
  const ForceOf<R> thrust = mass * as<R>(units::g) * (sin(grade) + d.rolling * cos(grade));
  return thrust * d.radius / (d.ratio * d.efficiency);
}

// Motor current and copper loss on the same grade, as multiples of before.
template <class R = double>
struct MotorLoad {
  R current{}, copper_loss{};
};
template <class R>
MotorLoad<R> motor_load(LengthOf<R> radius_before, LengthOf<R> radius_after, R mass_ratio = R(1.0)) {
  const R current = radius_after / radius_before * mass_ratio;
  return {current, current * current};
}

}  // namespace trammel::vehicle
