// Random numbers from a generator that the caller owns, the same on every library.
#pragma once

#include <cmath>
#include <random>

#include "measure/quantity.h"

namespace trammel::setup {

using Generator = std::mt19937_64;

// In (0, 1), 53 bits.
inline double uniform(Generator& g) { return (static_cast<double>(g() >> 11) + 0.5) * 0x1p-53; }
// Standard normal: Box and Muller, Ann. Math. Statist. 29 (1958) 610 (from memory).
inline double normal(Generator& g) {
  const double r = std::sqrt(-2.0 * std::log(uniform(g)));
  return r * std::cos(2.0 * std::numbers::pi * uniform(g));
}
template <class Q>
Q normal(Generator& g, Q sd) {
  return normal(g) * sd;
}

}  // namespace trammel::setup
