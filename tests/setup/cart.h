// An invented cart for the alignment tests: both upper arms and both tie rods adjust. All figures are our own.
#pragma once

#include "setup/simulate.h"
#include "setup/verdict.h"

namespace trammel::setup {

using units::degree, units::inch, units::mm, units::turn;

inline Tolerance usual_tolerance() {
  Tolerance t;
  t.camber = {-0.25 * degree, 0.25 * degree};
  t.total_toe = {3.0 * mm, 6.0 * mm};
  t.toe_difference = {-1.0 * mm, 1.0 * mm};
  return t;
}

inline Adjuster adjuster(Side side, const char* name, Angle camber, Angle toe) {
  Adjuster a;
  a.side = side;
  a.name = name;
  a.own = {camber, toe};
  a.own_spread = {0.05 * abs(camber) + 0.01 * degree, 0.06 * abs(toe) + 0.02 * degree, 0.0};
  return a;
}

inline AlignmentTask two_arm_cart() {
  AlignmentTask s;
  s.toe_diameter = 508.0 * mm;
  s.tolerance = usual_tolerance();
  s.steering_ratio = {14.0, 0.5};
  for (const Side side : {Side::left, Side::right}) {
    s.adjusters.push_back(adjuster(side, "upper_arm", 0.95 * degree, 0.5 * degree));
    s.adjusters.push_back(adjuster(side, "tie_rod", 0.02 * degree, -0.86 * degree));
  }
  return s;
}

// What instruments without error would read of these angles, strings included.
inline Reading exact_reading(const AlignmentTask& s, const WheelAngles& w, bool strings = true) {
  Reading r;
  r.left_camber_gap = gap_of(w.left_camber, 280.0 * mm);
  r.right_camber_gap = gap_of(w.right_camber, 280.0 * mm);
  const Length x = toe_length(w.left_toe, s.toe_diameter) + toe_length(w.right_toe, s.toe_diameter);
  r.toe_front = 850.0 * mm - 0.5 * x;
  r.toe_rear = 850.0 * mm + 0.5 * x;
  const auto string = [](Angle toe) {
    const Length half = 0.5 * toe_length(toe, 254.0 * mm);
    return StringReading{60.0 * mm + half, 60.0 * mm - half};
  };
  if (strings) {
    r.left_string = string(w.left_toe);
    r.right_string = string(w.right_toe);
    r.string_diameter = 254.0 * mm;
    r.steering_wheel_angle = Angle{};
  } else {
    r.steering_wheel_angle = (s.steering_ratio ? s.steering_ratio->value : 14.0) * 0.5 * (w.left_toe - w.right_toe);
  }
  r.repeats = 4;
  return r;
}

// Left and right changed over.
inline Reading mirrored(const Reading& r) {
  Reading m = r;
  std::swap(m.left_camber_gap, m.right_camber_gap);
  std::swap(m.left_camber_gauge, m.right_camber_gauge);
  std::swap(m.left_string, m.right_string);
  if (m.steering_wheel_angle) m.steering_wheel_angle = -*m.steering_wheel_angle;
  if (m.floor_slope) m.floor_slope->value = -m.floor_slope->value;
  return m;
}

inline WheelAngles random_start(const AlignmentTask& s, Generator& g) {
  const Angle total =
      toe_angle(4.5 * mm, s.toe_diameter) + toe_angle(40.0 * mm, s.toe_diameter) * (2.0 * uniform(g) - 1.0);
  const Angle difference = toe_angle(10.0 * mm, s.toe_diameter) * (2.0 * uniform(g) - 1.0);
  const auto camber = [&] { return 3.0 * degree * (2.0 * uniform(g) - 1.0); };
  const Angle left = camber(), right = camber();
  return {left, right, 0.5 * total + difference, 0.5 * total - difference};
}

}  // namespace trammel::setup
