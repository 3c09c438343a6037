// Tries every allowed order of a procedure step by step, breadth first.
//
// It knows of a procedure only which pairs must keep their order, steps through every set of steps that can be done
// first, and keeps every state that it meets. It does not take for granted that a set of steps has one state; that is
// the law on which the rehearsal stands, so it is counted. Grows as the number of sets: for reduced kits.
#pragma once

#include <cstddef>
#include <map>

#include "work/fault.h"
#include "work/roster.h"

namespace trammel::work {

struct EveryOrder {
  std::map<FaultKey, std::size_t> depth;  // steps done when a fault first shows
  std::size_t sets = 0, states = 0;
};

// At most 32 places.
EveryOrder every_order(const Roster& roster);

}  // namespace trammel::work
