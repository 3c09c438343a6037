// Which step must come before which, and whether the given order keeps it.
//
// An edge a -> b stands where b needs step a done; a condition that only a sets (the first that does); a part from
// the pack that a fits; or where an anchor of b names a. Supports come and go and give no edge: walk.h judges them.
// Source: topological sorting, Kahn, Comm. ACM 5(11) 1962, 558-562 (from memory); ties go to the earlier step.
#pragma once

#include <cstddef>
#include <vector>

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

}  // namespace trammel::work
