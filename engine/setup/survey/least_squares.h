// Nonlinear least squares of small dense problems, and what can be said of the answer.
//
// Model: the least S(x) = sum r_i(x)^2, where r_i is reading less model, divided by its standard uncertainty, so that
// residuals have no unit. Steps are Levenberg's, (J'J + m I) d = -J'r; m begins at a share of the greatest of diag J'J
// and follows the gain as Nielsen's does. The covariance is (J'J)^-1 at the end; directions that no reading holds are
// left out of it and named by `loose`. Range: up to some hundred parameters. A start far away may end in another
// minimum: the caller chooses it. Error: the step's last relative size, 1e-10 where converged. Source: Levenberg,
// Quart. Appl. Math. 2 (1944) 164; Nielsen, IMM-REP-1999-05 (1999) (both from memory). Checked with NIST StRD BoxBOD.
#pragma once

#include <functional>
#include <span>
#include <vector>

namespace trammel::survey {

enum class FitOutcome {
  converged,
  not_determined,  // x is a least place, but not the only one: see `loose`
  not_converged,
};
inline bool usable(FitOutcome o) { return o == FitOutcome::converged; }

// Fills residuals and their slopes, row by row: slopes[i * parameters + k] = d r_i / d x_k. Both come zeroed.
using Residuals = std::function<void(std::span<const double> x, std::span<double> residuals, std::span<double> slopes)>;

struct FitLimits {
  int most_iterations = 200;
  double step = 1e-10;       // relative
  double damping = 1e-3;     // the share that m begins with; nearer to 1 for starts far away
  double determined = 1e-9;  // least share of the best held direction that counts as held, scaled
  bool covariance = true;    // else only x, residuals and the sum
};

struct Fit {
  FitOutcome outcome = FitOutcome::not_converged;
  std::vector<double> x, residuals, slopes;
  double sum_of_squares = 0.0;
  int iterations = 0;
  std::vector<double> covariance;  // row by row
  std::vector<double> loose;       // of each parameter: 0 held by the readings, up to 1 not at all
};

Fit fit(const Residuals& residuals, std::size_t readings, std::vector<double> start, const FitLimits& limits = {});

}  // namespace trammel::survey
