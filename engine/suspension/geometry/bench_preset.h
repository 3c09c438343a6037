// How long arms and rods are set on the bench, so that the first reading is already near.
//
// Model: with the wheel at its fitted height, the changes of the upper arm (of a strut: of its top mount in the slot)
// and of the tie rod that bring camber and toe to what is wanted. Newton with the exact rates from the fitted pose.
// Answer: nothing where they cannot be reached, or where a change would be beyond 60 mm. Error: 1e-12 rad.
// Ignores: what the points do not show, 1 mm of a point being about a fifth of a degree of camber or toe.
// Law: a pose with the changes has the camber and toe that were wanted.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

struct WantedAngles {
  std::optional<Angle> camber;  // left alone where there is nothing to set it with
  Angle toe{};                  // of this wheel
};
std::optional<LengthChanges<double>> bench_preset(const AxleMechanism& axle, Side side, const WantedAngles& wanted,
                                                  bool by_strut_top = false);

// Between two points of the axle: an arm's or a rod's length.
std::optional<Length> distance(const AxleMechanism& axle, const std::string& from, const std::string& to);

}  // namespace trammel::suspension
