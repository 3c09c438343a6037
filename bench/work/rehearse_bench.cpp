// How long a rehearsal takes on a kit of 60 steps with two variants, and of one mistake in it; on a reduced kit beside
// a plain walker that tries every order breadth first.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>

#include "work/builder.h"
#include "work/every_order.h"
#include "work/hauler.h"
#include "work/rehearse.h"

namespace trammel::work {
namespace {

// The invented hauler with a lamp kit: 60 steps, a third of the new ones with the accessory, four at any time. Without
// it those are left out.
Procedure sixty(bool with_lamp) {
  Procedure p = hauler();
  std::vector<StepText> more;
  const std::size_t new_steps = 60 - p.steps.size();
  for (std::size_t i = 0; i < new_steps; ++i) {
    if (i % 3 == 0 && !with_lamp) continue;
    const std::string n = std::to_string(i);
    p.fasteners.push_back(
        fastener("L" + n, "lamp screw, {left,right}.1..2", {}, i % 6 == 1 ? Duty::general : Duty::body));
    more.push_back({.id = "lamp-" + n,
                    .sides = i % 2 == 0 ? "each" : "once",
                    .tighten = {"L" + n + " final"},
                    .any_time = i % 6 == 1});
  }
  const auto drive = std::find_if(p.steps.begin(), p.steps.end(), [](const Step& s) { return s.id == "first-drive"; });
  const auto at = drive - p.steps.begin(), old = static_cast<std::ptrdiff_t>(p.steps.size());
  write_steps(p, more);
  std::rotate(p.steps.begin() + at, p.steps.begin() + old, p.steps.end());
  // The drive waits for the free ones.
  for (const StepText& t : more)
    if (t.any_time) {
      Need n;
      n.kind = Need::Kind::step_done;
      n.subject.id = t.id;
      step(p, "first-drive").needs.push_back(n);
    }
  return p;
}

std::size_t both_variants(const std::array<Procedure, 2>& variants) {
  return rehearse(variants[0]).found.size() + rehearse(variants[1]).found.size();
}

void rehearse_sixty_steps(benchmark::State& state) {
  const std::array<Procedure, 2> p = {sixty(true), sixty(false)};
  std::size_t found = 0;
  for (auto _ : state) benchmark::DoNotOptimize(found = both_variants(p));
  if (found != 0) state.SkipWithError("the sixty steps have a fault");
  state.counters["steps"] = static_cast<double>(p[0].steps.size());
}
BENCHMARK(rehearse_sixty_steps)->Unit(benchmark::kMillisecond);

void rehearse_a_mutant(benchmark::State& state) {
  std::array<Procedure, 2> p = {sixty(true), sixty(false)};
  for (Procedure& variant : p) std::erase_if(variant.steps, [](const Step& s) { return s.id == "torque-rear-wheels"; });
  std::size_t found = 0;
  for (auto _ : state) benchmark::DoNotOptimize(found = both_variants(p));
  state.counters["found"] = static_cast<double>(found);
}
BENCHMARK(rehearse_a_mutant)->Unit(benchmark::kMillisecond);

// The hauler's first so many steps, as far as the plain walker can follow.
Procedure reduced(std::size_t steps) {
  Procedure p = hauler();
  p.steps.resize(steps);
  for (Step& s : p.steps) s.evidence.clear();
  return p;
}
void rehearse_reduced(benchmark::State& state) {
  const Procedure p = reduced(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(rehearse(p).found.size());
}
BENCHMARK(rehearse_reduced)->Arg(8)->Arg(14)->Unit(benchmark::kMillisecond);
void every_order_of_reduced(benchmark::State& state) {
  const Roster r = make_roster(reduced(static_cast<std::size_t>(state.range(0))));
  EveryOrder all;
  for (auto _ : state) benchmark::DoNotOptimize((all = every_order(r)).sets);
  state.counters["sets"] = static_cast<double>(all.sets);
}
BENCHMARK(every_order_of_reduced)->Arg(8)->Arg(14)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace trammel::work
