// How long it takes to walk a procedure once, and to fold a job's entries.
#include <benchmark/benchmark.h>

#include "work/hauler.h"
#include "work/walk.h"

namespace trammel::work {
namespace {

// The invented hauler: 34 steps, 46 with sides written out, 52 fastener and 29 part instances.
void walk_the_hauler(benchmark::State& state) {
  const Procedure p = hauler();
  for (auto _ : state) {
    const Walk w = walk(p);
    benchmark::DoNotOptimize(w.end().fasteners.data());
    if (!w.faults.empty()) state.SkipWithError("the hauler has a fault");
  }
}
BENCHMARK(walk_the_hauler)->Unit(benchmark::kMicrosecond);

void fold_the_haulers_entries(benchmark::State& state) {
  const Roster r = make_roster(hauler());
  std::vector<Event> events;
  for (const ExpandedStep& x : r.order) {
    Event e;
    e.sequence = events.size() + 1;
    e.what = StepDone{r.procedure.steps[x.step].id, x.side};
    events.push_back(e);
  }
  for (auto _ : state) {
    const Ledger l = fold(r, events);
    benchmark::DoNotOptimize(l.state.fasteners.data());
  }
}
BENCHMARK(fold_the_haulers_entries)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace trammel::work
