// Double wishbone and wheel geometry against published rows; each test names its source.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "suspension/corners.h"
#include "suspension/geometry/travel.h"
#include "suspension/rows.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
constexpr double degree = std::numbers::pi / 180;

V point(const std::vector<rows::Row>& table, const std::string& name, double unit) {
  const rows::Row r = rows::find(table, "point", name);
  return {rows::number(r, "x") * unit, rows::number(r, "y") * unit, rows::number(r, "z") * unit};
}

// IAVSD road-vehicle benchmark (Frik, Leister & Schwartz, Vehicle System Dynamics 22, 1993, 215-253). The
// transverse leaf is taken as a link in the plane x = const: an arm whose bush line runs along x.
CornerPoints<double> iavsd() {
  const auto t = rows::read("hardpoints_iavsd_benchmark_front.csv");
  const V bush{0.1, 0, 0};
  const V upper = point(t, "U_IN", 1e-3), lower = point(t, "L_IN", 1e-3);
  CornerPoints<double> p;
  p.upper_arm = {upper + bush, upper - bush, point(t, "U_OUT", 1e-3)};
  p.lower_arm = {lower + bush, lower - bush, point(t, "L_OUT", 1e-3)};
  p.rack_end = point(t, "TR_IN", 1e-3);
  p.knuckle_end = point(t, "TR_OUT", 1e-3);
  p.hub_centre = point(t, "WC", 1e-3);
  return p;
}

// Angles as published to seven digits; positions, camber and toe derived from them.
TEST(Published, IavsdFrontSuspensionCurves) {
  const CornerPoints<double> p = iavsd();
  ASSERT_TRUE(check(p).empty());
  const CornerLinkage<double> linkage(p);
  const double fitted_arm = std::atan2(73.0, 313.0);
  double worst_angle = 0, worst_point = 0, worst_derived = 0;
  int poses = 0;
  for (const rows::Row& r : rows::read("curves_iavsd_benchmark_front.csv")) {
    const double upper = rows::number(r, "upper_link_angle_rad"), j7 = rows::number(r, "joint7_rad");
    const double j8 = rows::number(r, "joint8_rad"), j9 = rows::number(r, "kingpin_joint9_rad");
    const Length rack = -rows::number(r, "rack_mm_positive_inward_on_this_side") * units::mm;
    const auto at = linkage.pose_at_arm(Angle::from_si(fitted_arm - (upper + j7 + j8)), rack);
    ASSERT_TRUE(at.outcome.ok());
    const V link = at.upper_ball_joint - 0.5 * (p.upper_arm.front_bush + p.upper_arm.rear_bush);
    const V s = at.steering_axis, across = cross(s, V{1, 0, 0}), n = at.spin_axis;
    worst_angle =
        std::max({worst_angle, std::abs(std::atan2(-link.z, link.y) - upper),
                  std::abs(std::atan2(-s.y, s.z) + upper + j7), std::abs(std::atan2(n.x, dot(n, across)) - j9)});
    const auto near = [&](const V& a, const char* x, const char* y, const char* z) {
      worst_point =
          std::max(worst_point, norm(a - V{rows::number(r, x), rows::number(r, y), rows::number(r, z)} / 1e3));
    };
    near(at.upper_ball_joint, "upper_ball_x_mm", "upper_ball_absy_mm", "upper_ball_z_mm");
    near(at.lower_ball_joint, "lower_ball_x_mm", "lower_ball_absy_mm", "lower_ball_z_mm");
    near(at.knuckle_end, "tierod_outer_x_mm", "tierod_outer_absy_mm", "tierod_outer_z_mm");
    near(at.hub_centre, "wheel_centre_x_mm", "wheel_centre_absy_mm", "wheel_centre_z_mm");

    // The same pose by its rise.
    const Length rise = Length::from_si(at.hub_centre.z - p.hub_centre.z);
    const auto again = linkage.pose(rise, rack);
    ASSERT_TRUE(again.outcome.ok());
    worst_angle = std::max(worst_angle, norm(again.spin_axis - at.spin_axis));
    const auto g = wheel_geometry(again.wheel(), again.per_rise, 356.0 * units::mm);
    worst_derived =
        std::max({worst_derived, std::abs(g.camber.in(units::degree)-rows::number(r, "camber_deg_top_out_positive")),
                  std::abs(g.toe.in(units::degree)-rows::number(r, "toe_in_deg_positive_in"))});
    ++poses;
  }
  std::cout << "worst of " << poses << " IAVSD poses: " << worst_angle << " rad against the published angles, "
            << worst_point << " m and " << worst_derived
            << " deg against derived columns printed to 1e-6 m, 1e-5 deg\n";
  EXPECT_GE(poses, 18);
  EXPECT_LE(worst_angle, 1e-6);
  EXPECT_LE(worst_point, 1.2e-6);
  EXPECT_LE(worst_derived, 1e-6 / degree);
}

// Row IAVSD-STATIC, as published.
TEST(Published, IavsdStaticGeometry) {
  const CornerPoints<double> p = iavsd();
  const auto at = CornerLinkage<double>(p).pose({});
  const auto g = wheel_geometry(at.wheel(), at.per_rise, 356.0 * units::mm);
  EXPECT_NEAR(g.steering_axis_inclination.in(units::degree), 15.5437, 5e-5);
  EXPECT_NEAR(g.caster.si(), 0, 1e-12);
  EXPECT_NEAR(g.camber.si(), 0, 1e-12);
  const auto length = [](const V& a, const V& b) { return norm(a - b) * 1e3; };
  const V upper = 0.5 * (p.upper_arm.front_bush + p.upper_arm.rear_bush);
  const V lower = 0.5 * (p.lower_arm.front_bush + p.lower_arm.rear_bush);
  EXPECT_NEAR(length(upper, p.upper_arm.ball_joint), 336.64707, 1e-5);
  EXPECT_NEAR(length(p.upper_arm.ball_joint, p.lower_arm.ball_joint), 313.46451, 1e-5);
  EXPECT_NEAR(length(lower, p.lower_arm.ball_joint), 321.400, 5e-4);
  EXPECT_NEAR(length(p.rack_end, p.knuckle_end), 384.24601, 1e-5);
}

// Rill & Castro, Road Vehicle Dynamics, 2nd ed. (CRC 2020), ch. 5: inputs as published, curves derived with the
// book's closed form and a separate Newton solver.
CornerPoints<double> rill() {
  const auto t = rows::read("hardpoints_rill_double_wishbone.csv");
  CornerPoints<double> p;
  p.lower_arm = {point(t, "B", 1), point(t, "A", 1), point(t, "C", 1)};
  p.upper_arm = {point(t, "E", 1), point(t, "D", 1), point(t, "F", 1)};
  p.rack_end = point(t, "R", 1);
  p.knuckle_end = point(t, "Q", 1);
  p.hub_centre = point(t, "W", 1);
  // The rows show that the spin axis was set up as (toe, 1, -camber) normalised: 0.8 deg is its tangent.
  p.camber = Angle::from_si(std::atan(0.8 * degree));
  return p;
}

// A point fixed in the knuckle, carried from one pose to another by its steering and spin axes.
V carried(const CornerPose<double>& from, const CornerPose<double>& to, const V& point) {
  const auto frame = [](const CornerPose<double>& p) {
    const V c = unit(cross(p.steering_axis, p.spin_axis));
    return std::array<V, 3>{p.steering_axis, c, cross(p.steering_axis, c)};
  };
  const auto a = frame(from), b = frame(to);
  const V w = point - from.hub_centre;
  return to.hub_centre + dot(w, a[0]) * b[0] + dot(w, a[1]) * b[1] + dot(w, a[2]) * b[2];
}

TEST(Published, RillCastroDoubleWishboneCurves) {
  const CornerPoints<double> p = rill();
  ASSERT_TRUE(check(p).empty());
  const CornerLinkage<double> linkage(p);
  const auto fit = linkage.pose({});
  const V foot = wheel_geometry(fit.wheel(), fit.per_rise, 285.0 * units::mm).contact;
  double worst_point = 0, worst_angle = 0, worst_by_rise = 0;
  int poses = 0;
  for (const rows::Row& r : rows::read("curves_rill_double_wishbone.csv")) {
    const auto vec = [&](const std::string& name) {
      return V{rows::number(r, name + "_x_mm"), rows::number(r, name + "_y_mm"), rows::number(r, name + "_z_mm")} / 1e3;
    };
    const Length rack = rows::number(r, "rack_u_mm") * units::mm;
    const auto at = linkage.pose_at_arm(rows::number(r, "lower_arm_phi_deg") * units::degree, rack);
    ASSERT_TRUE(at.outcome.ok()) << r.at("lower_arm_phi_deg") << ' ' << r.at("rack_u_mm");
    worst_point = std::max(
        {worst_point, norm(at.hub_centre - vec("wheel_centre")), norm(carried(fit, at, foot) - vec("contact_ref"))});
    const auto g = wheel_geometry(at.wheel(), at.per_rise, 285.0 * units::mm);
    // The table's camber is the wheel's lean seen along the cart's x; ours is the angle of the wheel's plane.
    const double lean = -std::atan2(at.spin_axis.z, at.spin_axis.y) / degree;
    EXPECT_NEAR(sin(g.camber), -at.spin_axis.z, 1e-15);
    worst_angle = std::max({worst_angle, std::abs(lean - rows::number(r, "camber_deg_top_out_positive_left_wheel")),
                            std::abs(g.toe.in(units::degree)-rows::number(r, "toe_in_deg_positive_in_left_wheel"))});
    const auto by_rise = linkage.pose(Length::from_si(at.hub_centre.z - p.hub_centre.z), rack);
    ASSERT_TRUE(by_rise.outcome.ok());
    worst_by_rise = std::max(worst_by_rise, norm(by_rise.hub_centre - at.hub_centre));
    ++poses;
  }
  std::cout << "worst of " << poses << " Rill & Castro poses: " << worst_point << " m, " << worst_angle
            << " deg (rows printed to 1e-9 m and 1e-6 deg); solved by rise " << worst_by_rise << " m\n";
  EXPECT_GE(poses, 28);
  EXPECT_LE(worst_point, 1e-9);
  EXPECT_LE(worst_angle, 1e-6);
  EXPECT_LE(worst_by_rise, 1e-12);
}

// Row RILL-STATIC: the book's formulas on its listed data (numbers derived).
TEST(Published, RillCastroStaticGeometry) {
  const auto at = CornerLinkage<double>(rill()).pose({});
  const auto g = wheel_geometry(at.wheel(), at.per_rise, 285.0 * units::mm);
  EXPECT_NEAR(g.steering_axis_inclination.in(units::degree), 10.518207, 1e-5);
  EXPECT_NEAR(g.caster.in(units::degree), 7.056096, 1e-5);
  EXPECT_NEAR(g.caster_trail.in(units::mm), 30.32555, 1e-3);
  EXPECT_NEAR(std::abs(g.steering_axis_offset_at_ground.in(units::mm)), 1.03271, 1e-3);
}

// Row FOURBAR-1: R. L. Norton, Design of Machinery, Example 4-1 (from memory, reproduced by computation). The
// planar four-bar is laid into the front view: crank = lower arm, coupler = knuckle, rocker = upper arm.
TEST(Published, FreudensteinFourBar) {
  // Ground 100 along +z from lower to upper bush line; angles are from the ground line.
  const double a = 0.040, b = 0.120, c = 0.080, d = 0.100, theta2 = 40 * degree;
  const auto place = [](double along, double off) { return V{0, off, along}; };
  const auto crank = [&](double angle) { return place(a * std::cos(angle), a * std::sin(angle)); };
  const V bush{0.05, 0, 0}, upper = place(d, 0);
  // Fitted at the published open configuration for 40 deg, then moved away and back by the arm's angle.
  const double theta4 = 57.3249 * degree;
  CornerPoints<double> p;
  p.lower_arm = {bush, -bush, crank(theta2)};
  const V rocker = place(d + c * std::cos(theta4), c * std::sin(theta4));
  p.upper_arm = {upper + bush, upper - bush, rocker};
  p.rack_end = {0.08, 0.01, 0.06};
  p.knuckle_end = {0.08, 0.06, 0.07};
  p.hub_centre = {0, 0.08, 0.08};
  EXPECT_NEAR(norm(rocker - crank(theta2)), b, 2e-7);  // the printed angle closes the bars
  const CornerLinkage<double> linkage(p);
  ASSERT_TRUE(linkage.usable());
  double worst = 0;
  for (const double turned : {-6.0, -3.0, 0.0, 3.0, 6.0}) {
    const auto at = linkage.pose_at_arm(turned * units::degree);
    ASSERT_TRUE(at.outcome.ok());
    // Freudenstein's equation with the bars' own lengths; the arm's angle turns the crank back towards the ground.
    const double q = theta2 - turned * degree;
    const double bb = norm(rocker - crank(theta2));
    const double k1 = d / a, k2 = d / c, k3 = (a * a - bb * bb + c * c + d * d) / (2 * a * c);
    const double A = std::cos(q) - k1 - k2 * std::cos(q) + k3, B = -2 * std::sin(q),
                 C = k1 - (k2 + 1) * std::cos(q) + k3;
    const double open = 2 * std::atan((-B - std::sqrt(B * B - 4 * A * C)) / (2 * A));
    const V link = at.upper_ball_joint - upper;
    worst = std::max(worst, std::abs(std::atan2(link.y, link.z) - open));
    if (turned == 0) {
      EXPECT_NEAR(open / degree, 57.33, 0.01);
      const V coupler = at.upper_ball_joint - at.lower_ball_joint;
      EXPECT_NEAR(std::atan2(coupler.y, coupler.z) / degree, 20.298, 0.01);
    }
  }
  std::cout << "worst four-bar angle " << worst << " rad against Freudenstein's equation\n";
  EXPECT_LE(worst, 1e-10);
}

// Row PARALLEL (derived): equal parallel arms keep the camber, and the wheel moves on the arm's own arc.
TEST(Published, ParallelEqualArms) {
  CornerPoints<double> p = corners::invented();
  const double arm = 0.3, fitted = -8 * degree;
  const V lower{0, 0.1, 0.25}, upper{0, 0.1, 0.45}, bush{0.1, 0, 0},
      tip{0, arm * std::cos(fitted), arm * std::sin(fitted)};
  p.lower_arm = {lower + bush, lower - bush, lower + tip};
  p.upper_arm = {upper + bush, upper - bush, upper + tip};
  p.rack_end = V{0.1, 0.1, 0.3};
  p.knuckle_end = p.rack_end + tip;
  p.hub_centre = V{0, 0.48, 0.3};
  p.camber = p.toe = Angle{};
  const CornerLinkage<double> linkage(p);
  double worst = 0, worst_camber = 0;
  for (double angle = -30; angle <= 30; angle += 2.5) {
    const double phi = fitted + angle * degree;
    const double rise = arm * (std::sin(phi) - std::sin(fitted)), out = arm * (std::cos(phi) - std::cos(fitted));
    const auto at = linkage.pose(Length::from_si(rise));
    ASSERT_TRUE(at.outcome.ok());
    const auto g = wheel_geometry(at.wheel(), at.per_rise, 0.3 * units::metre);
    worst = std::max({worst, std::abs(at.lower_ball_joint.y - p.lower_arm.ball_joint.y - out),
                      std::abs(at.arm_angle().si() - angle * degree)});
    worst_camber =
        std::max({worst_camber, std::abs(g.camber.si()), std::abs(g.toe.si()), std::abs(g.camber_rate.si())});
    // Instant centre at infinity: the roll centre follows from the arm's slope alone.
    EXPECT_NEAR(g.roll_centre_height.si(), g.half_track.si() * -std::tan(phi), 1e-9);
  }
  std::cout << "worst parallel-arm error " << worst << " m or rad; camber and toe " << worst_camber << " rad\n";
  EXPECT_LE(worst, 1e-12);
  EXPECT_LE(worst_camber, 1e-12);
}

}  // namespace
}  // namespace trammel::suspension
