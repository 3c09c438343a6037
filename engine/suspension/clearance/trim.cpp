#include "suspension/clearance/trim.h"

#include <algorithm>
#include <cmath>

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

struct Panel {
  bool ok = false;
  PanelFrame frame;
  Length out_of_plane{};
};

// The plane by the area that the lip and the panel's own point enclose.
Panel panel_of(const Lip& lip) {
  std::vector<V> ring = lip.points;
  if (lip.on_panel) ring.push_back(*lip.on_panel);
  V middle{};
  for (const V& p : ring) middle += p;
  middle = middle / static_cast<double>(ring.size());
  V area{};
  double size = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    area += cross(ring[i] - middle, ring[(i + 1) % ring.size()] - middle);
    size = std::max(size, norm(ring[i] - middle));
  }
  Panel p;
  // Points within a 50th of their own length of one line do not tell a plane.
  if (!(norm(area) > 0.02 * size * size)) return p;
  V z = unit(area);
  // Outward, away from the middle of the cart; forward where the panel stands across it.
  const double out = z.y * middle.y;
  if (std::abs(z.y) > 0.2 ? out < 0 : z.x < 0) z = -z;
  V x = V{1, 0, 0} - z.x * z;
  if (norm(x) < 0.3) x = V{0, 1, 0} - z.y * z;
  x = unit(x);
  V y = cross(z, x);
  if (y.z < 0) {  // the panel's up stays up; seen from outside, x then runs the other way
    y = -y;
  }
  p.ok = true;
  p.frame = {middle, x, y, z};
  for (const V& q : lip.points)
    p.out_of_plane = std::max(p.out_of_plane, Length::from_si(std::abs(dot(q - middle, z))));
  return p;
}

struct Flat {
  double x, y;
};

// Places along the lip, evenly spaced, with the way into the metal.
std::vector<TrimRay> rays_along(const Lip& lip, const PanelFrame& panel, const V& wheel, double spacing) {
  std::vector<Flat> line;
  for (const V& p : lip.points) line.push_back({dot(p - panel.origin, panel.x), dot(p - panel.origin, panel.y)});
  std::vector<double> length{0};
  for (std::size_t i = 1; i < line.size(); ++i)
    length.push_back(length.back() + std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y));
  const int parts = std::max(1, static_cast<int>(std::ceil(length.back() / spacing)));
  const auto at = [&](double s) {
    std::size_t i = 1;
    while (i + 1 < line.size() && length[i] < s) ++i;
    const double step = length[i] - length[i - 1], t = step > 0 ? std::clamp((s - length[i - 1]) / step, 0.0, 1.0) : 0;
    return Flat{line[i - 1].x + t * (line[i].x - line[i - 1].x), line[i - 1].y + t * (line[i].y - line[i - 1].y)};
  };
  // Which side the metal is on: the panel's own point tells, else it lies away from the wheel.
  Flat metal{0, 0};
  const Flat middle = at(0.5 * length.back());
  if (lip.on_panel)
    metal = {dot(*lip.on_panel - panel.origin, panel.x) - middle.x,
             dot(*lip.on_panel - panel.origin, panel.y) - middle.y};
  else
    metal = {middle.x - dot(wheel - panel.origin, panel.x), middle.y - dot(wheel - panel.origin, panel.y)};

  // The lip's direction is taken over two spacings to each side, so that a corner of the polyline is rounded.
  const auto normal = [&](double s) {
    const double reach = 2 * spacing;
    const Flat a = at(std::max(0.0, s - reach)), b = at(std::min(length.back(), s + reach));
    const double l = std::hypot(b.x - a.x, b.y - a.y);
    return l > 0 ? Flat{-(b.y - a.y) / l, (b.x - a.x) / l} : Flat{0, 1};
  };
  const Flat n0 = normal(0.5 * length.back());
  const double turn = n0.x * metal.x + n0.y * metal.y < 0 ? -1 : 1;
  std::vector<TrimRay> rays;
  for (int i = 0; i <= parts; ++i) {
    const double s = length.back() * i / parts;
    const Flat p = at(s), n = normal(s);
    TrimRay r;
    r.x = p.x, r.y = p.y;
    r.inward_x = turn * n.x, r.inward_y = turn * n.y;
    rays.push_back(r);
  }
  return rays;
}

// Raises the ray's cut where this pose asks for more.
bool raise(TrimRay& ray, const PanelFrame& panel, const TyreShape& shape, const WheelStation& station,
           const TrimRequest& request) {
  const PlacedTyre tyre(shape, station.tyre);
  const V lip = panel.place(ray.x, ray.y), inward = ray.inward_x * panel.x + ray.inward_y * panel.y;
  const double wanted = request.wanted.si(), end = request.deepest_cut.si();
  V slope;
  const double here = tyre.gap_m(lip + ray.cut.si() * inward, slope) - wanted;
  if (here >= 0 && dot(slope, inward) >= 0) return false;
  if (ray.cut.si() >= end) return false;
  double t = end;
  for (int i = 0; i < 60; ++i) {
    const double f = tyre.gap_m(lip + t * inward, slope) - wanted, rate = dot(slope, inward);
    if (t == end && f < 0) {
      ray.cut = request.deepest_cut;
      ray.beyond = true;
      ray.worst = station;
      return true;
    }
    if (rate <= 0) return false;  // past its least, and the gap was kept all the way
    const double step = f / rate;
    t -= step;
    if (t <= ray.cut.si()) return false;
    if (step < 1e-7) break;
  }
  if (!(t > ray.cut.si() + 1e-9)) return false;
  ray.cut = Length::from_si(t);
  ray.worst = station;
  return true;
}

}  // namespace

Trim trim_line(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre, const Lip& lip,
               const TrimRequest& request) {
  return trim_line(places, stations(places, grid), tyre, lip, request);
}

Trim trim_line(const WheelPlaces& places, const Stations& all, const TyreShape& tyre, const Lip& lip,
               const TrimRequest& request) {
  const PoseGrid& grid = all.grid;
  Trim trim;
  if (lip.points.size() < 2) {
    trim.status = TrimStatus::lip_too_short;
    return trim;
  }
  const Panel panel = panel_of(lip);
  const WheelStation* middle = nullptr;
  for (const auto& s : all.at)
    if (s && (!middle ||
              std::abs(s->steer) + std::abs(s->rise.si()) < std::abs(middle->steer) + std::abs(middle->rise.si())))
      middle = &*s;
  if (!panel.ok || !middle) {
    trim.status = TrimStatus::no_plane;
    return trim;
  }
  trim.panel = panel.frame;
  trim.out_of_plane = panel.out_of_plane;
  trim.rays = rays_along(lip, panel.frame, middle->tyre.hub_centre, request.spacing.si());

  // Every pose for every ray; then about the worst pose in steps that halve.
  for (TrimRay& ray : trim.rays) {
    for (const auto& s : all.at)
      if (s) raise(ray, panel.frame, tyre, *s, request);
    if (ray.cut.si() == 0 || ray.beyond) continue;
    double rise = (grid.highest - grid.lowest).si() / std::max(grid.rises - 1, 1),
           steer = (grid.left_lock - grid.right_lock) / std::max(grid.steers - 1, 1);
    for (int halvings = 0; halvings < 5; ++halvings) {
      rise *= 0.5, steer *= 0.5;
      const WheelStation from = ray.worst;
      for (const auto& [a, b] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        const auto s =
            places(Length::from_si(std::clamp(from.rise.si() + a * rise, grid.lowest.si(), grid.highest.si())),
                   std::clamp(from.steer + b * steer, grid.right_lock, grid.left_lock), from.roll);
        if (s) raise(ray, panel.frame, tyre, *s, request);
      }
    }
  }
  for (const TrimRay& ray : trim.rays) trim.deepest = std::max(trim.deepest, ray.cut);
  return trim;
}

}  // namespace trammel::suspension
