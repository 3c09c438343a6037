// Ways of working on a bare floor, each with what it is assumed to leave of the scrub and the minutes it costs.
// Usage: study_ways CARTS [SEED]. Prints a table of the manual (docs/alignment.md).
//
// The scrub of a way is its share of the bare floor's 1.0 mm and 0.15 deg a wheel. A tyre that winds up until it slips
// (a friction element) and is turned too far and back by the mean of where it slips keeps the scatter of that about its
// mean: of a half-normal law sqrt(1 - 2/pi) = 0.60 (derived). A wheel that is lifted lands with a scrub of its own;
// half as large is assumed.
#include <fmt/core.h>

#include <cstdlib>

#include "setup/population.h"
#include "setup/study.h"

namespace {

using namespace trammel;
using namespace trammel::setup;

struct Trial {
  const char* name;
  double scrub = 1.0;     // of the bare floor's
  double more = 0.0;      // minutes a spell
  double touch_up = 0.0;  // and a touch-up
  Floor floor = Floor::bare;
  std::function<bool(const Turn&, int)> may_turn;
};

void run(const Trial& trial, const char* carts, Fleet fleet, int count, std::uint64_t seed) {
  fleet.floor = trial.floor;
  Generator g(seed);
  const Population population(fleet, g);
  AlignmentTask task = population.task();
  task.handling.scrub_camber = trial.scrub * task.handling.scrub_camber;
  task.handling.scrub_toe = trial.scrub * task.handling.scrub_toe;
  Way way = usual_way(trial.floor);
  way.times.turning += trial.more * units::minute;
  way.times.touch_up += trial.touch_up * units::minute;
  StudyLimits limits;
  limits.may_turn = trial.may_turn;
  std::vector<CartRun> runs;
  double mean = 0.0;
  for (int i = 0; i < count; ++i) {
    Generator own(seed * 1000003 + static_cast<std::uint64_t>(i));
    const TrueCart cart = population.draw(own);
    runs.push_back(align_as_told(task, way, cart, own, limits));
    mean += runs.back().minutes.in(units::minute) / count;
  }
  const StudySummary s = summary(runs);
  fmt::print("| {} | {} | {:.0f} % | {:.0f} % | {:.0f}, {:.0f} | {:.0f} | {:.0f}, {:.0f} |\n", trial.name, carts,
             100.0 * s.within_one, 100.0 * s.within_two, s.median_passes, s.ninetieth_passes, mean,
             s.median_minutes.in(units::minute), s.ninetieth_minutes.in(units::minute));
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const int count = argc > 1 ? std::atoi(argv[1]) : 0;
  const std::uint64_t seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
  if (count < 1) {
    fmt::print(stderr, "usage: study_ways CARTS [SEED]\n");
    return 2;
  }
  const auto cambers_first = [](const Turn& t, int pass) { return pass > 1 || t.adjuster == "upper_arm"; };
  const auto sides = [](const Turn& t, int pass) { return pass > 2 || (t.side == Side::left) == (pass == 1); };
  const Trial trials[] = {
      {"bare floor, as told"},
      {"turned a little too far and back", 0.60, 1.0, 0.5},
      {"wheels lifted and lowered after turning", 0.5, 4.0, 4.0},
      {"the same, were nothing left of the scrub", 0.0, 4.0, 4.0},
      {"cambers first, rolled, then toe with the rest", 1.0, 0.0, 0.0, Floor::bare, cambers_first},
      {"left wheel, rolled, right wheel, rolled", 1.0, 0.0, 0.0, Floor::bare, sides},
      {"slip plates", 1.0, 0.0, 0.0, Floor::plates},
  };
  Fleet nominal, surveyed;
  surveyed.points = 2.0 * units::mm;
  fmt::print(
      "| Way | Carts | In 1 pass | in 2 | Passes: half, 9 in 10 | Minutes: mean | half, 9 in 10 |\n"
      "| --- | --- | --- | --- | --- | --- | --- |\n");
  for (const Trial& trial : trials) {
    run(trial, "nominal", nominal, count, seed);
    run(trial, "surveyed", surveyed, count, seed);
  }
}
