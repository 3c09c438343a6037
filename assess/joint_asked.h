// A kit's fastener as the fastener room is asked about it, and what stands in for it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fastener/judge.h"
#include "job/job.h"

namespace trammel {

// Everything that the kit says of it. A surface that cannot be read is left out.
fastener::Ask ask_of(const KitFastener& fastener);

// A stop that another torque can cure: above proof, a slip of units, a thread or a wall that gives way.
bool cured_by_torque(fastener::Flag flag);
// The same by a finding's code; also the limit of its preload.
bool torque_stop(const std::string& code);

// The kit's stack with `by` in place of its bolt, or of its nut: "M10x40 8.8", "bolt M10x40 10.9 zinc", "nut 10"; with
// commas it is the whole stack. Empty where it cannot be read so.
std::string stack_with(const std::string& stack, const std::string& by);

// What a fastener, or what stands in for it, says to a torque that the kit does not ask of it.
struct Strain {
  std::optional<double> of_proof;  // nominal, of proof load; none: its strength is not said
  std::optional<Torque> suggested;
  std::vector<fastener::Flag> stops;  // that the kit's own joint at the kit's own torque does not raise
  bool takes() const;                 // proved that it bears the torque
};
// `stack`: the kit's or that of a stand-in. Nothing where it is no threaded joint.
std::optional<Strain> strain(const KitFastener& fastener, const std::string& stack, Torque torque);

}  // namespace trammel
