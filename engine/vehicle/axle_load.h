// Loads on axles and wheels, against their ratings.
//
// Model: a rigid cart on level ground. Rear axle load m_r = m (-x)/l, front m_f = m - m_r. Side to side the
// four wheels cannot be solved by statics alone: the moment of the sprung mass about the middle plane is shared
// as the roll stiffnesses are (front_share), each axle's own weight stands on its own wheels:
//   left - right of axle i = 2 (share_i m_s y_s + m_ui y_ui) / T_i.
// Loads are given as masses (kg on a scale). Symbols: l wheelbase, T track, x y of the centre of gravity.
// Frame: the cart's, front axle at x = 0. Range: any load; a negative wheel load says that the wheel hangs.
// Ignores: twist of the frame, unequal springs, slope of the floor.
//
// Law 1: the four loads sum to the mass. Law 2: moments balance about any point. Law 3: the mirror swaps left and
// right. Source: statics; Jazar, Vehicle Dynamics, Example 40 (CG-LEVEL).
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "reference/basis.h"
#include "vehicle/mass.h"

namespace trammel::vehicle {

template <class R = double>
struct Footprint {
  LengthOf<R> wheelbase, front_track, rear_track;  // tracks at the ground, symmetric about y = 0
};

template <class R = double>
struct AxleLoads {
  MassOf<R> front, rear;
};
template <class R = double>
struct WheelLoads {
  MassOf<R> front_left, front_right, rear_left, rear_right;
};

template <class R>
AxleLoads<R> axle_loads(const LumpedMass<R>& whole, LengthOf<R> wheelbase) {
  const MassOf<R> rear = whole.mass * (-whole.at.x / wheelbase);
  return {whole.mass - rear, rear};
}

// front_share: front roll stiffness over the sum of both, 0..1 (roll.front_stiffness in stability.h).
template <class R>
WheelLoads<R> wheel_loads(const MassSum<R>& mass, const Footprint<R>& footprint, R front_share);

// What a rating limits, and by how much it is kept. Margin negative: overloaded.
enum class Rated { gross, front_axle, rear_axle, front_left_tyre, front_right_tyre, rear_left_tyre, rear_right_tyre };
template <class R = double>
struct RatingUse {
  Rated rated{};
  MassOf<R> load;
  Mass rating;
  MassOf<R> margin;  // rating - load
};

// What a tyre may carry, and up to which speed that holds.
struct TyreRating {
  Mass load;
  Speed up_to;
  std::string_view source;
  reference::Basis basis = reference::Basis::as_published;
};

struct Ratings {
  std::optional<Mass> gross, front_axle, rear_axle;
  std::optional<TyreRating> front_tyre, rear_tyre;
};

// One row for each rating that is known; rows of tyres stand only where top_speed is within their speed.
template <class R>
std::vector<RatingUse<R>> against_ratings(const WheelLoads<R>& wheels, const Ratings& ratings, Speed top_speed);

// What may still be put on the cart when `on_board` is there: gross rating less mass.
template <class R>
MassOf<R> payload_left(Mass gross, MassOf<R> on_board) {
  return as<R>(gross) - on_board;
}

}  // namespace trammel::vehicle
