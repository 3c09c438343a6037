// The map of one wheel's gap: rise upward, steer to the left and right as the driver turns; black where the tyre
// touches, hatched inside a line where it is nearer than wanted, the gap in millimetres written in as soundings, and
// the least of all in a ring.
#pragma once

#include "assess/assessment.h"
#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

double draw_gap_map(Canvas& canvas, const Words& words, const Box& room, const GapMap& map, Length wanted);
// Of the least gap; less than nought where no pose is reached.
int worst_cell(const GapMap& map);

}  // namespace trammel::sheets
