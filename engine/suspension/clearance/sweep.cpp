#include "suspension/clearance/sweep.h"

#include <algorithm>
#include <cmath>

namespace trammel::suspension {
namespace {

constexpr double finest = 1e-5;  // m of rise and of rack

TyreGap gap_to(const TyreShape& tyre, const TyrePlace& place, const BodyFeature& f) {
  return f.from == f.to ? tyre_gap(tyre, place, f.from) : tyre_gap_to_edge(tyre, place, f.from, f.to);
}

double grid(Length low, Length high, int i, int n) {
  return n < 2 ? 0.5 * (low.si() + high.si()) : low.si() + (high.si() - low.si()) * i / (n - 1);
}

}  // namespace

SweepResult sweep(const AxleMechanism& axle, Side side, const TyreShape& tyre, const SweepRange& range,
                  const std::vector<BodyFeature>& features, const AxleChanges& changes) {
  const auto place = [&](double rise, double rack, TyrePlace& p) {
    const SidePose pose = axle.side_pose(side, {Length::from_si(rise), {}, Length::from_si(rack), changes});
    p = {pose.wheel.hub_centre, pose.wheel.spin_axis};
    return pose.outcome.ok();
  };
  SweepResult result;
  result.features.resize(features.size());
  const auto try_pose = [&](double rise, double rack, const TyrePlace& p, std::size_t k) {
    const TyreGap g = gap_to(tyre, p, features[k]);
    const Length gap = g.gap - features[k].skin;
    SweptGap& best = result.features[k];
    if (best.found && !(gap < best.gap)) return false;
    best = {gap, Length::from_si(rise), Length::from_si(rack), g, true};
    return true;
  };

  // The grid.
  for (int i = 0; i < range.rises; ++i)
    for (int j = 0; j < range.racks; ++j) {
      const double rise = grid(range.lowest, range.highest, i, range.rises);
      const double rack = grid(range.rack_right, range.rack_left, j, range.racks);
      TyrePlace p;
      ++result.poses;
      if (!place(rise, rack, p)) {
        ++result.unreachable;
        continue;
      }
      for (std::size_t k = 0; k < features.size(); ++k) try_pose(rise, rack, p, k);
    }

  // Around each least pose, within the range.
  for (std::size_t k = 0; k < features.size(); ++k) {
    if (!result.features[k].found) continue;
    double dz = (range.highest - range.lowest).si() / std::max(range.rises - 1, 1);
    double dy = (range.rack_left - range.rack_right).si() / std::max(range.racks - 1, 1);
    while (std::max(dz, dy) > finest) {
      const double z = result.features[k].rise.si(), y = result.features[k].rack.si();
      bool better = false;
      for (const auto& [sz, sy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}) {
        const double rise = std::clamp(z + sz * dz, range.lowest.si(), range.highest.si());
        const double rack = std::clamp(y + sy * dy, range.rack_right.si(), range.rack_left.si());
        TyrePlace p;
        if (place(rise, rack, p)) better = try_pose(rise, rack, p, k) || better;
      }
      if (!better) {
        dz *= 0.5;
        dy *= 0.5;
      }
    }
  }
  return result;
}

}  // namespace trammel::suspension
