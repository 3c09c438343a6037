// The card for taking up work again after an interruption: what was done last, what is part-tight, what holds the cart.
#pragma once

#include <cstddef>
#include <vector>

#include "work/ledger.h"

namespace trammel::work {

// What was done and has to be done again: a check that later work voided, or a fastener that the step made final and
// that is below it now, where no step still to come makes it good. By place in Roster::order.
std::vector<std::size_t> done_again(const Roster& roster, const State& state);

struct Resume {
  std::vector<Entry> last_done;          // the last two steps that stand, the later first
  std::vector<std::size_t> loose;        // fastener entries that carry something and are below final
  std::vector<std::size_t> parts_off;    // part entries off the cart and not scrap
  std::vector<std::size_t> proofs_open;  // made once and voided or disputed since
  Support front{}, rear{};
  std::vector<std::size_t> next;  // indices in Roster::order not done yet or to be done again, in order
};

Resume resume(const Roster& roster, const Ledger& ledger);

}  // namespace trammel::work
