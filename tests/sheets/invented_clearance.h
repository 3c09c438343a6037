// The clearance of a job with every value invented: nearest places, a map of each wheel, and cut lines whose corners
// lie at round places of the panel, so that a ruler can be held against the print.
#pragma once

#include "assess/assessment.h"

namespace trammel::sheets {

// A panel's lip along y = 0 from -`half` to `half`, cut back by `deep` between -`cut_half` and `cut_half`.
TrimResult invented_trim(Length half, Length cut_half, Length deep);

void add_invented_clearance(Assessment& assessment);

}  // namespace trammel::sheets
