// The least gap over rise and steer as a map, and what follows from it: where the steering is to stop, and the
// largest tyre that clears.
//
// Map: each cell of the grid holds the least gap to any feature over the grid's rolls, and which feature it is.
// Steer stop: the greatest share of the lock, going out from straight ahead to one side, up to which every pose of
// rise and roll keeps the wanted gap: the first step of the grid that does not, then bisection. Nothing where the gap
// is short already straight ahead: no stop helps there.
// Largest tyre: greatest radius at a width (or width at a radius) at which every pose of the grid keeps the wanted
// gap, by bisection; a bigger tyre of one make is nowhere smaller, so the gap only falls. The hub stays in its place.
// Error: map exact for its poses; stop 1e-4 of the lock; size 1e-5 m; both of the grid's poses.
// Law 1: the map's least cell is the sweep's least gap before it is refined.
// Law 2: at the largest tyre the least gap is the wanted one.
#pragma once

#include "suspension/clearance/sweep.h"

namespace trammel::suspension {

struct MapCell {
  Length gap{};
  int feature = -1;  // of the features given; -1 where no pose of the cell could be reached
};
struct ClearanceMap {
  PoseGrid grid;
  std::vector<MapCell> cells;  // rise by rise
  const MapCell& cell(int rise, int steer) const { return cells[static_cast<std::size_t>(rise * grid.steers + steer)]; }
};
ClearanceMap clearance_map(const Stations& stations, const TyreShape& tyre, const std::vector<BodyFeature>& features);

struct SteerStop {
  double share = 0;      // of the lock, 0 to 1
  bool whole = false;    // the whole lock keeps the gap
  bool no_help = false;  // the gap is short straight ahead
  Angle angle{};         // of this wheel at the fitted height, positive to the left
  int feature = -1;      // what stops it
  WheelStation at;       // in the first pose beyond the stop that comes too near
};
SteerStop steer_stop(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre,
                     const std::vector<BodyFeature>& features, Length wanted, Side side, bool to_the_left);

// What a tyre of a size is like.
using TyreOfSize = std::function<TyreShape(Length radius, Length width)>;
struct SizeRange {
  Length least{}, greatest{};
};
// Nothing where even the least does not keep the gap.
std::optional<Length> largest_radius(const Stations& stations, const TyreOfSize& tyre, Length width, SizeRange range,
                                     const std::vector<BodyFeature>& features, Length wanted);
std::optional<Length> widest(const Stations& stations, const TyreOfSize& tyre, Length radius, SizeRange range,
                             const std::vector<BodyFeature>& features, Length wanted);
// The least gap of any pose; nothing where none could be reached.
std::optional<Length> least_gap(const Stations& stations, const TyreShape& tyre,
                                const std::vector<BodyFeature>& features);
// Whether every pose of these keeps the gap to every feature.
bool keeps_gap(const Stations& stations, const TyreShape& tyre, const std::vector<BodyFeature>& features,
               Length wanted);

}  // namespace trammel::suspension
