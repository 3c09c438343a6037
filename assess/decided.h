// What the decisions of a job say of one fastener: what is asked of it from then on, and which finding is answered.
//
// A decision about a fastener in dispute, or about what stands in for it, may carry a torque: its key, else the one
// that stands in its words. It then answers what that torque cures and no more. Without a torque it answers the one
// stop that it names by code; it need not be named where there is but one, and none is answered that only a torque can
// cure.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.h"

namespace trammel {

// The only torque in a text; nothing where there is none, or more than one.
std::optional<Torque> torque_in_words(const std::string& text, char decimal_sign);
// Its key, else the torque of its words.
std::optional<Torque> torque_of(const Decision& decision, const Job& job);

// What the decisions about the whole of a fastener ask of it in place of the kit's torque: that of a key, and where the
// kit's own torque is one that its joint does not take, that of the words.
std::optional<Torque> torque_decided(const Job& job, const KitFastener& fastener);

// Decisions that stand and name this fastener as a whole, in their order.
std::vector<const Decision*> decisions_about(const Job& job, const std::string& id);

}  // namespace trammel
