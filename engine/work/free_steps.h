// Steps that may come at any time, tried wherever their needs allow, the others in the order of the list.
//
// Coupled: a free step that shares something with a step against which no chain of needs orders it. One that is not
// coupled meets the same state wherever it comes, and changes it alike (conflict.h): it keeps its place. Coupled ones
// that share something, or of which one rule may look at both (parts, chocks, isolation), are one group. A group is
// tried, the rest in its places: each step alone, then all together, breadth first, states that are alike once; where
// that takes more than `most_states`, in pairs only, and `complete` is false. Of the places between which a step meets
// the same state only the last is tried. The two sides of a step keep their order. Law 1: every fault of an order that
// only moves free steps is found while `complete`. Law 2: a fault that one step alone brings about is told of that
// step.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "work/walk.h"

namespace trammel::work {

struct OtherOrder {
  Fault fault;
  std::vector<std::size_t> done;  // places in Roster::order, as they were done; the fault shows at the last
  std::size_t moved = 0;          // the place of the free step that is not where the list has it
};

struct FreeSteps {
  std::vector<OtherOrder> found;       // each fault once, in the order found; those of the walk are not repeated
  std::vector<std::size_t> unreached;  // places that no order comes to
  std::size_t free = 0, coupled = 0;   // places
  std::size_t states = 0;              // met
  bool complete = true;
};

FreeSteps try_free_steps(const Walk& walk, std::size_t most_states);

}  // namespace trammel::work
