// Where a rigid axle's parts are, from its six coordinates.
//
// Coordinates in this order: forward shift, shift to the left, steer to the left (yaw), pitch (nose down), rise, roll
// (left wheel up). The turn is R = Rz(yaw) Ry(pitch) Rx(roll) about the axle's centre; a part keeps the offset from
// the centre that it has as fitted. Frame: cart. Source: Euler order and signs ISO 8855:2011 5.2.
#pragma once

#include <array>
#include <cmath>

#include "measure/vector3.h"

namespace trammel::suspension {

template <class T>
using AxlePlace = std::array<T, 6>;

template <class T>
struct AxleAxes {
  Vector3<T> x, y, z;     // the axle's own directions: columns of R
  Vector3<T> pitch_axis;  // Rz y

  explicit AxleAxes(const AxlePlace<T>& q) {
    using std::cos, std::sin;
    const T cy = cos(q[2]), sy = sin(q[2]), cp = cos(q[3]), sp = sin(q[3]), cr = cos(q[5]), sr = sin(q[5]);
    x = {cy * cp, sy * cp, -sp};
    y = {cy * sp * sr - sy * cr, sy * sp * sr + cy * cr, cp * sr};
    z = {cy * sp * cr + sy * sr, sy * sp * cr - cy * sr, cp * cr};
    pitch_axis = {-sy, cy, T(0)};
  }
  // A direction of the fitted axle as it is now.
  Vector3<T> turned(const Vector3<double>& fitted) const { return T(fitted.x) * x + T(fitted.y) * y + T(fitted.z) * z; }
};

// A point of the fitted axle as it is now.
template <class T>
Vector3<T> moved(const Vector3<double>& fitted, const Vector3<double>& centre, const AxlePlace<T>& q,
                 const AxleAxes<T>& axes) {
  return axes.turned(fitted - centre) + Vector3<T>{q[0] + T(centre.x), q[1] + T(centre.y), q[4] + T(centre.z)};
}

}  // namespace trammel::suspension
