// What to mind before and while reading and turning, chosen by what the job has, and no more than that.
#pragma once

#include "assess/alignment_task.h"
#include "setup/verdict.h"

namespace trammel {

std::vector<Message> reading_coach(const Job& job, const Cart& cart, const JobAlignment& given,
                                   const setup::Answer& answer);
std::vector<Message> turning_coach(const JobAlignment& given, const setup::Answer& answer);

}  // namespace trammel
