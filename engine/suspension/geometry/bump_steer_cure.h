// How far a point must be moved so that toe keeps still as the wheel rises.
//
// Model: the points named are moved together by d along `way`, rods following so that the fitted pose is kept; sought
// is the d at which the toe rate at the fitted height is nought. Found by bisection on the rate, outward from the
// present place to `reach`, in the part where the mechanism works.
// Moved: both tie rods' rack ends (a rack lower or higher), one knuckle end (a steering arm or a spacer).
// Answer: nothing where the rate does not change sign there. Error: 1e-7 m.
// Law: at the answer bump_steer().at_fit is nought.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

std::optional<Length> shift_for_no_bump_steer(const AxleMechanism& axle, Side side,
                                              const std::vector<std::string>& moved,
                                              const Vector3<double>& way = {0.0, 0.0, 1.0},
                                              Length reach = 90.0 * units::mm);

}  // namespace trammel::suspension
