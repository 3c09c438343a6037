// The loose list: every fastener that is not final, where it sits, and what it may bear before it is; what is off; and
// what the cart may bear so.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

// The list after a step, with the thumb-nail of where they sit; returns the height it took.
double draw_loose_list(Canvas& canvas, const Given& given, const Box& room, const Unfinished& unfinished,
                       const StepLine* step);

}  // namespace trammel::sheets
