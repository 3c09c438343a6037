// A leaf spring with one fixed eye and one on a shackle: from the seat's rise to its place and turn.
//
// Model: the three-link equivalent of the SAE leaf spring manual. Each half of the spring is a rigid link from
// its eye to a pin in the seat's line, a quarter of the half's active length from the clamp: the eye's path about
// the seat has three quarters of that length as radius. Between the pins the seat is rigid with the axle.
// Under load both halves carry the same moment at the seat, so both change their curvature alike:
//   turn of a half's link against the seat = k 2/3 a,  k change of curvature (1/m, positive: arched more), a its length
// Side view only (x, z): C seat, F fixed eye, E shackled eye, S shackle pivot, s shackle length, p seat turn
//   F = C + R(p) (p1 + R(+-2/3 k a) l1),  E = C + R(p) (p2 + R(-+2/3 k b) l2),  |E - S| = s,  C.z as given
// As it stands the main leaf is the circle through both eyes with a straight clamp at the seat: that gives the
// seat's line and both lengths. Wrap: a couple M about y turns the seat by M / (r a^2 b^2 / (a^2 - a b + b^2)),
// r the rate at the seat. At the same load k stays 0: with a longer shackle the spring swings about its fixed eye.
// Frame: cart, side view; turn positive nose up (x towards z). Rates by seat rise are exact.
// Ignores: splay of the springs, eyes off the main leaf's line (15 mm: 1 mm of path over 50 mm of rise), friction
// between leaves, the seat's couple from the shackle's slant. Range: halves within 35 deg of the seat's line.
// Error of the model: uniform-strength leaves bend to arcs, paths agree within 0.1 mm over +-60 mm of rise on a 1 m
// spring; a single leaf of one section has a radius of 5/6 in place of 3/4 (tests/suspension/leaf_spring_test.cpp).
// Source: SAE HS-788, Manual on Design and Application of Leaf Springs, geometry chapter (three-link equivalent; from
// memory, its being made of front leaf, clamp, rear leaf and shackle read in secondary documentation).
#pragma once

#include <vector>

#include "measure/quantity.h"
#include "measure/vector3.h"
#include "suspension/linkage/outcome.h"
#include "suspension/linkage/point_fault.h"

namespace trammel::suspension {

struct LeafSpringPoints {
  Vector3<double> fixed_eye, shackled_eye, shackle_pivot;
  Vector3<double> seat;  // centre bolt, on the main leaf
  Length clamped{};      // length that the U-bolts hold rigid, half of it on either side of the seat
};

// Points are named "seat", "fixed_eye", "shackled_eye", "shackle_pivot", "clamped".
std::vector<PointFault> check(const LeafSpringPoints& points);

struct LeafPose {
  PoseOutcome outcome;
  Vector3<double> seat, shackled_eye;  // y as fitted
  Angle turn{};                        // of the seat from its fitted line, nose up
  double curvature_change = 0;         // 1/m, positive: arched more
  Angle shackle_swing{};               // of the shackle from its fitted line, about y in side view, x towards z
  Angle shackle_to_line{};             // shackle against the line of both eyes; 0 or 180 deg is over centre
  double x_per_rise = 0;               // m per m of seat rise
  double turn_per_rise = 0;            // rad per m
};

class LeafSpring {
 public:
  // `shackle_change`: a longer shackle than the fitted one; the fitted points need no fault by check().
  explicit LeafSpring(const LeafSpringPoints& points, Length shackle_change = {});

  // The seat `rise` above its fitted height; followed from `from`, a pose nearby (the fitted one where none).
  LeafPose at_rise(Length rise, const LeafPose* from = nullptr) const;
  // The spring under the load that it bears as fitted: not bent, swung about its fixed eye to meet its shackle.
  LeafPose at_fitted_load() const;

  Length fixed_half() const { return Length::from_si(a_); }  // active lengths
  Length shackled_half() const { return Length::from_si(b_); }
  // Unit, square to the seat's line as fitted, upward.
  Vector3<double> seat_normal() const;
  // Couple about y per radian of seat turn, for a spring of this rate at its seat.
  RollStiffness wrap_stiffness(Stiffness rate) const;

 private:
  struct Pair {
    double x = 0, z = 0;
  };
  LeafPose pose(double seat_z, double turn, double curvature) const;
  bool close(double seat_z, double& turn, double& curvature) const;

  LeafSpringPoints points_;
  double side_ = 1;  // +1: the fixed eye is ahead of the seat
  double a_ = 0, b_ = 0, shackle_ = 0;
  Pair to_pin_, link_, to_other_pin_, other_link_;  // as fitted, side view
  double branch_ = 0;                               // sign of the fitted determinant
};

}  // namespace trammel::suspension
