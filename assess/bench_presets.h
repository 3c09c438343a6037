// How long the adjustable arms and rods of a front axle are set on the bench, and where a strut's top goes in its slot,
// for a job with its kits on.
#pragma once

#include <string>
#include <vector>

#include "assess/assessment.h"
#include "suspension/geometry/axle.h"

namespace trammel {

// A part with an adjuster: how long it is set before the first reading, and how much that is against the old length.
struct BenchPreset {
  suspension::Side side{};
  std::string part;  // "upper_arm", "tie_rod", "strut_top"
  Length length{};   // an arm: front bush to ball joint; a rod: joint to joint; none of a strut's top
  Length change{};   // positive longer, of a strut's top outward
};
struct BenchPresets {
  Angle camber_wanted{}, toe_wanted{};  // of each wheel
  std::vector<BenchPreset> parts;
};
// `after`: the cart with the kits on. `was`: its front axle before them, where that is known.
BenchPresets bench_presets(const Job& job, const Cart& after, const suspension::AxleMechanism& now,
                           const suspension::AxleMechanism* was);

// Told at the steps that undo camber or toe on their side.
struct Context;
void tell_presets(Context& c);

}  // namespace trammel
