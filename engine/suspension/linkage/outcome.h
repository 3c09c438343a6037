// What a solver of a linkage says about its numbers: they may be used only where `status` is ok.
#pragma once

#include <optional>

#include "measure/quantity.h"

namespace trammel::suspension {

enum class PoseStatus {
  ok,
  lower_arm_cannot_reach,  // the wheel centre is at the end of the lower arm's arc
  upper_arm_cannot_reach,  // the upper ball joint and the knuckle no longer meet
  tie_rod_cannot_reach,    // the tie rod no longer spans rack and knuckle
  link_cannot_reach,       // a live axle's links no longer close
  relay_cannot_reach,      // the pitman or the idler arm is at the end of its turn
  shackle_cannot_reach,    // a leaf spring's shackle does not span its pivot and the eye
  shackle_over_centre,     // a leaf spring's shackle comes in line with the eyes
  drag_link_cannot_reach,  // the drag link no longer spans its frame end and the knuckle
  length_too_short,        // a change of length leaves an arm or a rod with no length
  not_converged,
  bad_geometry  // the fitted points themselves are no mechanism: see check()
};

struct PoseOutcome {
  PoseStatus status = PoseStatus::ok;
  std::optional<Length> rise_limit;  // the furthest rise reached towards the one asked for
  std::optional<Length> rack_limit;  // the furthest rack shift reached, where that is what stops it
  bool ok() const { return status == PoseStatus::ok; }
};

}  // namespace trammel::suspension
