// What the adjusters of one side do to its camber and toe.
//
// Exact derivatives (rad per metre of length, positive longer) at a pose. With the wheel held the wheel
// centre's height is kept, which is how a cart settles back on its wheels after it is lowered and rolled;
// with the arm held the lower arm keeps its angle, as on a stand under the arm.
// Error: rounding only. Ignores what wheel_geometry.h and double_wishbone.h ignore.
#pragma once

#include "suspension/linkage/double_wishbone.h"

namespace trammel::suspension {

struct WheelAnglesRate {
  AnglePerLength camber{}, toe{};
};

struct AdjusterRates {
  PoseOutcome outcome;
  Angle camber{}, toe{};                          // at the pose
  WheelAnglesRate upper_arm, lower_arm, tie_rod;  // per metre longer
  WheelAnglesRate rack;                           // per metre of shift along +y of the cart
  WheelAnglesRate rise;                           // per metre of wheel-centre rise
};

AdjusterRates adjuster_rates(const WishbonePoints<double>& points, Side side, Length rise = {}, Length rack = {},
                             const LengthChanges<double>& change = {}, Held held = Held::wheel);

// Toe against travel: the slope of the wheel's toe per metre of rise, over a range of rise at a given rack shift.
struct BumpSteer {
  PoseOutcome outcome;      // of the first pose of the range that cannot be reached
  AnglePerLength at_fit{};  // at the fitted height
  AnglePerLength worst{};   // largest in size over the range, with its sign
  Length worst_at{};        // rise where it is
  Angle toe_change{};       // largest toe less smallest toe over the range
};
BumpSteer bump_steer(const WishbonePoints<double>& points, Side side, Length lowest, Length highest, Length rack = {},
                     const LengthChanges<double>& change = {});

}  // namespace trammel::suspension
