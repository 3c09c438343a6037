#include "suspension/geometry/joint_lean.h"

#include <algorithm>
#include <cmath>

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

Angle between(const V& a, const V& b) { return Angle::from_si(std::atan2(norm(cross(a, b)), dot(a, b))); }

}  // namespace

PartAxes PartAxes::of(const V& first, const V& second) {
  PartAxes a;
  a.x = unit(first);
  a.y = unit(second - dot(second, a.x) * a.x);
  a.z = cross(a.x, a.y);
  return a;
}

V PartAxes::now(const PartAxes& then, const V& d) const {
  return dot(d, then.x) * x + dot(d, then.y) * y + dot(d, then.z) * z;
}

PartAxes knuckle_axes(const SidePose& pose) { return PartAxes::of(pose.wheel.steering_axis, pose.wheel.spin_axis); }

Angle arm_joint_lean(const PartAxes& arm, const PartAxes& arm_at_rest, const PartAxes& knuckle,
                     const PartAxes& knuckle_at_rest, const V& stud_at_rest, Angle lean_at_rest) {
  // The housing's middle: the stud at rest, turned back by its lean, seen from the front.
  const V d = unit(stud_at_rest), inward = unit(cross(V{1, 0, 0}, d));
  const V middle = cos(lean_at_rest) * d + sin(lean_at_rest) * inward;
  return between(knuckle.now(knuckle_at_rest, d), arm.now(arm_at_rest, middle));
}

Angle rod_joint_lean(const V& rod, const V& rod_at_rest, const PartAxes& part, const PartAxes& part_at_rest, Stud stud,
                     const V& up, Angle lean_at_rest) {
  const V d = unit(rod), d0 = unit(rod_at_rest);
  const V across = unit(up - dot(up, d0) * d0);
  const double c = cos(lean_at_rest), s = sin(lean_at_rest);
  if (stud == Stud::across)
    return Angle::from_si(
        std::asin(std::clamp(std::abs(dot(d, part.now(part_at_rest, c * across + s * d0))), 0.0, 1.0)));
  return between(d, part.now(part_at_rest, c * d0 + s * across));
}

}  // namespace trammel::suspension
