// The wheel places of an axle of any layout, for clearance.
//
// Steer is a share of the lock: it shifts what the tie rods hang on (AxleCoordinates) by that share, with the sign
// that turns the wheels to the left at +1. Rise is this wheel's own. Where one body carries both wheels its centre
// rises by that less half-track times the roll's tangent (plus on the right), and a pose whose other wheel would go
// beyond `lowest` or `highest` is not reached; elsewhere roll changes nothing, since a wheel's own rise already covers
// it.
#pragma once

#include <memory>

#include "suspension/clearance/wheel_places.h"
#include "suspension/geometry/axle.h"

namespace trammel::suspension {

// The mechanism is kept for as long as the function is. Of a steered beam the function remembers poses: for one thread.
WheelPlaces wheel_places(std::shared_ptr<const AxleMechanism> axle, Side side, Length lock, Length lowest,
                         Length highest);

}  // namespace trammel::suspension
