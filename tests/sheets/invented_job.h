// A job and its assessment with every value invented, for looking at pages; nothing here is a real cart.
#pragma once

#include "assess/assessment.h"

namespace trammel::sheets {

Job invented_job();
// `steps` steps over a list of fasteners at both ends of the cart; alignment readings where asked for.
Assessment invented_assessment(int steps = 9, bool with_alignment = true);
// As if work had been broken off after the second step.
void add_invented_resume(Assessment& assessment);

}  // namespace trammel::sheets
