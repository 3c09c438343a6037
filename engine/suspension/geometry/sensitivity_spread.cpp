#include "suspension/geometry/sensitivity_spread.h"

#include <cmath>

namespace trammel::suspension {
namespace {

struct Sum {
  double camber2 = 0.0, toe2 = 0.0, both = 0.0;
  void add(const WheelAnglesRate& above, const WheelAnglesRate& below, double scale) {
    const double c = (above.camber - below.camber).si() * scale, t = (above.toe - below.toe).si() * scale;
    camber2 += c * c;
    toe2 += t * t;
    both += c * t;
  }
  WheelAnglesSpread spread() const {
    const double c = std::sqrt(camber2), t = std::sqrt(toe2);
    return {AnglePerLength::from_si(c), AnglePerLength::from_si(t), c > 0.0 && t > 0.0 ? both / (c * t) : 0.0};
  }
};

}  // namespace

AdjusterSpread adjuster_spread(const AxleMechanism& axle, Side side, Length u) {
  AdjusterSpread result;
  result.outcome = axle.adjuster_rates(side).outcome;
  if (!result.outcome.ok() || !(u.si() > 0.0)) return result;

  const char* other_side = side == Side::left ? "right." : "left.";
  std::vector<Hardpoint> moved = axle.points();
  const double step = 0.1 * u.si();
  Sum upper, lower, rod, strut;
  for (Hardpoint& point : moved) {
    if (point.name.starts_with(other_side)) continue;
    for (double Vector3<double>::*coordinate : {&Vector3<double>::x, &Vector3<double>::y, &Vector3<double>::z}) {
      const double was = point.at.*coordinate;
      point.at.*coordinate = was + step;
      const AdjusterRates above = axle.with_points(moved)->adjuster_rates(side);
      point.at.*coordinate = was - step;
      const AdjusterRates below = axle.with_points(moved)->adjuster_rates(side);
      point.at.*coordinate = was;
      if (!above.outcome.ok() || !below.outcome.ok()) continue;
      const double scale = u.si() / (2.0 * step);
      upper.add(above.upper_arm, below.upper_arm, scale);
      lower.add(above.lower_arm, below.lower_arm, scale);
      rod.add(above.tie_rod, below.tie_rod, scale);
      strut.add(above.strut_top, below.strut_top, scale);
    }
  }
  result.upper_arm = upper.spread();
  result.lower_arm = lower.spread();
  result.tie_rod = rod.spread();
  result.strut_top = strut.spread();
  return result;
}

}  // namespace trammel::suspension
