// Poses of an axle asked for again and again at the same rise and roll with another steer, as a grid does: what stands
// the axle there is found once. No changes of length. For one thread; the mechanism outlives it.
#pragma once

#include <map>
#include <utility>

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

class SteerMemo {
 public:
  explicit SteerMemo(const AxleMechanism& axle) : axle_(&axle) {}
  AxlePose pose(const AxleCoordinates& at) {
    auto [found, is_new] = known_.try_emplace({at.rise.si(), at.roll.si()});
    if (is_new) found->second = axle_->over_steer(at);
    return found->second(at.steer);
  }

 private:
  const AxleMechanism* axle_;
  std::map<std::pair<double, double>, std::function<AxlePose(Length)>> known_;
};

}  // namespace trammel::suspension
