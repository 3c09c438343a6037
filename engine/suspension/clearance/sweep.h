// The least gap between a tyre and features of the body over rise, steer and roll.
//
// Every pose of a grid is tried for every feature, the cheap bound first; around each feature's least pose the grid
// is refined by halving down to a 64th of its step. The grid's ends are poses of it, so that full lock and full bump
// are always tried. A pose that the linkage cannot reach is skipped and counted.
// A feature may move with the arm or axle that carries the wheel, whole or with its second end only (a spring).
// Uncertainty (JCGM 100:2008 5.1.2): u^2 = u_feature^2 + (share . u_radius)^2, u_feature of each coordinate of the
// feature's place, share the radial part of the way from tyre to feature. The linkage's own: gap_spread.h.
// Error: of the least gap under 1e-4 m where it lies inside the range, 1e-9 m at its ends.
// Law 1: a wider range of rise, steer or roll never raises the least gap, but for that error.
// Law 2: left and right mirror.
#pragma once

#include <vector>

#include "suspension/clearance/wheel_places.h"

namespace trammel::suspension {

// far_end: only `to` is carried; the last one by the knuckle, as the lower end of a strut's spring.
enum class MovesWith { body, carrier, far_end, far_end_by_knuckle };

struct BodyFeature {
  std::vector<Solid> pieces;  // more than one for a curve
  Length u{};                 // standard uncertainty of each coordinate of its place
  MovesWith moves = MovesWith::body;
};

// The pieces of a feature whose cheap bound is below `limit`, which `take` may lower: take(piece as the carrier has
// it). The gap falls by no more than one goes, so that pieces of a curve near to one far off are passed over.
template <class Take>
void each_near_piece(const BodyFeature& feature, const WheelStation& station, const PlacedTyre& tyre,
                     const double& limit, const Take& take);

// A piece where the carrier, or the knuckle, has it.
Solid moved(const Solid& solid, MovesWith moves, const RigidMove& carrier);

template <class Take>
void each_near_piece(const BodyFeature& feature, const WheelStation& station, const PlacedTyre& tyre,
                     const double& limit, const Take& take) {
  double far = -1;  // how much further the curve may go on before it could come below the limit
  for (std::size_t i = 0; i < feature.pieces.size(); ++i) {
    const Solid& piece = feature.pieces[i];
    if (far > 0 && feature.moves == MovesWith::body && piece.kind == Solid::Kind::edge) {
      far -= norm(piece.to - piece.from);
      if (far > 0) continue;
    }
    const auto near = [&](const Solid& now) {
      const double bound = tyre.cheap_bound_m(now);
      far = bound - limit;
      if (bound < limit) take(now, bound);
    };
    if (feature.moves == MovesWith::body)
      near(piece);
    else
      near(moved(piece, feature.moves,
                 feature.moves == MovesWith::far_end_by_knuckle ? station.knuckle : station.carrier));
  }
}

struct LeastGap {
  bool found = false;  // false where no pose could be reached
  TyreGap place;
  Length u{};
  WheelStation at;
  Length gap() const { return place.gap; }
};
// Of the other wheel of an axle that is its own mirror image: steer and roll change their sign, so does y.
LeastGap mirrored(LeastGap gap);

std::vector<LeastGap> least_gaps(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre,
                                 Length tyre_radius_u, const std::vector<BodyFeature>& features);
// The same with the grid's poses at hand.
std::vector<LeastGap> least_gaps(const WheelPlaces& places, const Stations& stations, const TyreShape& tyre,
                                 Length tyre_radius_u, const std::vector<BodyFeature>& features);

}  // namespace trammel::suspension
