// The laws of corner_settle.h, numbered as there, for every layout with two corners.
#include "suspension/linkage/corner_settle.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "suspension/corners.h"
#include "suspension/geometry/wheel_geometry.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }

// Spring and damper on every part that a layout has.
std::vector<CornerPoints<double>> some_of_each(std::uint64_t seed, int count) {
  std::mt19937_64 random(seed);
  std::vector<CornerPoints<double>> all;
  for (int i = 0; i < count; ++i)
    for (auto p : {corners::random(random), corners::strut(random), corners::swing_axle(random),
                   corners::trailing_arm(random)}) {
      p.damper = p.spring;
      p.damper->chassis += V{0.02, -0.05, 0.08};
      if (p.guide == Guide::upper_arm) p.damper->on = i % 2 ? MountedOn::upper_arm : MountedOn::knuckle;
      all.push_back(p);
    }
  return all;
}
double between(const SpringPoints<double>& s) { return norm(s.chassis - s.foot); }

// Law 1, and the equation that is solved, from the points alone.
TEST(CornerSettle, TheSpringKeepsItsOwnLength) {
  double worst = 0;
  int done = 0;
  for (const auto& p : some_of_each(31, 40)) {
    EXPECT_EQ(settled(p, m(0)).points.hub_centre, p.hub_centre);
    for (const double longer : {-0.02, 0.005, 0.02}) {
      const SettledCorner s = settled(p, m(longer));
      if (!s.outcome.ok()) continue;
      ++done;
      worst = std::max(worst, std::abs(between(*s.points.spring) - between(*p.spring) - longer));
      EXPECT_EQ(s.down.si() > 0, longer > 0);
    }
  }
  std::cout << "worst spring length of " << done << " settled corners " << worst << " m\n";
  EXPECT_GT(done, 400);
  EXPECT_LT(worst, 1e-10);
}

// It is the same mechanism, only told from another place: every pose of the one is a pose of the other.
TEST(CornerSettle, TheMechanismIsTheSame) {
  double worst = 0;
  int done = 0;
  for (const auto& p : some_of_each(32, 40)) {
    const SettledCorner s = settled(p, m(0.015));
    if (!s.outcome.ok()) continue;
    EXPECT_TRUE(check(s.points).empty());
    const CornerLinkage<double> was(p), now(s.points);
    for (const double rise : {-0.02, 0.0, 0.03}) {
      const auto a = was.pose(m(rise) - s.down, m(0.01)), b = now.pose(m(rise), m(0.01));
      if (!a.outcome.ok() || !b.outcome.ok()) continue;
      ++done;
      worst = std::max({worst, norm(a.hub_centre - b.hub_centre), norm(a.spin_axis - b.spin_axis),
                        norm(a.spring_foot - b.spring_foot), norm(a.damper_foot - b.damper_foot)});
    }
  }
  std::cout << "worst of " << done << " poses told from both places " << worst << " m\n";
  EXPECT_GT(done, 400);
  EXPECT_LT(worst, 1e-10);
}

// Laws 2 and 3.
TEST(CornerSettle, InTwoPartsAndALittle) {
  double worst = 0, worst_ratio = 0;
  for (const auto& p : some_of_each(33, 40)) {
    const SettledCorner once = settled(p, m(0.017));
    const SettledCorner first = settled(p, m(0.007));
    if (!once.outcome.ok() || !first.outcome.ok()) continue;
    const SettledCorner both = settled(first.points, m(0.010));
    worst = std::max({worst, norm(once.points.hub_centre - both.points.hub_centre),
                      std::abs((once.down - first.down - both.down).si())});
    const auto at = CornerLinkage<double>(p).pose({});
    worst_ratio =
        std::max(worst_ratio, std::abs(settled(p, m(1e-6)).down.si() * std::abs(at.spring_per_rise) / 1e-6 - 1));
  }
  std::cout << "worst in two parts " << worst << " m, by the motion ratio " << worst_ratio << "\n";
  EXPECT_LT(worst, 1e-9);
  EXPECT_LT(worst_ratio, 1e-4);
}

// The parts are rigid and keep their joints; a right side is the left one's mirror image.
TEST(CornerSettle, PartsAreCarriedWhole) {
  for (const auto& p : some_of_each(34, 20)) {
    const SettledCorner s = settled(p, m(0.02));
    if (!s.outcome.ok()) continue;
    EXPECT_LT(norm(s.lower_arm(p.lower_arm.front_bush) - p.lower_arm.front_bush), 1e-12);
    EXPECT_LT(norm(s.lower_arm(p.lower_arm.rear_bush) - p.lower_arm.rear_bush), 1e-12);
    EXPECT_LT(norm(s.knuckle(p.hub_centre) - s.points.hub_centre), 1e-12);
    if (!p.steered) continue;
    EXPECT_LT(norm(s.lower_arm(p.lower_arm.ball_joint) - s.points.lower_arm.ball_joint), 1e-12);
    EXPECT_LT(norm(s.knuckle(p.lower_arm.ball_joint) - s.points.lower_arm.ball_joint), 1e-11);
    EXPECT_LT(norm(s.knuckle(p.knuckle_end) - s.points.knuckle_end), 1e-11);
    if (p.guide == Guide::upper_arm) {
      EXPECT_LT(norm(s.upper_arm(p.upper_arm.ball_joint) - s.points.upper_arm.ball_joint), 1e-12);
    }
    EXPECT_LT(norm(mirrored(s).points.hub_centre - mirrored(s.points.hub_centre)), 1e-15);
  }
}

TEST(CornerSettle, FurtherThanTheArmsReachIsSaid) {
  EXPECT_FALSE(settled(corners::invented(), m(0.3)).outcome.ok());
  EXPECT_FALSE(settled(corners::invented(), m(-0.2)).outcome.ok());
}

}  // namespace
}  // namespace trammel::suspension
