// Exact relations between a wheel's angles and what square, tape and string read.
//
//   toe length   x = D sin(t)        D  diameter at which it is measured, t a wheel's own toe (rad)
//   camber       c = -+atan(g / h)   g  gap (>= 0), h base it spans; a gap at the top is negative camber
// Frame and sign: ISO 8855; toe positive toe-in, camber positive with the top outward.
// Range: |x| < D. Ignores: sidewall bulge (the square must touch the rim's lips), run-out of the rim.
// Error bound: rounding. Source: elementary trigonometry; the sign of the gap is common practice, no source.
// Law 1: toe_angle(toe_length(t, D), D) = t, and camber_of(gap_of(c, h)) = c.
#pragma once

#include <algorithm>
#include <cmath>

#include "measure/quantity.h"

namespace trammel::setup {

enum class Side { left, right };
enum class GapAt { top, bottom };

// A value with its standard uncertainty.
template <class Q>
struct Estimate {
  Q value{};
  Q u{};
};

// What a square touching the rim shows: the gap, where it is, and the base between the two touching places.
struct SquareGap {
  Length gap;
  GapAt at = GapAt::top;
  Length over;
};

inline Length toe_length(Angle toe, Length diameter) { return sin(toe) * diameter; }
inline Angle toe_angle(Length x, Length diameter) {
  return Angle::from_si(std::asin(std::clamp(x / diameter, -1.0, 1.0)));
}

inline Angle camber_of(const SquareGap& s) {
  const Angle lean = atan2(s.gap, s.over);
  return s.at == GapAt::top ? -lean : lean;
}
inline SquareGap gap_of(Angle camber, Length over) {
  return {tan(abs(camber)) * over, camber.si() < 0.0 ? GapAt::top : GapAt::bottom, over};
}

// GUM 5.1.2 with independent gap and base: u(c) from u(g) and u(h).
inline Estimate<Angle> camber_of(const SquareGap& s, Length u_gap, Length u_over) {
  const double g = s.gap.si(), h = s.over.si(), n = g * g + h * h;
  return {camber_of(s), Angle::from_si(std::hypot(h * u_gap.si(), g * u_over.si()) / n)};
}

}  // namespace trammel::setup
