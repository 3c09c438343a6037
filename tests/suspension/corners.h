// Corners to try: one invented cart's, and random ones around it.
#pragma once

#include <cmath>
#include <random>

#include "suspension/linkage/double_wishbone.h"

namespace corners {

using trammel::Angle;
using trammel::Length;
using trammel::Vector3;
using trammel::suspension::check;
using trammel::suspension::WishbonePoints;

inline Vector3<double> mm(double x, double y, double z) { return {x * 1e-3, y * 1e-3, z * 1e-3}; }

// The example of the file format, invented.
inline WishbonePoints<double> invented() {
  using trammel::units::degree;
  WishbonePoints<double> p;
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
WishbonePoints<double> random(Random& random, double spread = 0.03) {
  std::uniform_real_distribution<double> d(-spread, spread), angle(-2, 2);
  for (;;) {
    WishbonePoints<double> p = invented();
    for (Vector3<double>* v : {&p.lower_arm.front_bush, &p.lower_arm.rear_bush, &p.lower_arm.ball_joint,
                               &p.upper_arm.front_bush, &p.upper_arm.rear_bush, &p.upper_arm.ball_joint, &p.rack_end,
                               &p.knuckle_end, &p.hub_centre, &p.spring->chassis, &p.spring->lower_arm})
      *v += Vector3<double>{d(random), d(random), d(random)};
    p.camber = angle(random) * trammel::units::degree;
    p.toe = angle(random) * trammel::units::degree;
    if (check(p).empty()) return p;
  }
}

}  // namespace corners
