// How far the studs of an axle's ball joints and rod ends lean in their housings.
//
// A ball joint lets its stud turn about itself freely and lean from the middle of its housing by its swing; further, it
// binds and breaks. The rest is where the stud stands in the middle: the cart as it first stood, unless `lean` says
// how far the stud leaned there.
//   arm's joint   stud fast to the knuckle, along the line of the two joints; housing fast to the arm; each keeps its
//                 place on its part, also where a kit changes that part. lean = angle between the two
//   rod, across   stud square to the rod at rest, upright as far as may be, fast to knuckle, rack or body; the rod
//   turns
//                 about itself freely. lean = asin(rod . stud)
//   rod, along    lean = angle between the rod and what it was at rest, as the other part sees it
//   link          as a rod with both studs level: one fast to the body, one to the axle
// The knuckle is told by its steering axis and spin axis, an arm by its bush line and its joint.
// Frame: cart, metres. Range: any. Error: rounding. Ignores: play, the flex of bushes, a rod that cannot turn about
// itself. Law 1: at rest every lean is what was given. Law 2: turning the knuckle about its steering axis leaves the
// arms' joints alone. Law 3: a rod of length l whose end rises by z leans by asin(z / l) more or less.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

// A part's own directions as three unit columns: x along `first`, y towards `second`.
struct PartAxes {
  Vector3<double> x, y, z;
  static PartAxes of(const Vector3<double>& first, const Vector3<double>& second);
  static PartAxes fixed() { return {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}; }
  // A direction told when the part stood as `then`, where it points now.
  Vector3<double> now(const PartAxes& then, const Vector3<double>& direction) const;
};
PartAxes knuckle_axes(const SidePose& pose);

enum class Stud { across, along };

// Of an arm's joint: `arm` and `knuckle` now and at rest.
Angle arm_joint_lean(const PartAxes& arm, const PartAxes& arm_at_rest, const PartAxes& knuckle,
                     const PartAxes& knuckle_at_rest, const Vector3<double>& stud_at_rest, Angle lean_at_rest);

// Of a rod's joint with the part that `part` tells; `up` is what the stud is nearest to at rest.
Angle rod_joint_lean(const Vector3<double>& rod, const Vector3<double>& rod_at_rest, const PartAxes& part,
                     const PartAxes& part_at_rest, Stud stud, const Vector3<double>& up, Angle lean_at_rest);

}  // namespace trammel::suspension
