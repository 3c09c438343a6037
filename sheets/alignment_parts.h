// The parts of the alignment sheet, each in a file of its own.
#pragma once

#include "sheets/alignment_words.h"

namespace trammel::sheets {

// One adjuster: the sentence, the flats to turn, and what square or tape shows when to stop and once rolled.
double draw_turn(Canvas& canvas, const Given& given, const Box& room, const AlignResult& align, const AlignTurn& turn,
                 int number);
// Stops as a chain of cards, each telling what was read, what was turned and how likely it then was.
void lay_passes(const Given& given, Book& book, const AlignResult& align);
// How the rear axle stands, and what turns it.
void lay_rear_axle(const Given& given, Book& book, const RearResult& rear);
// What to read and where to write it, with a picture of where each reading is taken.
double draw_readings(Canvas& canvas, const Given& given, const Box& room);

}  // namespace trammel::sheets
