// The least that must be cut off a panel's lip so that a tyre keeps the wanted gap to what is left of it.
//
// The panel is taken as the plane through its lip (a polyline) and, where the lip is straight, one more point of the
// panel. From places along the lip, `spacing` apart, a ray runs square to the lip into the metal, away from the wheel.
// Along a ray the gap of one pose is convex, so the metal that comes too near in that pose is one stretch of the
// ray; the cut lies at the furthest end of all poses' stretches:
//   cut(ray) = max over poses of the greatest t with gap(lip + t . inward) < wanted, 0 where there is none
// each found by Newton's method from the far end, which on a convex function comes down to it from outside; then
// the worst pose is refined about the grid's.
// Frame of the template: x along the panel, to the front of the cart where the panel runs fore and aft; y up the
// panel; z outward, out of the panel's plane on the side away from the cart's middle.
// Ignores: the flange turned in at the lip, the panel's bulge out of its plane (told as `out_of_plane`), the metal
// beyond `deepest_cut`. Error: 1e-5 m along a ray for the grid's poses.
// Law 1: after the cut every place along its rays keeps the wanted gap.   Law 2: a smaller gap never asks for more.
#pragma once

#include "suspension/clearance/sweep.h"

namespace trammel::suspension {

struct Lip {
  std::vector<Vector3<double>> points;      // at least two
  std::optional<Vector3<double>> on_panel;  // a point of the panel off the lip
};

struct TrimRay {
  double x = 0, y = 0;                // of the lip's place, metres in the panel's frame
  double inward_x = 0, inward_y = 0;  // unit, into the metal
  Length cut{};                       // 0 where nothing is to be cut
  bool beyond = false;                // the wanted gap is not reached within the deepest cut
  WheelStation worst;                 // the pose that asks for it
  double cut_x() const { return x + inward_x * cut.si(); }
  double cut_y() const { return y + inward_y * cut.si(); }
};

struct PanelFrame {
  Vector3<double> origin, x, y, z;
  Vector3<double> place(double px, double py) const { return origin + px * x + py * y; }
};

enum class TrimStatus { ok, lip_too_short, no_plane };
struct Trim {
  TrimStatus status = TrimStatus::ok;
  PanelFrame panel;
  std::vector<TrimRay> rays;  // along the lip as given
  Length deepest{};           // the greatest cut
  Length out_of_plane{};      // the furthest that a point of the lip lies off the panel's plane
  bool needed() const { return deepest.si() > 0; }
};

struct TrimRequest {
  Length wanted{};
  Length spacing = Length::from_si(0.01), deepest_cut = Length::from_si(0.15);
};

Trim trim_line(const WheelPlaces& places, const PoseGrid& grid, const TyreShape& tyre, const Lip& lip,
               const TrimRequest& request);
// The same with the grid's poses at hand.
Trim trim_line(const WheelPlaces& places, const Stations& stations, const TyreShape& tyre, const Lip& lip,
               const TrimRequest& request);

}  // namespace trammel::suspension
