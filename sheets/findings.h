// The verdict in its sentences and every finding that is not simply met, with its gate.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

// The code of an outcome's word: stop, condition, note or met.
const char* word_of(Outcome outcome);
// The answer in its sentences; returns the height.
double draw_verdict(Canvas& canvas, const Given& given, const Box& room);
void lay_findings(const Given& given, Book& book);
// One finding with its number, limit, margin and source; returns the height.
double draw_finding(Canvas& canvas, const Given& given, const Box& room, const Finding& finding, double size);

}  // namespace trammel::sheets
