#include "suspension/clearance/sweep.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace trammel::suspension {
namespace {

// Lowers `best` where this pose is nearer.
bool try_pose(const WheelStation& station, const PlacedTyre& tyre, const BodyFeature& feature, LeastGap& best) {
  bool better = false;
  double limit = best.found ? best.gap().si() : std::numeric_limits<double>::infinity();
  each_near_piece(feature, station, tyre, limit, [&](const Solid& piece, double) {
    const TyreGap g = tyre.gap(piece, Length::from_si(limit));
    if (best.found && !(g.gap.si() < limit)) return;
    best.found = better = true;
    best.place = g;
    best.at = station;
    limit = g.gap.si();
  });
  return better;
}

void refine(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre, const BodyFeature& feature,
            LeastGap& best) {
  const auto step = [](double low, double high, int n) { return n < 2 ? 0.0 : (high - low) / (n - 1); };
  double rise = step(grid.lowest.si(), grid.highest.si(), grid.rises),
         steer = step(grid.right_lock, grid.left_lock, grid.steers),
         roll = step(-grid.roll.si(), grid.roll.si(), grid.rolls);
  static constexpr int ways[10][3] = {{1, 0, 0},  {-1, 0, 0}, {0, 1, 0},   {0, -1, 0}, {0, 0, 1},
                                      {0, 0, -1}, {1, 1, 0},  {-1, -1, 0}, {1, -1, 0}, {-1, 1, 0}};
  for (int halvings = 0; halvings < 6; ++halvings) {
    rise *= 0.5, steer *= 0.5, roll *= 0.5;
    for (int again = 0; again < 4; ++again) {
      bool better = false;
      const WheelStation from = best.at;
      for (const auto& way : ways) {
        const double r = std::clamp(from.rise.si() + way[0] * rise, grid.lowest.si(), grid.highest.si());
        const double s = std::clamp(from.steer + way[1] * steer, grid.right_lock, grid.left_lock);
        const double a = std::clamp(from.roll.si() + way[2] * roll, -grid.roll.si(), grid.roll.si());
        if (r == from.rise.si() && s == from.steer && a == from.roll.si()) continue;
        const auto station = places(Length::from_si(r), s, Angle::from_si(a));
        if (station) better = try_pose(*station, PlacedTyre(tyre, station->tyre), feature, best) || better;
      }
      if (!better) break;
    }
  }
}

}  // namespace

LeastGap mirrored(LeastGap g) {
  for (Vector3<double>* p :
       {&g.place.on_body, &g.place.on_tyre, &g.place.away, &g.at.tyre.hub_centre, &g.at.tyre.spin_axis})
    *p = mirrored(*p);
  g.at.carrier = mirrored(g.at.carrier);
  g.at.knuckle = mirrored(g.at.knuckle);
  g.at.steer = -g.at.steer;
  g.at.roll = -g.at.roll;
  return g;
}

Solid moved(const Solid& solid, MovesWith moves, const RigidMove& carrier) {
  if (moves == MovesWith::body) return solid;
  Solid s = solid;
  s.to = carrier(solid.to);
  if (moves != MovesWith::carrier) return s;
  s.from = carrier(solid.from);
  for (auto& h : s.half_edge) h = carrier.direction(h);
  return s;
}

std::vector<LeastGap> least_gaps(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre,
                                 Length tyre_radius_u, const std::vector<BodyFeature>& features) {
  return least_gaps(places, stations(places, grid), tyre, tyre_radius_u, features);
}

std::vector<LeastGap> least_gaps(const WheelPlaces& places, const Stations& all, const TyreShape& tyre,
                                 Length tyre_radius_u, const std::vector<BodyFeature>& features) {
  std::vector<LeastGap> least(features.size());
  for (const auto& station : all.at) {
    if (!station) continue;
    const PlacedTyre placed(tyre, station->tyre);
    for (std::size_t k = 0; k < features.size(); ++k) try_pose(*station, placed, features[k], least[k]);
  }
  for (std::size_t k = 0; k < features.size(); ++k) {
    if (!least[k].found) continue;
    refine(places, all.grid, tyre, features[k], least[k]);
    const Vector3<double>&away = least[k].place.away, &axis = least[k].at.tyre.spin_axis;
    const double across = dot(away, axis), radial = std::sqrt(std::max(0.0, 1 - across * across));
    least[k].u = hypot(features[k].u, radial * tyre_radius_u);
  }
  return least;
}

}  // namespace trammel::suspension
