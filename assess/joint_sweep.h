// An angle of a joint over an axle's travel and lock. Private to assess.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "assess/geometry.h"
#include "assess/point_uncertainty.h"

namespace trammel {

// The lean at a pose; nothing beyond reach.
using LeanAt = std::function<std::optional<Angle>(const suspension::AxleCoordinates& at)>;
// Of the axle as it is, against the one in which the joint stood as told; none where a point is missing.
using JointReading = std::function<LeanAt(const suspension::AxleMechanism& now, const suspension::AxleMechanism& rest)>;

struct WorstLean {
  Angle angle{};
  suspension::AxleCoordinates at;
};
// The greatest over rise, steer (to `lock` on either side) and roll: a grid with its ends, refined about its greatest.
std::optional<WorstLean> worst_lean(const LeanAt& lean, const TravelRange& range, Length lock, Angle roll);

// Its standard uncertainty by that of the points, linear (JCGM 100:2008 5.1.2); `rest` is held where it is another
// axle.
Angle lean_spread(const JointReading& reading, const suspension::AxleMechanism& now,
                  const suspension::AxleMechanism& rest, const suspension::AxleCoordinates& at,
                  const std::vector<Length>& u, const std::function<bool(const std::string& point)>& counts);

// Which way the wheels then stand: "straight", "to-the-left", "left-lock" ...
std::string steer_word(const suspension::AxleMechanism& axle, const suspension::AxleCoordinates& at, Length lock);

}  // namespace trammel
