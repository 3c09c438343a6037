#include "suspension/clearance/nearest_places.h"

#include <initializer_list>
#include <limits>

namespace trammel::suspension::nearest_detail {
namespace {

using V = Vector3<double>;

Simplex of(std::initializer_list<Corner> corners) {
  Simplex s;
  for (const Corner& c : corners) s.corner[s.size++] = c;
  return s;
}

Simplex nearest_of_point(Corner a) {
  a.share = 1;
  return of({a});
}

Simplex nearest_of_edge(Corner a, Corner b) {
  const V ab = b.w - a.w;
  const double t = -dot(a.w, ab), length = dot(ab, ab);
  if (t <= 0 || length == 0) return nearest_of_point(a);
  if (t >= length) return nearest_of_point(b);
  b.share = t / length;
  a.share = 1 - b.share;
  return of({a, b});
}

double squared(const Simplex& s) {
  V at{};
  for (int i = 0; i < s.size; ++i) at += s.corner[i].share * s.corner[i].w;
  return dot(at, at);
}

Simplex nearest_of_triangle(Corner a, Corner b, Corner c) {
  const V ab = b.w - a.w, ac = c.w - a.w;
  const double d1 = -dot(ab, a.w), d2 = -dot(ac, a.w);
  if (d1 <= 0 && d2 <= 0) return nearest_of_point(a);
  const double d3 = -dot(ab, b.w), d4 = -dot(ac, b.w);
  if (d3 >= 0 && d4 <= d3) return nearest_of_point(b);
  const double vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return nearest_of_edge(a, b);
  const double d5 = -dot(ab, c.w), d6 = -dot(ac, c.w);
  if (d6 >= 0 && d5 <= d6) return nearest_of_point(c);
  const double vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return nearest_of_edge(a, c);
  const double va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return nearest_of_edge(b, c);
  // A sliver's rounding may call a place inside that is not: then the best of its edges.
  if (!(va > 0 && vb > 0 && vc > 0)) {
    Simplex best = nearest_of_edge(a, b);
    for (const Simplex& other : {nearest_of_edge(a, c), nearest_of_edge(b, c)})
      if (squared(other) < squared(best)) best = other;
    return best;
  }
  const double sum = va + vb + vc;
  b.share = vb / sum;
  c.share = vc / sum;
  a.share = 1 - b.share - c.share;
  return of({a, b, c});
}

}  // namespace

bool Simplex::reduce() {
  if (size == 1) *this = nearest_of_point(corner[0]);
  if (size == 2) *this = nearest_of_edge(corner[0], corner[1]);
  if (size == 3) *this = nearest_of_triangle(corner[0], corner[1], corner[2]);
  if (size < 4) return false;

  // A tetrahedron: the nearest of those faces that look towards the origin; inside where none does.
  static constexpr int faces[4][4] = {{0, 1, 2, 3}, {0, 1, 3, 2}, {0, 2, 3, 1}, {1, 2, 3, 0}};
  Simplex best;
  double least = std::numeric_limits<double>::infinity();
  bool outside = false;
  for (const auto& f : faces) {
    const V &a = corner[f[0]].w, &b = corner[f[1]].w, &c = corner[f[2]].w, &d = corner[f[3]].w;
    const V n = cross(b - a, c - a);
    const double to_origin = -dot(a, n), to_fourth = dot(d - a, n);
    // A flat tetrahedron tells no inside: all its faces are tried.
    const bool flat = to_fourth * to_fourth <= 1e-24 * dot(n, n);
    if (!flat && to_origin * to_fourth > 0) continue;
    outside = true;
    const Simplex s = nearest_of_triangle(corner[f[0]], corner[f[1]], corner[f[2]]);
    const double d2 = squared(s);
    if (d2 < least) {
      least = d2;
      best = s;
    }
  }
  if (!outside) return true;
  *this = best;
  return false;
}

}  // namespace trammel::suspension::nearest_detail
