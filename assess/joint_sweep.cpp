#include "assess/joint_sweep.h"

#include <algorithm>
#include <cmath>

#include "suspension/clearance/wheel_places.h"

namespace trammel {

using suspension::AxleCoordinates;
using suspension::AxleMechanism;
using suspension::Side;

std::optional<WorstLean> worst_lean(const LeanAt& lean, const TravelRange& range, Length lock, Angle roll) {
  if (!lean) return std::nullopt;
  constexpr int rises = 3;
  const int steers = lock.si() > 0 ? 3 : 1, rolls = roll.si() > 0 ? 3 : 1;
  const auto part = [](int i, int n) { return n < 2 ? 0.0 : 2.0 * i / (n - 1) - 1; };
  std::optional<WorstLean> worst;
  const auto try_at = [&](const AxleCoordinates& at) {
    const auto angle = lean(at);
    if (!angle || (worst && *angle <= worst->angle)) return false;
    worst = WorstLean{*angle, at};
    return true;
  };
  const Length middle = 0.5 * (range.lowest + range.highest), half = 0.5 * (range.highest - range.lowest);
  for (int i = 0; i < rises; ++i)
    for (int j = 0; j < steers; ++j)
      for (int k = 0; k < rolls; ++k) {
        AxleCoordinates at;
        at.rise = middle + part(i, rises) * half;
        at.steer = part(j, steers) * lock;
        at.roll = part(k, rolls) * roll;
        try_at(at);
      }
  if (!worst) return worst;
  double rise = half.si() / (rises - 1), steer = steers > 1 ? lock.si() / (steers - 1) : 0;
  for (int halvings = 0; halvings < 6; ++halvings, rise *= 0.5, steer *= 0.5) {
    const AxleCoordinates from = worst->at;
    for (const auto& [a, b] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
      AxleCoordinates at = from;
      at.rise = Length::from_si(std::clamp(from.rise.si() + a * rise, range.lowest.si(), range.highest.si()));
      at.steer = Length::from_si(std::clamp(from.steer.si() + b * steer, -lock.si(), lock.si()));
      try_at(at);
    }
  }
  return worst;
}

Angle lean_spread(const JointReading& reading, const AxleMechanism& now, const AxleMechanism& rest,
                  const AxleCoordinates& at, const std::vector<Length>& u,
                  const std::function<bool(const std::string&)>& counts) {
  const bool same = &now == &rest;
  auto points = now.points();
  double sum = 0;
  for (std::size_t i = 0; i < points.size() && i < u.size(); ++i) {
    const double step = 0.1 * u[i].si();
    if (!(step > 0) || !counts(points[i].name)) continue;
    for (double Vector3<double>::*coordinate : {&Vector3<double>::x, &Vector3<double>::y, &Vector3<double>::z}) {
      const double was = points[i].at.*coordinate;
      const auto at_step = [&](double by) {
        points[i].at.*coordinate = was + by;
        const auto moved = now.with_points(points);
        points[i].at.*coordinate = was;
        const LeanAt lean = reading(*moved, same ? *moved : rest);
        return lean ? lean(at) : std::nullopt;
      };
      const auto above = at_step(step), below = at_step(-step);
      if (above && below) sum += std::pow(5.0 * (*above - *below).si(), 2);
    }
  }
  return Angle::from_si(std::sqrt(sum));
}

std::string steer_word(const AxleMechanism& axle, const AxleCoordinates& at, Length lock) {
  if (!(lock.si() > 0) || std::abs(at.steer.si()) < 0.05 * lock.si()) return "straight";
  AxleCoordinates straight = at;
  straight.steer = {};
  const auto angle = [&](const AxleCoordinates& c) {
    const auto wheel = axle.side_pose(Side::left, c).wheel;
    return suspension::steer_angle({wheel.hub_centre, wheel.spin_axis}, Side::left);
  };
  const bool left = angle(at) > angle(straight), full = std::abs(at.steer.si()) > 0.98 * lock.si();
  return left ? (full ? "left-lock" : "to-the-left") : (full ? "right-lock" : "to-the-right");
}

}  // namespace trammel
