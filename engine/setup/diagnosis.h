// What may be wrong where no adjuster can put it right: the stated causes by their posterior probability.
//
// Signs y: both cambers, both own toes off the middle of the tolerance with what was turned taken off again; the same
// as the cart came in; ride height, left less right and both; both casters. Rows that were not read are left out.
//   each cause   y = a s + healthy scatter + reading error,  s its signature, a its size with a stated density
//   signature    through the rates of this cart (signs.h): sag is a wheel rise r > 0 with the height less by r; arms
//                changed over are lengths +d left and -d right; another part is +d on both; a bent lower arm is shorter
//   in time      there before the work (seen as the cart came in) or come with it, each with its stated share
//   P(cause | y) proportional to prior x integral of N(y; a s, scatter) p(a) da     Bayes' rule; 41 points over a
// The healthy scatter holds what the adjusters may be off by (one turn), so that what can be turned says little.
// Priors, shares and sizes are assumed, our own after common practice (no source): a ranking of what to look at first,
// not a finding of fact. How often it is right: docs/alignment.md, `trammel study causes`.
// Source: Jeffreys, Theory of Probability (1961) 5 (from memory).
// Law 1: mirrored signs give the mirrored ranking. Law 2: shares sum to 1. Law 3: a row not read changes nothing.
#pragma once

#include "setup/alignment.h"

namespace trammel::setup {

enum class Cause {
  bent_part,
  worn_joint,
  sagged_spring,
  wrong_part,
  swapped_arms,
  reversed_block,
  rack_not_centred,
  adjuster_out_of_range
};
enum class Where { left, right, both };

struct Suspect {
  Cause cause = Cause::bent_part;
  Where where = Where::both;
  double share = 0.0;  // of the listed causes, sums to 1
};

// What would tell the first two apart if it were read as well.
enum class TellingSign { none, heights, caster };

std::vector<Suspect> diagnose(const AlignmentTask& task, const Belief& belief);
TellingSign telling_sign(const AlignmentTask& task, const std::vector<Suspect>& ranked);

}  // namespace trammel::setup
