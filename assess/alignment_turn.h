// A prescribed turn as hands make it: how far and which way from where one stands, and what to look for.
#pragma once

#include "assess/alignment_task.h"
#include "assess/assessment.h"
#include "setup/prescription.h"

namespace trammel {

// A turn told by its kind of adjuster: which part, how far, which way round, and what it does.
Message turn_sentence(const AlignTurn& t, const FittedAdjuster& a, Length change, Angle bolt, std::string part,
                      std::string effect);
AlignTurn align_turn(const setup::PrescribedTurn& turn, const FittedAdjuster& adjuster, Angle bolt,
                     const JobAlignment& given);

// One that was made, for the strip of passes.
AlignTurn made_turn(const setup::Turn& turn, const JobAlignment& given);

}  // namespace trammel
