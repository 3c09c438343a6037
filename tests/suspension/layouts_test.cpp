// Laws of the layouts beside the double wishbone on a rack: struts, swing axles, trailing arms, transverse leaves,
// relays and springs on any part.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "suspension/corners.h"
#include "suspension/geometry/bench_preset.h"
#include "suspension/geometry/independent_axle.h"
#include "suspension/geometry/many_poses.h"
#include "suspension/geometry/pose_spread.h"
#include "suspension/linkage/leaf_link.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }
const Length radius = m(0.3);

std::vector<CornerPoints<double>> some_of_each(std::uint64_t seed, int count) {
  std::mt19937_64 random(seed);
  std::vector<CornerPoints<double>> all;
  for (int i = 0; i < count; ++i)
    for (const auto& p :
         {corners::random(random), corners::strut(random), corners::swing_axle(random), corners::trailing_arm(random)})
      all.push_back(p);
  return all;
}

TEST(Layouts, NothingAskedChangesNothing) {
  double worst = 0;
  for (const auto& p : some_of_each(11, 50)) {
    const auto at = CornerLinkage<double>(p).pose(m(0));
    ASSERT_TRUE(at.outcome.ok());
    const auto g = wheel_geometry(at.wheel(), at.per_rise, radius);
    worst = std::max({worst, norm(at.hub_centre - p.hub_centre), abs(g.camber - p.camber).si(), abs(g.toe - p.toe).si(),
                      norm(at.spring_foot - p.spring->foot)});
  }
  std::cout << "worst change of any layout with nothing asked " << worst << " m or rad\n";
  EXPECT_LE(worst, 1e-14);
}

// Rates, motion ratio and mirror, for every layout and every place of spring and damper.
TEST(Layouts, RatesAgreeWithDifferencesAndSidesMirror) {
  double worst = 0, worst_ratio = 0;
  std::mt19937_64 random(12);
  std::uniform_real_distribution<double> rise(-0.04, 0.04), rack(-0.02, 0.02);
  for (auto p : some_of_each(12, 30)) {
    p.damper = p.spring;
    p.damper->on = p.guide == Guide::upper_arm ? MountedOn::upper_arm : MountedOn::knuckle;
    p.damper->chassis += V{0.02, -0.05, 0.08};
    const CornerLinkage<double> linkage(p);
    const double z = rise(random), y = rack(random), h = 1e-5;
    const auto a = linkage.pose(m(z), m(y)), b = linkage.pose(m(z - h), m(y)), c = linkage.pose(m(z + h), m(y));
    if (!a.outcome.ok() || !b.outcome.ok() || !c.outcome.ok()) continue;
    const auto geometry = [](const CornerPose<double>& x) { return wheel_geometry(x.wheel(), x.per_rise, radius); };
    worst = std::max({worst,
                      std::abs(geometry(a).camber_rate.si() - (geometry(c).camber - geometry(b).camber).si() / (2 * h)),
                      std::abs(geometry(a).toe_rate.si() - (geometry(c).toe - geometry(b).toe).si() / (2 * h))});
    worst_ratio = std::max({worst_ratio, std::abs(a.spring_per_rise + (c.spring_length - b.spring_length) / (2 * h)),
                            std::abs(a.damper_per_rise + (c.damper_length - b.damper_length) / (2 * h))});
    const IndependentAxle axle({p, mirrored(p), radius});
    const AxlePose left = axle.pose({m(z), {}, m(y)}), right = axle.pose({m(z), {}, m(-y)});
    EXPECT_EQ(left.left.geometry.camber, right.right.geometry.camber);
    EXPECT_EQ(left.left.geometry.toe, right.right.geometry.toe);
    EXPECT_TRUE(axle.check().empty());
  }
  std::cout << "worst rate " << worst << " rad/m, worst motion ratio " << worst_ratio << " by differences\n";
  EXPECT_LE(worst, 1e-6);
  EXPECT_LE(worst_ratio, 1e-6);
}

// Closed form: a trailing arm square to the cart keeps camber and toe, and its hub runs on a circle.
TEST(Layouts, TrailingArmInClosedForm) {
  CornerPoints<double> p;
  p.guide = Guide::the_arm;
  p.steered = false;
  p.lower_arm.front_bush = {-1.4, 0.45, 0.30};
  p.lower_arm.rear_bush = {-1.4, 0.25, 0.30};
  p.hub_centre = {-1.8, 0.46, 0.30};
  ASSERT_TRUE(check(p).empty());
  const CornerLinkage<double> arm(p);
  for (const double z : {-0.1, 0.05, 0.12}) {
    const auto at = arm.pose(m(z));
    ASSERT_TRUE(at.outcome.ok());
    EXPECT_NEAR(at.hub_centre.x, -1.4 - std::sqrt(0.16 - z * z), 1e-14);
    EXPECT_NEAR(at.spin_axis.y, 1, 1e-14);
  }
  EXPECT_FALSE(arm.pose(m(0.41)).outcome.ok());
}

// Closed form: a swing axle about a line along x leans its wheel by the arm's own turn.
TEST(Layouts, SwingAxleInClosedForm) {
  CornerPoints<double> p;
  p.guide = Guide::the_arm;
  p.steered = false;
  p.lower_arm.front_bush = {-1.7, 0.05, 0.28};
  p.lower_arm.rear_bush = {-1.9, 0.05, 0.28};
  p.hub_centre = {-1.8, 0.45, 0.28};
  const CornerLinkage<double> arm(p);
  for (const double z : {-0.1, 0.05, 0.12}) {
    const auto at = arm.pose(m(z));
    ASSERT_TRUE(at.outcome.ok());
    EXPECT_NEAR(wheel_geometry(at.wheel(), at.per_rise, radius).camber.si(), -std::asin(z / 0.4), 1e-14);
  }
}

// A strut whose damper lies on its steering axis: the axis runs from the ball joint to the top mount.
TEST(Layouts, StrutAxisPassesItsTopMount) {
  std::mt19937_64 random(13);
  for (int i = 0; i < 50; ++i) {
    const auto p = corners::strut(random);
    const auto at = CornerLinkage<double>(p).pose(m(0.03), m(0.01));
    if (!at.outcome.ok()) continue;
    EXPECT_NEAR(norm(cross(at.steering_axis, p.strut_top - at.lower_ball_joint)), 0, 1e-14);
    EXPECT_NEAR(norm(at.knuckle_end - at.rack_end), norm(p.knuckle_end - p.rack_end), 1e-14);
    EXPECT_NEAR(at.spring_length, norm(p.strut_top - at.spring_foot), 1e-14);
    // The top mount moved out in its slot moves the wheel's top out.
    const IndependentAxle axle({p, {}, radius});
    EXPECT_GT(axle.adjuster_rates(Side::left).strut_top.camber.si(), 0.5);
  }
}

// A drop spindle leaves camber and toe curves alone whatever guides the knuckle.
TEST(Layouts, DropSpindleLeavesTheCurvesAlone) {
  for (const auto& stock : some_of_each(14, 10)) {
    if (!stock.steered) continue;
    CornerPoints<double> dropped = stock;
    dropped.hub_centre.z -= 0.06;
    const CornerLinkage<double> a(stock), b(dropped);
    for (double angle = -8; angle <= 8; angle += 2) {
      const auto x = a.pose_at_arm(angle * units::degree), y = b.pose_at_arm(angle * units::degree);
      if (!x.outcome.ok() || !y.outcome.ok()) continue;
      EXPECT_NEAR(norm(x.spin_axis - y.spin_axis), 0, 1e-14);
    }
  }
}

// The leaf's law: the link's eye and that of a strip bent to constant curvature.
TEST(Layouts, LeafLinkFollowsTheBentLeaf) {
  const double length = 0.4;
  const ArmPoints<double> link = leaf_link({0, 0.05, 0.5}, {0, 0.05 + length, 0.5});
  const double r = link.ball_joint.y - link.front_bush.y;
  EXPECT_NEAR(r, 0.75 * length, 1e-15);
  double worst = 0;
  for (double bend = 0.02; bend < 0.7; bend += 0.02) {
    const double z = length * (1 - std::cos(bend)) / bend, drawn = length * (1 - std::sin(bend) / bend);
    const double apart = std::abs(drawn - (r - std::sqrt(r * r - z * z)));
    EXPECT_LE(apart, 0.02 * length * std::pow(z / length, 4));
    worst = std::max(worst, apart);
  }
  std::cout << "worst of leaf link against a bent strip of 400 mm to a third of its length: " << worst * 1e3 << " mm\n";
}

TEST(Layouts, RelayIsAFourBar) {
  const RelayPoints even{{0.2, 0.2, 0.3}, {0.1, 0.2, 0.3}, {0.2, -0.2, 0.3}, {0.1, -0.2, 0.3}};
  const V left{0.1, 0.15, 0.3}, right{0.1, -0.15, 0.3};
  for (const double y : {-0.05, 0.0, 0.04}) {
    const auto move = relay_move(even, left, right, m(y));
    ASSERT_TRUE(move.has_value());
    const double back = 0.1 - std::sqrt(0.01 - y * y);
    EXPECT_NEAR(norm(move->left - V{back, y, 0}), 0, 1e-15);  // law 2
    EXPECT_NEAR(norm(move->right - V{back, y, 0}), 0, 1e-15);
  }
  EXPECT_FALSE(relay_move(even, left, right, m(0.1)).has_value());
  // Uneven arms: every length is kept.
  const RelayPoints uneven{{0.2, 0.2, 0.3}, {0.1, 0.23, 0.3}, {0.22, -0.2, 0.3}, {0.1, -0.21, 0.31}};
  const auto move = relay_move(uneven, uneven.pitman_end, uneven.idler_end, m(0.04));
  ASSERT_TRUE(move.has_value());
  const V p = uneven.pitman_end + move->left, i = uneven.idler_end + move->right;
  EXPECT_NEAR(move->left.y, 0.04, 1e-15);
  EXPECT_NEAR(norm(p - uneven.pitman_pivot), norm(uneven.pitman_end - uneven.pitman_pivot), 1e-15);
  EXPECT_NEAR(norm(i - uneven.idler_pivot), norm(uneven.idler_end - uneven.idler_pivot), 1e-15);
  EXPECT_NEAR(norm(i - p), norm(uneven.idler_end - uneven.pitman_end), 1e-15);
}

// A relay of equal parallel arms steers both wheels as one; a pose with nothing asked is the fitted one.
TEST(Layouts, RelaySteersBothWheels) {
  const CornerPoints<double> p = corners::invented();
  IndependentPoints points{p, {}, radius};
  const double x = p.rack_end.x, z = p.rack_end.z;
  points.relay = RelayPoints{{x + 0.12, 0.2, z}, {x, 0.2, z}, {x + 0.12, -0.2, z}, {x, -0.2, z}};
  const IndependentAxle relay(points), rack({p, {}, radius});
  EXPECT_EQ(relay.pose({}).left.geometry.toe, rack.pose({}).left.geometry.toe);
  const AxlePose to_left = relay.pose({{}, {}, m(0.03)}), to_right = relay.pose({{}, {}, m(-0.03)});
  ASSERT_TRUE(to_left.ok() && to_right.ok());
  EXPECT_NEAR(to_left.left.geometry.toe.si(), to_right.right.geometry.toe.si(), 1e-13);
  // The relay's ends come forward by 12 mm less its arm's reach: not what a rack does.
  EXPECT_GT(abs(to_left.left.geometry.toe - rack.pose({{}, {}, m(0.03)}).left.geometry.toe).si(), 1e-4);
  EXPECT_EQ(relay.pose({{}, {}, m(0.12)}).left.outcome.status, PoseStatus::relay_cannot_reach);
}

// Bench presets: a pose with the lengths has the angles that were wanted, on either kind of adjuster.
TEST(Layouts, BenchPresetsPutTheWheelWhereItIsWanted) {
  std::mt19937_64 random(17);
  int reached = 0;
  for (int i = 0; i < 40; ++i)
    for (const bool strut : {false, true}) {
      const auto p = strut ? corners::strut(random) : corners::random(random);
      const IndependentAxle axle({p, {}, radius});
      const WantedAngles wanted{0.25 * units::degree, 0.2 * units::degree};
      const auto change = bench_preset(axle, Side::left, wanted, strut);
      if (!change) continue;
      ++reached;
      const SidePose s = axle.side_pose(Side::left, {{}, {}, {}, {*change, {}, {}}});
      ASSERT_TRUE(s.outcome.ok());
      EXPECT_NEAR(s.geometry.camber.si(), wanted.camber->si(), 1e-11);
      EXPECT_NEAR(s.geometry.toe.si(), wanted.toe.si(), 1e-11);
      EXPECT_NEAR(s.wheel.hub_centre.z, p.hub_centre.z, 1e-13);
    }
  EXPECT_GT(reached, 60);
  // Both wheels of a mirrored axle are set alike.
  const IndependentAxle axle({corners::invented(), {}, radius});
  const auto left = bench_preset(axle, Side::left, {Angle{}, Angle{}}),
             right = bench_preset(axle, Side::right, {Angle{}, Angle{}});
  ASSERT_TRUE(left && right);
  EXPECT_NEAR(left->tie_rod.si(), right->tie_rod.si(), 1e-15);
  EXPECT_NEAR(left->upper_arm.si(), right->upper_arm.si(), 1e-15);
}

// The spread of a pose by the axle's own points is that of the lanes.
TEST(Layouts, PoseSpreadAgreesWithTheLanes) {
  const auto p = corners::invented();
  const IndependentAxle axle({p, {}, radius});
  const std::vector<Length> u(axle.points().size(), m(0.002)), own(11, m(0.002));
  const CornerCoordinates at{m(0.03), m(0.01)};
  const PoseSpread spread = pose_spread(axle, Side::left, {at.rise, {}, at.rack}, u);
  const OutputRow lanes = linear_spread(p, own, radius, std::span(&at, 1)).at(0), here = row(spread.u);
  for (int k = 0; k < outputs; ++k) EXPECT_NEAR(here[k], lanes[k], 1e-8 + 1e-6 * lanes[k]) << k;
  EXPECT_GT(spread.u.toe_rate.si(), 0.01);
}

// No layout ever gives a number that is not one, nor leaves its branch, however far it is asked to go.
TEST(Layouts, NeverNaN) {
  std::mt19937_64 random(15);
  std::uniform_real_distribution<double> rise(-0.5, 0.5), rack(-0.3, 0.3);
  int reached = 0, refused = 0;
  for (const auto& p : some_of_each(15, 40)) {
    const CornerLinkage<double> linkage(p);
    for (int k = 0; k < 10; ++k) {
      const double z = rise(random), y = p.steered ? rack(random) : 0.0;
      const auto at = linkage.pose(m(z), m(y));
      if (!at.outcome.ok()) {
        ++refused;
        continue;
      }
      ++reached;
      EXPECT_NEAR(at.hub_centre.z, p.hub_centre.z + z, 1e-9);
      EXPECT_NEAR(norm(at.spin_axis), 1, 1e-9);
      EXPECT_TRUE(std::isfinite(at.per_rise.turn.x + at.spring_per_rise));
      EXPECT_GT(at.per_rise.shift.z, 0);
    }
  }
  std::cout << reached << " poses reached, " << refused << " refused\n";
  EXPECT_GT(reached, 100);
  EXPECT_GT(refused, 100);
}

TEST(Layouts, FaultsNameTheirPoint) {
  std::mt19937_64 random(16);
  const auto first = [](const CornerPoints<double>& p) {
    const auto faults = check(p);
    return faults.empty() ? std::string("none") : faults[0].point;
  };
  auto p = corners::strut(random);
  p.strut_lower = p.strut_top;
  EXPECT_EQ(first(p), "strut.top");
  p = corners::strut(random);
  p.strut_top.z = 0.1;
  EXPECT_EQ(first(p), "strut.top");
  p = corners::strut(random);
  p.strut_lower = p.strut_top + V{0.3, 0, -0.05};
  EXPECT_EQ(first(p), "strut.lower");
  p = corners::trailing_arm(random);
  p.lower_arm.rear_bush = p.lower_arm.front_bush;
  EXPECT_EQ(first(p), "arm.bush");
  p = corners::swing_axle(random);
  p.upper_arm.ball_joint.z = 0.1;
  EXPECT_EQ(first(p), "kingpin.top");
  p = corners::swing_axle(random);
  p.hub_centre.x = std::nan("");
  EXPECT_EQ(first(p), "hub.centre");
}

}  // namespace
}  // namespace trammel::suspension
