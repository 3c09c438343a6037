// The least-squares solver against published problems.
#include "setup/survey/least_squares.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>

namespace trammel::survey {
namespace {

// STRD-BOXBOD. Source: NIST Statistical Reference Datasets, nonlinear regression, BoxBOD (higher difficulty), certified
// values; data and values as in tests/data/geometry_worked_examples.csv.
TEST(LeastSquares, NistBoxBod) {
  const std::array<double, 6> x{1, 2, 3, 5, 7, 10}, y{109, 149, 149, 191, 213, 224};
  const Residuals box_bod = [&](std::span<const double> b, std::span<double> r, std::span<double> slopes) {
    for (std::size_t i = 0; i < x.size(); ++i) {
      const double e = std::exp(-b[1] * x[i]);
      r[i] = b[0] * (1.0 - e) - y[i];
      slopes[2 * i] = 1.0 - e;
      slopes[2 * i + 1] = b[0] * x[i] * e;
    }
  };
  double worst = 0.0;
  for (const auto& start : {std::vector<double>{1.0, 1.0}, {100.0, 0.75}}) {
    FitLimits far;
    far.damping = 1.0;
    const Fit found = fit(box_bod, x.size(), start, far);
    std::cout << "from (" << start[0] << ", " << start[1] << "): " << found.iterations << " iterations\n";
    ASSERT_EQ(found.outcome, FitOutcome::converged);
    const double scale = std::sqrt(found.sum_of_squares / 4.0);
    const auto off = [&](double value, double certified) {
      worst = std::max(worst, std::abs(value / certified - 1.0));
    };
    off(found.x[0], 213.80940889);
    off(found.x[1], 0.54723748542);
    off(found.sum_of_squares, 1168.0088766);
    off(scale * std::sqrt(found.covariance[0]), 12.354515176);
    off(scale * std::sqrt(found.covariance[3]), 0.10455993237);
  }
  std::cout << "worst relative error of parameters, sum and standard deviations (NIST StRD BoxBOD) " << worst << '\n';
  EXPECT_LT(worst, 1e-6);
}

struct Tape {
  double x, y, d;
};
Fit in_the_plane(const std::vector<Tape>& tapes, std::vector<double> start) {
  return fit(
      [&](std::span<const double> p, std::span<double> r, std::span<double> slopes) {
        for (std::size_t i = 0; i < tapes.size(); ++i) {
          const double dx = p[0] - tapes[i].x, dy = p[1] - tapes[i].y, d = std::hypot(dx, dy);
          r[i] = d - tapes[i].d;
          slopes[2 * i] = dx / d;
          slopes[2 * i + 1] = dy / d;
        }
      },
      tapes.size(), std::move(start));
}

// TRILAT-1 and TRILAT-2. Source: test cases of a public general-purpose trilateration library (inputs as published,
// rounded answer (-0.6, -11.8); digits derived).
TEST(LeastSquares, TrilaterationInThePlane) {
  std::vector<Tape> tapes{{5, -6, 8.06}, {13, -15, 13.97}, {21, -3, 23.32}};
  const Fit three = in_the_plane(tapes, {10, -10});
  tapes.push_back({12.42, -21.2, 15.31});
  const Fit four = in_the_plane(tapes, {10, -10});
  ASSERT_TRUE(usable(three.outcome) && usable(four.outcome));
  const double worst = std::max({std::abs(three.x[0] + 0.597670), std::abs(three.x[1] + 11.798201),
                                 std::abs(four.x[0] + 0.364366), std::abs(four.x[1] + 12.237007)});
  std::cout << "worst error (TRILAT-1, TRILAT-2) " << worst << '\n';
  EXPECT_LT(worst, 1e-5);
  EXPECT_NEAR(three.x[0], -0.6, 0.01);
  EXPECT_NEAR(three.x[1], -11.8, 0.01);
  EXPECT_NEAR(three.sum_of_squares, 1.58e-6, 1e-8);
  EXPECT_NEAR(four.sum_of_squares, 0.226039, 1e-6);
}

// A direction that nothing holds is named and not guessed.
TEST(LeastSquares, SaysWhatIsLoose) {
  const Fit found = fit(
      [](std::span<const double> x, std::span<double> r, std::span<double> slopes) {
        r[0] = x[0] + x[1] - 3.0;
        r[1] = 2.0 * (x[2] - 5.0);
        slopes[0] = slopes[1] = 1.0;
        slopes[5] = 2.0;
      },
      2, {0.0, 0.0, 0.0});
  EXPECT_EQ(found.outcome, FitOutcome::not_determined);
  EXPECT_NEAR(found.loose[0], 0.5, 1e-9);
  EXPECT_NEAR(found.loose[1], 0.5, 1e-9);
  EXPECT_NEAR(found.loose[2], 0.0, 1e-9);
  EXPECT_NEAR(found.x[2], 5.0, 1e-9);
  EXPECT_NEAR(found.covariance[8], 0.25, 1e-12);
}

}  // namespace
}  // namespace trammel::survey
