#include "setup/survey/least_squares.h"

#include <Eigen/Dense>
#include <cmath>

namespace trammel::survey {

namespace {

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
using Vector = Eigen::VectorXd;

struct Point {
  Vector x, r;
  Matrix slopes;
  double sum = 0.0;
};

Point at(const Residuals& residuals, std::size_t readings, const Vector& x) {
  const auto m = static_cast<Eigen::Index>(readings);
  Point p{x, Vector::Zero(m), Matrix::Zero(m, x.size())};
  residuals({p.x.data(), static_cast<std::size_t>(x.size())}, {p.r.data(), readings},
            {p.slopes.data(), static_cast<std::size_t>(p.slopes.size())});
  p.sum = p.r.squaredNorm();
  return p;
}

// (J'J)^-1 over the directions that are held, and how far each parameter lies in the others.
void covariance_of(const Point& p, double determined, Fit& fit) {
  const Eigen::Index n = p.x.size();
  if (n == 0) return;
  const Eigen::MatrixXd normal = p.slopes.transpose() * p.slopes;
  Vector scale(n);
  for (Eigen::Index k = 0; k < n; ++k) scale[k] = normal(k, k) > 0.0 ? 1.0 / std::sqrt(normal(k, k)) : 1.0;
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(scale.asDiagonal() * normal * scale.asDiagonal());
  const double least = determined * std::max(1.0, eigen.eigenvalues().maxCoeff());
  Eigen::MatrixXd inverse = Eigen::MatrixXd::Zero(n, n);
  fit.loose.assign(static_cast<std::size_t>(n), 0.0);
  for (Eigen::Index d = 0; d < n; ++d) {
    const Vector v = eigen.eigenvectors().col(d);
    if (eigen.eigenvalues()[d] > least) {
      inverse += v * v.transpose() / eigen.eigenvalues()[d];
      continue;
    }
    fit.outcome = FitOutcome::not_determined;
    for (Eigen::Index k = 0; k < n; ++k) fit.loose[static_cast<std::size_t>(k)] += v[k] * v[k];
  }
  const Matrix scaled = scale.asDiagonal() * inverse * scale.asDiagonal();
  fit.covariance.assign(scaled.data(), scaled.data() + scaled.size());
}

}  // namespace

Fit fit(const Residuals& residuals, std::size_t readings, std::vector<double> start, const FitLimits& limits) {
  Fit result;
  const auto n = static_cast<Eigen::Index>(start.size());
  Point here = at(residuals, readings, Eigen::Map<const Vector>(start.data(), n));
  double damping = 0.0, growth = 2.0;
  if (n == 0) result.outcome = FitOutcome::converged;
  while (n > 0 && result.iterations < limits.most_iterations && std::isfinite(here.sum)) {
    ++result.iterations;
    Eigen::MatrixXd normal = here.slopes.transpose() * here.slopes;
    const Vector gradient = here.slopes.transpose() * here.r;
    if (result.iterations == 1) damping = limits.damping * std::max(normal.diagonal().maxCoeff(), 1e-300);
    normal.diagonal().array() += damping;
    const Vector step = -normal.ldlt().solve(gradient);
    const bool small = step.norm() <= limits.step * (here.x.norm() + limits.step);
    if (small || !step.allFinite()) {
      result.outcome = small ? FitOutcome::converged : FitOutcome::not_converged;
      break;
    }
    // The gain: how much of the promised drop has come.
    Point next = at(residuals, readings, here.x + step);
    const double promised = step.dot(damping * step - gradient);
    const double gain = (here.sum - next.sum) / promised;
    if (std::isfinite(next.sum) && gain > 0.0) {
      here = std::move(next);
      damping = std::max(1e-300, damping * std::max(1.0 / 3.0, 1.0 - std::pow(2.0 * gain - 1.0, 3)));
      growth = 2.0;
    } else if (promised <= 1e-14 * here.sum) {
      result.outcome = FitOutcome::converged;  // nothing left to gain but rounding
      break;
    } else {
      damping *= growth;
      growth *= 2.0;
    }
  }
  result.x.assign(here.x.data(), here.x.data() + n);
  result.residuals.assign(here.r.data(), here.r.data() + here.r.size());
  result.slopes.assign(here.slopes.data(), here.slopes.data() + here.slopes.size());
  result.sum_of_squares = here.sum;
  if (limits.covariance && usable(result.outcome)) covariance_of(here, limits.determined, result);
  return result;
}

}  // namespace trammel::survey
