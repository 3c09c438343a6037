// What the fastener room's flags mean for a job, and their message with its values.
#pragma once

#include "assess/finding.h"
#include "fastener/ask.h"

namespace trammel {

Outcome outcome_of(fastener::Flag flag);
// The standard that a strength is from, and which copies of it were read.
std::string strength_source(const fastener::Question& question, const fastener::Judgement& judgement);
Message flag_message(fastener::Flag flag, const std::string& subject, const fastener::Question& question,
                     const fastener::Judgement& judgement, const std::string& at = {});

}  // namespace trammel
