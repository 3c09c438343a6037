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

AdjusterSpread adjuster_spread(const WishbonePoints<double>& points, Side side, Length u) {
  AdjusterSpread result;
  result.outcome = adjuster_rates(points, side).outcome;
  if (!result.outcome.ok() || !(u.si() > 0.0)) return result;

  WishbonePoints<double> moved = points;
  Vector3<double>* const all[] = {&moved.lower_arm.front_bush,
                                  &moved.lower_arm.rear_bush,
                                  &moved.lower_arm.ball_joint,
                                  &moved.upper_arm.front_bush,
                                  &moved.upper_arm.rear_bush,
                                  &moved.upper_arm.ball_joint,
                                  &moved.rack_end,
                                  &moved.knuckle_end};
  const double step = 0.1 * u.si();
  Sum upper, rod;
  for (Vector3<double>* point : all)
    for (double Vector3<double>::*axis : {&Vector3<double>::x, &Vector3<double>::y, &Vector3<double>::z}) {
      const double was = point->*axis;
      point->*axis = was + step;
      const AdjusterRates above = adjuster_rates(moved, side);
      point->*axis = was - step;
      const AdjusterRates below = adjuster_rates(moved, side);
      point->*axis = was;
      if (!above.outcome.ok() || !below.outcome.ok()) continue;
      const double scale = u.si() / (2.0 * step);
      upper.add(above.upper_arm, below.upper_arm, scale);
      rod.add(above.tie_rod, below.tie_rod, scale);
    }
  result.upper_arm = upper.spread();
  result.tie_rod = rod.spread();
  return result;
}

}  // namespace trammel::suspension
