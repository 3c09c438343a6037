// What a solve may ask of a scalar: its plain value, whether it is above a bound, and whether it is zero with
// all its derivatives.
#pragma once

#include <type_traits>

#include "measure/dual.h"

namespace trammel::suspension {

constexpr double value_of(double x) { return x; }
template <class T, int N>
constexpr double value_of(const Dual<T, N>& x) {
  return value_of(x.value);
}
// Whether a scalar, or every lane of one, lies above a bound.
constexpr bool above(double x, double bound) { return x > bound; }
template <class T, int N>
constexpr bool above(const Dual<T, N>& x, double bound) {
  return above(x.value, bound);
}
constexpr bool exactly_zero(double x) { return x == 0.0; }
template <class T, int N>
constexpr bool exactly_zero(const Dual<T, N>& x) {
  for (const T& s : x.slope)
    if (!exactly_zero(s)) return false;
  return exactly_zero(x.value);
}
template <class T>
inline constexpr bool carries_slopes = !std::is_same_v<T, double>;

}  // namespace trammel::suspension
