// The linkages against Simbody, an independent general-purpose multibody solver, on random mechanisms.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "suspension/corners.h"
#include "suspension/linkage/beam_axle.h"
#include "suspension/linkage/leaf_spring.h"
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

// A beam on three links and a bar, so that all of it is a mechanism: king pins, tie rod, drag link, and a pitman arm
// or a sliding end.
TEST(Multibody, RandomSteeredBeams) {
  std::mt19937_64 random(31);
  std::uniform_real_distribution<double> d(-0.025, 0.025), rise(-0.06, 0.06), roll(-0.07, 0.07), shift(-0.04, 0.04),
      length(-0.006, 0.006);
  double worst = 0;
  int poses = 0, unreachable = 0;
  for (int n = 0; n < 100; ++n) {
    const auto shaken = [&](double x, double y, double z) { return V{x + d(random), y + d(random), z + d(random)}; };
    BeamAxlePoints p;
    LiveAxlePoints& b = p.beam;
    b.location = AxleLocation::three_links_and_track_bar;
    b.axle_centre = {0, 0, 0.217};
    b.half_track = 0.46 * units::metre;
    b.links = {{shaken(-0.5, 0.3, 0.28), shaken(-0.03, 0.3, 0.22)},
               {shaken(-0.5, -0.3, 0.28), shaken(-0.03, -0.3, 0.22)},
               {shaken(-0.4, 0.03, 0.42), shaken(-0.02, 0.03, 0.36)}};
    b.track_bar = {shaken(0.08, 0.32, 0.33), shaken(0.08, -0.3, 0.30)};
    const auto knuckle = [&](double side) {
      return KnucklePoints{shaken(-0.01, side * 0.36, 0.28),
                           shaken(0.005, side * 0.375, 0.16),
                           shaken(-0.11, side * 0.345, 0.2),
                           shaken(0, side * 0.46, 0.217),
                           {},
                           {}};
    };
    p.left = knuckle(1);
    p.right = knuckle(-1);
    p.drag_link = {shaken(0.1, -0.2, 0.33), shaken(0.12, 0.33, 0.3), Side::left, std::nullopt};
    if (n % 2 == 0) p.drag_link.pitman_arm = PitmanArm{shaken(0.22, -0.2, 0.42), unit(shaken(0.02, 0.03, 1))};
    ASSERT_TRUE(check(p).empty()) << n;
    ASSERT_TRUE(check(p.beam).empty()) << n;

    witness::Steering s;
    int i = 0;
    for (const KnucklePoints* k : {&p.left, &p.right}) {
      s.king_pin_top[i] = plain(k->king_pin_top);
      s.king_pin_bottom[i] = plain(k->king_pin_bottom);
      s.tie_rod_end[i] = plain(k->tie_rod_end);
      s.hub[i++] = plain(k->hub_centre);
    }
    s.frame_end = plain(p.drag_link.frame_end);
    s.ball = plain(p.drag_link.knuckle_end);
    s.pivot = p.drag_link.pitman_arm ? plain(p.drag_link.pitman_arm->pivot) : witness::Point{};
    s.shaft = p.drag_link.pitman_arm ? plain(p.drag_link.pitman_arm->shaft) : witness::Point{};
    witness::Beam other(plain(b.axle_centre),
                        {{{plain(b.links[0].chassis), plain(b.links[0].axle)},
                          {plain(b.links[1].chassis), plain(b.links[1].axle)},
                          {plain(b.links[2].chassis), plain(b.links[2].axle)},
                          {plain(b.track_bar.chassis), plain(b.track_bar.axle)}}},
                        s);
    for (int k = 0; k < 3; ++k) {
      const double z = rise(random), phi = roll(random), way = shift(random);
      const BeamChanges change{Length::from_si(k == 2 ? length(random) : 0),
                               Length::from_si(k == 2 ? length(random) : 0)};
      const BeamPose a = beam_pose(p, Length::from_si(z), Angle::from_si(phi), Length::from_si(way), change);
      if (!a.outcome.ok()) {
        ++unreachable;
        continue;
      }
      other.lengthen(change.tie_rod.si(), change.drag_link.si());
      const witness::SteeredPlace w = other.at(z, phi, p.drag_link.pitman_arm ? a.pitman_turn.si() : way);
      ASSERT_TRUE(w.ok) << n;
      worst = std::max({worst, apart(a.left.hub_centre, w.hub[0]), apart(a.right.hub_centre, w.hub[1]),
                        apart(a.left.tie_rod_end, w.tie_rod_end[0]), apart(a.right.tie_rod_end, w.tie_rod_end[1]),
                        apart(a.drag_link_ball, w.ball)});
      ++poses;
    }
  }
  std::cout << "worst of " << poses << " poses of 100 random steered beams against Simbody: " << worst << " m; "
            << unreachable << " out of reach\n";
  EXPECT_GE(poses, 270);
  EXPECT_LE(worst, 1e-9);
}

// The three-link equivalent as a mechanism of bodies. Lengths and pins are worked out here from the circle through
// eyes and seat.
TEST(Multibody, RandomLeafSprings) {
  std::mt19937_64 random(99);
  std::uniform_real_distribution<double> d(-0.03, 0.03), rise(-0.06, 0.06);
  double worst = 0;
  int poses = 0;
  for (int n = 0; n < 100; ++n) {
    const auto shaken = [&](double x, double z) { return V{x + d(random), 0.3, z + d(random)}; };
    LeafSpringPoints p{shaken(-1.3, 0.4), shaken(-2.32, 0.38), {}, shaken(-1.82, 0.30), {}};
    p.shackle_pivot = p.shackled_eye + V{0.6 * d(random), 0, 0.08};
    if (n % 3 == 0) std::swap(p.fixed_eye.x, p.shackled_eye.x), p.shackle_pivot.x = p.shackled_eye.x + 0.6 * d(random);
    ASSERT_TRUE(check(p).empty());
    // The circle about (cx, cz) from the seat.
    const double ax = p.fixed_eye.x - p.seat.x, az = p.fixed_eye.z - p.seat.z;
    const double bx = p.shackled_eye.x - p.seat.x, bz = p.shackled_eye.z - p.seat.z;
    const double det = 2 * (ax * bz - az * bx), a2 = ax * ax + az * az, b2 = bx * bx + bz * bz;
    const double cx = (bz * a2 - az * b2) / det, cz = (ax * b2 - bx * a2) / det, r = std::hypot(cx, cz);
    const V line = (ax * cz > 0 ? 1.0 : -1.0) / r * V{cz, 0, -cx};  // towards the fixed eye
    witness::Leaf leaf;
    leaf.half = 2 * r * std::asin(std::sqrt(a2) / (2 * r));
    leaf.other_half = 2 * r * std::asin(std::sqrt(b2) / (2 * r));
    leaf.fixed_eye = plain(p.fixed_eye);
    leaf.shackled_eye = plain(p.shackled_eye);
    leaf.shackle_pivot = plain(p.shackle_pivot);
    leaf.seat = plain(p.seat);
    leaf.pin = plain(p.seat + 0.25 * leaf.half * line);
    leaf.other_pin = plain(p.seat - 0.25 * leaf.other_half * line);
    const LeafSpring spring(p);
    for (int k = 0; k < 2; ++k) {
      const double z = rise(random);
      const LeafPose a = spring.at_rise(Length::from_si(z));
      if (!a.outcome.ok()) continue;
      const witness::LeafPlace w = witness::leaf_at(leaf, z);
      ASSERT_TRUE(w.ok) << n;
      worst = std::max({worst, apart(a.seat, w.seat), apart(a.shackled_eye, w.shackled_eye)});
      ++poses;
    }
  }
  std::cout << "worst of " << poses << " poses of 100 random leaf springs as three links against Simbody: " << worst
            << " m\n";
  EXPECT_GE(poses, 150);
  EXPECT_LE(worst, 1e-9);
}

}  // namespace
}  // namespace trammel::suspension
