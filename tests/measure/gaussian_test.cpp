// Joint uncertainty against the GUM's worked example and against closed forms.
#include "measure/gaussian.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <iostream>
#include <random>

#include "measure/box_probability.h"
#include "measure/normal.h"

namespace trammel {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double infinity = std::numeric_limits<double>::infinity();

// JCGM 100:2008 annex H.2: resistance, reactance and impedance from V, I and phi read together. Inputs and
// printed results as quoted in public test suites (as_published, secondary); the seventeen digits of R are
// those of a national metrology library's documentation (as_published, secondary); digits of X and Z derived.
TEST(Gaussian, GumH2) {
  const Eigen::Vector3d u(0.0032, 0.0095e-3, 0.00075);
  Eigen::Matrix3d r;
  r << 1, -0.36, 0.86, -0.36, 1, -0.65, 0.86, -0.65, 1;
  const Gaussian in({"V", "I", "phi"}, Eigen::Vector3d(4.999, 19.661e-3, 1.04446), u.asDiagonal() * r * u.asDiagonal());
  const Gaussian out = in.propagated<3>({"R", "X", "Z"}, [](const auto& x) {
    const auto z = x[0] / x[1];
    return std::array{z * cos(x[2]), z * sin(x[2]), z};
  });
  const auto close = [](double value, double published, double tolerance) {
    EXPECT_NEAR(value, published, tolerance);
    return std::abs(value - published) / std::abs(published);
  };
  // To the library's digits.
  double worst = close(out.mean("R"), 127.73216992810208, 1e-11);
  worst = std::max(worst, close(out.u("R"), 0.06997872798837172, 1e-13));
  std::cout << "GUM H.2: worst relative difference from the 17-digit values " << worst << "\n";
  close(out.mean("X"), 219.84651, 5e-6);
  close(out.mean("Z"), 254.25970, 5e-6);
  close(out.u("X"), 0.295717, 5e-7);
  close(out.u("Z"), 0.236603, 5e-7);
  close(out.correlation("R", "X"), -0.5915, 5e-5);
  close(out.correlation("R", "Z"), -0.4906, 5e-5);
  close(out.correlation("X", "Z"), 0.9928, 5e-5);
  // To the GUM's print, which was computed from readings before they were rounded to the inputs above.
  worst = close(out.mean("R"), 127.732, 5e-4);
  worst = std::max(worst, close(out.mean("X"), 219.847, 5.1e-4));
  worst = std::max(worst, close(out.mean("Z"), 254.260, 5e-4));
  const double worst_u =
      std::max({close(out.u("R"), 0.071, 1.1e-3), close(out.u("X"), 0.295, 1e-3), close(out.u("Z"), 0.236, 1e-3)});
  close(out.correlation("R", "X"), -0.588, 6e-3);
  close(out.correlation("R", "Z"), -0.485, 6e-3);
  close(out.correlation("X", "Z"), 0.993, 6e-4);
  std::cout << "GUM H.2: worst relative difference from the printed values " << worst << ", uncertainties " << worst_u
            << " (inputs are rounded there)\n";
}

Gaussian random_state(std::mt19937& rng, int n) {
  std::normal_distribution<double> draw;
  Eigen::MatrixXd a(n, n);
  for (int i = 0; i < n * n; ++i) a(i / n, i % n) = draw(rng);
  Eigen::VectorXd mean(n);
  std::vector<std::string> names;
  for (int i = 0; i < n; ++i) {
    mean(i) = draw(rng);
    names.push_back(std::string("x").append(std::to_string(i)));
  }
  return Gaussian(names, mean, a * a.transpose());
}

// Witness: the same state found by weighted least squares, (U^-1 + H^T R^-1 H)^-1 (derived).
TEST(Gaussian, ObservationAgreesWithLeastSquares) {
  std::mt19937 rng(5);
  std::normal_distribution<double> draw;
  double worst = 0.0;
  for (int trial = 0; trial < 200; ++trial) {
    Gaussian g = random_state(rng, 4);
    Eigen::MatrixXd h(2, 4);
    for (int i = 0; i < 8; ++i) h(i / 4, i % 4) = draw(rng);
    const Eigen::Vector2d z(draw(rng), draw(rng));
    const Eigen::Matrix2d r = Eigen::Vector2d(0.3, 0.7).asDiagonal();
    const Eigen::MatrixXd before = g.covariance().inverse();
    const Eigen::MatrixXd information = before + h.transpose() * r.inverse() * h;
    const Eigen::MatrixXd expected = information.inverse();
    const Eigen::VectorXd mean = expected * (before * g.mean() + h.transpose() * r.inverse() * z);
    ASSERT_TRUE(usable(g.observe(h, h * g.mean(), z, r).outcome));
    const double scale = 1.0 / information.cwiseAbs().maxCoeff() + expected.cwiseAbs().maxCoeff();
    const double condition = information.norm() * expected.norm();
    const double error =
        std::max((g.covariance() - expected).cwiseAbs().maxCoeff(), (g.mean() - mean).cwiseAbs().maxCoeff()) / scale /
        condition;
    worst = std::max(worst, error);
  }
  EXPECT_LT(worst, 1e-13);
  std::cout << "worst difference from least squares, in condition numbers, " << worst << "\n";
}

TEST(Gaussian, Law1EndlessNoiseTellsNothingAndNoiseAdds) {
  std::mt19937 rng(6);
  Gaussian g = random_state(rng, 3), twice = g, once = g;
  const Gaussian before = g;
  const Eigen::MatrixXd h = Eigen::RowVector3d(1, -2, 0.5);
  const auto one = [](double x) { return Eigen::MatrixXd::Constant(1, 1, x); };
  const Eigen::VectorXd z = Eigen::VectorXd::Constant(1, 0.4);
  g.observe(h, h * g.mean(), z, one(1e18));
  EXPECT_LT((g.covariance() - before.covariance()).norm(), 1e-12);
  twice.observe(h, h * twice.mean(), z, one(0.2));
  twice.observe(h, h * twice.mean(), z, one(0.2));
  once.observe(h, h * once.mean(), z, one(0.1));
  EXPECT_LT((twice.covariance() - once.covariance()).norm(), 1e-12);
  EXPECT_LT((twice.mean() - once.mean()).norm(), 1e-12);
}

TEST(Gaussian, Law2IndependentStaysSoAndOrderDoesNotCount) {
  std::mt19937 rng(7);
  Gaussian g = random_state(rng, 2);
  g.append("tape", 0.5 * units::metre, 1.0 * units::mm);
  EXPECT_EQ(g.correlation("tape", "x0"), 0.0);
  EXPECT_DOUBLE_EQ(g.u("tape"), 0.001);
  const std::vector<std::string> pick = {"tape", "x1"};
  const Gaussian m = g.marginal(pick);
  EXPECT_EQ(m.mean("x1"), g.mean("x1"));
  EXPECT_DOUBLE_EQ(m.u("x1"), g.u("x1"));
  EXPECT_EQ(m.correlation("x1", "tape"), 0.0);

  Gaussian ab = g, ba = g;
  const Eigen::MatrixXd a = Eigen::RowVector3d(1, 1, 0), b = Eigen::RowVector3d(0, 1, 300);
  const Eigen::VectorXd z = Eigen::VectorXd::Constant(1, 1.0);
  const Eigen::MatrixXd r = Eigen::MatrixXd::Constant(1, 1, 0.25);
  ab.observe(a, a * ab.mean(), z, r), ab.observe(b, b * ab.mean(), z, r);
  ba.observe(b, b * ba.mean(), z, r), ba.observe(a, a * ba.mean(), z, r);
  EXPECT_LT((ab.mean() - ba.mean()).norm(), 1e-12);
  EXPECT_LT((ab.covariance() - ba.covariance()).norm(), 1e-12);
}

TEST(Gaussian, DerivedValuesKeepTheirCorrelation) {
  Gaussian g;
  g.append("front", 0.851, 0.001);
  g.append("rear", 0.865, 0.001);
  const std::vector<std::string> names = {"toe"};
  g.derive(names, Eigen::VectorXd::Constant(1, 0.014), Eigen::RowVector2d(-1, 1));
  EXPECT_NEAR(g.u("toe"), 0.001 * std::sqrt(2.0), 1e-15);
  EXPECT_NEAR(g.correlation("toe", "rear"), std::sqrt(0.5), 1e-12);
  EXPECT_NEAR(g.correlation("toe", "front"), -std::sqrt(0.5), 1e-12);
}

TEST(Gaussian, TwoExactValuesCannotBeWeighed) {
  Gaussian g;
  g.append("a", 1.0, 0.0);
  const Eigen::MatrixXd h = Eigen::MatrixXd::Ones(1, 1), none = Eigen::MatrixXd::Zero(1, 1);
  const auto report = g.observe(h, g.mean(), Eigen::VectorXd::Constant(1, 2.0), none);
  EXPECT_FALSE(usable(report.outcome));
  EXPECT_EQ(g.mean("a"), 1.0);
}

TEST(Normal, CdfAndQuantile) {
  // Abramowitz & Stegun (1964) table 26.1: P(1) and P(2), 15 decimals; 26.5: x of Q = 0.025 (from memory).
  EXPECT_NEAR(normal_cdf(1.0), 0.841344746068543, 1e-15);
  EXPECT_NEAR(normal_cdf(2.0), 0.977249868051821, 1e-15);
  EXPECT_NEAR(normal_quantile(0.975), 1.95996398454005, 1e-14);
  double worst = 0.0, worst_tail = 0.0;
  for (int i = 1; i < 4000; ++i)
    worst = std::max(worst, std::abs(normal_cdf(normal_quantile(i / 4000.0)) - i / 4000.0));
  for (double p = 0.4; p > 1e-300; p *= 0.37)
    worst_tail = std::max(worst_tail, std::abs(normal_cdf(normal_quantile(p)) / p - 1.0));
  EXPECT_LT(worst, 1e-15);
  EXPECT_LT(worst_tail, 1e-12);
  std::cout << "worst cdf(quantile(p)) - p " << worst << ", in the tail relative " << worst_tail << "\n";
}

Eigen::MatrixXd equal_correlation(int n, double rho) {
  return Eigen::MatrixXd::Constant(n, n, rho) + (1.0 - rho) * Eigen::MatrixXd::Identity(n, n);
}

TEST(BoxProbability, IndependentVariablesMultiply) {
  double worst = 0.0;
  for (int n = 1; n <= 5; ++n) {
    Eigen::VectorXd mean(n), low(n), high(n), u(n);
    double product = 1.0;
    for (int i = 0; i < n; ++i) {
      mean(i) = 0.3 * i;
      u(i) = 0.5 + 0.4 * i;
      low(i) = -1.0 + 0.1 * i;
      high(i) = i == 3 ? infinity : 1.5;
      product *= normal_cdf((high(i) - mean(i)) / u(i)) - normal_cdf((low(i) - mean(i)) / u(i));
    }
    const auto p = probability_in_box(mean, u.cwiseAbs2().asDiagonal(), low, high);
    EXPECT_NEAR(p.value, product, 1e-13) << n;
    worst = std::max(worst, std::abs(p.value - product));
  }
  std::cout << "independent box: worst error " << worst << "\n";
}

// Orthants in closed form: two variables 1/4 + asin(rho)/(2 pi) (Sheppard 1899); three variables
// 1/8 + (sum of the asins)/(4 pi); any number at rho = 1/2: 1/(n + 1). From memory; the second follows from the first.
TEST(BoxProbability, Orthants) {
  double worst = 0.0, worst_of_error = 0.0;
  const auto check = [&](const Eigen::MatrixXd& c, double expected) {
    const auto n = static_cast<int>(c.rows());
    const auto p = probability_in_box(Eigen::VectorXd::Zero(n), c, Eigen::VectorXd::Zero(n),
                                      Eigen::VectorXd::Constant(n, infinity));
    const double error = std::abs(p.value - expected);
    EXPECT_LT(error, c.cwiseAbs().sum() - n > 0.951 * n * (n - 1) ? 1e-4 : 2e-5) << n << "\n" << c;
    EXPECT_LT(error, 4.0 * p.error + 1e-9) << n << "\n" << c;
    worst = std::max(worst, error);
    worst_of_error = std::max(worst_of_error, p.error);
  };
  for (double rho : {-0.99, -0.9, -0.5, -0.1, 0.2, 0.6, 0.95, 0.999})
    check(equal_correlation(2, rho), 0.25 + std::asin(rho) / (2 * pi));
  for (double rho : {-0.45, -0.2, 0.3, 0.8, 0.97})
    check(equal_correlation(3, rho), 0.125 + 3 * std::asin(rho) / (4 * pi));
  Eigen::Matrix3d c;
  c << 1, 0.5, -0.4, 0.5, 1, 0.3, -0.4, 0.3, 1;
  check(c, 0.125 + (std::asin(0.5) + std::asin(-0.4) + std::asin(0.3)) / (4 * pi));
  for (int n = 2; n <= 5; ++n) check(equal_correlation(n, 0.5), 1.0 / (n + 1));
  std::cout << "orthants: worst error " << worst << ", largest stated error " << worst_of_error << "\n";
}

TEST(BoxProbability, DependentAndExactVariables) {
  // x and -x within one box each; an exact variable inside, then outside, its own.
  Eigen::Matrix3d c = Eigen::Matrix3d::Zero();
  c.topLeftCorner(2, 2) << 4, -4, -4, 4;
  const Eigen::Vector3d low(-2, -1, 0.9), high(2, 3, 1.1);
  const auto p = probability_in_box(Eigen::Vector3d(0, 0, 1), c, low, high);
  EXPECT_NEAR(p.value, normal_cdf(0.5) - normal_cdf(-1.0), 1e-3);
  EXPECT_EQ(probability_in_box(Eigen::Vector3d(0, 0, 2), c, low, high).value, 0.0);
  // Given twice, a value is no less sure.
  const auto q = probability_in_box(Eigen::Vector2d(0, 0), Eigen::Matrix2d::Constant(1.0), Eigen::Vector2d(-1, -1),
                                    Eigen::Vector2d(1, 1));
  EXPECT_NEAR(q.value, normal_cdf(1.0) - normal_cdf(-1.0), 1e-9);
}

// The tolerance box of an alignment: four correlated values; witness is plain counting of random draws.
TEST(BoxProbability, AgreesWithCounting) {
  std::mt19937_64 rng(11);
  std::normal_distribution<double> draw;
  const Gaussian g = [] {
    std::mt19937 r(3);
    return random_state(r, 4);
  }();
  const Eigen::VectorXd low = Eigen::VectorXd::Constant(4, -1.2), high = Eigen::VectorXd::Constant(4, 1.6);
  const auto p = probability_in_box(g.mean(), g.covariance(), low, high);
  const Eigen::MatrixXd l = g.covariance().llt().matrixL();
  constexpr int draws = 400'000;
  int in = 0;
  for (int i = 0; i < draws; ++i) {
    const Eigen::Vector4d w(draw(rng), draw(rng), draw(rng), draw(rng));
    const Eigen::VectorXd x = g.mean() + l * w;
    in += ((x - low).minCoeff() >= 0.0 && (high - x).minCoeff() >= 0.0) ? 1 : 0;
  }
  const double counted = static_cast<double>(in) / draws, sd = std::sqrt(counted * (1 - counted) / draws);
  EXPECT_NEAR(p.value, counted, 4 * sd);
  std::cout << "box " << p.value << " ± " << p.error << ", counted " << counted << " ± " << sd << "\n";
}

}  // namespace
}  // namespace trammel
