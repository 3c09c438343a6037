#include "suspension/geometry/bump_steer.h"

#include <algorithm>

namespace trammel::suspension {

BumpSteer bump_steer(const AxleMechanism& axle, Side side, Length lowest, Length highest,
                     const AxleCoordinates& about) {
  BumpSteer b;
  const auto at = [&](Length rise) {
    AxleCoordinates there = about;
    there.rise = rise;
    SidePose s = axle.side_pose(side, there);
    if (!s.outcome.ok() && b.outcome.ok()) b.outcome = s.outcome;
    return s;
  };
  const SidePose fit = at(Length{});
  if (!fit.outcome.ok()) return b;
  b.at_fit = fit.geometry.toe_rate;

  constexpr int parts = 48;
  Angle least{}, most{};
  bool first = true;
  for (int i = 0; i <= parts; ++i) {
    const Length rise = lowest + (double(i) / parts) * (highest - lowest);
    const SidePose s = at(rise);
    if (!s.outcome.ok()) continue;
    if (first || abs(s.geometry.toe_rate) > abs(b.worst)) {
      b.worst = s.geometry.toe_rate;
      b.worst_at = rise;
    }
    least = first ? s.geometry.toe : std::min(least, s.geometry.toe);
    most = first ? s.geometry.toe : std::max(most, s.geometry.toe);
    first = false;
  }
  b.toe_change = most - least;
  return b;
}

}  // namespace trammel::suspension
