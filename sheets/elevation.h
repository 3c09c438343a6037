// Elevations of an axle to scale: from ahead (a rear axle from behind) and from the left, the axle as it stands in full
// line, the stock cart as a ghost behind it.
//
// Both lie in the cart frame with the body held, so the ground has gone down where the body has gone up.
// Law 1: a point of the cart lies where View::at puts it, at one scale in both views.
// Law 2: the scale is one of those in use on drawings, the largest that fits (1:2, 1:2.5, 1:4 …).
// Law 3: full line, dashes and dash-dot tell apart what is now, what was and what is no part; no shade alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "assess/axle_outline.h"
#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

enum class SeenFrom { ahead, behind, left };

struct View {
  SeenFrom from = SeenFrom::ahead;
  double points_per_metre = 1.0;
  Point origin;  // of the cart frame, on the paper

  Point at(const Vector3<double>& p) const {
    const double across = from == SeenFrom::ahead ? p.y : from == SeenFrom::behind ? -p.y : -p.x;
    return {origin.x + across * points_per_metre, origin.y - p.z * points_per_metre};
  }
};

struct Elevations {
  double one_to = 10;       // scale 1 : one_to
  std::vector<View> views;  // across the cart, then from the left
  std::vector<Box> boxes;   // what each takes, below its caption
};
// Where the views stand in a room.
Elevations place_elevations(const Box& room, const AxleOutline& now, const std::optional<AxleOutline>& stock);

// `stock` is left out where nothing differs from it. Returns the height it took.
double draw_elevations(Canvas& canvas, const Box& room, const Words& words, const AxleOutline& now,
                       const std::optional<AxleOutline>& stock);
// The scale and where the cart's origin lies, for who measures in the file.
std::string elevations_told(const Elevations& placed);

}  // namespace trammel::sheets
