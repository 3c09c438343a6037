// Which way and how far to turn every adjuster.
//
// Aims y = (left camber, right camber, total toe, toe difference), those that have a tolerance.
//   continuous   min over n of sum_k E[((y_k(n) - middle_k) / half_k)^2], effects' covariance and turn error
//                included, within the threads' limits: a small convex quadratic, camber and toe coupled
//   quarters     of the 2^m neighbours in quarter flats, then single-quarter steps from the best, the one with the
//                highest probability of being in tolerance
// m is at most 8. Candidates are ranked to 2e-3 in probability, the last choice made to 2e-4.
// Law 1: the chosen quarters are at least as good as plain rounding and as not turning. Law 2: mirrored readings give
// mirrored turns. Law 3: an adjuster that moves nothing is not turned. Law 4: no turn passes a thread's limit.
#pragma once

#include "setup/alignment.h"

namespace trammel::setup {

// What to look for when this turn is done (those before it in the list being done): cart settled, and before it is
// rolled, at the moment of stopping, where the scrub adds to the uncertainty.
struct Watch {
  Estimate<Angle> camber;  // of the wheel on the adjuster's side
  SquareGap gap;           // the same as the square shows it
  Length gap_u;
  Estimate<Length> total_toe;  // tape: rear less front
  Estimate<Length>
      string_difference;  // string: front less rear, that wheel, steering wheel straight, at the toe diameter
  Estimate<Angle> camber_while_turning;
  SquareGap gap_while_turning;
  Estimate<Length> total_toe_while_turning;
};

struct PrescribedTurn {
  Side side = Side::left;
  std::string adjuster;
  Angle turns;         // positive: the part gets longer
  double flats = 0.0;  // turns x flats per turn, a multiple of a quarter
  Direction direction = Direction::none;
  bool at_limit = false;  // the thread's limit cut it short
  Watch watch;
};

struct Expected {
  AlignmentState expected;
  double probability_in_tolerance = 0.0;
};

struct Prescription {
  std::vector<PrescribedTurn> turns;  // only those not nought, camber adjusters first
  Expected after;
  double gain_over_plain_rounding = 0.0;  // in the probability of what the adjusters serve
  Adjustment as_adjustment() const;
};

Prescription prescribe(const AlignmentTask& task, const Belief& belief);

}  // namespace trammel::setup
