#include "measure/box_probability.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>
#include <vector>

#include "measure/normal.h"

namespace trammel {
namespace {

constexpr int shifts = 8;
constexpr std::array<int, 16> primes = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53};

struct Chances {
  double below = 0.0, within = 0.0;
};

// Of a standard normal between a and b; the upper tail is taken as its mirror, which loses no digits.
Chances chances(double a, double b) {
  if (a >= b) return {normal_cdf(a), 0.0};
  const double within = a > 0.0 ? normal_cdf(-a) - normal_cdf(-b) : normal_cdf(b) - normal_cdf(a);
  return {normal_cdf(a), std::max(0.0, within)};
}

// The mean of a standard normal cut to [a, b].
double cut_mean(double a, double b, double within) {
  const auto density = [](double x) { return std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi); };
  if (within > 1e-12) return (density(a) - density(b)) / within;
  return std::clamp(0.0, std::min(a, b), std::max(a, b));
}

// The box about the mean with the lower triangle of its covariance, tightest variable first.
struct Ordered {
  Eigen::MatrixXd l;
  Eigen::VectorXd low, high;
};

constexpr double dependent = 1e-12;  // share of its variance that a variable has left when it follows from others

Ordered ordered(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance, const Eigen::VectorXd& low,
                const Eigen::VectorXd& high) {
  const Eigen::Index n = mean.size();
  Eigen::MatrixXd c = covariance;
  Ordered o{Eigen::MatrixXd::Zero(n, n), low - mean, high - mean};

  // To unit variances.
  for (Eigen::Index i = 0; i < n; ++i) {
    const double u = std::sqrt(std::max(0.0, c(i, i)));
    if (!(u > 0.0)) continue;
    c.row(i) /= u;
    c.col(i) /= u;
    o.low(i) /= u;
    o.high(i) /= u;
  }

  Eigen::VectorXd expected = Eigen::VectorXd::Zero(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    // The variable least likely to lie within, given the expected values of those before.
    Eigen::Index best = i;
    double best_within = 2.0;
    for (Eigen::Index k = i; k < n; ++k) {
      const double left = c(k, k) - o.l.row(k).head(i).squaredNorm();
      if (left <= dependent) continue;
      const double shift = o.l.row(k).head(i).dot(expected.head(i)), s = std::sqrt(left);
      const double within = chances((o.low(k) - shift) / s, (o.high(k) - shift) / s).within;
      if (within < best_within) {
        best_within = within;
        best = k;
      }
    }
    c.row(i).swap(c.row(best));
    c.col(i).swap(c.col(best));
    o.l.row(i).swap(o.l.row(best));
    std::swap(o.low(i), o.low(best));
    std::swap(o.high(i), o.high(best));

    // One column of Cholesky's triangle.
    const double left = c(i, i) - o.l.row(i).head(i).squaredNorm();
    if (left <= dependent) continue;
    o.l(i, i) = std::sqrt(left);
    for (Eigen::Index k = i + 1; k < n; ++k)
      o.l(k, i) = (c(k, i) - o.l.row(k).head(i).dot(o.l.row(i).head(i))) / o.l(i, i);
    const double shift = o.l.row(i).head(i).dot(expected.head(i));
    const double a = (o.low(i) - shift) / o.l(i, i), b = (o.high(i) - shift) / o.l(i, i);
    expected(i) = cut_mean(a, b, chances(a, b).within);
  }
  return o;
}

// Genz's integrand at one point of the unit cube.
double integrand(const Ordered& o, const std::vector<double>& w, Eigen::VectorXd& y) {
  double product = 1.0;
  const Eigen::Index n = o.low.size();
  for (Eigen::Index i = 0; i < n && product > 0.0; ++i) {
    const double shift = o.l.row(i).head(i).dot(y.head(i));
    if (o.l(i, i) == 0.0) {
      // Follows from the others: within or not, with room for rounding.
      const double room = 1e-9;
      if (shift < o.low(i) - room || shift > o.high(i) + room) return 0.0;
      y(i) = 0.0;
      continue;
    }
    const double a = (o.low(i) - shift) / o.l(i, i), b = (o.high(i) - shift) / o.l(i, i);
    const Chances c = chances(a, b);
    product *= c.within;
    if (i + 1 < n) {
      // Drawn from the nearer tail.
      const bool upper = a > 0.0;
      const double p = upper ? normal_cdf(-b) + (1.0 - w[i]) * c.within : c.below + w[i] * c.within;
      const double x = normal_quantile(std::clamp(p, 1e-300, 1.0 - 1e-16));
      y(i) = upper ? -x : x;
    }
  }
  return product;
}

double fraction_of(double x) { return x - std::floor(x); }

}  // namespace

BoxProbability probability_in_box(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance,
                                  const Eigen::VectorXd& low, const Eigen::VectorXd& high, int points_a_shift) {
  const auto n = static_cast<int>(mean.size());
  assert(n <= static_cast<int>(primes.size()) && covariance.rows() == n && low.size() == n && high.size() == n);
  if (n == 0) return {1.0, 0.0};
  const Ordered o = ordered(mean, covariance, low, high);
  Eigen::VectorXd y = Eigen::VectorXd::Zero(n);
  std::vector<double> w(n, 0.5);
  if (n == 1) return {integrand(o, w, y), 1e-15};

  // Eight shifted copies of the lattice; their scatter is the measure of the error.
  std::array<double, shifts> of_shift{};
  for (int s = 0; s < shifts; ++s) {
    for (int k = 1; k <= points_a_shift; ++k) {
      for (int i = 0; i + 1 < n; ++i) {
        const double shift = (s + 0.5) / shifts + s * std::numbers::phi * (i + 1);
        const double lattice = fraction_of(k * std::sqrt(static_cast<double>(primes[i])) + shift);
        w[i] = std::abs(2.0 * lattice - 1.0);
      }
      of_shift[s] += integrand(o, w, y);
    }
    of_shift[s] /= points_a_shift;
  }
  double value = 0.0, scatter = 0.0;
  for (double p : of_shift) value += p / shifts;
  for (double p : of_shift) scatter += (p - value) * (p - value);
  const double error = 3.0 * std::sqrt(scatter / (shifts * (shifts - 1)));
  return {std::clamp(value, 0.0, 1.0), error + 1e-15};
}

}  // namespace trammel
