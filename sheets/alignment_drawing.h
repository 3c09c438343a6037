// What the hands see at the wheel, full size: the square's gap, the tape's target, the sleeve's flats.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

// The square against the rim's two lips, seen from the front, the gap at true size; the height between the
// lips is cut short by a break. Gap positive: open at the top. Returns the height.
double draw_square(Canvas& canvas, const Given& given, const Box& room, const std::string& side, Length gap,
                   std::optional<Length> over);

// A piece of tape, full size: where the rear reading falls and where the front reading should, with the band
// of what is accepted and where it falls now.
double draw_tape(Canvas& canvas, const Given& given, const Box& room, const AlignResult& align, Length target);

// The part that is turned, looking along it: its flats counted from a paint mark, with the sweep to turn.
double draw_flats(Canvas& canvas, const Box& room, const AlignTurn& turn, int flats, const std::string& count);

}  // namespace trammel::sheets
