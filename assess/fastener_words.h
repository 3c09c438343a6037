// What the fastener room's flags mean for a job, and their message with its values.
#pragma once

#include "assess/finding.h"
#include "fastener/ask.h"
#include "job/kit.h"

namespace trammel {

Outcome outcome_of(fastener::Flag flag);
// As findings and messages call it: "torque-above-proof".
std::string flag_code(fastener::Flag flag);
// "ISO 898-1", "SAE J429", "ISO 898-2".
std::string strength_standard(const fastener::Question& question);
// The standard that a strength is from, and which copies of it were read.
std::string strength_source(const fastener::Question& question, const fastener::Judgement& judgement);
// What a flag's limit or table is, or that the kit's own words are at fault.
std::string flag_source(fastener::Flag flag, const fastener::Question& question, const fastener::Judgement& judgement);
// A stack that cannot be read, or has no thread in it.
Message stack_message(const std::string& subject, const std::string& stack, const fastener::StackError& error);
Message flag_message(fastener::Flag flag, const std::string& subject, const fastener::Question& question,
                     const fastener::Judgement& judgement, const std::string& at = {});

// A bolt through to a nut: one is held while the other turns. A stack that cannot be read is none.
bool two_ended(const KitFastener& fastener);
// A castle nut or a pin that a split pin keeps.
bool pinned(const KitFastener& fastener);

}  // namespace trammel
