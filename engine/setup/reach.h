// Which aspects the adjusters serve, and how far they reach. For this room's sources only.
#pragma once

#include "setup/belief.h"

namespace trammel::setup {

std::vector<bool> served_aspects(const Belief::Inside& b, const Aims& aims);
// The aims at the best that the adjusters can do if their effects are as believed, and whether a thread ended first.
struct Reach {
  Aims best;
  bool at_limit = false;
};
Reach reach_of(const Belief::Inside& b, const Aims& aims);
// Turns of least expected squared miss from where each adjuster stands, within the threads.
Eigen::VectorXd turns_wanted(const Belief::Inside& b, const Aims& aims);
Aims only(const Aims& aims, const std::vector<bool>& wanted);
// The base that the last square on that side spanned, or the task's.
Length square_base(const AlignmentTask& task, const Belief::Inside& b, Side side);

}  // namespace trammel::setup
