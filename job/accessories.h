// The accessories that a job's kits offer: what a change, part, fastener or step says under `accessory`.
//
// Which of them a cart gets is the job's own word (Job::accessories); what is left then: assess/accessories.h.
#pragma once

#include <string>
#include <vector>

#include "job/job.h"

namespace trammel {

std::vector<std::string> accessories_of(const Job& job);  // each once, in the order first named

}  // namespace trammel
