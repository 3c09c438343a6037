// A front corner solved as a mechanism, for the studies: what the adjusters of a cart with other hardpoints really do.
// Lower arm held; the knuckle turns about the lower ball joint until upper arm and tie rod have their lengths.
// Points are our own invention, metres, x forward, y outward, z up.
#pragma once

#include <Eigen/Dense>
#include <vector>

#include "setup/chance.h"

namespace trammel::setup {

struct Corner {
  Eigen::Vector3d lower{0.005, 0.361, 0.219}, upper{-0.011, 0.338, 0.390};
  Eigen::Vector3d upper_front{0.095, 0.087, 0.435}, upper_rear{-0.084, 0.091, 0.429};
  Eigen::Vector3d rack{0.120, 0.085, 0.323}, rod{0.105, 0.362, 0.275};

  // Every point moved by a normal error.
  Corner disturbed(double sd, Generator& g) const {
    Corner c = *this;
    for (Eigen::Vector3d* p : {&c.lower, &c.upper, &c.upper_front, &c.upper_rear, &c.rack, &c.rod})
      *p += sd * Eigen::Vector3d(normal(g), normal(g), normal(g));
    return c;
  }

  // Change of camber and toe (rad, ISO signs) where upper arm and tie rod are longer by these lengths.
  Eigen::Vector2d change(double arm, double rod_length) const {
    Eigen::Matrix3d R = Eigen::Matrix3d::Identity();
    const auto misses = [&](const Eigen::Matrix3d& r) {
      const Eigen::Vector3d u = lower + r * (upper - lower), t = lower + r * (rod - lower);
      return Eigen::Vector3d((u - upper_front).norm() - (upper - upper_front).norm() - arm,
                             (u - upper_rear).norm() - (upper - upper_rear).norm() - arm,
                             (t - rack).norm() - (rod - rack).norm() - rod_length);
    };
    for (int i = 0; i < 50; ++i) {
      const Eigen::Vector3d u = R * (upper - lower), t = R * (rod - lower);
      Eigen::Matrix3d J;  // of the lengths with a small turn w: d|p - a| = e . (w x p)
      J.row(0) = u.cross((lower + u - upper_front).normalized()).transpose();
      J.row(1) = u.cross((lower + u - upper_rear).normalized()).transpose();
      J.row(2) = t.cross((lower + t - rack).normalized()).transpose();
      const Eigen::Vector3d w = -J.partialPivLu().solve(misses(R));
      if (w.norm() < 1e-14) break;
      R = Eigen::AngleAxisd(w.norm(), w.normalized()).toRotationMatrix() * R;
    }
    // Axle outward: camber tips it down outside, toe-in points it rearward of outward... seen from the left wheel.
    const Eigen::Vector3d axle = R * Eigen::Vector3d::UnitY();
    return {-std::asin(axle.z()), std::atan2(axle.x(), axle.y())};
  }
};

}  // namespace trammel::setup
