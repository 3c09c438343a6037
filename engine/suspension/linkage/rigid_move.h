// A rigid motion from the fitted place: p becomes direction(p) + shift. Frame: cart, metres.
#pragma once

#include <array>

#include "measure/quantity.h"
#include "measure/vector3.h"

namespace trammel::suspension {

struct RigidMove {
  std::array<Vector3<double>, 3> columns{Vector3<double>{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  Vector3<double> shift{};
  Vector3<double> operator()(const Vector3<double>& p) const { return direction(p) + shift; }
  Vector3<double> direction(const Vector3<double>& d) const {
    return d.x * columns[0] + d.y * columns[1] + d.z * columns[2];
  }
  // About a line through `at` along `axis` (unit), right-handed.
  static RigidMove about(const Vector3<double>& at, const Vector3<double>& axis, Angle angle);
  // Of a part told by a place on it and two directions fast to it, that are not in line.
  struct Placing {
    Vector3<double> at, first, second;
  };
  static RigidMove between(const Placing& was, const Placing& now);
};

// Of the other side: Y A Y and Y b, with Y the mirror.
RigidMove mirrored(const RigidMove& move);

}  // namespace trammel::suspension
