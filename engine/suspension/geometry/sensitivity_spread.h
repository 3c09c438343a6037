// How far the adjusters' effects are uncertain because the points are.
//
// Model: each coordinate of each point of that side carries the standard uncertainty u, independent of the others;
// first-order propagation (JCGM 100:2008 5.1.2) of camber and toe per length over all coordinates, the slopes taken by
// central differences of the exact derivatives over +-u/10. Ignores: correlation between points that were measured from
// one datum, curvature over u. Error: 1e-3 of the spread.
#pragma once

#include "suspension/geometry/axle.h"

namespace trammel::suspension {

struct WheelAnglesSpread {
  AnglePerLength camber{}, toe{};  // standard uncertainties
  double correlation = 0.0;
};
struct AdjusterSpread {
  PoseOutcome outcome;
  WheelAnglesSpread upper_arm, lower_arm, tie_rod;  // per metre longer
  WheelAnglesSpread strut_top;                      // per metre outward
};

AdjusterSpread adjuster_spread(const AxleMechanism& axle, Side side, Length u);

}  // namespace trammel::suspension
