// Four links and a track bar against a second solver of the stated rule: Newton in Eigen on the full Lagrange
// conditions of "least sum of squared elongations", its own rotations (Eigen's AngleAxis), no continuation, no code
// shared.
#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <iostream>
#include <random>

#include "suspension/linkage/live_axle.h"

namespace trammel::suspension {
namespace {

using E3 = Eigen::Vector3d;
E3 e3(const Vector3<double>& v) { return {v.x, v.y, v.z}; }

struct Rod {
  E3 body, offset;  // its end on the body; its end on the axle, from the axle's centre
  double length;
};

// Unknown: x, y, yaw, pitch; five elongations; five multipliers.
//   minimise sum e^2 subject to |end(q) - body| - length - e = 0
Eigen::VectorXd conditions(const std::vector<Rod>& rods, const E3& centre, double z, double roll,
                           const Eigen::VectorXd& u) {
  const Eigen::Matrix3d yaw = Eigen::AngleAxisd(u[2], E3::UnitZ()).toRotationMatrix(),
                        rest = (Eigen::AngleAxisd(u[3], E3::UnitY()) * Eigen::AngleAxisd(roll, E3::UnitX()))
                                   .toRotationMatrix();
  Eigen::VectorXd f = Eigen::VectorXd::Zero(14);
  for (int i = 0; i < 5; ++i) {
    const E3 arm = yaw * rest * rods[i].offset, rod = centre + E3(u[0], u[1], z) + arm - rods[i].body;
    const E3 along = rod.normalized();
    const double e = u[4 + i], lambda = u[9 + i];
    f[0] += lambda * along.x();
    f[1] += lambda * along.y();
    f[2] += lambda * along.dot(E3::UnitZ().cross(arm));
    f[3] += lambda * along.dot((yaw * E3::UnitY()).cross(arm));
    f[4 + i] = 2 * e - lambda;
    f[9 + i] = rod.norm() - rods[i].length - e;
  }
  return f;
}

TEST(FourLinks, LagrangeConditionsInEigen) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> shake(-0.03, 0.03), rise(-0.06, 0.06), roll(-0.08, 0.08);
  double worst = 0, worst_turn = 0, worst_strain = 0, most_strain = 0;
  int tried = 0;
  for (int k = 0; k < 300; ++k) {
    LiveAxlePoints p;
    p.location = AxleLocation::four_links_and_track_bar;
    p.half_track = Length::from_si(0.47);
    p.axle_centre = {-1.855, 0, 0.26};
    p.links = {{{-1.35, 0.35, 0.28}, {-1.83, 0.36, 0.22}},
               {{-1.35, -0.35, 0.28}, {-1.83, -0.36, 0.22}},
               {{-1.45, 0.28, 0.42}, {-1.82, 0.24, 0.38}},
               {{-1.45, -0.28, 0.42}, {-1.82, -0.24, 0.38}}};
    p.track_bar = {{-1.92, 0.32, 0.33}, {-1.92, -0.33, 0.30}};
    for (Link& l : p.links)
      for (Vector3<double>* at : {&l.chassis, &l.axle})
        *at += Vector3<double>{shake(random), shake(random), shake(random)};
    const double z = rise(random), phi = roll(random);
    const LiveAxlePose ours = live_axle_pose(p, Length::from_si(z), Angle::from_si(phi));
    ASSERT_TRUE(ours.outcome.ok());

    std::vector<Rod> rods;
    const E3 centre = e3(p.axle_centre);
    for (const Link& l : p.links)
      rods.push_back({e3(l.chassis), e3(l.axle) - centre, (e3(l.axle) - e3(l.chassis)).norm()});
    rods.push_back({e3(p.track_bar.chassis), e3(p.track_bar.axle) - centre,
                    (e3(p.track_bar.axle) - e3(p.track_bar.chassis)).norm()});
    Eigen::VectorXd u = Eigen::VectorXd::Zero(14);
    for (int i = 0; i < 60; ++i) {
      const Eigen::VectorXd f = conditions(rods, centre, z, phi, u);
      Eigen::MatrixXd slope(14, 14);
      for (int j = 0; j < 14; ++j) {
        Eigen::VectorXd above = u, below = u;
        above[j] += 1e-5, below[j] -= 1e-5;
        slope.col(j) = (conditions(rods, centre, z, phi, above) - conditions(rods, centre, z, phi, below)) / 2e-5;
      }
      const Eigen::VectorXd step = slope.fullPivLu().solve(f);
      u -= step;
      if (step.norm() < 1e-14) break;
    }
    ASSERT_LT(conditions(rods, centre, z, phi, u).norm(), 1e-13);
    ++tried;
    worst = std::max({worst, std::abs(u[0] - ours.long_shift.si()), std::abs(u[1] - ours.lateral_shift.si())});
    worst_turn = std::max({worst_turn, std::abs(u[2] - ours.steer.si()), std::abs(u[3] + ours.pinion_nose_up.si())});
    const double strain = u.segment(4, 5).cwiseAbs().maxCoeff();
    most_strain = std::max(most_strain, strain);
    worst_strain = std::max(worst_strain, std::abs(strain - ours.max_link_residual.si()));
  }
  std::cout << "worst of " << tried << " four-link axles: " << worst << " m, " << worst_turn << " rad, elongation "
            << worst_strain << " m of up to " << most_strain << " m\n";
  EXPECT_LT(worst, 1e-9);
  EXPECT_LT(worst_turn, 1e-9);
  EXPECT_LT(worst_strain, 1e-9);
}

}  // namespace
}  // namespace trammel::suspension
