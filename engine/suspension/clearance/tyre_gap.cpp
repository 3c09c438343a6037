#include "suspension/clearance/tyre_gap.h"

#include <algorithm>
#include <cmath>

namespace trammel::suspension {

TyreGap tyre_gap(const TyreShape& tyre, const TyrePlace& place, const Vector3<double>& point) {
  const Vector3<double>& axis = place.spin_axis;
  const Vector3<double> centre = place.hub_centre + tyre.centre_offset.si() * axis;
  const double radius = tyre.radius.si() + tyre.growth.si(), half = 0.5 * tyre.width.si();
  const double s = std::clamp(tyre.shoulder_radius.si(), 0.0, std::min(half, radius));

  // The point in the tyre's own section: across the middle plane and out from the spin axis.
  const Vector3<double> w = point - centre;
  const double across = dot(w, axis);
  const Vector3<double> off = w - across * axis;
  const double out = norm(off);
  const double u = std::abs(across) - (half - s), v = out - (radius - s);
  const double outside = std::hypot(std::max(u, 0.0), std::max(v, 0.0));
  const double depth = std::min(std::max(u, v), 0.0);

  // The way from the point to the surface in that section.
  double nu = 0, nv = 0;
  if (outside > 0) {
    nu = std::max(u, 0.0) / outside;
    nv = std::max(v, 0.0) / outside;
  } else if (u > v)
    nu = 1;
  else
    nv = 1;
  const double gap = outside + depth - s;
  Vector3<double> radial{0, 0, 0};
  if (out > 0)
    radial = off / out;
  else
    radial = unit(cross(axis, std::abs(axis.x) < 0.9 ? Vector3<double>{1, 0, 0} : Vector3<double>{0, 0, 1}));
  const Vector3<double> normal = (across < 0 ? -nu : nu) * axis + nv * radial;
  return {Length::from_si(gap), point, point - gap * normal};
}

TyreGap tyre_gap_to_edge(const TyreShape& tyre, const TyrePlace& place, const Vector3<double>& from,
                         const Vector3<double>& to) {
  const auto at = [&](double t) { return tyre_gap(tyre, place, from + t * (to - from)); };
  // Golden section on a convex function.
  constexpr double golden = 0.6180339887498949;
  double a = 0, b = 1, c = 1 - golden, d = golden;
  TyreGap gc = at(c), gd = at(d);
  for (int i = 0; i < 70; ++i) {
    if (gc.gap < gd.gap) {
      b = d;
      d = c;
      gd = gc;
      c = b - golden * (b - a);
      gc = at(c);
    } else {
      a = c;
      c = d;
      gc = gd;
      d = a + golden * (b - a);
      gd = at(d);
    }
  }
  TyreGap best = gc.gap < gd.gap ? gc : gd;
  for (const double end : {0.0, 1.0})
    if (const TyreGap g = at(end); g.gap < best.gap) best = g;
  return best;
}

}  // namespace trammel::suspension
