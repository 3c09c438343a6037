// What is not yet as it must be in a state of the work, as people name it: loose fasteners with place, state and the
// greatest load each may see, empty places, and what the cart may bear so. Rules: work/unfinished.h.
#pragma once

#include "assess/assessment.h"
#include "work/ledger.h"

namespace trammel {

// What is final and only waits for its second look is not loose.
Unfinished unfinished_work(const Job& job, const work::Roster& roster, const work::State& state);

}  // namespace trammel
