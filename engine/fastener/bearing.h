// What the clamped parts bear: the pressure under head and nut, the walls of a box section, a sleeve inside it.
//
//   p = F / (pi/4 (D^2 - h^2))            D face under head or washer, h hole; p below the material's limit
//   mean friction diameter (D + h)/2
//   wall of a box: Fw = 4 pi m R/(R - a), m = s t^2/4
//     the plastic limit of a plate of thickness t and yield s, held all round at radius R (half the box's width) and
//     pushed in by a stiff disc of radius a = D/2: virtual work of a cone with hinges at a and R (Johansen's yield
//     lines, from memory; an upper bound, so a wall may give way a little earlier)
//   sleeve: Fs = s pi/4 (o^2 - i^2), o outside, i inside diameter
// A sleeve must stand as long as the box is wide inside (0.3 mm: common practice, no source): a shorter one leaves the
// walls to be drawn in, a longer one leaves the box loose.
// Ignores: welds and corner radii of the box, crippling of its side walls, dents under a narrow flange.
#pragma once

#include <optional>

#include "fastener/joint.h"
#include "reference/basis.h"

namespace trammel::fastener {

struct FaceStrength {
  std::optional<Pressure> yield;  // none for brittle materials
  Pressure pressure;              // greatest under a head
  std::string_view source;
  reference::Basis basis{};
};
// The weakest common grade of a material. Nothing for plastic and rubber.
std::optional<FaceStrength> face_strength(Material material);

// Outside diameter of the face under the head: the standard's washer face; 1.5 d where not tabled (Shigley, 9th ed., p.
// 438).
Length head_face(const Thread& thread);
// Outside of a plain washer; the head's face where not tabled.
Length washer_face(const Thread& thread);

Pressure face_pressure(Force clamp, Length face, Length hole);
// The clamp force at which the wall gives way.
Force wall_limit(Length wall, Length box_width, Length face, Pressure yield);
Force sleeve_limit(Length outside, Length inside, Pressure yield);

}  // namespace trammel::fastener
