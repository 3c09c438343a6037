// The kinds of quantity that people write, and one written value whose kind is known only when read.
#pragma once

#include <optional>

#include "measure/quantity.h"

namespace trammel {

enum class Kind {
  length,
  area,
  angle,
  turns,
  mass,
  force,
  torque,
  speed,
  pressure,
  power,
  temperature,
  time,
  stiffness,
  ratio,
  share,
  money,
  pitch  // pitch: advance of a screw, metres per turn; turns: of an adjuster; share: a ratio shown in per cent
};

// A value in the coherent SI unit of its kind (angle rad, turns in turns, pitch m per turn, ratio and share 1,
// money in the shop's own currency), with its standard uncertainty where it has one.
struct Number {
  Kind kind = Kind::ratio;
  double si = 0.0;
  std::optional<double> u;
};

template <class Q>
struct KindOf;
template <>
struct KindOf<Length> {
  static constexpr Kind kind = Kind::length;
};
template <>
struct KindOf<Area> {
  static constexpr Kind kind = Kind::area;
};
template <>
struct KindOf<Angle> {
  static constexpr Kind kind = Kind::angle;
};
template <>
struct KindOf<Mass> {
  static constexpr Kind kind = Kind::mass;
};
template <>
struct KindOf<Force> {
  static constexpr Kind kind = Kind::force;
};
template <>
struct KindOf<Torque> {
  static constexpr Kind kind = Kind::torque;
};
template <>
struct KindOf<Speed> {
  static constexpr Kind kind = Kind::speed;
};
template <>
struct KindOf<Pressure> {
  static constexpr Kind kind = Kind::pressure;
};
template <>
struct KindOf<Power> {
  static constexpr Kind kind = Kind::power;
};
template <>
struct KindOf<Temperature> {
  static constexpr Kind kind = Kind::temperature;
};
template <>
struct KindOf<Time> {
  static constexpr Kind kind = Kind::time;
};
template <>
struct KindOf<Stiffness> {
  static constexpr Kind kind = Kind::stiffness;
};
template <>
struct KindOf<double> {
  static constexpr Kind kind = Kind::ratio;
};

template <class Q>
constexpr Number number(Q q) {
  if constexpr (requires { q.si(); })
    return {KindOf<Q>::kind, q.si(), std::nullopt};
  else
    return {KindOf<Q>::kind, q, std::nullopt};
}
template <class Q>
constexpr Number number(Q q, Q u) {
  Number n = number(q);
  if constexpr (requires { u.si(); })
    n.u = u.si();
  else
    n.u = u;
  return n;
}

}  // namespace trammel
