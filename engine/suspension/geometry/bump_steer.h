// Bump steer: toe against travel.
//
// The slope of a wheel's toe per metre of rise over a range of rise, at a given steer and given lengths. Error:
// that of the layout's rates. Ignores what wheel_geometry.h and the layout ignore.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

struct BumpSteer {
  PoseOutcome outcome;      // of the first pose of the range that cannot be reached
  AnglePerLength at_fit{};  // at the fitted height
  AnglePerLength worst{};   // largest in size over the range, with its sign
  Length worst_at{};        // rise where it is
  Angle toe_change{};       // largest toe less smallest toe over the range
};
BumpSteer bump_steer(const AxleMechanism& axle, Side side, Length lowest, Length highest,
                     const AxleCoordinates& about = {});

}  // namespace trammel::suspension
