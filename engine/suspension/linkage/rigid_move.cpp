#include "suspension/linkage/rigid_move.h"

namespace trammel::suspension {

using V = Vector3<double>;

RigidMove RigidMove::about(const V& at, const V& axis, Angle angle) {
  const double c = cos(angle), s = sin(angle);
  const auto turned = [&](const V& v) { return c * v + s * cross(axis, v) + ((1 - c) * dot(axis, v)) * axis; };
  RigidMove m;
  m.columns = {turned({1, 0, 0}), turned({0, 1, 0}), turned({0, 0, 1})};
  m.shift = at - m.direction(at);
  return m;
}

RigidMove RigidMove::between(const Placing& was, const Placing& now) {
  const auto axes = [](const Placing& p) {
    const V x = unit(p.first), z = unit(cross(x, p.second));
    return std::array{x, cross(z, x), z};
  };
  const std::array<V, 3> from = axes(was), to = axes(now);
  const auto column = [&](double V::*part) {
    return from[0].*part * to[0] + from[1].*part * to[1] + from[2].*part * to[2];
  };
  RigidMove m;
  m.columns = {column(&V::x), column(&V::y), column(&V::z)};
  m.shift = now.at - m.direction(was.at);
  return m;
}

RigidMove mirrored(const RigidMove& m) {
  return {{mirrored(m.columns[0]), -mirrored(m.columns[1]), mirrored(m.columns[2])}, mirrored(m.shift)};
}

}  // namespace trammel::suspension
