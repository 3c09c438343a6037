#include "suspension/geometry/bump_steer_cure.h"

#include <algorithm>
#include <cmath>

namespace trammel::suspension {

std::optional<Length> shift_for_no_bump_steer(const AxleMechanism& axle, Side side,
                                              const std::vector<std::string>& moved, const Vector3<double>& way,
                                              Length reach) {
  // The toe rate with the points `d` further; nothing where that is no mechanism.
  const std::vector<Hardpoint> fitted = axle.points();
  const auto toe_rate = [&](double d) -> std::optional<double> {
    std::vector<Hardpoint> points = fitted;
    for (Hardpoint& p : points)
      if (std::find(moved.begin(), moved.end(), p.name) != moved.end()) p.at += d * way;
    const SidePose s = axle.with_points(points)->side_pose(side, {});
    if (!s.outcome.ok()) return std::nullopt;
    return s.geometry.toe_rate.si();
  };
  const std::optional<double> here = toe_rate(0.0);
  if (!here) return std::nullopt;
  if (*here == 0.0) return Length{};

  // The nearest bracket on either side, searched outward in steps of a twentieth of the reach.
  constexpr int steps = 20;
  for (int i = 1; i <= steps; ++i) {
    for (const double sign : {-1.0, 1.0}) {
      double inner = sign * reach.si() * (i - 1) / steps, outer = sign * reach.si() * i / steps;
      const auto at_inner = toe_rate(inner), at_outer = toe_rate(outer);
      if (!at_inner || !at_outer || (*at_inner < 0.0) == (*at_outer < 0.0)) continue;
      while (std::abs(outer - inner) > 1e-7) {
        const double middle = 0.5 * (inner + outer);
        const auto at_middle = toe_rate(middle);
        if (!at_middle) return std::nullopt;
        ((*at_middle < 0.0) == (*at_inner < 0.0) ? inner : outer) = middle;
      }
      return Length::from_si(0.5 * (inner + outer));
    }
  }
  return std::nullopt;
}

}  // namespace trammel::suspension
