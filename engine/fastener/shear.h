// A bolt loaded across its axis, and both ways at once: pivots and shackles.
//
//   Fv = av fub As / 1.25, av 0.6 (classes 4.6, 5.6, 8.8) or 0.5 (4.8, 5.8, 6.8, 10.9), threads in the shear plane
//        (EN 1993-1-8 Table 3.4, from memory); one plane, so a clevis has twice as much
//   shear yield = 0.577 tensile yield (distortion energy; NASA TM-106943 eq. 56 text)
//   Rt^2 + Rs^3 <= 1, R = load over what it may be (NASA TM-106943 eq. 56)
// Ignores: bending of a long pin, fatigue, friction of the clamped faces.
#pragma once

#include <optional>
#include <string_view>

#include "fastener/thread.h"

namespace trammel::fastener {

// One shear plane through the thread. Nothing for classes outside the standard's list.
std::optional<Force> shear_resistance(std::string_view bolt_class, const Thread& thread);
Pressure shear_yield(Pressure tensile_yield);
// Rt^2 + Rs^3 for the two shares: at most 1 where both loads may act together.
double tension_with_shear(double tension_share, double shear_share);

}  // namespace trammel::fastener
