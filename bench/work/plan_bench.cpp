// How long a plan takes, beside a general solver of finite domains (Gecode) on the same problems.
#include <benchmark/benchmark.h>

#include "work/plan.h"
#include "work/plan_witness.h"
#include "work/random_tasks.h"

namespace trammel::work {
namespace {

// The same invented problem for both: pairs as dense as in a kit's own steps.
PlanAsked problem(benchmark::State& state, int technicians, double density) {
  std::mt19937 draw(20261125);
  return random_tasks(draw, static_cast<std::size_t>(state.range(0)), density, technicians);
}

void plan_for_one(benchmark::State& state) {
  const PlanAsked asked = problem(state, 1, 0.3);
  Plan p;
  for (auto _ : state) benchmark::DoNotOptimize((p = plan(asked)).tasks.data());
  state.counters["tool_changes"] = p.changes.tools;
  state.counters["bound"] = p.changes_bound.tools;
  state.counters["end_changes"] = p.changes.ends;
  state.counters["proven"] = p.proven;
}
BENCHMARK(plan_for_one)->Arg(11)->Arg(40)->Arg(70)->Unit(benchmark::kMillisecond);

void gecode_for_one(benchmark::State& state) {
  const PlanAsked asked = problem(state, 1, 0.3);
  std::optional<long long> least;
  for (auto _ : state) least = least_weighted_changes(asked, 1000, 5.0);
  state.counters["proven"] = least.has_value();
  if (least) state.counters["tool_changes"] = static_cast<double>(*least % 1000);
}
BENCHMARK(gecode_for_one)->Arg(11)->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK(gecode_for_one)->Arg(40)->Iterations(1)->Unit(benchmark::kMillisecond);

void plan_for_two(benchmark::State& state) {
  const PlanAsked asked = problem(state, 2, 0.15);
  Plan p;
  for (auto _ : state) benchmark::DoNotOptimize((p = plan(asked)).tasks.data());
  state.counters["minutes"] = p.total.in(units::minute);
  state.counters["bound"] = p.total_bound.in(units::minute);
  state.counters["proven"] = p.proven;
}
BENCHMARK(plan_for_two)->Arg(20)->Arg(40)->Arg(70)->Unit(benchmark::kMillisecond);

void gecode_for_two(benchmark::State& state) {
  const PlanAsked asked = problem(state, 2, 0.15);
  std::optional<long long> least;
  for (auto _ : state) least = least_seconds_for_two(asked, 5.0);
  state.counters["proven"] = least.has_value();
  if (least) state.counters["minutes"] = static_cast<double>(*least) / 60.0;
}
BENCHMARK(gecode_for_two)->Arg(20)->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK(gecode_for_two)->Arg(40)->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace trammel::work
