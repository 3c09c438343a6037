// The least gap between a tyre and a piece of the body: point, edge, round part or box.
//
// The tyre is a solid of revolution about the spin axis: a cylinder of radius R and width W whose shoulders are
// rounded with radius s. That is a smaller cylinder, its core (R - s, W - 2 s), grown by s on all sides. With a, r
// a point's distance from the wheel's middle plane and from the spin axis
//   u = a - (W/2 - s), v = r - (R - s)
//   gap = hypot(max(u,0), max(v,0)) + min(max(u,v), 0) - s - skin
// negative inside (how deep). Growth by speed and wear is added to R, the tolerance skin lies all round.
// The gap is convex in the point's place with a slope of one, so
//   along an edge     its least value is where its slope changes sign, found by bracketing
//   of any solid      gap(c) + min over the solid of slope(c) . (p - c) is never more than the least gap: cheap_bound,
//                     c being the place nearest to the tyre's middle
//   round part, box   the nearest places of the two cores are found by Gilbert, Johnson and Keerthi's method
// Range: 0 <= s <= min(W/2, R). Error: rounding for points, 1e-9 m along edges, 1e-7 m for round parts and boxes;
// where a round part or box reaches into the core the gap is told as -s - skin and `deeper` is set.
// Ignores tread blocks, sidewall bulge under load, chains.
// Law 1: a thicker skin lowers the gap by as much.   Law 2: the cheap bound is never above the gap.
// Source: Gilbert, Johnson & Keerthi 1988, IEEE J. Robotics and Automation 4(2), 193-203 (from memory).
#pragma once

#include <array>
#include <limits>

#include "measure/quantity.h"
#include "measure/vector3.h"

namespace trammel::suspension {

struct TyreShape {
  Length radius{}, width{};  // outside, unloaded
  Length shoulder_radius{};
  Length growth{};         // added to the radius
  Length centre_offset{};  // of the tyre's middle plane from the hub centre, positive outward
  Length skin{};           // tolerance, all round
};

// Where the tyre is: hub centre and outward spin axis (unit), cart frame.
struct TyrePlace {
  Vector3<double> hub_centre, spin_axis;
};

// A convex piece of the body. A curve is a row of edges.
struct Solid {
  enum class Kind { point, edge, round, box };
  Kind kind = Kind::point;
  Vector3<double> from, to;                  // point: `from`; edge and round: the two ends; box: its middle in `from`
  Length radius{};                           // round
  std::array<Vector3<double>, 3> half_edge;  // box: from its middle to the middle of a face

  static Solid point(const Vector3<double>& at) { return {Kind::point, at, at, {}, {}}; }
  static Solid edge(const Vector3<double>& a, const Vector3<double>& b) { return {Kind::edge, a, b, {}, {}}; }
  static Solid round(const Vector3<double>& a, const Vector3<double>& b, Length radius) {
    return {Kind::round, a, b, radius, {}};
  }
  // Along the cart's axes, between two opposite corners.
  static Solid box(const Vector3<double>& corner, const Vector3<double>& opposite);

  Vector3<double> middle() const { return kind == Kind::edge || kind == Kind::round ? 0.5 * (from + to) : from; }
  // The place of its middle line, or of a box itself, that is nearest to a point.
  Vector3<double> nearest_to(const Vector3<double>& point) const;
  // Its furthest place in a direction.
  Vector3<double> furthest(const Vector3<double>& direction) const;
};

struct TyreGap {
  Length gap{};             // negative where the tyre is inside
  Vector3<double> on_body;  // the body's nearest place
  Vector3<double> on_tyre;  // the tyre's nearest place, on its surface
  Vector3<double> away;     // unit, from the tyre's surface to the body
  bool deeper = false;      // the true depth is more than this
};

// One tyre in one place, made once for many gaps.
class PlacedTyre {
 public:
  PlacedTyre(const TyreShape& shape, const TyrePlace& place);
  double gap_m(const Vector3<double>& point) const;                          // metres
  double gap_m(const Vector3<double>& point, Vector3<double>& slope) const;  // and its slope, unit
  // Where the gap is more than `enough`, any value from there up to the gap may be told, without its places.
  TyreGap gap(const Solid& solid, Length enough = Length::from_si(std::numeric_limits<double>::infinity())) const;
  double cheap_bound_m(const Solid& solid) const;  // metres
  const Vector3<double>& centre() const { return centre_; }
  const Vector3<double>& axis() const { return axis_; }

 private:
  TyreGap edge(const Vector3<double>& from, const Vector3<double>& to) const;
  TyreGap part(const Solid& solid, double enough) const;
  TyreGap at(const Vector3<double>& point) const;
  Vector3<double> any_radial() const;

  Vector3<double> centre_, axis_;
  double core_half_, core_radius_, grown_;  // grown: shoulder and skin
};

TyreGap tyre_gap(const TyreShape& tyre, const TyrePlace& place, const Solid& solid);
TyreGap tyre_gap(const TyreShape& tyre, const TyrePlace& place, const Vector3<double>& point);

}  // namespace trammel::suspension
