#include "suspension/geometry/rack_height.h"

#include <cmath>

namespace trammel::suspension {
namespace {

// The toe rate with the rack end `dz` higher; nothing where that is no mechanism.
std::optional<double> toe_rate(WishbonePoints<double> points, Side side, double dz) {
  points.rack_end.z += dz;
  const AdjusterRates rates = adjuster_rates(points, side);
  if (!rates.outcome.ok()) return std::nullopt;
  return rates.rise.toe.si();
}

}  // namespace

std::optional<Length> rack_shift_for_no_bump_steer(const WishbonePoints<double>& points, Side side, Length reach) {
  const std::optional<double> here = toe_rate(points, side, 0.0);
  if (!here) return std::nullopt;
  if (*here == 0.0) return Length{};

  // The nearest bracket on either side, searched outward in steps of a twentieth of the reach.
  constexpr int steps = 20;
  for (int i = 1; i <= steps; ++i) {
    for (const double way : {-1.0, 1.0}) {
      double inner = way * reach.si() * (i - 1) / steps, outer = way * reach.si() * i / steps;
      const auto at_inner = toe_rate(points, side, inner), at_outer = toe_rate(points, side, outer);
      if (!at_inner || !at_outer || (*at_inner < 0.0) == (*at_outer < 0.0)) continue;
      while (std::abs(outer - inner) > 1e-7) {
        const double middle = 0.5 * (inner + outer);
        const auto at_middle = toe_rate(points, side, middle);
        if (!at_middle) return std::nullopt;
        ((*at_middle < 0.0) == (*at_inner < 0.0) ? inner : outer) = middle;
      }
      return Length::from_si(0.5 * (inner + outer));
    }
  }
  return std::nullopt;
}

}  // namespace trammel::suspension
