// The live axle against closed forms and identities. No published table of such axles was found; the independent
// solver stands in multibody_test.cpp.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "suspension/geometry/travel.h"
#include "suspension/rows.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
using enum AxleLocation;
Length m(double si) { return Length::from_si(si); }
Angle rad(double si) { return Angle::from_si(si); }

LiveAxlePoints invented(AxleLocation location) {
  LiveAxlePoints p;
  p.location = location;
  p.axle_centre = {-1.855, 0, 0.26};
  p.half_track = m(0.47);
  p.links = {{{-1.35, 0.35, 0.28}, {-1.83, 0.36, 0.22}}, {{-1.35, -0.35, 0.28}, {-1.83, -0.36, 0.22}}};
  if (location == three_links_and_track_bar) p.links.push_back({{-1.45, 0.05, 0.42}, {-1.82, 0.04, 0.40}});
  if (location == four_links_and_track_bar) {
    p.links.push_back({{-1.45, 0.28, 0.42}, {-1.82, 0.24, 0.38}});
    p.links.push_back({{-1.45, -0.28, 0.42}, {-1.82, -0.24, 0.38}});
  }
  p.track_bar = {{-1.92, 0.32, 0.33}, {-1.92, -0.33, 0.30}};
  return p;
}
const AxleLocation all[] = {two_trailing_arms_and_track_bar, three_links_and_track_bar, four_links_and_track_bar};

TEST(LiveAxle, NothingAskedChangesNothing) {
  for (const AxleLocation where : all) {
    const LiveAxlePose a = live_axle_pose(invented(where), m(0), rad(0));
    ASSERT_TRUE(a.outcome.ok());
    EXPECT_NEAR(std::abs(a.long_shift.si()) + std::abs(a.lateral_shift.si()) + std::abs(a.steer.si()) +
                    std::abs(a.pinion_nose_up.si()) + a.max_link_residual.si(),
                0, 1e-15);
  }
}

// Row BAR-ARC (derived): a track bar level at zero moves the axle by L - sqrt(L^2 - z^2).
TEST(LiveAxle, TrackBarArc) {
  const rows::Row row = rows::find(rows::read("geometry_worked_examples.csv"), "id", "BAR-ARC");
  ASSERT_NE(row.at("inputs").find("L=700 mm; z=50,75,100 mm"), std::string::npos);
  ASSERT_NE(row.at("expected").find("1.787998, 4.029454, 7.179677 mm"), std::string::npos);
  LiveAxlePoints p = invented(three_links_and_track_bar);
  // Links so long that the axle goes straight up but for its bar.
  p.links = {{{1e3, 0.35, 0.2}, {-1.85, 0.35, 0.2}},
             {{1e3, -0.35, 0.2}, {-1.85, -0.35, 0.2}},
             {{1e3, 0, 0.4}, {-1.85, 0, 0.4}}};
  p.track_bar = {{-1.92, 0.35, 0.3}, {-1.92, -0.35, 0.3}};
  double worst = 0;
  for (const auto& [z, shift] : {std::pair{50.0, 1.787998}, {75.0, 4.029454}, {100.0, 7.179677}}) {
    const LiveAxlePose a = live_axle_pose(p, m(z / 1e3), rad(0));
    ASSERT_TRUE(a.outcome.ok());
    // The bar is fixed to the body on the left: the axle is drawn to the left.
    worst = std::max(worst, std::abs(a.lateral_shift.si() * 1e3 - shift));
  }
  std::cout << "worst track-bar arc " << worst << " mm (row printed to 1e-6 mm)\n";
  EXPECT_LE(worst, 1e-6);
}

// Equal parallel links make a parallelogram: no pitch, no steer, and two arcs that hold each other.
TEST(LiveAxle, ParallelLinks) {
  LiveAxlePoints p = invented(three_links_and_track_bar);
  p.links = {{{-1.35, 0.35, 0.22}, {-1.85, 0.35, 0.22}},
             {{-1.35, -0.35, 0.22}, {-1.85, -0.35, 0.22}},
             {{-1.32, 0, 0.4}, {-1.82, 0, 0.4}}};
  p.track_bar = {{-1.92, 0.35, 0.3}, {-1.92, -0.35, 0.3}};
  LiveAxlePoints four = p;
  four.location = four_links_and_track_bar;
  four.links[2] = {{-1.32, 0.2, 0.4}, {-1.82, 0.2, 0.4}};
  four.links.push_back({{-1.32, -0.2, 0.4}, {-1.82, -0.2, 0.4}});
  for (const double z : {-0.08, 0.05, 0.1}) {
    double x = 0, y = 0;
    for (int i = 0; i < 50; ++i) {
      x = 0.5 - std::sqrt(0.25 - z * z - y * y);
      y = 0.7 - std::sqrt(0.49 - z * z - x * x);
    }
    for (const LiveAxlePoints& q : {p, four}) {
      const LiveAxlePose a = live_axle_pose(q, m(z), rad(0));
      ASSERT_TRUE(a.outcome.ok());
      EXPECT_NEAR(a.long_shift.si(), x, 1e-12);
      EXPECT_NEAR(a.lateral_shift.si(), y, 1e-12);
      EXPECT_NEAR(a.steer.si(), 0, 1e-12);
      EXPECT_NEAR(a.pinion_nose_up.si(), 0, 1e-12);
      EXPECT_NEAR(a.max_link_residual.si(), 0, 1e-12);
    }
  }
}

// Two arms rigid to the axle in pitch turn with it about their chassis pivots.
TEST(LiveAxle, TrailingArmsTurnTheAxleAboutTheirPivots) {
  LiveAxlePoints p = invented(two_trailing_arms_and_track_bar);
  p.links = {{{-1.35, 0.35, 0.3}, {-1.8, 0.35, 0.22}}, {{-1.35, -0.35, 0.3}, {-1.8, -0.35, 0.22}}};
  p.track_bar = {{-1.92, 1e3, 0.3}, {-1.92, -0.35, 0.3}};  // so long that it only holds the axle in the middle
  const double bx = p.axle_centre.x + 1.35, bz = p.axle_centre.z - 0.3, r = std::hypot(bx, bz);
  for (const double z : {-0.08, -0.03, 0.05, 0.09}) {
    const LiveAxlePose a = live_axle_pose(p, m(z), rad(0));
    ASSERT_TRUE(a.outcome.ok());
    const double now_z = bz + z, now_x = -std::sqrt(r * r - now_z * now_z);
    EXPECT_NEAR(a.long_shift.si(), now_x - bx, 1e-8);
    const double turned = std::atan2(bx * now_z - bz * now_x, bx * now_x + bz * now_z);
    EXPECT_NEAR(a.pinion_nose_up.si(), turned, 1e-8);
    EXPECT_EQ(z > 0, a.pinion_nose_up.si() < 0);  // pivots ahead of the axle: it noses down as it rises
  }
}

TEST(LiveAxle, LeftAndRightMirror) {
  for (const AxleLocation where : all) {
    const LiveAxlePoints p = invented(where);
    LiveAxlePoints q = p;
    for (Link& l : q.links) l = {mirrored(l.chassis), mirrored(l.axle)};
    q.track_bar = {mirrored(p.track_bar.chassis), mirrored(p.track_bar.axle)};
    const LiveAxlePose a = live_axle_pose(p, m(0.04), rad(0.06)), b = live_axle_pose(q, m(0.04), rad(-0.06));
    ASSERT_TRUE(a.outcome.ok() && b.outcome.ok());
    EXPECT_NEAR(a.long_shift.si(), b.long_shift.si(), 1e-13);
    EXPECT_NEAR(a.lateral_shift.si(), -b.lateral_shift.si(), 1e-13);
    EXPECT_NEAR(a.steer.si(), -b.steer.si(), 1e-13);
    EXPECT_NEAR(a.pinion_nose_up.si(), b.pinion_nose_up.si(), 1e-13);
    EXPECT_NEAR(a.roll_centre_height.si(), b.roll_centre_height.si(), 1e-12);
  }
}

TEST(LiveAxle, RatesAgreeWithDifferences) {
  double worst = 0;
  for (const AxleLocation where : all) {
    const LiveAxlePoints p = invented(where);
    const double z = 0.03, phi = 0.05, h = 1e-5;
    const LiveAxlePose at = live_axle_pose(p, m(z), rad(phi));
    const auto check_rates = [&](const LiveAxlePose& a, const LiveAxlePose& b, const AxleRates& r) {
      for (const auto& [d, rate] : {std::pair{(b.long_shift - a.long_shift).si(), r.long_shift},
                                    {(b.lateral_shift - a.lateral_shift).si(), r.lateral_shift},
                                    {(b.steer - a.steer).si(), r.steer},
                                    {(b.pinion_nose_up - a.pinion_nose_up).si(), r.pinion_nose_up}})
        worst = std::max(worst, std::abs(d / (2 * h) - rate));
    };
    check_rates(live_axle_pose(p, m(z - h), rad(phi)), live_axle_pose(p, m(z + h), rad(phi)), at.per_rise);
    const LiveAxlePose a = live_axle_pose(p, m(z), rad(phi - h)), b = live_axle_pose(p, m(z), rad(phi + h));
    check_rates(a, b, at.per_roll);
    // The roll centre is where the rolling axle has no sideways velocity: above the centre by v_y over the turn about
    // x.
    const V left = (b.left_wheel - a.left_wheel) / (2 * h), right = (b.right_wheel - a.right_wheel) / (2 * h);
    const V axle = unit(at.left_wheel - at.right_wheel);
    const double turn_x = (left.z - right.z) / (2 * p.half_track.si() * axle.y);
    const double sideways = 0.5 * (left.y + right.y);
    const double ground = p.axle_centre.z * std::sqrt(1 - axle.z * axle.z);
    EXPECT_NEAR(at.roll_centre_height.si(), sideways / turn_x + ground, 2e-3);
  }
  std::cout << "worst live-axle rate against differences " << worst << "\n";
  EXPECT_LE(worst, 1e-7);
}

// The roll centre of an axle on level fore-and-aft links lies where the track bar crosses the middle plane.
TEST(LiveAxle, RollCentreOnTheTrackBar) {
  LiveAxlePoints p = invented(three_links_and_track_bar);
  p.links = {{{-1.35, 0.35, 0.22}, {-1.855, 0.35, 0.22}},
             {{-1.35, -0.35, 0.22}, {-1.855, -0.35, 0.22}},
             {{-1.32, 0, 0.4}, {-1.855, 0, 0.4}}};
  for (const double lean : {0.0, 0.04, -0.06}) {
    p.track_bar = {{-1.855, 0.32, 0.31 + lean}, {-1.855, -0.35, 0.31}};
    const LiveAxlePose a = live_axle_pose(p, m(0), rad(0));
    ASSERT_TRUE(a.outcome.ok());
    EXPECT_NEAR(a.roll_centre_height.si(), 0.31 + lean * 0.35 / 0.67, 1e-12);
  }
}

// Four links and a bar: no neighbouring place of the axle strains the five less.
TEST(LiveAxle, FourLinksTakeTheLeastStrain) {
  const LiveAxlePoints p = invented(four_links_and_track_bar);
  const double z = 0.05, phi = 0.06;
  const auto strain = [&](double x, double y, double yaw, double pitch, double& largest) {
    double sum = 0;
    largest = 0;
    const auto add = [&](const Link& l) {
      V a = l.axle - p.axle_centre;
      a = {a.x, std::cos(phi) * a.y - std::sin(phi) * a.z, std::sin(phi) * a.y + std::cos(phi) * a.z};
      a = {std::cos(pitch) * a.x + std::sin(pitch) * a.z, a.y, -std::sin(pitch) * a.x + std::cos(pitch) * a.z};
      a = {std::cos(yaw) * a.x - std::sin(yaw) * a.y, std::sin(yaw) * a.x + std::cos(yaw) * a.y, a.z};
      const double e = norm(p.axle_centre + V{x, y, z} + a - l.chassis) - norm(l.axle - l.chassis);
      sum += e * e;
      largest = std::max(largest, std::abs(e));
    };
    for (const Link& l : p.links) add(l);
    add(p.track_bar);
    return sum;
  };
  const LiveAxlePose a = live_axle_pose(p, m(z), rad(phi));
  ASSERT_TRUE(a.outcome.ok());
  double largest = 0, other = 0;
  const double at[4] = {a.long_shift.si(), a.lateral_shift.si(), a.steer.si(), -a.pinion_nose_up.si()};
  const double least = strain(at[0], at[1], at[2], at[3], largest);
  EXPECT_NEAR(a.max_link_residual.si(), largest, 1e-13);
  EXPECT_GT(largest, 1e-5);  // a case that does strain
  for (int k = 0; k < 4; ++k)
    for (const double h : {-1e-5, 1e-5}) {
      double q[4] = {at[0], at[1], at[2], at[3]};
      q[k] += h;
      EXPECT_GT(strain(q[0], q[1], q[2], q[3], other), least);
    }
}

// An adjustable track bar moves the axle towards or away from its frame end.
TEST(LiveAxle, ALongerTrackBarMovesTheAxleAway) {
  const LiveAxlePoints p = invented(three_links_and_track_bar);
  const LiveAxlePose a = live_axle_pose(p, m(0), rad(0), {{}, {}, {}, m(0.01)});
  ASSERT_TRUE(a.outcome.ok());
  EXPECT_LT(a.lateral_shift.si(), -0.009);  // its frame end is on the left
  EXPECT_GT(a.lateral_shift.si(), -0.011);
}

TEST(LiveAxle, SaysWhereItCannotReach) {
  for (const AxleLocation where : all) {
    const LiveAxlePoints p = invented(where);
    const LiveAxlePose a = live_axle_pose(p, m(3), rad(0));
    if (where == four_links_and_track_bar && a.outcome.ok()) continue;  // bushes give without end in the rule
    EXPECT_EQ(a.outcome.status, PoseStatus::link_cannot_reach);
    ASSERT_TRUE(a.outcome.rise_limit.has_value());
    EXPECT_GT(a.outcome.rise_limit->si(), 0.2);
    EXPECT_LT(a.outcome.rise_limit->si(), 1.5);
    EXPECT_TRUE(live_axle_pose(p, *a.outcome.rise_limit, rad(0)).outcome.ok());
    EXPECT_FALSE(live_axle_pose(p, *a.outcome.rise_limit + m(1e-3), rad(0)).outcome.ok());
  }
}

TEST(LiveAxle, FaultsAreNamed) {
  LiveAxlePoints p = invented(three_links_and_track_bar);
  EXPECT_TRUE(check(p).empty());
  p.links[1].axle = p.links[1].chassis;
  ASSERT_EQ(check(p).size(), 1u);
  EXPECT_EQ(check(p)[0].kind, PointFaultKind::zero_length_link);
  EXPECT_EQ(check(p)[0].point, "link.1");
  EXPECT_EQ(live_axle_pose(p, m(0), rad(0)).outcome.status, PoseStatus::bad_geometry);
  p = invented(three_links_and_track_bar);
  p.links.pop_back();
  EXPECT_EQ(check(p).at(0).kind, PointFaultKind::wrong_number_of_links);
  p = invented(three_links_and_track_bar);
  p.track_bar.axle.y = std::nan("");
  EXPECT_EQ(check(p).at(0).kind, PointFaultKind::not_a_number);
  EXPECT_EQ(check(p).at(0).point, "track_bar");
  p = invented(three_links_and_track_bar);
  p.links[2] = {{-1.35, 0, 0.28}, {-1.83, 0, 0.22}};  // three in one plane with the axle free to pitch
  p.links[0] = {{-1.35, 0.35, 0.28}, {-1.83, 0.35, 0.22}};
  p.links[1] = {{-1.35, -0.35, 0.28}, {-1.83, -0.35, 0.22}};
  ASSERT_FALSE(check(p).empty());
  EXPECT_EQ(check(p)[0].kind, PointFaultKind::links_in_line);
}

TEST(LiveAxle, TravelNestsRollInRise) {
  TravelRequest request;
  request.rises = {m(-0.05), m(0.05)};
  request.rolls = {rad(-0.07), rad(0), rad(0.07)};
  const std::vector<AxlePose> t = travel(LinkedAxle(invented(three_links_and_track_bar)), request);
  ASSERT_EQ(t.size(), 6u);
  EXPECT_EQ(t[4].rise, m(0.05));
  EXPECT_EQ(t[4].roll, rad(0));
  for (const AxlePose& pose : t) EXPECT_TRUE(pose.ok());
}

// A wheel of a live axle turns with the axle: camber by its roll, toe by its steer, and the rates by differences.
TEST(LiveAxle, WheelsTurnWithTheirAxle) {
  for (const AxleLocation where : all) {
    const LinkedAxle axle(invented(where));
    const double step = 1e-5, roll = 0.05;
    const AxlePose here = axle.pose({m(0.03), rad(roll)}), above = axle.pose({m(0.03 + step), rad(roll)}),
                   below = axle.pose({m(0.03 - step), rad(roll)});
    ASSERT_TRUE(here.ok() && above.ok() && below.ok());
    for (const Side side : {Side::left, Side::right}) {
      const double sign = side == Side::left ? 1 : -1;
      const SidePose &s = here.side(side), &a = above.side(side), &b = below.side(side);
      const double rise = a.wheel.hub_centre.z - b.wheel.hub_centre.z;
      const AxlePose level = axle.pose({m(0.03)});  // in roll a pitched axle's toe is no longer its yaw alone
      EXPECT_NEAR(level.side(side).geometry.toe.si(), -sign * level.body->steer.si(), 1e-12);
      EXPECT_NEAR(s.geometry.camber_rate.si(), (a.geometry.camber - b.geometry.camber).si() / rise, 1e-8);
      EXPECT_NEAR(s.geometry.toe_rate.si(), (a.geometry.toe - b.geometry.toe).si() / rise, 1e-8);
      EXPECT_NEAR(s.geometry.contact_rate.y, (a.geometry.contact.y - b.geometry.contact.y) / rise, 1e-8);
      EXPECT_LT(sign * s.geometry.camber.si(), 0);  // the left wheel up: its top leans inward, the right one's outward
      EXPECT_FALSE(s.wheel.steered);
    }
  }
}

}  // namespace
}  // namespace trammel::suspension
