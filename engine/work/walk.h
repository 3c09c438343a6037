// A procedure walked through its steps in their order before the first bolt turns.
//
// Each step on each side gives the state after it and faults. Faults stand in the order in which the work would meet
// them, then those found only at the end. Structure is judged first; a reference to nothing is a fault and is otherwise
// skipped. Rules: nothing below its least state when a load comes on, nor taken to nut-off or out under its load; needs
// met; final only as the cart must stand for it; stands before a wheel or suspension part comes off; no person
// under a cart on the jack alone; a part free of its fasteners before it comes off and on before they are final;
// a check only of what is final; each side alike; at the end all final, proofs good, parts back, pack empty.
// Law 1: a procedure that ends with a granted release and no fault has no instance below final but those thrown away
// with all that they held.
#pragma once

#include <vector>

#include "work/fault.h"
#include "work/release.h"

namespace trammel::work {

struct WalkedStep {
  ExpandedStep step;
  State after;  // before: that of the previous step, or Walk::start
};

struct Walk {
  Roster roster;
  State start;
  std::vector<WalkedStep> steps;
  std::vector<Fault> faults;
  Release release;  // asked of the last state

  const State& before(std::size_t i) const { return i == 0 ? start : steps[i - 1].after; }
  const State& end() const { return steps.empty() ? start : steps.back().after; }
};

std::vector<Fault> check_structure(const Roster& roster);
Walk walk(const Procedure& procedure);
Walk walk(Roster roster);  // in the roster's own order

}  // namespace trammel::work
