#include "suspension/geometry/axle.h"

namespace trammel::suspension {

const Vector3<double>* SidePose::point(std::string_view name) const {
  for (const MovedPoint& p : points)
    if (p.name == name) return &p.at;
  return nullptr;
}

std::optional<Angle> AxleMechanism::turned_since(const AxleMechanism&) const { return std::nullopt; }

std::function<AxlePose(Length)> AxleMechanism::over_steer(const AxleCoordinates& at) const {
  return [this, at](Length steer) {
    AxleCoordinates there = at;
    there.steer = steer;
    return pose(there);
  };
}

AdjusterRates AxleMechanism::adjuster_rates(Side side, const AxleCoordinates& at) const {
  AdjusterRates r;
  const SidePose wheel = side_pose(side, at);
  r.outcome = wheel.outcome;
  if (!r.outcome.ok()) return r;
  r.camber = wheel.geometry.camber;
  r.toe = wheel.geometry.toe;
  r.rise = {wheel.geometry.camber_rate, wheel.geometry.toe_rate};

  const auto rate = [&](auto place) {
    constexpr double step = 1e-5;  // m
    const auto moved = [&](double by) {
      AxleCoordinates there = at;
      place(there) += Length::from_si(by);
      return side_pose(side, there);
    };
    const SidePose above = moved(step), below = moved(-step);
    if (!above.outcome.ok() || !below.outcome.ok()) return WheelAnglesRate{};
    const Length both = Length::from_si(2.0 * step);
    return WheelAnglesRate{(above.geometry.camber - below.geometry.camber) / both,
                           (above.geometry.toe - below.geometry.toe) / both};
  };
  const auto own = [side](AxleCoordinates& c) -> LengthChanges<double>& {
    return side == Side::left ? c.changes.left : c.changes.right;
  };
  r.upper_arm = rate([&](AxleCoordinates& c) -> Length& { return own(c).upper_arm; });
  r.lower_arm = rate([&](AxleCoordinates& c) -> Length& { return own(c).lower_arm; });
  r.tie_rod = rate([&](AxleCoordinates& c) -> Length& { return own(c).tie_rod; });
  r.strut_top = rate([&](AxleCoordinates& c) -> Length& { return own(c).strut_top; });
  r.rack = rate([](AxleCoordinates& c) -> Length& { return c.steer; });
  return r;
}

}  // namespace trammel::suspension
