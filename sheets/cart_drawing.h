// The cart to scale from what is known of it: wheels, ground, axles, links, clearance, height, seats.
//
// Front to the left of the paper, the side view seen from the cart's left, the plan from above, so that the
// cart's left is at the plan's bottom. Where nothing is known nothing is drawn; the floor is a plain bar.
#pragma once

#include <map>

#include "sheets/places.h"
#include "sheets/room.h"

namespace trammel::sheets {

struct CartScale {
  double points_per_metre = 0;
  int one_to = 0;  // as a drawing says it, 1:25
};
// The largest round scale at which the cart is no longer than `length` and its side view no higher.
CartScale cart_scale(const Assessment& assessment, double length, double height);

struct SideView {
  bool before_ghost = true;  // the cart before the kits, dashed
  bool heights = true;       // with dimension lines
  bool seats = true;         // where people sit, and the points of the body that a tyre might touch
};
// `axle` is the point of the ground under the front axle.
void draw_side(Canvas& canvas, const Given& given, Point axle, const CartScale& scale, const SideView& view);

// `axle` is the middle of the front axle.
void draw_plan(Canvas& canvas, const Given& given, Point axle, const CartScale& scale);
// The middle of a spot on the plan.
Point on_plan(const Assessment& assessment, Point axle, const CartScale& scale, Spot spot);

// A thumb-nail of the plan with a count at each spot, 24 x 13 mm.
void draw_counts(Canvas& canvas, Point at, const std::map<Spot, int>& counts);

double radius_of(const std::optional<Length>& radius);

}  // namespace trammel::sheets
