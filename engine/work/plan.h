// An order of work for one or two technicians, with a bound that proves how good it is.
//
// Model: tasks with a time, pairs `before` (complete: see conflict.h), tools of which the shop has one each, and an end
// of the cart. A task for two people, or one that must be alone, takes everybody.
//   One technician: the sum of times is the same in every order; wanted are the fewest changes of end, and then
//   the fewest tools picked up that the task before did not use.
//   Two: wanted is the least time until all is done; a tool is in one hand at a time. Changes are counted, not proven.
// Method: layer by layer over the sets of tasks done (one: set, tools in hand and place; two: set, the task still going
// on, and the two free times, of which no other state is better in both). The pairs cut the work into stretches that no
// order mixes; their times add. A layer keeps at most `most_states`, the most promising; the least promise
// thrown away bounds what was lost. Promise, one: each tool still wanted and not in hand is picked up at least once;
// two: the greater of the longest chain of waiting tasks and half the work left.
// can_wait: how long the end of a task may slip before a task that waits for it is late.
// A lag (thread locker that cures) is kept by waiting: where its second task would begin too soon, that and all that
// begins later is put off. The order is not chosen for it, so the time of two is then not proven.
// Law 1: every pair and every lag is kept. Law 2: bound <= optimum <= plan. Law 3: nothing thrown away: bound = plan.
// Ignores: learning, rests, two hands that help each other. Source: Held and Karp, J. SIAM 10(1) 1962, 196-210; bounded
// width as in beam search; both from memory.
#pragma once

#include <cstddef>
#include <vector>

#include "measure/quantity.h"
#include "work/order.h"

namespace trammel::work {

struct PlanTask {
  Time time;
  int people = 1;
  bool alone = false;      // nobody else works meanwhile
  std::vector<int> tools;  // the shop's tools by number
  int place = 0;           // end of the cart; 0: not told apart
};

struct Lag {
  std::size_t first = 0, then = 0;  // tasks; a pair of `before` too
  Time time;                        // from the end of the first to the begin of the other, at the least
};

struct PlanAsked {
  std::vector<PlanTask> tasks;
  std::vector<Precedence> before;  // complete and forward, as kept_order gives it
  int technicians = 1;             // 1 or 2
  std::size_t most_states = 20000;
  std::vector<Lag> lags;
};

struct PlannedTask {
  std::size_t task = 0;
  int technician = 0;      // 0 or 1
  bool everybody = false;  // takes all technicians
  Time start, end, can_wait;
  Time waited;  // nobody works before it: a lag runs out
};

struct Changes {
  int ends = 0, tools = 0;
  friend auto operator<=>(const Changes&, const Changes&) = default;
};

struct Plan {
  std::vector<PlannedTask> tasks;  // by start
  Time total, total_bound;         // waiting counted; no order of these tasks takes less than the bound
  Changes changes;                 // two: of tools alone
  Changes changes_bound;           // one technician: no order has fewer (ends first, then tools)
  bool proven = false;             // plan and bound are one
};

Plan plan(const PlanAsked& asked);
// Changes along an order of the tasks, for one technician.
Changes changes_along(const std::vector<PlanTask>& tasks, const std::vector<std::size_t>& order);

}  // namespace trammel::work
