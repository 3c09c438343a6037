// Both wheels of a steered axle together: steer angles, Ackermann and the turning circle.
//
// Steer of a wheel is its heading's angle to the cart's x, positive to the left: minus toe on the left side, toe
// on the right. For a turn without scrub the wheels' axes meet on the rear axle's line (ISO 8855:2011 7.1.9):
//   cot(outer) = cot(inner) + w / l,  w kingpin track at the ground, l wheelbase
// Ackermann error = outer steer less that ideal, positive where the outer wheel steers too much.
// Turning circle: twice the distance of the outer front contact from the turn's centre, with that wheel rolling
// straight along its heading. Ignores slip angles, the tyre's width and the rear axle's own steer.
#pragma once

#include <optional>

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

Angle ackermann_outer(Angle inner, Length kingpin_track, Length wheelbase);

struct Steering {
  Angle left{}, right{};                 // positive to the left
  Length kingpin_track{};                // of the steering axes where they meet the ground, at this pose
  Angle ackermann_error{};               // 0 straight ahead
  std::optional<Length> turning_circle;  // none straight ahead
};
// Nothing where either side's pose is not ok.
std::optional<Steering> steering(const AxlePose& pose, Length wheelbase);

}  // namespace trammel::suspension
