// A job with some of the accessories that its kits offer.
//
// Changes, parts, fasteners and steps of one that is not chosen are left out, and what names them names them no more:
// `holds`, `replaces`, fasteners that a step turns, parts that it moves, needs for what only a step left out brings
// about. So a second look may name the bolts of every accessory, and a first drive may need its check.
// Law 1: with all of them the job is unchanged. Law 2: to choose again among the chosen changes nothing.
#pragma once

#include <string>
#include <vector>

#include "job/job.h"

namespace trammel {

Job with_accessories(Job job, const std::vector<std::string>& chosen);
// With those that the job itself names: what this cart gets.
Job as_fitted(Job job);

}  // namespace trammel
