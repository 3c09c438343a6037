// What is loose in a state of the work, as people name it: fastener, place, state and the greatest load that it may
// see.
#pragma once

#include "assess/assessment.h"
#include "work/ledger.h"

namespace trammel {

// What is final and only waits for its second look is not loose.
std::vector<LooseItem> loose_items(const Job& job, const work::Roster& roster, const work::State& state);

}  // namespace trammel
