// Where the rack must stand so that toe keeps still as the wheel rises.
//
// Model: the rack end is moved up or down by dz, the tie rod's length following so that the fitted pose is
// kept; sought is the dz at which the toe rate at the fitted height is nought. Found by bisection on the exact
// rate, between `reach` below and above, in the part of it where the mechanism works.
// Answer: nothing where the rate does not change sign there. Error: 1e-6 m.
// Law: at the answer bump_steer().at_fit is nought.
#pragma once

#include <optional>

#include "suspension/geometry/sensitivity.h"

namespace trammel::suspension {

std::optional<Length> rack_shift_for_no_bump_steer(const WishbonePoints<double>& points, Side side,
                                                   Length reach = 90.0 * units::mm);

}  // namespace trammel::suspension
