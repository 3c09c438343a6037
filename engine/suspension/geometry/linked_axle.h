// A live axle on links as an axle mechanism: one body that carries both wheels. See linkage/live_axle.h.
//
// The wheels are square to the axle. Their rates are those of the whole axle's rise, per metre of the wheel's own.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

class LinkedAxle final : public AxleMechanism {
 public:
  explicit LinkedAxle(LiveAxlePoints fitted) : fitted_(std::move(fitted)) {}

  std::vector<PointFault> check() const override { return suspension::check(fitted_); }
  AxlePose pose(const AxleCoordinates& at) const override;
  std::vector<Hardpoint> points() const override;
  std::unique_ptr<const AxleMechanism> with_points(const std::vector<Hardpoint>& points) const override;
  std::optional<Angle> turned_since(const AxleMechanism& before) const override;
  Length loaded_radius() const override;
  bool steered() const override { return false; }
  bool one_body() const override { return true; }
  // The axle with its points elsewhere, in the order of points().
  LiveAxlePoints moved_to(const std::vector<Hardpoint>& points) const;

 private:
  LiveAxlePoints fitted_;
};

}  // namespace trammel::suspension
