#include "vehicle/support.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <optional>

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

template <class R>
using Points = std::span<const Vector3<LengthOf<R>>>;

// By lever along the line through the two.
template <class R>
std::array<MassOf<R>, 2> two(const LumpedMass<R>& whole, Points<R> p) {
  const auto dx = p[1].x - p[0].x, dy = p[1].y - p[0].y;
  const auto along = ((whole.at.x - p[0].x) * dx + (whole.at.y - p[0].y) * dy) / (dx * dx + dy * dy);
  const MassOf<R> second = whole.mass * along;
  return {whole.mass - second, second};
}

template <class R>
std::array<MassOf<R>, 3> three(const LumpedMass<R>& whole, const std::array<Vector3<LengthOf<R>>, 3>& p) {
  const auto area = turn<R>(p[0], p[1], p[2]);
  assert(value_of(area.si()) != 0.0);
  return {whole.mass * (turn<R>(p[1], p[2], whole.at) / area), whole.mass * (turn<R>(p[2], p[0], whole.at) / area),
          whole.mass * (turn<R>(p[0], p[1], whole.at) / area)};
}

template <class R>
std::vector<PointLoad<R>> four(const LumpedMass<R>& whole, Points<R> p) {
  // What may pass between the points, for a unit on the one that is bare to begin with: loads that sum to nothing and
  // have no moment go, by turns plus and minus, with the triangles of the other three.
  const std::array areas = {turn<R>(p[1], p[2], p[3]), -turn<R>(p[0], p[2], p[3]), turn<R>(p[0], p[1], p[3]),
                            -turn<R>(p[0], p[1], p[2])};
  const auto widest = std::max_element(areas.begin(), areas.end(), [](const auto& a, const auto& b) {
    return std::abs(value_of(a.si())) < std::abs(value_of(b.si()));
  });
  const auto bare = static_cast<std::size_t>(widest - areas.begin());
  std::array<R, 4> passes;
  for (std::size_t i = 0; i < 4; ++i) passes[i] = areas[i] / *widest;

  // With that point bare the other three are statics'.
  std::array<std::size_t, 3> other{};
  for (std::size_t i = 0, k = 0; i < 4; ++i)
    if (i != bare) other[k++] = i;
  const auto on_three = three<R>(whole, {p[other[0]], p[other[1]], p[other[2]]});
  std::array<MassOf<R>, 4> begin{};
  for (std::size_t k = 0; k < 3; ++k) begin[other[k]] = on_three[k];
  const auto loads = [&](const MassOf<R>& passed) {
    std::array<MassOf<R>, 4> out;
    for (std::size_t i = 0; i < 4; ++i) out[i] = begin[i] + passed * passes[i];
    return out;
  };

  // The least sum of squares; and as far to both sides as no point pulls.
  MassOf<R> along;
  R square(0.0);
  std::optional<MassOf<R>> least, most;
  for (std::size_t i = 0; i < 4; ++i) {
    along += begin[i] * passes[i];
    square += passes[i] * passes[i];
    const double slope = value_of(passes[i]);
    if (slope == 0.0) continue;
    const MassOf<R> bared = -begin[i] / passes[i];
    if (slope > 0.0 && (!least || bared > *least)) least = bared;
    if (slope < 0.0 && (!most || bared < *most)) most = bared;
  }
  const auto even = loads(-along / square);
  const bool stands = least && most && *least <= *most;
  const auto one = stands ? loads(*least) : even, last = stands ? loads(*most) : even;
  std::vector<PointLoad<R>> out;
  for (std::size_t i = 0; i < 4; ++i) out.push_back({std::min(one[i], last[i]), even[i], std::max(one[i], last[i])});
  return out;
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
std::vector<PointLoad<R>> loads_on(const LumpedMass<R>& whole, std::span<const Vector3<LengthOf<R>>> points) {
  assert(points.size() >= 2 && points.size() <= 4);
  if (points.size() == 4) return four<R>(whole, points);
  std::vector<PointLoad<R>> out;
  const auto alone = [&](const auto& loads) {
    for (const MassOf<R>& m : loads) out.push_back({m, m, m});
  };
  if (points.size() == 3)
    alone(three<R>(whole, {points[0], points[1], points[2]}));
  else
    alone(two<R>(whole, points));
  return out;
}

#define TRAMMEL_SUPPORT_IN(R)                                                            \
  template Hold<R> hold_on(const LumpedMass<R>&, std::span<const Vector3<LengthOf<R>>>); \
  template std::vector<PointLoad<R>> loads_on(const LumpedMass<R>&, std::span<const Vector3<LengthOf<R>>>);
TRAMMEL_SUPPORT_IN(double)
TRAMMEL_SUPPORT_IN(Uncertain)
#undef TRAMMEL_SUPPORT_IN

}  // namespace trammel::vehicle
