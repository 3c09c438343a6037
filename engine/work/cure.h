// Thread locker that cures: from the step that makes its fastener final to the next one whose load it must bear.
//
// A load counts where it asks more of the fastener than to be out (load.h), at the fastener's end.
#pragma once

#include <cstddef>
#include <vector>

#include "work/roster.h"

namespace trammel::work {

struct Cure {
  std::size_t fastener = 0;         // entry in Roster::fasteners
  std::size_t final = 0, load = 0;  // in Roster::order
  Time time;
};
// In the roster's order, each instance once for every time that it is made final.
std::vector<Cure> cures(const Roster& roster);

}  // namespace trammel::work
