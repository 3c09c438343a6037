// One curve over travel: as the axle stands in full line with its uncertainty as a hatched band, as it stood dashed;
// below them their difference on a scale of its own, with its own band.
//
// Rise across, wheel down on the left; the value upward. Bands are two standard uncertainties wide to either side.
// Law 1: a value lies where Frame::at puts it.   Law 2: the curve lies within its band.
#pragma once

#include <string>

#include "assess/travel_curves.h"
#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

// A field with a round scale on either axis, in the unit that the numbers beside it are in.
struct Frame {
  Box box;
  double x_low = 0, x_high = 1, y_low = 0, y_high = 1, x_step = 1, y_step = 1;
  Point at(double x, double y) const {
    return {box.x + box.w * (x - x_low) / (x_high - x_low), box.y + box.h * (y_high - y) / (y_high - y_low)};
  }
};
struct CurveFrames {
  Frame values, difference;  // the later with a box of no height where there is no difference to show
};
CurveFrames place_curve(const Box& room, const TravelCurve& curve);

double draw_curve(Canvas& canvas, const Box& room, const Words& words, const TravelCurve& curve);
// Where the axes lie, for who measures in the file.
std::string curve_told(const CurveFrames& frames, const TravelCurve& curve);
std::string curve_title(const Words& words, const TravelCurve& curve);

// The unit that a curve is drawn in: degrees, millimetres, or none.
double in_drawn_unit(Kind kind, double si);

}  // namespace trammel::sheets
