#include "vehicle/support_polygon.h"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace trammel::vehicle {
namespace {

// Twice the area of a, b, c seen from above; positive counter-clockwise.
template <class R>
auto turn(const Vector3<LengthOf<R>>& a, const Vector3<LengthOf<R>>& b, const Vector3<LengthOf<R>>& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// Corners of the hull, counter-clockwise, as indices.
template <class R>
std::vector<int> hull(std::span<const Vector3<LengthOf<R>>> p) {
  std::vector<int> order(p.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(),
            [&](int a, int b) { return p[a].x < p[b].x || (p[a].x == p[b].x && p[a].y < p[b].y); });
  std::vector<int> chain;
  const auto grow = [&](int i, std::size_t floor) {
    while (chain.size() >= floor + 2 &&
           value_of(turn<R>(p[chain[chain.size() - 2]], p[chain.back()], p[i]).si()) <= 0.0)
      chain.pop_back();
    chain.push_back(i);
  };
  for (int i : order) grow(i, 0);
  const std::size_t lower = chain.size() - 1;
  for (auto i = order.rbegin() + 1; i < order.rend(); ++i) grow(*i, lower);
  if (!chain.empty()) chain.pop_back();
  return chain;
}

}  // namespace

template <class R>
Hold<R> hold_on(const LumpedMass<R>& whole, std::span<const Vector3<LengthOf<R>>> points) {
  Hold<R> hold;
  if (points.size() < 3) return hold;
  const std::vector<int> corner = hull<R>(points);
  if (corner.size() < 3) return hold;
  for (std::size_t k = 0; k < corner.size(); ++k) {
    const auto &a = points[corner[k]], &b = points[corner[(k + 1) % corner.size()]];
    const LengthOf<R> inside = turn<R>(a, b, whole.at) / hypot(b.x - a.x, b.y - a.y);
    if (hold.edge[0] < 0 || inside < hold.inside) hold = {inside, {corner[k], corner[(k + 1) % corner.size()]}};
  }
  return hold;
}

template <class R>
std::array<MassOf<R>, 3> three_point_loads(const LumpedMass<R>& whole, const std::array<Vector3<LengthOf<R>>, 3>& p) {
  const auto area = turn<R>(p[0], p[1], p[2]);
  assert(value_of(area.si()) != 0.0);
  return {whole.mass * (turn<R>(p[1], p[2], whole.at) / area), whole.mass * (turn<R>(p[2], p[0], whole.at) / area),
          whole.mass * (turn<R>(p[0], p[1], whole.at) / area)};
}

#define TRAMMEL_SUPPORT_IN(R)                                                            \
  template Hold<R> hold_on(const LumpedMass<R>&, std::span<const Vector3<LengthOf<R>>>); \
  template std::array<MassOf<R>, 3> three_point_loads(const LumpedMass<R>&, const std::array<Vector3<LengthOf<R>>, 3>&);
TRAMMEL_SUPPORT_IN(double)
TRAMMEL_SUPPORT_IN(Uncertain)
#undef TRAMMEL_SUPPORT_IN

}  // namespace trammel::vehicle
