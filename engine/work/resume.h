// For taking up work again after an interruption: how the cart stands, which checks are open, what comes next. What is
// loose and off: unfinished.h.
#pragma once

#include <cstddef>
#include <vector>

#include "work/ledger.h"

namespace trammel::work {

// What was done and has to be done again: a check that later work voided, or a fastener that the step made final and
// that is below it now, where no step still to come makes it good. By place in Roster::order.
std::vector<std::size_t> done_again(const Roster& roster, const State& state);

struct Resume {
  std::vector<std::size_t> proofs_open;  // made once and voided or disputed since
  Support front{}, rear{};
  std::vector<std::size_t> next;  // indices in Roster::order not done yet or to be done again, in order
};

Resume resume(const Roster& roster, const State& state);

}  // namespace trammel::work
