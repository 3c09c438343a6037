// What the causes of a fault would show on this cart, and what was read besides camber and toe that tells them apart.
//
// Rates: change of camber and own toe of that side's wheel, per metre of wheel rise against the body, of length, or of
// rack shift along +y. From the geometry where there is one, else `class_average`. Frame and signs: ISO 8855.
#pragma once

#include <optional>

#include "setup/wheel_angles.h"

namespace trammel::setup {

struct WheelRate {
  AnglePerLength camber{}, toe{};
};
struct CornerRates {
  WheelRate rise, upper_arm, lower_arm, tie_rod, rack;
};

struct Chassis {
  CornerRates left, right;
  bool beam = false;          // both wheels on one solid beam: no arms, sag does not lean them
  bool leaf_springs = false;  // with blocks and wedges that can be turned round
  bool known = false;         // rates are this cart's own
};
Chassis class_average(bool beam);

// Each against what it should be; nothing where it was not read.
struct Signs {
  struct Wheels {
    Estimate<Angle> left_camber, right_camber, left_toe, right_toe;
  };
  std::optional<Wheels> before_work;                         // as the cart came in
  std::optional<Estimate<Length>> height_difference;         // wheel centre to body, left less right
  std::optional<Estimate<Length>> height_change;             // mean of both, less what before and kit let expect
  std::optional<Estimate<Angle>> left_caster, right_caster;  // less what the geometry says
};

}  // namespace trammel::setup
