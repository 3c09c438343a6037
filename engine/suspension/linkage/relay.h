// A relay (centre link) between a pitman arm and an idler arm: where it carries the tie rods' inner ends.
//
// Model: both arms turn about upright shafts, so the relay stays level and the three are a flat four-bar: the pitman
// arm's end runs on its circle, the idler's is where its circle meets the relay's length, on the fitted branch. Steer
// is the shift of the pitman arm's end along +y; each inner end is fast to the relay. Frame: cart, metres. Ignores:
// shafts that are not upright (1 degree lifts an end by 1.7 % of its shift), play in the idler. Range: pitman arm less
// than 80 degrees from where it runs square to y. Error: rounding. Law 1: no shift, no move. Law 2: equal parallel arms
// carry both ends alike.
#pragma once

#include <optional>

#include "measure/quantity.h"
#include "measure/vector3.h"

namespace trammel::suspension {

struct RelayPoints {
  Vector3<double> pitman_pivot, pitman_end, idler_pivot, idler_end;
};

struct RelayMove {
  Vector3<double> left, right;  // of the two inner ends
};
// Nothing where the arms do not reach.
std::optional<RelayMove> relay_move(const RelayPoints& relay, const Vector3<double>& left_end,
                                    const Vector3<double>& right_end, Length steer);

}  // namespace trammel::suspension
