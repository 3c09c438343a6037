// What there is to draw of one axle, and each of its pictures: how it is drawn, and what it says of itself. Private to
// sheets.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "assess/assessment.h"
#include "assess/axle_outline.h"
#include "assess/travel_curves.h"
#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

struct AxleShown {
  std::string axle;
  AxleOutline now;
  std::optional<AxleOutline> stock;  // where the kits changed anything of it
  std::vector<TravelCurve> curves;   // without stock and difference where nothing is changed
  const AxleClearance* clearance = nullptr;
};
// Nothing where it is not known how the axle moves.
std::optional<AxleShown> axle_shown(const Job& job, const Cart& now, const Assessment& assessment,
                                    const std::string& axle);

struct Picture {
  std::string name;   // "elevation", "toe", "map"
  std::string title;  // in words
  Draw draw;
  std::function<std::string(const Box& room)> told;  // its scale in a room, for who measures in the file
};
// They keep what they draw, and the words by reference.
Picture elevation_picture(const AxleShown& shown, const Words& words);
Picture curve_picture(const TravelCurve& curve, const Words& words);
std::optional<Picture> map_picture(const AxleShown& shown, const Words& words);

}  // namespace trammel::sheets
