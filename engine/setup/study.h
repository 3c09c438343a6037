// How many passes a population of carts takes: readings, prescription, turns, again.
//
// Each cart is drawn by the caller's function, read, turned as prescribed and read again. A pass is one spell of
// turning.
//   both_in     passes until a stop's reading and the truth are both in tolerance (turning goes on while the reading is
//   out) first good  stop at the first reading in tolerance: the share truly out judged      follow `judge`: accept at
//   the set probability, reading again where it asks; the share truly out
// Deterministic for a given generator state.
#pragma once

#include "setup/simulate.h"
#include "setup/verdict.h"

namespace trammel::setup {

struct Study {
  ReadingPlan plan;
  int carts = 300, most_passes = 8, most_stops = 24;
  std::function<TrueCart(Generator&)> draw;
};

struct StudyResult {
  int carts = 0;
  std::vector<int> both_in;        // [k]: carts done after k passes; the last holds those not done
  std::vector<int> judged_passes;  // [k]: carts accepted after k passes; the last holds those not accepted
  int first_good = 0, first_good_out = 0;
  int accepted = 0, accepted_out = 0, diagnosed = 0;
  double mean_stops = 0.0;  // readings until accepted, judged
  double done_within(int passes) const;
  double accepted_within(int passes) const;
  int percentile(double share) const;  // passes, both_in
};

StudyResult run_study(const AlignmentTask& task, const Study& study, Generator& g);

}  // namespace trammel::setup
