// Findings as a person takes them in: what must be acted on, the worst of each kind in full, its likes named.
//
// Order: stops, conditions, then what could not be computed; inside each the assessment's own order. Two findings
// are of one kind where outcome and code are the same; the worst has the least margin in proportion to its limit.
// What was not computed is never grouped: each lacks something else.
#pragma once

#include <string>
#include <vector>

#include "assess/finding.h"

namespace trammel {

struct FindingGroup {
  const Finding* worst = nullptr;
  std::vector<const Finding*> others;
};

// Points into `findings`.
std::vector<FindingGroup> to_act_on(const std::vector<Finding>& findings);

bool says_not_computed(const Finding& finding);

}  // namespace trammel
