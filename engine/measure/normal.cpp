#include "measure/normal.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace trammel {

double normal_cdf(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

double normal_quantile(double p) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  if (p <= 0.0) return -infinity;
  if (p >= 1.0) return infinity;
  if (p > 0.5) return -normal_quantile(1.0 - p);

  // Abramowitz & Stegun 26.2.23, lower tail.
  const double t = std::sqrt(-2.0 * std::log(p));
  double x = -(t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308))));

  // Halley on cdf(x) = p: the second derivative of the cdf is -x times the first.
  for (int step = 0; step < 2; ++step) {
    const double density = std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi);
    if (density <= 0.0) break;
    const double newton = (normal_cdf(x) - p) / density;
    x -= newton / (1.0 + 0.5 * x * newton);
  }
  return x;
}

}  // namespace trammel
