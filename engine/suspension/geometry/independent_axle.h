// An axle whose two wheels move apart from each other, each on its own corner.
//
// Right side: its own points where given, else the left's mirror image; the two may differ in layout. Steer moves the
// left tie rod outward and the right one inward: along y by a rack, as relay.h says by a relay. Rates are exact, but
// for a relay's rate of steer (central differences).
#pragma once

#include "suspension/geometry/axle.h"
#include "suspension/linkage/relay.h"

namespace trammel::suspension {

struct IndependentPoints {
  CornerPoints<double> left;
  std::optional<CornerPoints<double>> right;  // in the cart frame, y negative
  Length loaded_radius{};
  std::optional<RelayPoints> relay{};  // else a rack
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
  bool steered() const override { return fitted_.left.steered && steers_; }
  bool one_body() const override { return false; }
  // A rear wheel's toe link is a tie rod whose inner end stays where it is.
  void hold_steer() { steers_ = false; }

 private:
  CornerPose<double> corner_pose(Side side, const AxleCoordinates& at) const;

  IndependentPoints fitted_;
  CornerLinkage<double> left_, right_;  // the right one as its mirror image
  Length left_half_{}, right_half_{};   // half-tracks as fitted
  bool steers_ = true;
};

}  // namespace trammel::suspension
