// A steered beam as an axle mechanism. See linkage/beam_axle.h.
//
// Rise is the beam's centre's, roll the beam's own; steer is the shift of the drag link's frame end, a length change of
// the tie rod is that of either side (the rod is one: both add up), links are unused. Rates are per metre of the wheel
// centre's own rise at one roll and one shift.
#pragma once

#include "suspension/geometry/axle.h"
#include "suspension/linkage/beam_axle.h"

namespace trammel::suspension {

class SteeredBeam final : public AxleMechanism {
 public:
  explicit SteeredBeam(BeamAxlePoints fitted) : fitted_(std::move(fitted)) {}

  std::vector<PointFault> check() const override { return suspension::check(fitted_); }
  AxlePose pose(const AxleCoordinates& at) const override;
  std::function<AxlePose(Length steer)> over_steer(const AxleCoordinates& at) const override;
  std::vector<Hardpoint> points() const override;
  std::unique_ptr<const AxleMechanism> with_points(const std::vector<Hardpoint>& points) const override;
  Length loaded_radius() const override;
  bool steered() const override { return true; }
  bool one_body() const override { return true; }

 private:
  AxlePose read(const BeamPose& beam, const AxleCoordinates& at) const;

  BeamAxlePoints fitted_;
};

}  // namespace trammel::suspension
