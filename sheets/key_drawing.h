// The first drawing of the work sheet: the cart in side view and plan with every fastener's place numbered,
// and the key of numbers beside it.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

void lay_key_drawing(const Given& given, Book& book);

}  // namespace trammel::sheets
