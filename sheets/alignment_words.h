// What the parts of the alignment sheet say alike: chances, leans, flats.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

// The chance in words a person would use.
std::string chance(const Given& given, double p);
// "Left wheel: the top leans in by 0.08 deg".
std::string lean_text(const Given& given, const char* side, const AlignValue& v);
std::string toe_text(const Given& given, const AlignValue& v);
std::string angle_text(const Given& given, const AlignValue& v);
// To the quarter flat that hands can turn.
std::string flats_text(double flats);
std::string turn_sentence(const Given& given, const AlignTurn& turn);

// A box to tick and a message as a sentence; returns the height.
double draw_to_tick(Canvas& canvas, const Given& given, const Box& room, const Message& message);

}  // namespace trammel::sheets
