// The least gap between a tyre and measured body points or edges over the wheel's travel and lock.
//
// Every pose of a grid of rise and rack shift is tried for every body feature; around each feature's least pose
// the grid is refined by halving until it is below `finest`. A pose that the linkage cannot reach is skipped and
// counted. The gap is tyre_gap less the tolerance skin of the feature. Frame: cart; left and right sides alike.
#pragma once

#include <vector>

#include "suspension/clearance/tyre_gap.h"
#include "suspension/geometry/axle.h"

namespace trammel::suspension {

struct BodyFeature {
  Vector3<double> from, to;  // a point where both are equal
  Length skin{};             // tolerance of the measurement, taken off the gap
};

struct SweepRange {
  Length lowest{}, highest{};        // rise of the wheel centre
  Length rack_right{}, rack_left{};  // rack shift along +y: from (negative) to (positive)
  int rises = 9, racks = 9;          // grid
};

struct SweptGap {
  Length gap{};  // less the skin
  Length rise{}, rack{};
  TyreGap place;       // at that pose
  bool found = false;  // false where no pose of the grid could be reached
};

struct SweepResult {
  std::vector<SweptGap> features;  // in the order given
  int poses = 0, unreachable = 0;
};

SweepResult sweep(const AxleMechanism& axle, Side side, const TyreShape& tyre, const SweepRange& range,
                  const std::vector<BodyFeature>& features, const AxleChanges& changes = {});

}  // namespace trammel::suspension
