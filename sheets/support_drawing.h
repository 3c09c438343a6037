// What the cart stands on, seen from above with its front up, and what it bears.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

double draw_support(Canvas& canvas, const Given& given, const Box& room, const SupportView& view);
// The card for going on after an interruption.
void lay_resume_card(const Given& given, Book& book);

}  // namespace trammel::sheets
