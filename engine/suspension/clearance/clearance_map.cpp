#include "suspension/clearance/clearance_map.h"

#include <cmath>
#include <limits>
#include <numeric>

namespace trammel::suspension {
namespace {

// Features of one station, nearest first found: the running least culls the rest by their cheap bounds.
struct Least {
  double gap = std::numeric_limits<double>::infinity();
  int feature = -1;
};

void lower(const WheelStation& station, const PlacedTyre& tyre, const std::vector<BodyFeature>& features, int k,
           Least& least) {
  each_near_piece(features[static_cast<std::size_t>(k)], station, tyre, least.gap,
                  [&](const Solid& piece, double bound) {
                    const bool point = piece.kind == Solid::Kind::point;
                    const double gap = point ? bound : tyre.gap(piece, Length::from_si(least.gap)).gap.si();
                    if (gap < least.gap) least = {gap, k};
                  });
}

// `first` is tried before the others: what was nearest in the pose before mostly is so in the next.
Least least_of(const WheelStation& station, const TyreShape& shape, const std::vector<BodyFeature>& features,
               int first) {
  const PlacedTyre tyre(shape, station.tyre);
  Least least;
  if (first >= 0) lower(station, tyre, features, first, least);
  for (int k = 0; k < static_cast<int>(features.size()); ++k)
    if (k != first) lower(station, tyre, features, k, least);
  return least;
}

// Whether every piece keeps the gap in one pose.
bool all_keep(const WheelStation& station, const PlacedTyre& tyre, const std::vector<BodyFeature>& features,
              Length wanted) {
  Least least{wanted.si(), -1};
  for (int k = 0; k < static_cast<int>(features.size()) && least.feature < 0; ++k)
    lower(station, tyre, features, k, least);
  return least.feature < 0;
}

// The greatest size in the range at which every pose keeps the gap. One way through the poses: what keeps the gap at
// the greatest size left is passed over, what does not lowers that size to its own. Poses are taken far from each
// other, so that the size comes down early.
template <class ShapeOf>
std::optional<Length> greatest(const Stations& all, const std::vector<BodyFeature>& features, SizeRange range,
                               Length wanted, const ShapeOf& shape) {
  Length size = range.greatest;
  const std::size_t count = all.at.size();
  std::size_t stride = static_cast<std::size_t>(0.618 * static_cast<double>(count)) | 1;
  while (std::gcd(stride, count) > 1) stride += 2;
  for (std::size_t i = 0; i < count; ++i) {
    const auto& station = all.at[i * stride % count];
    if (!station) continue;
    if (!all_keep(*station, PlacedTyre(shape(size), station->tyre), features, wanted)) {
      const auto passes = [&](Length s) {
        return all_keep(*station, PlacedTyre(shape(s), station->tyre), features, wanted);
      };
      if (!passes(range.least)) return std::nullopt;
      Length low = range.least, high = size;
      while ((high - low).si() > 1e-5) {
        const Length middle = 0.5 * (low + high);
        (passes(middle) ? low : high) = middle;
      }
      size = low;
    }
  }
  return size;
}

}  // namespace

ClearanceMap clearance_map(const Stations& all, const TyreShape& tyre, const std::vector<BodyFeature>& features) {
  const PoseGrid& grid = all.grid;
  ClearanceMap map{grid, {}};
  map.cells.reserve(static_cast<std::size_t>(grid.rises) * static_cast<std::size_t>(grid.steers));
  int last = -1;
  std::size_t next = 0;
  for (int cell = 0; cell < grid.rises * grid.steers; ++cell) {
    Least least;
    for (int k = 0; k < grid.rolls; ++k) {
      const auto& station = all.at[next++];
      if (!station) continue;
      const Least l = least_of(*station, tyre, features, last);
      if (l.gap < least.gap) least = l;
    }
    if (least.feature >= 0) last = least.feature;
    map.cells.push_back({Length::from_si(least.feature < 0 ? 0 : least.gap), least.feature});
  }
  return map;
}

SteerStop steer_stop(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre,
                     const std::vector<BodyFeature>& features, Length wanted, Side side, bool to_the_left) {
  const double lock = to_the_left ? grid.left_lock : grid.right_lock;
  SteerStop stop;
  // Whether a feature comes too near with the steering there, and which; poses in which none does are passed over
  // quickly.
  const auto too_near = [&](double share) {
    Least least{wanted.si(), -1};
    for (int i = 0; i < grid.rises; ++i)
      for (int k = 0; k < grid.rolls; ++k)
        if (const auto s = places(grid.rise(i), share * lock, grid.roll_of(k))) {
          const PlacedTyre placed(tyre, s->tyre);
          const double before = least.gap;
          for (int f = 0; f < static_cast<int>(features.size()); ++f) lower(*s, placed, features, f, least);
          if (least.gap < before) stop.at = *s;
        }
    if (least.feature >= 0) stop.feature = least.feature;
    return least.feature >= 0;
  };
  const auto settle = [&](double share) {
    stop.share = share;
    const Length level =
        0.0 < grid.lowest.si() || 0.0 > grid.highest.si() ? 0.5 * (grid.lowest + grid.highest) : Length{};
    if (const auto s = places(level, share * lock, {})) stop.angle = steer_angle(s->tyre, side);
    return stop;
  };

  constexpr int steps = 24;
  double kept = 0;
  for (int i = 0; i <= steps; ++i) {
    const double share = static_cast<double>(i) / steps;
    if (!too_near(share)) {
      kept = share;
      continue;
    }
    if (i == 0) {
      stop.no_help = true;
      return settle(0);
    }
    double over = share;
    while (over - kept > 1e-4) {
      const double middle = 0.5 * (kept + over);
      (too_near(middle) ? over : kept) = middle;
    }
    return settle(kept);
  }
  stop.whole = true;
  return settle(1);
}

bool keeps_gap(const Stations& all, const TyreShape& shape, const std::vector<BodyFeature>& features, Length wanted) {
  for (const auto& station : all.at)
    if (station && !all_keep(*station, PlacedTyre(shape, station->tyre), features, wanted)) return false;
  return true;
}

std::optional<Length> least_gap(const Stations& all, const TyreShape& shape, const std::vector<BodyFeature>& features) {
  Least least;
  for (const auto& station : all.at) {
    if (!station) continue;
    const PlacedTyre tyre(shape, station->tyre);
    for (int k = 0; k < static_cast<int>(features.size()); ++k) lower(*station, tyre, features, k, least);
  }
  return least.feature < 0 ? std::nullopt : std::optional(Length::from_si(least.gap));
}

std::optional<Length> largest_radius(const Stations& all, const TyreOfSize& tyre, Length width, SizeRange range,
                                     const std::vector<BodyFeature>& features, Length wanted) {
  return greatest(all, features, range, wanted, [&](Length radius) { return tyre(radius, width); });
}
std::optional<Length> widest(const Stations& all, const TyreOfSize& tyre, Length radius, SizeRange range,
                             const std::vector<BodyFeature>& features, Length wanted) {
  return greatest(all, features, range, wanted, [&](Length width) { return tyre(radius, width); });
}

}  // namespace trammel::suspension
