// Steered beams and what kits do to leaf springs: laws and closed forms. The independent solver stands in
// multibody_test.cpp. All carts here are invented.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "suspension/geometry/bump_steer.h"
#include "suspension/geometry/bump_steer_cure.h"
#include "suspension/geometry/steered_beam.h"
#include "suspension/linkage/spring_change.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }
constexpr double degree = std::numbers::pi / 180;

LeafSpringPoints right_of(LeafSpringPoints p) {
  for (V* v : {&p.fixed_eye, &p.shackled_eye, &p.shackle_pivot, &p.seat}) *v = mirrored(*v);
  return p;
}
KnucklePoints right_of(KnucklePoints k) {
  for (V* v : {&k.king_pin_top, &k.king_pin_bottom, &k.tie_rod_end, &k.hub_centre}) *v = mirrored(*v);
  return k;
}

BeamAxlePoints invented() {
  BeamAxlePoints p;
  p.beam.location = AxleLocation::leaf_springs;
  p.beam.axle_centre = {0, 0, 0.217};
  p.beam.half_track = m(0.46);
  p.beam.loaded_radius = m(0.217);
  const LeafSpringPoints left{{0.45, 0.2, 0.332}, {-0.45, 0.2, 0.328}, {-0.456, 0.2, 0.388}, {0, 0.2, 0.317}, {}};
  p.beam.springs = {left, right_of(left)};
  p.left = {
      {-0.003144, 0.356567, 0.277}, {0.003144, 0.373433, 0.157}, {-0.1111, 0.3414, 0.2}, {0, 0.46, 0.217}, {}, {}};
  p.right = right_of(p.left);
  p.drag_link = {{0.14, -0.26, 0.262}, {0.15, 0.35, 0.258}, Side::left, std::nullopt};
  return p;
}

// Law 1, and the king pin's own figures: offset and trail at the ground follow from its lean.
TEST(BeamAxle, NothingAskedGivesTheFittedPose) {
  const SteeredBeam beam(invented());
  ASSERT_TRUE(beam.check().empty());
  const AxlePose at = beam.pose({});
  ASSERT_TRUE(at.ok());
  EXPECT_NEAR(norm(*at.left.point("hub.centre") - V{0, 0.46, 0.217}), 0, 1e-13);
  EXPECT_NEAR(norm(*at.right.point("hub.centre") - V{0, -0.46, 0.217}), 0, 1e-13);
  EXPECT_NEAR(at.left.geometry.toe.si(), 0, 1e-13);
  const double offset = 0.095 - 0.217 * std::tan(8 * degree), trail = 0.217 * std::tan(3 * degree);
  EXPECT_NEAR(at.left.geometry.steering_axis_offset_at_ground.si(), offset, 5e-6);
  EXPECT_NEAR(at.left.geometry.caster_trail.si(), trail, 5e-6);
}

// Law 2. The drag link itself is on one side, so the mirrored cart has it on the other.
TEST(BeamAxle, LeftAndRightMirror) {
  const BeamAxlePoints p = invented();
  BeamAxlePoints q = p;
  q.left = right_of(p.right);
  q.right = right_of(p.left);
  q.drag_link = {mirrored(p.drag_link.frame_end), mirrored(p.drag_link.knuckle_end), Side::right, std::nullopt};
  const AxlePose a = SteeredBeam(p).pose({m(0.03), 2.0 * units::degree, m(0.02)});
  const AxlePose b = SteeredBeam(q).pose({m(0.03), -2.0 * units::degree, m(-0.02)});
  ASSERT_TRUE(a.ok() && b.ok());
  EXPECT_NEAR(a.left.geometry.toe.si(), b.right.geometry.toe.si(), 1e-12);
  EXPECT_NEAR(a.left.geometry.camber.si(), b.right.geometry.camber.si(), 1e-12);
  EXPECT_NEAR(a.right.geometry.toe_rate.si(), b.left.geometry.toe_rate.si(), 1e-10);
}

TEST(BeamAxle, RatesAgreeWithDifferences) {
  const SteeredBeam beam(invented());
  const double h = 1e-5;
  double worst = 0;
  for (const double z : {-0.04, 0.0, 0.03}) {
    const AxlePose a = beam.pose({m(z - h), {}, m(0.02)}), b = beam.pose({m(z + h), {}, m(0.02)}),
                   at = beam.pose({m(z), {}, m(0.02)});
    for (const Side side : {Side::left, Side::right}) {
      const auto &lower = a.side(side), &upper = b.side(side);
      const double rise = upper.point("hub.centre")->z - lower.point("hub.centre")->z;
      worst = std::max(
          {worst,
           std::abs((upper.geometry.toe - lower.geometry.toe).si() / rise - at.side(side).geometry.toe_rate.si()),
           std::abs((upper.geometry.camber - lower.geometry.camber).si() / rise -
                    at.side(side).geometry.camber_rate.si())});
    }
  }
  std::cout << "worst beam rate against differences " << worst << " rad/m\n";
  EXPECT_LE(worst, 1e-6);
}

// A level drag link on a beam that rises straight up: its ball is drawn aside by the arc L - sqrt(L^2 - z^2), and
// turns the knuckle by nearly that over the arm.
TEST(BeamAxle, BumpSteerIsTheDragLinksArc) {
  BeamAxlePoints p = invented();
  p.beam.location = AxleLocation::three_links_and_track_bar;
  p.beam.springs.clear();
  p.beam.links = {{{1e3, 0.3, 0.2}, {0, 0.3, 0.2}}, {{1e3, -0.3, 0.2}, {0, -0.3, 0.2}}, {{1e3, 0, 0.4}, {0, 0, 0.4}}};
  p.beam.track_bar = {{0.05, 1e3, 0.3}, {0.05, -0.3, 0.3}};
  for (KnucklePoints* k : {&p.left, &p.right}) {  // an upright king pin
    k->king_pin_top = {0, k->king_pin_top.y > 0 ? 0.365 : -0.365, 0.277};
    k->king_pin_bottom = {0, k->king_pin_top.y, 0.157};
  }
  p.drag_link = {{0.15, -0.235, 0.26}, {0.15, 0.365, 0.26}, Side::left, std::nullopt};
  const SteeredBeam beam(p);
  ASSERT_TRUE(beam.check().empty());
  const AxlePose up = beam.pose({m(0.05)});
  ASSERT_TRUE(up.ok());
  // The ball stays 0.6 m from the frame end and 0.15 m from the king pin.
  const double l = 0.6, r = 0.15, z = 0.05;
  double turn = 0;
  for (int i = 0; i < 60; ++i) {
    const double x = r * std::cos(turn), y = 0.365 + r * std::sin(turn);
    const double f = (x - 0.15) * (x - 0.15) + (y + 0.235) * (y + 0.235) + z * z - l * l;
    turn -= f / (2 * (-(x - 0.15) * r * std::sin(turn) + (y + 0.235) * r * std::cos(turn)));
  }
  EXPECT_NEAR(-up.left.geometry.toe.si(), turn, 1e-5);  // the links are 1 km long, not endless
  EXPECT_NEAR(turn, -(l - std::sqrt(l * l - z * z)) / r, 2e-4);
}

// Law 3 the other way round: at the height that is found the wheels do not steer as the beam starts to rise.
TEST(BeamAxle, TheCureForBumpSteerIsADragLinkHeight) {
  BeamAxlePoints p = invented();
  p.drag_link.frame_end.z += 0.06;
  const SteeredBeam beam(p);
  EXPECT_GT(std::abs(bump_steer(beam, Side::left, m(-0.04), m(0.04)).at_fit.si()), 0.3);
  const auto shift = shift_for_no_bump_steer(beam, Side::left, {"drag_link.chassis_end"});
  ASSERT_TRUE(shift);
  EXPECT_LT(shift->si(), -0.04);
  p.drag_link.frame_end.z += shift->si();
  EXPECT_NEAR(bump_steer(SteeredBeam(p), Side::left, m(-0.04), m(0.04)).at_fit.si(), 0, 1e-4);
}

// A dropped knuckle whose steering arms keep their balls leaves all steering as it was.
TEST(BeamAxle, ADropKnuckleLeavesSteeringAlone) {
  const BeamAxlePoints p = invented();
  BeamAxlePoints q = p;
  q.left.hub_centre.z -= 0.075;
  q.right.hub_centre.z -= 0.075;
  for (const double z : {-0.04, 0.03}) {
    const AxlePose a = SteeredBeam(p).pose({m(z), {}, m(0.03)}), b = SteeredBeam(q).pose({m(z), {}, m(0.03)});
    ASSERT_TRUE(a.ok() && b.ok());
    EXPECT_NEAR(a.left.geometry.toe.si(), b.left.geometry.toe.si(), 1e-12);
    EXPECT_NEAR(a.left.geometry.camber.si(), b.left.geometry.camber.si(), 1e-12);
  }
}

TEST(BeamAxle, FaultsAreNamed) {
  const auto only = [](const BeamAxlePoints& p, PointFaultKind kind, const char* point) {
    const auto faults = check(p);
    ASSERT_FALSE(faults.empty());
    EXPECT_EQ(faults[0].kind, kind);
    EXPECT_EQ(faults[0].point, point);
    EXPECT_EQ(beam_pose(p, {}, {}, {}).outcome.status, PoseStatus::bad_geometry);
  };
  BeamAxlePoints p = invented();
  std::swap(p.left.king_pin_top, p.left.king_pin_bottom);
  only(p, PointFaultKind::upper_below_lower, "left.kingpin.top");
  p = invented();
  p.right.hub_centre.y = 0.4;
  only(p, PointFaultKind::wrong_side, "right.hub.centre");
  p = invented();
  p.drag_link.knuckle_end = p.left.king_pin_bottom;
  only(p, PointFaultKind::no_steering_arm, "drag_link.axle_end");
  p = invented();
  p.drag_link.frame_end.x = std::nan("");
  only(p, PointFaultKind::not_a_number, "drag_link.chassis_end");
  p = invented();
  p.drag_link.frame_end = {-0.5, 0.343, 0.25};
  p.drag_link.knuckle_end = {0.15, 0.365, 0.25};
  only(p, PointFaultKind::drag_link_in_line, "drag_link.axle_end");
  const AxlePose far = SteeredBeam(invented()).pose({{}, {}, m(0.5)});
  EXPECT_EQ(far.left.outcome.status, PoseStatus::drag_link_cannot_reach);
  ASSERT_TRUE(far.left.outcome.rack_limit);
  EXPECT_GT(far.left.outcome.rack_limit->si(), 0.05);
}

// --- shackles, blocks and wedges

LiveAxlePoints rear() {
  LiveAxlePoints p;
  p.location = AxleLocation::leaf_springs;
  p.axle_centre = {-1.8, 0, 0.217};
  p.half_track = m(0.48);
  const LeafSpringPoints left{
      {-1.28, 0.32, 0.322}, {-2.32, 0.32, 0.318}, {-2.324, 0.32, 0.388}, {-1.8, 0.32, 0.29}, {}};
  p.springs = {left, right_of(left)};
  return p;
}

TEST(SpringChange, NoChangeMovesNothing) {
  const ChangedAxle a = change_springs(rear(), {});
  EXPECT_EQ(a.axle.axle_centre, rear().axle_centre);
  EXPECT_EQ(a.carried({-1.7, 0.1, 0.3}), (V{-1.7, 0.1, 0.3}));
}

TEST(SpringChange, EqualChangesNeitherSteerNorLean) {
  const SpringChange change{m(0.06), m(0.045), -3.0 * units::degree};
  const ChangedAxle a = change_springs(rear(), {change, change});
  ASSERT_TRUE(a.outcome.ok());
  EXPECT_NEAR(a.steer.si(), 0, 1e-14);
  EXPECT_NEAR(a.lean.si(), 0, 1e-14);
  EXPECT_TRUE(check(a.axle).empty());
  const LiveAxlePose pose = live_axle_pose(a.axle, {}, {});
  ASSERT_TRUE(pose.outcome.ok());
  EXPECT_NEAR(norm(pose.centre - a.axle.axle_centre), 0, 1e-13);
}

// A block alone lets the axle down by its height along the seat's normal; a wedge alone turns it by its angle.
TEST(SpringChange, BlockAndWedgeAlone) {
  const double seat_slope = std::atan2(0.322 - 0.318, 1.04);  // of the seat's line: nearly that of the eyes'
  const SpringChange block{{}, m(0.045), {}}, wedge{{}, {}, -3.0 * units::degree};
  const ChangedAxle a = change_springs(rear(), {block, block});
  EXPECT_NEAR(a.axle_down[0].si(), 0.045 * std::cos(seat_slope), 1e-6);
  EXPECT_NEAR(a.nose_up.si(), 0, 1e-14);
  const ChangedAxle b = change_springs(rear(), {wedge, wedge});
  EXPECT_NEAR(b.nose_up.in(units::degree), -3, 1e-12);
  // Under the axle the same block lifts it.
  LiveAxlePoints under = rear();
  under.axle_centre.z = 0.36;
  EXPECT_LT(change_springs(under, {block, block}).axle_down[0].si(), -0.0449);
}

TEST(SpringChange, LeftAndRightMirrorAndLean) {
  const SpringChange change{m(0.03), m(0.02), 1.0 * units::degree};
  const ChangedAxle l = change_springs(rear(), {change, {}}), r = change_springs(rear(), {SpringChange{}, change});
  ASSERT_TRUE(l.outcome.ok() && r.outcome.ok());
  EXPECT_LT(l.lean.si(), 0);  // the left end is lower
  EXPECT_NEAR(l.lean.si(), -r.lean.si(), 1e-13);
  EXPECT_NEAR(l.steer.si(), -r.steer.si(), 1e-13);
  EXPECT_NEAR(l.axle.axle_centre.x, r.axle.axle_centre.x, 1e-13);
  EXPECT_NEAR(l.axle.axle_centre.z, r.axle.axle_centre.z, 1e-13);
  // Each end of the axle's line is where its own side puts it.
  const V seat_end = l.carried({-1.8, 0.32, 0.217});
  EXPECT_NEAR(seat_end.z, 0.217 - l.axle_down[0].si(), 1e-4);
}

TEST(SpringChange, AShackleThatDoesNotReachIsNamed) {
  const ChangedAxle a = change_springs(rear(), {SpringChange{}, SpringChange{m(-0.0695), {}, {}}});
  EXPECT_EQ(a.outcome.status, PoseStatus::shackle_cannot_reach);
  EXPECT_EQ(a.side, Side::right);
}

}  // namespace
}  // namespace trammel::suspension
