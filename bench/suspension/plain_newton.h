// The peer that anybody would write first: a knuckle's six coordinates by Newton on five rods and a height, with Eigen.
#pragma once

#include <Eigen/Dense>

#include "suspension/linkage/corner_linkage.h"

namespace plain {

using Eigen::Vector3d;
using Six = Eigen::Matrix<double, 6, 1>;

class Newton {
 public:
  explicit Newton(const trammel::suspension::CornerPoints<double>& p) {
    const auto v = [](const trammel::Vector3<double>& a) { return Vector3d(a.x, a.y, a.z); };
    hub_ = v(p.hub_centre);
    const Vector3d ends[5] = {v(p.lower_arm.ball_joint), v(p.lower_arm.ball_joint), v(p.upper_arm.ball_joint),
                              v(p.upper_arm.ball_joint), v(p.knuckle_end)};
    const Vector3d bases[5] = {v(p.lower_arm.front_bush), v(p.lower_arm.rear_bush), v(p.upper_arm.front_bush),
                               v(p.upper_arm.rear_bush), v(p.rack_end)};
    for (int i = 0; i < 5; ++i) {
      base_[i] = bases[i];
      arm_[i] = ends[i] - hub_;
      length2_[i] = (ends[i] - bases[i]).squaredNorm();
    }
    const double cc = std::cos(p.camber.si());
    spin_ = {std::sin(p.toe.si()) * cc, std::cos(p.toe.si()) * cc, -std::sin(p.camber.si())};
  }
  // Hub, spin axis, steering axis and the motion per rise; false where Newton does not settle.
  bool pose(double rise, double rack, trammel::suspension::WheelPose<double>& wheel,
            trammel::suspension::Twist<double>& per_rise) const {
    Vector3d at = hub_ + Vector3d(0, 0, rise);
    Eigen::Matrix3d turn = Eigen::Matrix3d::Identity();
    Eigen::Matrix<double, 6, 6> j;
    for (int k = 0; k < 20; ++k) {
      Six f;
      for (int i = 0; i < 5; ++i) {
        const Vector3d r = turn * arm_[i];
        Vector3d span = at + r - base_[i];
        if (i == 4) span.y() -= rack;
        f[i] = 0.5 * (span.squaredNorm() - length2_[i]);
        j.row(i) << span.transpose(), r.cross(span).transpose();
      }
      f[5] = at.z() - hub_.z() - rise;
      j.row(5) << 0, 0, 1, 0, 0, 0;
      const Eigen::PartialPivLU<Eigen::Matrix<double, 6, 6>> lu(j);
      const Six step = lu.solve(f);
      if (f.lpNorm<Eigen::Infinity>() < 1e-15) {
        Six up = Six::Zero();
        up[5] = 1;
        const Six rate = lu.solve(up);
        const Vector3d spin = turn * spin_, low = at + turn * arm_[0], axis = (turn * (arm_[2] - arm_[0])).normalized();
        wheel = {{at.x(), at.y(), at.z()},
                 {spin.x(), spin.y(), spin.z()},
                 {low.x(), low.y(), low.z()},
                 {axis.x(), axis.y(), axis.z()}};
        per_rise = {{rate[3], rate[4], rate[5]}, {rate[0], rate[1], rate[2]}};
        return true;
      }
      at -= step.head<3>();
      const Vector3d w = -step.tail<3>();
      const double a = w.norm();
      if (a > 0) turn = Eigen::AngleAxisd(a, w / a).toRotationMatrix() * turn;
    }
    return false;
  }

 private:
  Vector3d hub_, spin_, base_[5], arm_[5];
  double length2_[5];
};

}  // namespace plain
