#include "suspension/clearance/tyre_gap.h"

#include <algorithm>
#include <cmath>

#include "suspension/clearance/nearest_places.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

V square_to(const V& axis) { return unit(cross(axis, std::abs(axis.x) < 0.9 ? V{1, 0, 0} : V{0, 0, 1})); }

// The furthest place of a cylinder about `middle` in a direction.
V furthest_of_cylinder(const V& middle, const V& axis, double half, double radius, const V& direction) {
  const double along = dot(direction, axis);
  const V off = direction - along * axis;
  const double size = norm(off);
  V at = middle + (along < 0 ? -half : half) * axis;
  // Along the axis, what is left across it is rounding: the whole end is as far, and its middle will do.
  if (size > 1e-10 * norm(direction)) at += (radius / size) * (off - dot(off, axis) * axis);
  return at;
}

}  // namespace

Solid Solid::box(const V& a, const V& b) {
  const V h = 0.5 * (b - a);
  return {Kind::box, 0.5 * (a + b), b, {}, {V{std::abs(h.x), 0, 0}, V{0, std::abs(h.y), 0}, V{0, 0, std::abs(h.z)}}};
}

V Solid::nearest_to(const V& point) const {
  if (kind == Kind::point) return from;
  if (kind == Kind::box) {
    V at = from;
    for (const V& h : half_edge) {
      const double size2 = dot(h, h);
      if (size2 > 0) at += std::clamp(dot(point - from, h) / size2, -1.0, 1.0) * h;
    }
    return at;
  }
  const V along = to - from;
  const double length2 = dot(along, along);
  return length2 > 0 ? from + std::clamp(dot(point - from, along) / length2, 0.0, 1.0) * along : from;
}

V Solid::furthest(const V& direction) const {
  switch (kind) {
    case Kind::point:
      return from;
    case Kind::edge:
      return dot(direction, to - from) > 0 ? to : from;
    case Kind::round: {
      const double length = norm(to - from);
      const V axis = length > 0 ? (to - from) / length : V{0, 0, 1};
      return furthest_of_cylinder(0.5 * (from + to), axis, 0.5 * length, radius.si(), direction);
    }
    case Kind::box: {
      V at = from;
      for (const V& h : half_edge) at += (dot(direction, h) < 0 ? -1.0 : 1.0) * h;
      return at;
    }
  }
  return from;
}

PlacedTyre::PlacedTyre(const TyreShape& tyre, const TyrePlace& place)
    : centre_(place.hub_centre + tyre.centre_offset.si() * place.spin_axis), axis_(place.spin_axis) {
  const double radius = tyre.radius.si() + tyre.growth.si(), half = 0.5 * tyre.width.si();
  const double s = std::clamp(tyre.shoulder_radius.si(), 0.0, std::min(half, radius));
  core_half_ = half - s;
  core_radius_ = radius - s;
  grown_ = s + tyre.skin.si();
}

double PlacedTyre::gap_m(const V& point) const {
  const V w = point - centre_;
  const double across = dot(w, axis_);
  const double out = std::sqrt(std::max(dot(w, w) - across * across, 0.0));
  const double u = std::abs(across) - core_half_, v = out - core_radius_;
  const double pu = std::max(u, 0.0), pv = std::max(v, 0.0);
  return std::sqrt(pu * pu + pv * pv) + std::min(std::max(u, v), 0.0) - grown_;
}

V PlacedTyre::any_radial() const { return square_to(axis_); }

double PlacedTyre::gap_m(const V& point, V& slope) const {
  const V w = point - centre_;
  const double across = dot(w, axis_);
  const V off = w - across * axis_;
  const double out = norm(off);
  const double u = std::abs(across) - core_half_, v = out - core_radius_;
  const double pu = std::max(u, 0.0), pv = std::max(v, 0.0);
  const double outside = std::sqrt(pu * pu + pv * pv);
  double nu = u > v ? 1 : 0, nv = 1 - nu;
  if (outside > 0) {
    nu = pu / outside;
    nv = pv / outside;
  }
  const V radial = out > 0 ? off / out : any_radial();
  slope = (across < 0 ? -nu : nu) * axis_ + nv * radial;
  return outside + std::min(std::max(u, v), 0.0) - grown_;
}

TyreGap PlacedTyre::at(const V& point) const {
  V slope;
  const double gap = gap_m(point, slope);
  return {Length::from_si(gap), point, point - gap * slope, slope};
}

double PlacedTyre::cheap_bound_m(const Solid& solid) const {
  if (solid.kind == Solid::Kind::point) return gap_m(solid.from);
  const V c = solid.nearest_to(centre_);
  V slope;
  const double gap = gap_m(c, slope);
  return gap + dot(slope, solid.furthest(-slope) - c);
}

TyreGap PlacedTyre::edge(const V& from, const V& to) const {
  const V along = to - from;
  V slope;
  const auto rate = [&](double t) {
    gap_m(from + t * along, slope);
    return dot(slope, along);
  };
  double a = 0, b = 1, ra = rate(a), rb = rate(b);
  if (ra >= 0) return at(from);
  if (rb <= 0) return at(to);
  // The rate only grows along the edge: regula falsi, halved where it creeps.
  const double fine = 1e-10 / norm(along);
  int kept = 0;
  for (int i = 0; i < 80 && b - a > fine; ++i) {
    double t = i % 3 == 2 ? 0.5 * (a + b) : (a * rb - b * ra) / (rb - ra);
    t = std::clamp(t, a, b);
    const double r = rate(t);
    if (r == 0) return at(from + t * along);
    if (r < 0) {
      a = t;
      ra = r;
      if (kept == 1) rb *= 0.5;
      kept = 1;
    } else {
      b = t;
      rb = r;
      if (kept == 2) ra *= 0.5;
      kept = 2;
    }
  }
  const TyreGap low = at(from + a * along), high = at(from + b * along);
  return low.gap < high.gap ? low : high;
}

TyreGap PlacedTyre::part(const Solid& solid, double enough) const {
  const auto core = [&](const V& d) { return furthest_of_cylinder(centre_, axis_, core_half_, core_radius_, d); };
  const auto body = [&](const V& d) { return solid.furthest(d); };
  const NearestPlaces n = nearest_places(core, body, solid.nearest_to(centre_) - centre_, enough + grown_);
  if (!n.overlap && n.distance > enough + grown_) return {Length::from_si(n.distance - grown_), {}, {}, {}};
  if (n.overlap) {
    TyreGap g = at(solid.middle());
    g.gap = Length::from_si(-grown_);
    g.on_body = n.on_b;
    g.on_tyre = n.on_a;
    g.deeper = true;
    return g;
  }
  const V away = (n.on_b - n.on_a) / n.distance;
  return {Length::from_si(n.distance - grown_), n.on_b, n.on_a + grown_ * away, away};
}

TyreGap PlacedTyre::gap(const Solid& solid, Length enough) const {
  switch (solid.kind) {
    case Solid::Kind::point:
      return at(solid.from);
    case Solid::Kind::edge:
      return edge(solid.from, solid.to);
    case Solid::Kind::round:
    case Solid::Kind::box:
      return part(solid, enough.si());
  }
  return at(solid.from);
}

TyreGap tyre_gap(const TyreShape& tyre, const TyrePlace& place, const Solid& solid) {
  return PlacedTyre(tyre, place).gap(solid);
}
TyreGap tyre_gap(const TyreShape& tyre, const TyrePlace& place, const V& point) {
  return PlacedTyre(tyre, place).gap(Solid::point(point));
}

}  // namespace trammel::suspension
