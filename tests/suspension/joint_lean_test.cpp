// How far studs lean: the laws of the header and closed forms on parallel arms and on a level rod.
#include "suspension/geometry/joint_lean.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "suspension/corners.h"
#include "suspension/geometry/independent_axle.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }

// Two equal level arms above each other: the knuckle keeps upright, the arms turn by asin(rise / length).
CornerPoints<double> parallel_arms() {
  CornerPoints<double> p;
  p.lower_arm = {{0.1, 0.15, 0.2}, {-0.1, 0.15, 0.2}, {0, 0.45, 0.2}};
  p.upper_arm = {{0.1, 0.15, 0.4}, {-0.1, 0.15, 0.4}, {0, 0.45, 0.4}};
  p.rack_end = {-0.1, 0.15, 0.25};
  p.knuckle_end = {-0.1, 0.45, 0.25};
  p.hub_centre = {0, 0.5, 0.25};
  return p;
}
struct At {
  SidePose pose;
  PartAxes arm(const CornerPoints<double>& p) const {
    return PartAxes::of(p.lower_arm.front_bush - p.lower_arm.rear_bush,
                        *pose.point("lower_arm.ball_joint") - p.lower_arm.rear_bush);
  }
};
Angle lean_of(const IndependentAxle& axle, const CornerPoints<double>& p, const AxleCoordinates& at, Angle given) {
  const At now{axle.side_pose(Side::left, at)}, rest{axle.side_pose(Side::left, {})};
  EXPECT_TRUE(now.pose.outcome.ok());
  return arm_joint_lean(now.arm(p), rest.arm(p), knuckle_axes(now.pose), knuckle_axes(rest.pose),
                        rest.pose.wheel.steering_axis, given);
}

TEST(JointLean, Law1_AtRestItIsWhatWasGiven) {
  const auto p = corners::invented();
  const IndependentAxle axle({p, std::nullopt, m(0.3)});
  for (const double given : {-0.2, 0.0, 0.1}) {
    EXPECT_NEAR(lean_of(axle, p, {}, Angle::from_si(given)).si(), std::abs(given), 1e-12);
    const V rod{0.02, 0.3, -0.03};
    for (const Stud stud : {Stud::across, Stud::along})
      EXPECT_NEAR(
          rod_joint_lean(rod, rod, PartAxes::fixed(), PartAxes::fixed(), stud, {0, 0, 1}, Angle::from_si(given)).si(),
          std::abs(given), 1e-12);
  }
}

TEST(JointLean, Law2_SteeringLeavesTheArmsJointsAlone) {
  const auto p = corners::invented();
  const IndependentAxle axle({p, std::nullopt, m(0.3)});
  AxleCoordinates at;
  at.rise = m(0.03);
  const At now{axle.side_pose(Side::left, at)}, rest{axle.side_pose(Side::left, {})};
  const PartAxes knuckle = knuckle_axes(now.pose), first = knuckle_axes(rest.pose);
  const auto lean = [&](const PartAxes& turned) {
    return arm_joint_lean(now.arm(p), rest.arm(p), turned, first, rest.pose.wheel.steering_axis, {}).si();
  };
  EXPECT_GT(lean(knuckle), 0.01);
  double worst = 0;
  for (const double a : {-0.6, -0.2, 0.3, 0.7}) {
    const V y = std::cos(a) * knuckle.y + std::sin(a) * knuckle.z;
    worst = std::max(worst, std::abs(lean({knuckle.x, y, cross(knuckle.x, y)}) - lean(knuckle)));
  }
  EXPECT_LT(worst, 1e-12);
}

TEST(JointLean, ParallelArmsLeanByTheArmsOwnTurn) {
  const auto p = parallel_arms();
  const IndependentAxle axle({p, std::nullopt, m(0.25)});
  double worst = 0;
  for (const double rise : {-0.08, -0.03, 0.0, 0.02, 0.07}) {
    AxleCoordinates at;
    at.rise = m(rise);
    worst = std::max(worst, std::abs(lean_of(axle, p, at, {}).si() - std::abs(std::asin(rise / 0.3))));
  }
  std::cout << "worst lean on parallel arms: " << worst << " rad\n";
  EXPECT_LT(worst, 1e-9);
}

// A level rod of length l whose end rises by z leans by asin(z / l); turning about itself and swinging level do not
// count.
TEST(JointLean, Law3_ALevelRod) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> length(0.15, 0.6), up(-0.1, 0.1), turn(-0.6, 0.6);
  double worst = 0;
  for (int i = 0; i < 200; ++i) {
    const double l = length(random), z = up(random), a = turn(random), level = std::sqrt(l * l - z * z);
    const V rod{level * std::sin(a), level * std::cos(a), z}, rest{0, l, 0};
    const Angle lean = rod_joint_lean(rod, rest, PartAxes::fixed(), PartAxes::fixed(), Stud::across, {0, 0, 1}, {});
    worst = std::max(worst, std::abs(lean.si() - std::asin(std::abs(z) / l)));
    const Angle along = rod_joint_lean(rod, rest, PartAxes::fixed(), PartAxes::fixed(), Stud::along, {0, 0, 1}, {});
    worst = std::max(worst, std::abs(along.si() - std::acos(level * std::cos(a) / l)));
  }
  std::cout << "worst lean of a rod against its closed form: " << worst << " rad\n";
  EXPECT_LT(worst, 1e-7);  // acos near nought
}

}  // namespace
}  // namespace trammel::suspension
