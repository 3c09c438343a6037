// Where one side of an independent axle comes to stand when its spring is made longer under its old load: by a spacer,
// a perch screwed down, or a longer coil-over.
//
// The load is kept, so the spring itself is as long as it was and the way between its ends grows by `longer`:
//   spring_length(rise) = spring_length(0) + longer,  the body held, the rack in its middle
// solved by regula falsi between the fitted pose and the end of the travel that way. All moving parts go with it.
// Frame: the left wheel's, a right one as its mirror image. Range: |longer| up to what the arms reach. Error: 1e-10 m.
// Ignores: the change of the spring's own load as its motion ratio changes on the way (2 % of the lift where the ratio
// changes by 2 %), friction, bushes that hold the arm.
// Law 1: nothing longer moves nothing. Law 2: longer by a and then by b is longer by a + b. Law 3: a little longer lets
// the wheel down by that much over the motion ratio.
#pragma once

#include "suspension/linkage/corner_points.h"
#include "suspension/linkage/outcome.h"
#include "suspension/linkage/rigid_move.h"

namespace trammel::suspension {

struct SettledCorner {
  PoseOutcome outcome;  // not ok: nothing below is moved
  Length down{};        // of the wheel centre against the body
  CornerPoints<double> points;
  RigidMove lower_arm, upper_arm, knuckle;  // of the parts, from where they were; the only arm is the lower one
};
// `fitted` passes check() and has a spring.
SettledCorner settled(const CornerPoints<double>& fitted, Length longer);

SettledCorner mirrored(SettledCorner corner);

}  // namespace trammel::suspension
