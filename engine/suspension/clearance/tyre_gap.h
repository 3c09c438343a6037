// The least gap between a body point or edge and a tyre, in closed form.
//
// The tyre is a solid of revolution about the spin axis: a cylinder of radius R and width W whose shoulders are
// rounded with radius s. That is a smaller cylinder (R - s, W - 2 s) grown by s on all sides, so with a, r the
// point's distance from the wheel's middle plane and from the spin axis
//   u = a - (W/2 - s), v = r - (R - s)
//   gap = hypot(max(u,0), max(v,0)) + min(max(u,v), 0) - s
// negative inside (how deep). Growth by speed and wear is added to R; the tolerance skin is taken off the gap.
// Along an edge the gap is a convex function of the place, so its least value is found by halving.
// Range: 0 <= s <= min(W/2, R). Error: rounding for points, 1e-9 m along edges.
// Ignores tread blocks, sidewall bulge under load, chains.
#pragma once

#include "measure/quantity.h"
#include "measure/vector3.h"

namespace trammel::suspension {

struct TyreShape {
  Length radius{}, width{};  // outside, unloaded
  Length shoulder_radius{};
  Length growth{};         // added to the radius
  Length centre_offset{};  // of the tyre's middle plane from the hub centre, positive outward
};

// Where the tyre is: hub centre and outward spin axis (unit), cart frame.
struct TyrePlace {
  Vector3<double> hub_centre, spin_axis;
};

struct TyreGap {
  Length gap{};             // negative where the tyre is inside
  Vector3<double> on_body;  // the body's nearest place
  Vector3<double> on_tyre;  // the tyre's nearest place, on its surface
};

TyreGap tyre_gap(const TyreShape& tyre, const TyrePlace& place, const Vector3<double>& point);
TyreGap tyre_gap_to_edge(const TyreShape& tyre, const TyrePlace& place, const Vector3<double>& from,
                         const Vector3<double>& to);

}  // namespace trammel::suspension
