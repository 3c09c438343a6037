// One picture of an axle's geometry: how it is drawn, and what it says of itself. Private to sheets.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

struct Picture {
  std::string name;   // "elevation", "curve-toe", "map-left"
  std::string title;  // in words
  Draw draw;
  std::function<std::string(const Box& room)> told;  // its scale in a room, for who measures in the file
};

// Everything that can be drawn of an axle, in the order of the sheet; nothing where it is not known how it moves.
std::vector<Picture> axle_pictures(const Job& job, const Cart& now, const Assessment& assessment,
                                   const std::string& axle, const Words& words);

}  // namespace trammel::sheets
