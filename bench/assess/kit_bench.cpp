// The orchard cart's kit as its author meets it: 96 steps, four variants. Rehearsed, spoilt once, planned.
#include <benchmark/benchmark.h>

#include "assess/assess.h"
#include "assess/order_of_work.h"
#include "assess/rehearsal.h"
#include "shop/open.h"

namespace trammel {
namespace {

Job example(const char* file) {
  return *read_kit_or_job(std::string(TRAMMEL_SOURCE_DIR "/examples/orchard-cart/") + file).value;
}

// The pace of the command, without start and reading: bound 500 ms.
void rehearse_a_kit(benchmark::State& state) {
  const Job kit = example("bough-kit.toml");
  RehearsedJob r;
  for (auto _ : state) r = rehearse(kit);
  if (!r.found.empty()) state.SkipWithError("the kit has a fault");
  state.counters["steps"] = static_cast<double>(r.steps);
  state.counters["variants"] = static_cast<double>(r.variants.size());
}
BENCHMARK(rehearse_a_kit)->Unit(benchmark::kMillisecond);

// One mistake after another, in four variants; the bound of 20 ms is for a kit of 60 steps with two.
void rehearse_mutants(benchmark::State& state) {
  const Job kit = example("bough-kit.toml");
  const std::vector<Spoilt> all = spoil(kit, 50, 20261125);
  std::size_t at = 0, found = 0;
  for (auto _ : state) found += !rehearse(all[at++ % all.size()].job).found.empty();
  state.counters["found"] = benchmark::Counter(static_cast<double>(found), benchmark::Counter::kAvgIterations);
}
BENCHMARK(rehearse_mutants)->Unit(benchmark::kMillisecond);

// Both kits of the job, for one technician and for two: bound 5 s.
void plan_a_job(benchmark::State& state) {
  const Job job = example("job.toml");
  const Assessment a = assess(job);
  OrderOfWork o;
  for (auto _ : state) o = order_of_work(job, a, static_cast<int>(state.range(0)));
  state.counters["minutes"] = o.total.in(units::minute);
  state.counters["bound"] = o.bound.in(units::minute);
  state.counters["tool_changes"] = o.tool_changes;
  state.counters["tool_bound"] = o.tool_bound;
  state.counters["proven"] = o.proven;
}
BENCHMARK(plan_a_job)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace trammel
