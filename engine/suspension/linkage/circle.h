// The circle a ball joint runs on, and where it meets a sphere.
//
// An arm with bushes f (front), r (rear) and links of length Lf, Lr to its ball joint: the joint runs on the
// circle about the bush line, u = (Lf^2 - Lr^2 + d^2) / (2 d) behind the front bush, of radius
// sqrt(Lf^2 - u^2), d the distance of the bushes. A rod of length D from a point p meets the circle where
//   w = p - centre, wp = w less its part along the axis, K = (w.w + radius^2 - D^2) / (2 radius)
//   point = centre + radius (K wp + b sqrt(wp.wp - K^2) axis x wp) / (wp.wp),  b = +1 or -1 the branch.
// The root's argument is the reach: positive where they meet, zero in line, negative where they cannot.
#pragma once

#include <cmath>

#include "measure/vector3.h"
#include "suspension/linkage/scalar.h"

namespace trammel::suspension {

template <class T>
struct Circle {
  Vector3<T> centre, axis;  // axis: unit
  T radius{};
};

template <class T>
struct Meeting {
  Vector3<T> point;
  T reach{};  // as a share of wp.wp: the squared sine of the angle at which they meet
};

template <class T>
Meeting<T> meet(const Circle<T>& circle, const Vector3<T>& p, const T& rod, double branch) {
  using std::sqrt;
  const Vector3<T> w = p - circle.centre;
  const Vector3<T> wp = w - dot(w, circle.axis) * circle.axis;
  const T rho2 = dot(wp, wp);
  const T k = (dot(w, w) + circle.radius * circle.radius - rod * rod) / (T(2) * circle.radius);
  const T disc = rho2 - k * k;
  if (!above(disc, 0)) return {circle.centre, above(rho2, 0) ? disc / rho2 : T(-1)};
  const T inverse = T(1) / rho2;
  const T along = circle.radius * inverse;
  return {circle.centre + along * k * wp + (along * T(branch) * sqrt(disc)) * cross(circle.axis, wp), disc * inverse};
}

template <class T>
struct Arm {
  Vector3<T> front_bush, axis;  // axis: unit, from the rear bush to the front one
  Vector3<T> out;               // unit, square to the axis, towards the fitted ball joint
  T spacing{}, front_link{}, rear_link{};

  Arm() = default;
  Arm(const Vector3<T>& front, const Vector3<T>& rear, const Vector3<T>& ball)
      : front_bush(front), spacing(norm(front - rear)), front_link(norm(ball - front)), rear_link(norm(ball - rear)) {
    axis = (front - rear) / spacing;
    const Vector3<T> a = ball - front;
    out = unit(a - dot(a, axis) * axis);
  }
  Vector3<T> side() const { return cross(axis, out); }
  // A point as the arm sees it: along its axis, outward and to its side, from the front bush.
  Vector3<T> local(const Vector3<T>& point) const {
    const Vector3<T> a = point - front_bush;
    return {dot(a, axis), dot(a, out), dot(a, side())};
  }
  // The circle with both links longer by `change`; its radius is not positive where they no longer meet.
  Circle<T> circle(const T& change) const {
    using std::sqrt;
    const T f = front_link + change, r = rear_link + change;
    const T u = (f * f - r * r + spacing * spacing) / (T(2) * spacing);
    const T r2 = f * f - u * u;
    return {front_bush - u * axis, axis, (above(f, 0) && above(r, 0) && above(r2, 0)) ? sqrt(r2) : T(0)};
  }
  // How the ball joint moves per unit of `change`, its angle about the bush line kept. `radial`: unit.
  Vector3<T> lengthening(const Circle<T>& c, const T& change, const Vector3<T>& radial) const {
    const T f = front_link + change, r = rear_link + change;
    const T u = (f * f - r * r + spacing * spacing) / (T(2) * spacing);
    const T du = (f - r) / spacing;
    return ((f - u * du) / c.radius) * radial - du * axis;
  }
};

}  // namespace trammel::suspension
