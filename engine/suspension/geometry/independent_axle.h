// An axle whose two wheels move apart from each other, each on its own corner.
//
// Right side: its own points where given, else the left's mirror image. The steer coordinate moves the left tie rod
// outward and the right one inward. Rates are exact.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

struct IndependentPoints {
  WishbonePoints<double> left;
  std::optional<WishbonePoints<double>> right;  // in the cart frame, y negative
  Length loaded_radius{};
};

class IndependentAxle final : public AxleMechanism {
 public:
  explicit IndependentAxle(const IndependentPoints& fitted);

  std::vector<PointFault> check() const override;
  AxlePose pose(const AxleCoordinates& at) const override;
  SidePose side_pose(Side side, const AxleCoordinates& at) const override;
  AdjusterRates adjuster_rates(Side side, const AxleCoordinates& at = {}) const override;
  std::vector<Hardpoint> points() const override;
  std::unique_ptr<const AxleMechanism> with_points(const std::vector<Hardpoint>& points) const override;
  Length loaded_radius() const override { return fitted_.loaded_radius; }
  bool steered() const override { return true; }
  bool one_body() const override { return false; }

 private:
  WishbonePose<double> corner_pose(Side side, const AxleCoordinates& at) const;

  IndependentPoints fitted_;
  DoubleWishbone<double> left_, right_;  // the right one as its mirror image
  Length left_half_{}, right_half_{};    // half-tracks as fitted
};

}  // namespace trammel::suspension
