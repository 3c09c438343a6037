// One job judged whole: every room of the engine run over it in a fixed order, the answers gathered.
//
// Nothing stops at the first fault and nothing is hidden. What cannot be computed for want of an input is a
// finding of its own that names the input. A limit is broken where its margin is negative; where the margin
// is less than twice its own standard uncertainty it is a condition, since the tape cannot tell (JCGM
// 106:2012 8.3, k = 2).
// Of the accessories that kits offer, those count that the job names (accessories.h).
// Law 1: the same job gives the same findings in the same order.
// Law 2: a job without kits has no difference between before and after.
#pragma once

#include "assess/assessment.h"

namespace trammel {

Assessment assess(const Job& job);
// What its record comes to, without the cart's own limits: fasteners, work, wheels and release.
Assessment assess_record(const Job& job);

// A kit alone, as its author sees it: a job that holds nothing else, judged for its fasteners and its work.
Job job_of_kit(const Kit& kit);
Assessment assess_kit(const Job& job);

}  // namespace trammel
