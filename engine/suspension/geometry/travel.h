// An axle over its travel: every pose asked for, with all that is read from it. Coordinates as in axle.h.
#pragma once

#include "suspension/geometry/independent_axle.h"
#include "suspension/geometry/linked_axle.h"

namespace trammel::suspension {

// Every rise with every roll with every steer, in that order of nesting.
struct TravelRequest {
  std::vector<Length> rises{Length{}};
  std::vector<Angle> rolls{Angle{}};
  std::vector<Length> steers{Length{}};
  AxleChanges changes;
  Held held = Held::wheel;
};

std::vector<AxlePose> travel(const AxleMechanism& axle, const TravelRequest& request);

}  // namespace trammel::suspension
