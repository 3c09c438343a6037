#include "suspension/geometry/travel.h"

namespace trammel::suspension {

std::vector<AxlePose> travel(const AxleMechanism& axle, const TravelRequest& request) {
  std::vector<AxlePose> poses;
  poses.reserve(request.rises.size() * request.rolls.size() * request.steers.size());
  for (const Length rise : request.rises)
    for (const Angle roll : request.rolls)
      for (const Length steer : request.steers)
        poses.push_back(axle.pose({rise, roll, steer, request.changes, request.held}));
  return poses;
}

}  // namespace trammel::suspension
