#include "work/walk.h"

#include "work/judge_step.h"

namespace trammel::work {
Walk walk(const Procedure& procedure) { return walk(make_roster(procedure)); }

Walk walk(Roster roster) {
  Walk w;
  w.roster = std::move(roster);
  const Roster& r = w.roster;
  w.start = starting_state(r);
  // References first, then every step on every side in the order given.
  w.faults = check_structure(r);
  for (std::size_t at = 0; at < r.order.size(); ++at) {
    const ExpandedStep& x = r.order[at];
    const State& before = w.before(at);
    WalkedStep done{x, do_step(r, before, x)};
    judge_step(r, at, before, done.after, w.faults);
    w.steps.push_back(std::move(done));
  }
  // Then what only the end shows.
  judge_end(r, w.end(), w.faults);
  w.release = release(r, w.end());
  return w;
}

}  // namespace trammel::work
