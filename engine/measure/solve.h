// The root of one equation in a bracket, with a report that says whether it can be used.
//
// Method: Newton's step where it stays inside the bracket and halves the residual's step fast enough, else
// bisection. The bracket only shrinks, so a root inside is never left.
// f takes and gives Dual<double, 1>, so that a kernel written once brings its own derivative.
// Range: f continuous on [low, high] with a change of sign. Error: |x - root| <= x_tolerance, or one
// spacing of doubles at x.
// Source: Press et al., Numerical Recipes, 3rd ed. (2007), 9.4 for the safeguard; the text is our own.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/dual.h"

namespace trammel {

enum class RootOutcome { converged, no_sign_change, not_converged };
inline bool usable(RootOutcome o) { return o == RootOutcome::converged; }

struct RootReport {
  RootOutcome outcome = RootOutcome::not_converged;
  double x = 0.0;
  double residual = 0.0;  // f(x)
  int iterations = 0;
};

struct RootLimits {
  double x_tolerance = 1e-14;
  int most_iterations = 100;
};

template <class F>
RootReport find_root(F&& f, double low, double high, const RootLimits& limits = {}) {
  using D = Dual<double, 1>;
  const auto at = [&](double x) { return f(D::variable(x, 0)); };
  const double f_low = at(low).value, f_high = at(high).value;
  if (f_low == 0.0) return {RootOutcome::converged, low, 0.0, 0};
  if (f_high == 0.0) return {RootOutcome::converged, high, 0.0, 0};
  if (std::isnan(f_low) || std::isnan(f_high)) return {RootOutcome::not_converged, low, f_low, 0};
  if ((f_low < 0.0) == (f_high < 0.0)) return {RootOutcome::no_sign_change, low, f_low, 0};

  // Turned so that f < 0 at `below`.
  double below = f_low < 0.0 ? low : high, above = f_low < 0.0 ? high : low;
  double x = 0.5 * (low + high), step = std::abs(high - low), step_before = step;
  RootReport report;
  for (report.iterations = 1; report.iterations <= limits.most_iterations; ++report.iterations) {
    const D y = at(x);
    report.x = x;
    report.residual = y.value;
    if (std::isnan(y.value)) return report;
    if (y.value == 0.0) break;
    (y.value < 0.0 ? below : above) = x;

    const double newton = x - y.value / y.slope[0];
    const bool inside = newton > std::min(below, above) && newton < std::max(below, above);
    const bool fast = std::abs(newton - x) < 0.5 * step_before;
    const double next = inside && fast ? newton : 0.5 * (below + above);
    step_before = step;
    step = std::abs(next - x);
    const double spacing = 2.0 * std::numeric_limits<double>::epsilon() * std::abs(x);
    if (step <= std::max(limits.x_tolerance, spacing)) break;
    x = next;
  }
  if (report.iterations <= limits.most_iterations) report.outcome = RootOutcome::converged;
  return report;
}

}  // namespace trammel
