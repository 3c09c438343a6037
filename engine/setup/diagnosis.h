// What may be wrong where no adjuster can put it right.
//
// Each cause predicts a pattern of (left camber, right camber, own left toe, own right toe) off the middle of the
// tolerance as a Gaussian; ranked by prior x likelihood of the state read (its covariance added), normalised over the
// list. Patterns and priors are assumed, our own figures after common practice (no source): a ranking of what to look
// at first, not a finding of fact. Law 1: mirrored states give the mirrored ranking.
#pragma once

#include "setup/alignment.h"

namespace trammel::setup {

enum class Cause {
  bent_part,
  worn_joint,
  sagged_spring,
  wrong_part,
  swapped_arms,
  rack_not_centred,
  adjuster_out_of_range
};
enum class Where { left, right, both };

struct Suspect {
  Cause cause = Cause::bent_part;
  Where where = Where::both;
  double share = 0.0;  // of the listed causes, sums to 1
};

std::vector<Suspect> diagnose(const AlignmentTask& task, const Belief& belief);

}  // namespace trammel::setup
