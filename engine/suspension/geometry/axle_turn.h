// How far a kit has turned a live axle about its own line: what happens to pinion, oil and vent.
//
// Two trailing arms are rigid to the axle in pitch: its turn is the mean turn of the two arms in side view.
// Other links: the axle ends of links and track bar keep their places on the axle, so its turn is that of these
// points about the axle's centre in side view, each weighed by the square of its distance.
// Nothing where no point lies more than 20 mm off the centre. Sign: pinion nose up positive. Frame: cart.
#pragma once

#include <optional>

#include "suspension/linkage/live_axle.h"

namespace trammel::suspension {

std::optional<Angle> axle_turn(const LiveAxlePoints& before, const LiveAxlePoints& after);

}  // namespace trammel::suspension
