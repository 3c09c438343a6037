// One step judged in the state that it meets, and what only the end of the work shows. The rules stand in walk.h.
#pragma once

#include <cstddef>
#include <vector>

#include "work/fault.h"
#include "work/ledger.h"

namespace trammel::work {

// `at` is a place in Roster::order; `after` is what the step leaves. Faults are added to `out`.
void judge_step(const Roster& roster, std::size_t at, const State& before, const State& after, std::vector<Fault>& out);
void judge_end(const Roster& roster, const State& end, std::vector<Fault>& out);

}  // namespace trammel::work
