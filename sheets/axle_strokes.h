// The strokes that the parts of an axle are drawn with: one kind of line or shape a kind of part, none by colour.
//   arm, link     heavy line                  rod       thin line
//   axle, rack    a tube: two lines           leaf      heavy double line
//   spring        zigzag                      damper    a cylinder and its rod
//   block         hatched box                 pivot     black square, fast to the body
//   joint         open circle                 axis      dash and dot
#pragma once

#include "sheets/elevation.h"

namespace trammel::sheets {

inline constexpr Pen ghost_pen{0.55, 0.35, 2.4};
inline constexpr Pen axis_pen{0.45, 0.2, 5.0, 1.2};

void draw_part(Canvas& canvas, const View& view, const OutlinePart& part);
void draw_part_as_ghost(Canvas& canvas, const View& view, const OutlinePart& part);
void draw_pivot(Canvas& canvas, Point at);
void draw_joint(Canvas& canvas, Point at);

// The wheel's outline on the ground that it stands on: of the tyre, or where its size is not given of its middle plane.
std::vector<Point> wheel_outline(const View& view, const AxleOutline& axle, const OutlineWheel& wheel);
// From above the knuckle down to the ground.
std::vector<Point> steering_axis(const View& view, const AxleOutline& axle, const OutlineWheel& wheel);

// Whether a part gets a number in the key, and the code of its name there.
bool is_named(const OutlinePart& part);

}  // namespace trammel::sheets
