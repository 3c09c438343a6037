// Which step must come before which, and whether the given order keeps it.
//
// An edge a -> b stands where b needs step a done; a condition that only a sets (the first that does); a part from
// the pack that a fits; or where an anchor of b names a. Supports come and go and give no edge: walk.h judges them.
// Source: topological sorting, Kahn, Comm. ACM 5(11) 1962, 558-562 (from memory); ties go to the earlier step.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "measure/quantity.h"
#include "work/procedure.h"

namespace trammel::work {

struct Precedence {
  std::size_t first = 0, then = 0;  // step indices
  friend bool operator==(const Precedence&, const Precedence&) = default;
};

std::vector<Precedence> precedences(const Procedure& procedure);
std::vector<Precedence> broken_precedences(const Procedure& procedure);

struct TopologicalOrder {
  std::vector<std::size_t> order;                // steps that can be ordered
  std::vector<std::vector<std::size_t>> cycles;  // each a closed chain of needs, in step indices
};
TopologicalOrder topological_order(const Procedure& procedure);

struct Total {
  Time time;                   // of the steps that state one, each side counted
  std::size_t not_stated = 0;  // steps without a time
};
Total total_time(const Procedure& procedure);

std::vector<std::string> tools(const Procedure& procedure);  // each once, in order of first use
std::size_t tool_changes(const Procedure& procedure);        // tools picked up that the step before did not use

}  // namespace trammel::work
