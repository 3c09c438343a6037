// How many passes, readings and minutes a cart takes: by what `next_step` says, and turned by feel.
//
// A pass is a spell of turning between two rolls; readings beyond the first at a stop and every stop without turning
// before it are re-readings, counted apart. Each run draws from the caller's generator alone.
//   as told   the first stop, then next_step until it accepts; most_passes and most_stops end a cart that does not
//   by feel   each stop read once; each adjuster turned by a rule of thumb for its own angle alone, camber and toe
//             coupled or not: effect guessed wrong by a factor exp(0.3 N), two thirds of what seems needed, whole
//             flats; stops at the first reading that is in tolerance at face value. The rule is assumed, our own.
#pragma once

#include <functional>

#include "setup/next_step.h"
#include "setup/simulate.h"

namespace trammel::setup {

struct CartRun {
  bool accepted = false, out = false;  // truly out of tolerance when accepted
  double believed = 0.0;               // the chance of being in tolerance at acceptance
  bool in_after_first = false;         // truly in tolerance after the first pass
  int passes = 0, stops = 0, readings = 0, re_readings = 0, while_turning = 0;
  Time minutes{};
};

struct StudyLimits {
  int most_passes = 12, most_steps = 60;
  std::function<bool(const Turn&, int pass)> may_turn;  // what a pass may turn, counted from 1; all where not given
};

CartRun align_as_told(const AlignmentTask& task, const Way& way, const TrueCart& truth, Generator& g,
                      const StudyLimits& limits = {});
CartRun align_by_feel(const AlignmentTask& task, const ShopTimes& times, const TrueCart& truth, Generator& g,
                      const StudyLimits& limits = {});

struct StudySummary {
  int carts = 0, accepted = 0, out = 0;
  double in_after_first = 0.0;                // share truly in tolerance after the first pass, accepted or not
  double within_one = 0.0, within_two = 0.0;  // accepted, of all carts
  double median_passes = 0.0, ninetieth_passes = 0.0;
  Time median_minutes{}, ninetieth_minutes{};  // of all carts, those not accepted with the time they took
  double mean_re_readings = 0.0, mean_while_turning = 0.0;
  double stated_out = 0.0;  // of those accepted, how many are out by their own chances
  double share_out() const { return accepted ? static_cast<double>(out) / accepted : 0.0; }
  double stated_share_out() const { return accepted ? stated_out / accepted : 0.0; }
};
StudySummary summary(const std::vector<CartRun>& runs);

// The share that is not passed with this confidence where `some` of `all` were seen: the exact upper limit of the
// binomial law. Clopper & Pearson, Biometrika 26 (1934) 404 (from memory).
double share_at_most(int some, int all, double confidence = 0.95);

}  // namespace trammel::setup
