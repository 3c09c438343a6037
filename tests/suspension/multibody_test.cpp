// The linkages against Simbody, an independent general-purpose multibody solver, on random mechanisms.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "suspension/corners.h"
#include "suspension/linkage/live_axle.h"
#include "suspension/multibody_witness.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

witness::Point plain(const V& v) { return {v.x, v.y, v.z}; }
double apart(const V& a, const witness::Point& b) { return norm(a - V{b[0], b[1], b[2]}); }

witness::Corner plain(const CornerPoints<double>& p) {
  return {plain(p.lower_arm.front_bush),
          plain(p.lower_arm.rear_bush),
          plain(p.lower_arm.ball_joint),
          plain(p.upper_arm.front_bush),
          plain(p.upper_arm.rear_bush),
          plain(p.upper_arm.ball_joint),
          plain(p.rack_end),
          plain(p.knuckle_end),
          plain(p.hub_centre)};
}

TEST(Multibody, RandomCornersWithRackAndLengths) {
  std::mt19937_64 random(20240611);
  std::uniform_real_distribution<double> rise(-0.06, 0.06), rack(-0.03, 0.03), length(-0.006, 0.006);
  double worst = 0, worst_length = 0;
  int corners = 0, poses = 0, unreachable = 0;
  while (corners < 220) {
    const CornerPoints<double> p = corners::random(random);
    const CornerLinkage<double> linkage(p);
    ASSERT_TRUE(linkage.usable());
    witness::Wishbone other(plain(p));
    for (int k = 0; k < 3; ++k) {
      const double z = rise(random), y = rack(random);
      LengthChanges<double> change;
      if (k == 2) change = {Length::from_si(length(random)), {}, Length::from_si(length(random))};
      const auto pose = linkage.pose(Length::from_si(z), Length::from_si(y), change);
      if (!pose.outcome.ok()) {
        ++unreachable;
        continue;
      }
      other.lengthen(0, 0);
      other.start();
      // Walk there in steps, so that the witness too keeps to the fitted branch.
      witness::CornerPose w;
      for (int i = 1; i <= 4; ++i) {
        other.lengthen(change.upper_arm.si() * i / 4, change.tie_rod.si() * i / 4);
        w = other.at_arm(pose.arm_angle().si() * i / 4, y * i / 4);
        if (!w.ok) break;
      }
      ASSERT_TRUE(w.ok) << "corner " << corners << " rise " << z << " rack " << y;
      const double e = std::max({apart(pose.lower_ball_joint, w.lower_ball), apart(pose.upper_ball_joint, w.upper_ball),
                                 apart(pose.knuckle_end, w.knuckle_end), apart(pose.hub_centre, w.hub),
                                 std::abs(w.hub[2] - p.hub_centre.z - z)});
      (k == 2 ? worst_length : worst) = std::max(k == 2 ? worst_length : worst, e);
      ++poses;
    }
    ++corners;
  }
  std::cout << "worst of " << poses << " poses of " << corners << " random corners against Simbody: " << worst
            << " m; with changed lengths " << worst_length << " m; " << unreachable << " out of reach\n";
  EXPECT_GE(poses, 600);
  EXPECT_LE(worst, 1e-9);
  EXPECT_LE(worst_length, 1e-9);
}

witness::ArmCorner plain_arm(const CornerPoints<double>& p) {
  using W = witness::ArmCorner;
  const V top = p.guide == Guide::strut ? p.strut_top : p.upper_arm.ball_joint;
  const double cc = std::cos(p.camber.si());
  const V spin{std::sin(p.toe.si()) * cc, std::cos(p.toe.si()) * cc, -std::sin(p.camber.si())};
  return {p.guide == Guide::strut ? W::strut
          : p.steered             ? W::swing_axle
                                  : W::trailing_arm,
          plain(p.lower_arm.front_bush),
          plain(p.lower_arm.rear_bush),
          plain(p.steered ? p.lower_arm.ball_joint : p.hub_centre),
          plain(top),
          plain(p.strut_lower),
          plain(p.rack_end),
          plain(p.knuckle_end),
          plain(p.hub_centre),
          plain(p.hub_centre + spin)};
}

// Struts, swing axles and trailing arms: hub, spin axis and joints.
TEST(Multibody, RandomCornersLedByOneArm) {
  std::mt19937_64 random(77);
  std::uniform_real_distribution<double> rise(-0.06, 0.06), rack(-0.03, 0.03);
  const auto against = [&](const char* name, auto make) {
    double worst = 0;
    int poses = 0;
    for (int n = 0; n < 100; ++n) {
      const CornerPoints<double> p = make(random);
      const CornerLinkage<double> linkage(p);
      witness::ArmLed other(plain_arm(p));
      for (int k = 0; k < 3; ++k) {
        const double z = rise(random), y = p.steered ? rack(random) : 0.0;
        const auto pose = linkage.pose(Length::from_si(z), Length::from_si(y));
        if (!pose.outcome.ok()) continue;
        const witness::ArmCornerPose w = other.walk(pose.arm_angle().si(), y);
        ASSERT_TRUE(w.ok) << name << n;
        worst = std::max({worst, apart(pose.hub_centre, w.hub), apart(pose.hub_centre + pose.spin_axis, w.spin),
                          std::abs(w.hub[2] - p.hub_centre.z - z)});
        if (p.steered)
          worst = std::max({worst, apart(pose.lower_ball_joint, w.lower), apart(pose.knuckle_end, w.knuckle_end)});
        ++poses;
      }
    }
    std::cout << "worst of " << poses << " poses of 100 random corners (" << name << ") against Simbody: " << worst
              << " m\n";
    EXPECT_GE(poses, 200) << name;
    EXPECT_LE(worst, 1e-9) << name;
  };
  against("strut", [](auto& r) { return corners::strut(r); });
  against("swing axle", [](auto& r) { return corners::swing_axle(r); });
  against("trailing arm", [](auto& r) { return corners::trailing_arm(r); });
}

TEST(Multibody, RandomLiveAxlesOnThreeLinks) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> d(-0.04, 0.04), rise(-0.07, 0.07), roll(-0.07, 0.07);
  double worst = 0;
  int poses = 0;
  for (int n = 0; n < 100; ++n) {
    LiveAxlePoints p;
    p.location = AxleLocation::three_links_and_track_bar;
    p.axle_centre = {-1.855, 0, 0.26};
    p.half_track = 0.47 * units::metre;
    const auto shaken = [&](double x, double y, double z) { return V{x + d(random), y + d(random), z + d(random)}; };
    p.links = {{shaken(-1.35, 0.35, 0.28), shaken(-1.83, 0.35, 0.22)},
               {shaken(-1.35, -0.35, 0.28), shaken(-1.83, -0.35, 0.22)},
               {shaken(-1.45, 0.05, 0.42), shaken(-1.82, 0.05, 0.40)}};
    p.track_bar = {shaken(-1.92, 0.32, 0.33), shaken(-1.92, -0.33, 0.30)};
    ASSERT_TRUE(check(p).empty());
    witness::Axle other(plain(p.axle_centre), {{{plain(p.links[0].chassis), plain(p.links[0].axle)},
                                                {plain(p.links[1].chassis), plain(p.links[1].axle)},
                                                {plain(p.links[2].chassis), plain(p.links[2].axle)},
                                                {plain(p.track_bar.chassis), plain(p.track_bar.axle)}}});
    for (int k = 0; k < 3; ++k) {
      const double z = rise(random), phi = roll(random);
      const LiveAxlePose a = live_axle_pose(p, Length::from_si(z), Angle::from_si(phi));
      ASSERT_TRUE(a.outcome.ok());
      const witness::AxlePlace w = other.at(z, phi);
      ASSERT_TRUE(w.ok);
      worst = std::max({worst, std::abs(a.long_shift.si() - w.x), std::abs(a.lateral_shift.si() - w.y),
                        std::abs(a.steer.si() - w.yaw), std::abs(a.pinion_nose_up.si() + w.pitch)});
      EXPECT_LE(a.max_link_residual.si(), 1e-12);
      ++poses;
    }
  }
  std::cout << "worst of " << poses << " poses of 100 random live axles on three links against Simbody: " << worst
            << " m or rad\n";
  EXPECT_LE(worst, 1e-9);
}

}  // namespace
}  // namespace trammel::suspension
