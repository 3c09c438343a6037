// The leaf spring against closed forms, against arcs of constant curvature and against a bending beam of many short
// pieces (Bernoulli-Euler, large rotations) in static balance: second methods for the stated model. The rigid
// mechanism itself stands against an independent solver in multibody_test.cpp. Springs here are invented.
#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <iostream>

#include "suspension/linkage/leaf_spring.h"
#include "suspension/linkage/live_axle.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }
constexpr double degree = std::numbers::pi / 180;

// Eyes 1.04 m apart, the seat a little behind their middle and 60 mm below their line.
LeafSpringPoints invented() {
  return {{-1.29, 0.32, 0.39}, {-2.33, 0.32, 0.38}, {-2.335, 0.32, 0.45}, {-1.82, 0.32, 0.325}, {}};
}
LeafSpringPoints flat(double half = 0.52, double shackle = 0.07) {
  return {{half, 0, 0.4}, {-half, 0, 0.4}, {-half, 0, 0.4 + shackle}, {0, 0, 0.4}, {}};
}

TEST(LeafSpring, NothingAskedChangesNothing) {
  for (LeafSpringPoints p : {invented(), flat()}) {
    for (const double clamped : {0.0, 0.08}) {
      p.clamped = m(clamped);
      ASSERT_TRUE(check(p).empty());
      const LeafSpring spring(p);
      for (const LeafPose& a : {spring.at_rise({}), spring.at_fitted_load()}) {
        ASSERT_TRUE(a.outcome.ok());
        EXPECT_NEAR(norm(a.seat - p.seat), 0, 1e-14);
        EXPECT_NEAR(norm(a.shackled_eye - p.shackled_eye), 0, 1e-14);
        EXPECT_NEAR(a.turn.si(), 0, 1e-13);
        EXPECT_NEAR(a.curvature_change, 0, 1e-12);
      }
    }
  }
}

// The manual's rule: about the seat an eye runs on a circle of three quarters of its half's length, its centre a
// quarter of it from the seat on the seat's line.
TEST(LeafSpring, TheEyeRunsOnThreeQuartersOfTheHalf) {
  const LeafSpringPoints p = flat();
  const LeafSpring spring(p);
  double worst = 0;
  for (const double z : {-0.08, -0.03, 0.03, 0.06}) {
    const LeafPose a = spring.at_rise(m(z));
    ASSERT_TRUE(a.outcome.ok());
    const double c = std::cos(-a.turn.si()), s = std::sin(-a.turn.si());
    const V d = p.fixed_eye - a.seat;
    const double x = c * d.x - s * d.z, y = s * d.x + c * d.z;
    worst = std::max(worst, std::abs(std::hypot(x - 0.25 * 0.52, y) - 0.75 * 0.52));
  }
  std::cout << "worst radius of the eye's path against 0.75 of the half " << worst << " m\n";
  EXPECT_LE(worst, 1e-13);
}

// Shackle and chord: under one load the spring swings about its fixed eye. Of a spring with its seat midway on the
// line of the eyes the seat comes down by exactly half of what the eye does.
TEST(LeafSpring, LongerShackleAtTheSameLoadIsTwoCircles) {
  const double half = 0.52, s0 = 0.07;
  double worst = 0;
  for (const double longer : {0.01, 0.03, 0.06}) {
    const LeafPose a = LeafSpring(flat(half, s0), m(longer)).at_fitted_load();
    ASSERT_TRUE(a.outcome.ok());
    // Triangle fixed eye, pivot, eye: law of cosines.
    const double d = std::hypot(2 * half, s0), e = 2 * half, s = s0 + longer;
    const double at_fixed = std::acos((d * d + e * e - s * s) / (2 * d * e)), lean = std::atan2(s0, 2 * half);
    const double down = e * std::sin(at_fixed - lean);
    worst = std::max({worst, std::abs(a.seat.z - (0.4 - 0.5 * down)), std::abs(a.shackled_eye.z - (0.4 - down)),
                      std::abs(a.turn.si() - (at_fixed - lean))});
    EXPECT_EQ(a.curvature_change, 0.0);
  }
  std::cout << "worst shackle and chord against the law of cosines " << worst << " m or rad\n";
  EXPECT_LE(worst, 1e-13);
}

TEST(LeafSpring, RatesAgreeWithDifferences) {
  const LeafSpring spring(invented());
  double worst = 0;
  for (const double z : {-0.05, 0.0, 0.04}) {
    const double h = 1e-5;
    const LeafPose a = spring.at_rise(m(z - h)), b = spring.at_rise(m(z + h)), at = spring.at_rise(m(z));
    worst = std::max({worst, std::abs((b.seat.x - a.seat.x) / (2 * h) - at.x_per_rise),
                      std::abs((b.turn - a.turn).si() / (2 * h) - at.turn_per_rise)});
  }
  std::cout << "worst leaf-spring rate against differences " << worst << "\n";
  EXPECT_LE(worst, 1e-7);
}

TEST(LeafSpring, ShackleInFrontIsTheSameTurnedAbout) {
  const LeafSpringPoints p = invented();
  LeafSpringPoints q = p;
  for (V* v : {&q.fixed_eye, &q.shackled_eye, &q.shackle_pivot, &q.seat}) v->x = -v->x;
  const LeafPose a = LeafSpring(p).at_rise(m(0.04)), b = LeafSpring(q).at_rise(m(0.04));
  ASSERT_TRUE(a.outcome.ok() && b.outcome.ok());
  EXPECT_NEAR(a.seat.x, -b.seat.x, 1e-14);
  EXPECT_NEAR(a.turn.si(), -b.turn.si(), 1e-14);
}

TEST(LeafSpring, SaysWhereTheShackleComesInLine) {
  // Eyes nearly as far apart as the leaf is long, and a shackle already far over: it stretches out in bump.
  LeafSpringPoints p = invented();
  p.shackle_pivot = {-2.275, 0.32, 0.405};
  ASSERT_TRUE(check(p).empty());
  const LeafSpring spring(p);
  EXPECT_TRUE(spring.at_rise(m(0.01)).outcome.ok());
  const LeafPose far = spring.at_rise(m(0.3));
  ASSERT_EQ(far.outcome.status, PoseStatus::shackle_over_centre);
  ASSERT_TRUE(far.outcome.rise_limit);
  const double limit = far.outcome.rise_limit->si();
  EXPECT_TRUE(spring.at_rise(m(limit - 1e-6)).outcome.ok());
  EXPECT_FALSE(spring.at_rise(m(limit + 1e-4)).outcome.ok());
  const LeafPose last = spring.at_rise(m(limit - 1e-6));
  const double to_line = last.shackle_to_line.si();
  EXPECT_LT(std::min(to_line, std::numbers::pi - to_line), 2 * degree);
}

TEST(LeafSpring, FaultsAreNamed) {
  const auto only = [](const LeafSpringPoints& p, PointFaultKind kind, const char* point) {
    const auto faults = check(p);
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].kind, kind);
    EXPECT_EQ(faults[0].point, point);
  };
  LeafSpringPoints p = invented();
  p.seat.x = std::nan("");
  only(p, PointFaultKind::not_a_number, "seat");
  p = invented();
  p.shackle_pivot = p.shackled_eye;
  only(p, PointFaultKind::zero_length_part, "shackle_pivot");
  p = invented();
  p.seat.x = -2.4;
  only(p, PointFaultKind::leaf_seat_outside, "seat");
  p = invented();
  std::swap(p.fixed_eye, p.shackled_eye);
  only(p, PointFaultKind::leaf_eyes_exchanged, "shackle_pivot");
  p = invented();
  p.seat.z = -0.15;
  only(p, PointFaultKind::leaf_too_arched, "seat");
  p = invented();
  p.shackle_pivot = p.shackled_eye + V{-0.07, 0, -0.0007};
  only(p, PointFaultKind::leaf_shackle_in_line, "shackle_pivot");
  p = invented();
  p.clamped = m(0.7);
  only(p, PointFaultKind::zero_length_part, "clamped");
  // A shackle too short to span its pivot and the eye at this load.
  EXPECT_EQ(LeafSpring(invented(), m(-0.069)).at_fitted_load().outcome.status, PoseStatus::shackle_cannot_reach);
}

// --- second methods

// Each half an arc whose curvature changes by the same amount: what leaves of uniform strength do.
struct Arcs {
  double a, b, fitted_a, fitted_b, seat_angle;
  V fixed, pivot;
  double shackle, side;
};
// Newton with differences on seat turn and curvature.
bool arcs_at(const Arcs& s, double seat_z, double& turn, double& curvature, double& seat_x) {
  const auto ends = [&](double p, double k, double out[2]) {
    const auto end = [&](double length, double c, double sign, double& x, double& z) {
      const double u = c == 0 ? length : std::sin(c * length) / c;
      const double w = c == 0 ? 0 : (1 - std::cos(c * length)) / c;
      const double angle = s.seat_angle + p;
      x = sign * u * std::cos(angle) - w * std::sin(angle);
      z = sign * u * std::sin(angle) + w * std::cos(angle);
    };
    double fx, fz, ex, ez;
    end(s.a, s.fitted_a + k, s.side, fx, fz);
    end(s.b, s.fitted_b + k, -s.side, ex, ez);
    seat_x = s.fixed.x - fx;
    out[0] = s.fixed.z - fz - seat_z;
    out[1] = std::hypot(seat_x + ex - s.pivot.x, s.fixed.z - fz + ez - s.pivot.z) - s.shackle;
  };
  for (int i = 0; i < 60; ++i) {
    double f[2], g[2], h[2];
    const double d = 1e-7;
    ends(turn + d, curvature, g);
    ends(turn, curvature + d, h);
    ends(turn, curvature, f);
    const double a = (g[0] - f[0]) / d, b = (h[0] - f[0]) / d, c = (g[1] - f[1]) / d, e = (h[1] - f[1]) / d;
    const double det = a * e - b * c;
    turn -= (e * f[0] - b * f[1]) / det;
    curvature -= (a * f[1] - c * f[0]) / det;
    if (std::abs(f[0]) + std::abs(f[1]) < 1e-13) return true;
  }
  return false;
}

Arcs arcs_of(const LeafSpringPoints& p) {
  // The circle through both eyes and the seat.
  const double ax = p.fixed_eye.x - p.seat.x, az = p.fixed_eye.z - p.seat.z;
  const double bx = p.shackled_eye.x - p.seat.x, bz = p.shackled_eye.z - p.seat.z;
  const double d = 2 * (ax * bz - az * bx), a2 = ax * ax + az * az, b2 = bx * bx + bz * bz;
  const double cx = (bz * a2 - az * b2) / d, cz = (ax * b2 - bx * a2) / d, r = std::hypot(cx, cz);
  Arcs s{};
  s.side = ax > 0 ? 1 : -1;
  s.fitted_a = s.fitted_b = cz > 0 ? 1 / r : -1 / r;
  s.seat_angle = std::atan2(-cx * (cz > 0 ? 1 : -1), std::abs(cz));
  s.a = 2 * r * std::asin(std::sqrt(a2) / (2 * r));
  s.b = 2 * r * std::asin(std::sqrt(b2) / (2 * r));
  s.fixed = p.fixed_eye;
  s.pivot = p.shackle_pivot;
  s.shackle = std::hypot(p.shackled_eye.x - p.shackle_pivot.x, p.shackled_eye.z - p.shackle_pivot.z);
  return s;
}

TEST(LeafSpring, ArcsOfConstantCurvatureTakeTheSamePath) {
  double worst = 0, worst_turn = 0;
  for (const LeafSpringPoints& p : {invented(), flat()}) {
    LeafSpringPoints q = p;
    if (q.seat.z == q.fixed_eye.z) q.seat.z -= 1e-4;  // a circle needs three points off one line
    const Arcs arcs = arcs_of(q);
    const LeafSpring spring(q);
    for (const int way : {-1, 1}) {
      double turn = 0, curvature = 0, x = 0;
      for (int i = 1; i <= 6; ++i) {
        const double z = 0.01 * i * way;
        ASSERT_TRUE(arcs_at(arcs, q.seat.z + z, turn, curvature, x));
        const LeafPose a = spring.at_rise(m(z));
        ASSERT_TRUE(a.outcome.ok());
        worst = std::max(worst, std::abs(a.seat.x - x));
        worst_turn = std::max(worst_turn, std::abs(a.turn.si() - turn));
      }
    }
  }
  std::cout << "worst three-link path against arcs over +-60 mm: " << 1e3 * worst << " mm, turn " << worst_turn / degree
            << " deg\n";
  EXPECT_LE(worst, 1e-4);
  EXPECT_LE(worst_turn, 0.02 * degree);
}

// A leaf of many short pieces, each bent by the moment of the eye's force: static balance of eye forces and seat.
class BendingLeaf {
 public:
  enum class Section { uniform_strength, uniform };
  BendingLeaf(const LeafSpringPoints& p, Section section, double rate, double load)
      : arcs_(arcs_of(p)), section_(section) {
    // 2 E I at the seat for a rate at the seat: deflection of a cantilever is P a^3 / (2 E I), or over 3 E I.
    const double a = arcs_.a, b = arcs_.b, k = rate * a * a * b * b / (a + b);
    bending_ = section == Section::uniform_strength ? 0.5 * k : k / 3;
    // Held in balance as fitted: the eye forces of this load are taken out of the free curvature.
    const double fx = p.shackle_pivot.x - p.shackled_eye.x, fz = p.shackle_pivot.z - p.shackled_eye.z;
    const double s = std::hypot(fx, fz);
    const V from_seat = p.shackled_eye - p.seat, fixed = p.fixed_eye - p.seat;
    // Forces on the spring: up at the seat (load), from the shackle along itself, the rest at the fixed eye.
    // Moments about the fixed eye: load at the seat against the shackle's pull.
    const double arm = (from_seat.x - fixed.x) * fz / s - (from_seat.z - fixed.z) * fx / s;
    fitted_shackle_ = -load * (-fixed.x) / arm;
    fitted_fixed_ = {-fitted_shackle_ * fx / s, 0, -load - fitted_shackle_ * fz / s};
    fitted_shackle_force_ = {fitted_shackle_ * fx / s, 0, fitted_shackle_ * fz / s};
    free_fixed_ = free_curvature(arcs_.a, arcs_.fitted_a, arcs_.side, fitted_fixed_);
    free_shackled_ = free_curvature(arcs_.b, arcs_.fitted_b, -arcs_.side, fitted_shackle_force_);
    state_ << 0, p.seat.x, fitted_fixed_.x, fitted_fixed_.z, fitted_shackle_;
  }

  // Seat turn and x at this height.
  bool at(double seat_z, double& turn, double& x) {
    using Vec = Eigen::Matrix<double, 5, 1>;
    const Vec scale(1.0, 1.0, 1e3, 1e3, 1e3);
    for (int i = 0; i < 40; ++i) {
      const Vec f = residual(state_, seat_z);
      Eigen::Matrix<double, 5, 5> j;
      for (int c = 0; c < 5; ++c) {
        Vec moved = state_;
        const double h = 1e-6 * scale[c];
        moved[c] += h;
        j.col(c) = (residual(moved, seat_z) - f) / h;
      }
      const Vec step = j.fullPivLu().solve(f);
      state_ -= step;
      if (step.cwiseQuotient(scale).norm() < 1e-12) break;
    }
    turn = state_[0];
    x = state_[1];
    return residual(state_, seat_z).norm() < 1e-6;
  }

 private:
  static constexpr int pieces = 240;
  double stiffness(double s, double length) const {
    return section_ == Section::uniform ? bending_ : bending_ * std::max(1e-3, 1 - s / length);
  }
  // Moment that bends the leaf up at a place, of a force at its eye.
  static double moment(double sign, const V& force, double dx, double dz) {
    return sign * (dx * force.z - dz * force.x);
  }
  std::vector<double> free_curvature(double length, double fitted, double sign, const V& force) const {
    std::vector<double> free(pieces);
    const double ds = length / pieces, angle = arcs_.seat_angle;
    const auto point = [&](double s, double& x, double& z) {
      const double u = fitted == 0 ? s : std::sin(fitted * s) / fitted;
      const double w = fitted == 0 ? 0 : (1 - std::cos(fitted * s)) / fitted;
      x = sign * u * std::cos(angle) - w * std::sin(angle);
      z = sign * u * std::sin(angle) + w * std::cos(angle);
    };
    double ex, ez;
    point(length, ex, ez);
    for (int i = 0; i < pieces; ++i) {
      const double s = (i + 0.5) * ds;
      double x, z;
      point(s, x, z);
      free[i] = fitted - moment(sign, force, ex - x, ez - z) / stiffness(s, length);
    }
    return free;
  }
  // The eye's place from the seat, the shape found by iteration on the moments.
  V eye(double length, double sign, const std::vector<double>& free, double turn, const V& force) const {
    const double ds = length / pieces;
    std::vector<double> bend(free), x(pieces + 1), z(pieces + 1);
    for (int round = 0; round < 60; ++round) {
      double slope = 0, change = 0;
      x[0] = z[0] = 0;
      for (int i = 0; i < pieces; ++i) {
        // A piece is straight; the bend sits at its middle.
        const double angle = arcs_.seat_angle + turn + sign * (slope + 0.5 * bend[i] * ds);
        x[i + 1] = x[i] + sign * ds * std::cos(angle);
        z[i + 1] = z[i] + sign * ds * std::sin(angle);
        slope += bend[i] * ds;
      }
      for (int i = 0; i < pieces; ++i) {
        const double s = (i + 0.5) * ds;
        const double dx = x[pieces] - 0.5 * (x[i] + x[i + 1]), dz = z[pieces] - 0.5 * (z[i] + z[i + 1]);
        const double now = free[i] + moment(sign, force, dx, dz) / stiffness(s, length);
        change = std::max(change, std::abs(now - bend[i]));
        bend[i] = now;
      }
      if (change < 1e-13) break;
    }
    return {x[pieces], 0, z[pieces]};
  }
  Eigen::Matrix<double, 5, 1> residual(const Eigen::Matrix<double, 5, 1>& q, double seat_z) const {
    const V at_fixed{q[2], 0, q[3]};
    // The shackle's force along its present line: found from the eye it leads to, in a few rounds.
    V pull = q[4] * V{fitted_shackle_force_.x, 0, fitted_shackle_force_.z} / fitted_shackle_, e;
    for (int round = 0; round < 30; ++round) {
      e = V{q[1], 0, seat_z} + eye(arcs_.b, -arcs_.side, free_shackled_, q[0], pull);
      const V line = unit(V{arcs_.pivot.x - e.x, 0, arcs_.pivot.z - e.z});
      const V next = q[4] * line;
      const bool done = norm(next - pull) < 1e-10;
      pull = next;
      if (done) break;
    }
    const V f = V{q[1], 0, seat_z} + eye(arcs_.a, arcs_.side, free_fixed_, q[0], at_fixed);
    const V seat{q[1], 0, seat_z};
    const V df = f - seat, de = e - seat;
    Eigen::Matrix<double, 5, 1> r;
    r << f.x - arcs_.fixed.x, f.z - arcs_.fixed.z, std::hypot(e.x - arcs_.pivot.x, e.z - arcs_.pivot.z) - arcs_.shackle,
        1e-3 * (at_fixed.x + pull.x),  // no push along on the seat, and no couple
        1e-3 * (df.x * at_fixed.z - df.z * at_fixed.x + de.x * pull.z - de.z * pull.x);
    return r;
  }

  Arcs arcs_;
  Section section_;
  double bending_ = 0, fitted_shackle_ = 0;
  V fitted_fixed_, fitted_shackle_force_;
  std::vector<double> free_fixed_, free_shackled_;
  Eigen::Matrix<double, 5, 1> state_;
};

TEST(LeafSpring, ABendingLeafOfManyPiecesTakesNearlyTheSamePath) {
  const LeafSpringPoints p = invented();
  const LeafSpring spring(p);
  const auto compare = [&](BendingLeaf::Section section, double& worst, double& worst_turn) {
    for (const int way : {-1, 1}) {
      BendingLeaf leaf(p, section, 38e3, 2300);
      for (int i = 0; i <= 6; ++i) {
        double turn = 0, x = 0;
        ASSERT_TRUE(leaf.at(p.seat.z + 0.01 * i * way, turn, x)) << i * way;
        const LeafPose a = spring.at_rise(m(0.01 * i * way));
        if (i == 0) { EXPECT_NEAR(x, p.seat.x, 2e-5); }
        worst = std::max(worst, std::abs(a.seat.x - x));
        worst_turn = std::max(worst_turn, std::abs(a.turn.si() - turn));
      }
    }
  };
  double strength = 0, strength_turn = 0, single = 0, single_turn = 0;
  compare(BendingLeaf::Section::uniform_strength, strength, strength_turn);
  compare(BendingLeaf::Section::uniform, single, single_turn);
  std::cout << "worst over +-60 mm against 240 bending pieces in balance: leaves of uniform strength " << 1e3 * strength
            << " mm, " << strength_turn / degree << " deg; one section throughout " << 1e3 * single << " mm, "
            << single_turn / degree << " deg\n";
  EXPECT_LE(strength, 0.5e-3);
  EXPECT_LE(strength_turn, 0.25 * degree);
  EXPECT_LE(single, 1.5e-3);
  EXPECT_LE(single_turn, 0.35 * degree);
}

// Wrap: a couple on the seat of a flat spring of uniform strength turns it by M / (rate a b) where a = b.
TEST(LeafSpring, WrapStiffness) {
  const Stiffness rate = 38.0 * units::N_per_mm;
  EXPECT_NEAR(LeafSpring(flat()).wrap_stiffness(rate).si(), 38e3 * 0.52 * 0.52, 1e-6);
  // Two cantilevers of E I from the rate, an eye force P at each end of L = a + b, M = P L.
  const double a = 0.4, b = 0.6, ei2 = 38e3 * a * a * b * b / (a + b), load = 100, couple = load * (a + b);
  const double turn = (load * a * a * a / ei2 + load * b * b * b / ei2) / (a + b);
  const LeafSpringPoints p{{a, 0, 0.4}, {-b, 0, 0.4}, {-b, 0, 0.47}, {0, 0, 0.4}, {}};
  EXPECT_NEAR(LeafSpring(p).wrap_stiffness(rate).si(), couple / turn, 1e-6);
}

// --- an axle on two of them

LiveAxlePoints axle() {
  LiveAxlePoints p;
  p.location = AxleLocation::leaf_springs;
  p.axle_centre = {-1.8, 0, 0.217};
  p.half_track = m(0.48);
  p.springs = {invented(), invented()};
  for (V* v : {&p.springs[1].fixed_eye, &p.springs[1].shackled_eye, &p.springs[1].shackle_pivot, &p.springs[1].seat})
    *v = mirrored(*v);
  return p;
}

TEST(LeafAxle, RisesOnItsSpringsPathAndMirrors) {
  const LiveAxlePoints p = axle();
  ASSERT_TRUE(check(p).empty());
  const LiveAxlePose zero = live_axle_pose(p, {}, {});
  ASSERT_TRUE(zero.outcome.ok());
  EXPECT_NEAR(std::abs(zero.long_shift.si()) + std::abs(zero.steer.si()) + std::abs(zero.pinion_nose_up.si()), 0,
              1e-13);
  const LiveAxlePose up = live_axle_pose(p, m(0.05), {});
  ASSERT_TRUE(up.outcome.ok());
  EXPECT_NEAR(up.steer.si(), 0, 1e-12);
  EXPECT_NEAR(up.lateral_shift.si(), 0, 1e-12);
  EXPECT_NEAR(up.pinion_nose_up.si(), up.springs[0].turn.si(), 1e-12);
  const Angle roll = 3.0 * units::degree;
  const LiveAxlePose l = live_axle_pose(p, m(0.02), roll), r = live_axle_pose(p, m(0.02), -roll);
  ASSERT_TRUE(l.outcome.ok() && r.outcome.ok());
  EXPECT_NEAR(l.steer.si(), -r.steer.si(), 1e-12);
  EXPECT_NEAR(l.long_shift.si(), r.long_shift.si(), 1e-12);
  EXPECT_NEAR(l.pinion_nose_up.si(), r.pinion_nose_up.si(), 1e-12);
  EXPECT_NEAR(l.lateral_shift.si(), -r.lateral_shift.si(), 1e-12);
}

// Held sideways where the line from fixed eye to shackle pivot passes the axle: that is its roll centre.
TEST(LeafAxle, RollCentreOnTheLineOfItsMounts) {
  const LiveAxlePoints p = axle();
  const LiveAxlePose a = live_axle_pose(p, {}, {});
  ASSERT_TRUE(a.outcome.ok());
  const double along = (-1.29 + 1.8) / (-1.29 + 2.335), line = 0.39 + along * (0.45 - 0.39);
  EXPECT_NEAR(a.roll_centre_height.si(), line, 1e-12);
}

TEST(LeafAxle, RatesAgreeWithDifferences) {
  const LiveAxlePoints p = axle();
  const double h = 1e-5, z = 0.02, phi = 0.03;
  const auto at = [&](double rise, double roll) { return live_axle_pose(p, m(rise), Angle::from_si(roll)); };
  double worst = 0;
  const auto compare = [&](const LiveAxlePose& a, const LiveAxlePose& b, const AxleRates& r) {
    for (const auto& [d, rate] : {std::pair{(b.long_shift - a.long_shift).si(), r.long_shift},
                                  {(b.lateral_shift - a.lateral_shift).si(), r.lateral_shift},
                                  {(b.steer - a.steer).si(), r.steer},
                                  {(b.pinion_nose_up - a.pinion_nose_up).si(), r.pinion_nose_up}})
      worst = std::max(worst, std::abs(d / (2 * h) - rate));
  };
  compare(at(z - h, phi), at(z + h, phi), at(z, phi).per_rise);
  compare(at(z, phi - h), at(z, phi + h), at(z, phi).per_roll);
  std::cout << "worst leaf-axle rate against differences " << worst << "\n";
  EXPECT_LE(worst, 1e-7);
}

TEST(LeafAxle, SpringFaultsNameTheSpring) {
  LiveAxlePoints p = axle();
  std::swap(p.springs[1].fixed_eye, p.springs[1].shackled_eye);
  const auto faults = check(p);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].kind, PointFaultKind::leaf_eyes_exchanged);
  EXPECT_EQ(faults[0].point, "right.leaf.shackle_pivot");
  p = axle();
  p.springs.pop_back();
  EXPECT_EQ(check(p).at(0).kind, PointFaultKind::wrong_number_of_links);
  const LiveAxlePose far = live_axle_pose(axle(), m(1.0), {});
  EXPECT_EQ(far.outcome.status, PoseStatus::shackle_over_centre);
  ASSERT_TRUE(far.outcome.rise_limit);
  EXPECT_GT(far.outcome.rise_limit->si(), 0.05);
}

}  // namespace
}  // namespace trammel::suspension
