// Pieces of the booklet that its two files share. Private to the room.
#pragma once

#include <set>

#include "sheets/room.h"

namespace trammel::sheets {

// The torque as a big number with its unit in full; computed where the kit gives none. Returns its height.
double draw_big_torque(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f, double size);

void lay_booklet_steps(const Given& given, Book& book);

}  // namespace trammel::sheets
