// Standard uncertainties of single readings, before they become joint.
//
//   rectangular(a)       a / sqrt 3     anything within ± a equally likely   JCGM 100:2008 4.3.7
//   resolution(d)        d / sqrt 12    a scale read to its nearest mark d   JCGM 100:2008 F.2.2.1
//   triangular(a)        a / sqrt 6     ends within ± a unlikely             JCGM 100:2008 4.3.9
//   repeated(s, n)       s / sqrt n     mean of n readings of scatter s      JCGM 100:2008 4.2.3
//   tape_resolution(16)  of a tape read to the nearest 1/16 in: 0.458 mm
#pragma once

#include <cassert>
#include <cmath>
#include <numbers>

#include "measure/quantity.h"

namespace trammel {

template <class Q>
Q rectangular(Q half_width) {
  return half_width * std::numbers::inv_sqrt3;
}
template <class Q>
Q resolution(Q step) {
  return rectangular(step * 0.5);
}
template <class Q>
Q triangular(Q half_width) {
  return half_width / std::sqrt(6.0);
}
template <class Q>
Q repeated(Q scatter, int readings) {
  assert(readings >= 1);
  return scatter / std::sqrt(static_cast<double>(readings));
}
inline Length tape_resolution(int denominator) {
  assert(denominator >= 1);
  return resolution(units::inch / static_cast<double>(denominator));
}

}  // namespace trammel
