// Corners to try: one invented cart's, and random ones around it.
#pragma once

#include <cmath>
#include <random>

#include "suspension/linkage/corner_linkage.h"

namespace corners {

using trammel::Angle;
using trammel::Length;
using trammel::Vector3;
using trammel::suspension::check;
using trammel::suspension::CornerPoints;

inline Vector3<double> mm(double x, double y, double z) { return {x * 1e-3, y * 1e-3, z * 1e-3}; }

// The example of the file format, invented.
inline CornerPoints<double> invented() {
  using trammel::units::degree;
  CornerPoints<double> p;
  p.lower_arm = {mm(107.48, 77.87, 269.32), mm(-95.94, 80.91, 265.17), mm(5.12, 361.08, 219.11)};
  p.upper_arm = {mm(95.21, 86.68, 434.82), mm(-83.51, 90.97, 429.41), mm(-10.88, 338.42, 389.74)};
  p.rack_end = mm(119.93, 85.13, 323.25);
  p.knuckle_end = mm(105.12, 361.80, 275.03);
  p.hub_centre = mm(0, 459.48, 299.99);
  p.camber = -0.356 * degree;
  p.toe = 0.007 * degree;
  p.spring = {mm(-3.72, 150, 480), mm(0, 250, 240)};
  return p;
}

// Every coordinate moved by up to `spread` (m), camber and toe by up to 2 degrees.
template <class Random>
void shake(CornerPoints<double>& p, Random& random, double spread) {
  std::uniform_real_distribution<double> d(-spread, spread), angle(-2, 2);
  each_point(p, [&](trammel::suspension::CornerPoint, Vector3<double>& v) {
    v += Vector3<double>{d(random), d(random), d(random)};
  });
  p.camber = angle(random) * trammel::units::degree;
  p.toe = angle(random) * trammel::units::degree;
}
template <class Random>
CornerPoints<double> random(Random& random, double spread = 0.03) {
  std::uniform_real_distribution<double> d(-spread, spread), angle(-2, 2);
  for (;;) {
    CornerPoints<double> p = invented();
    for (Vector3<double>* v : {&p.lower_arm.front_bush, &p.lower_arm.rear_bush, &p.lower_arm.ball_joint,
                               &p.upper_arm.front_bush, &p.upper_arm.rear_bush, &p.upper_arm.ball_joint, &p.rack_end,
                               &p.knuckle_end, &p.hub_centre, &p.spring->chassis, &p.spring->foot})
      *v += Vector3<double>{d(random), d(random), d(random)};
    p.camber = angle(random) * trammel::units::degree;
    p.toe = angle(random) * trammel::units::degree;
    if (check(p).empty()) return p;
  }
}

// A strut, a steered swing axle and a trailing arm, invented, every coordinate moved by up to `spread`.
template <class Random>
CornerPoints<double> strut(Random& random, double spread = 0.03) {
  for (;;) {
    CornerPoints<double> p = invented();
    p.guide = trammel::suspension::Guide::strut;
    p.strut_top = mm(-25, 330, 640);
    p.strut_lower = mm(-5, 375, 330);
    p.spring = {p.strut_top, p.strut_lower, trammel::suspension::MountedOn::knuckle};
    shake(p, random, spread);
    p.spring->chassis = p.strut_top;
    if (check(p).empty()) return p;
  }
}
template <class Random>
CornerPoints<double> swing_axle(Random& random, double spread = 0.03) {
  for (;;) {
    CornerPoints<double> p = invented();
    p.guide = trammel::suspension::Guide::the_arm;
    p.lower_arm = {mm(90, 20, 230), mm(-110, 40, 235), mm(8, 410, 225)};
    p.upper_arm.ball_joint = mm(-8, 395, 345);
    p.rack_end = mm(118, 60, 262);
    p.spring = {mm(0, 260, 470), mm(0, 300, 240)};
    shake(p, random, spread);
    if (check(p).empty()) return p;
  }
}
template <class Random>
CornerPoints<double> trailing_arm(Random& random, double spread = 0.03) {
  for (;;) {
    CornerPoints<double> p = invented();
    p.guide = trammel::suspension::Guide::the_arm;
    p.steered = false;
    p.lower_arm.front_bush = mm(-1420, 470, 300);
    p.lower_arm.rear_bush = mm(-1440, 250, 295);
    p.hub_centre = mm(-1855, 460, 270);
    p.spring = {mm(-1800, 380, 520), mm(-1780, 380, 290)};
    shake(p, random, spread);
    if (check(p).empty()) return p;
  }
}

}  // namespace corners
