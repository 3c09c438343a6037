#include "measure/gaussian.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

namespace trammel {
namespace {

Eigen::MatrixXd symmetric(const Eigen::MatrixXd& a) {
  Eigen::MatrixXd s = 0.5 * (a + a.transpose());
  s.diagonal() = s.diagonal().cwiseMax(0.0);
  return s;
}

}  // namespace

Gaussian::Gaussian(std::vector<std::string> names, Eigen::VectorXd mean, const Eigen::MatrixXd& covariance)
    : names_(std::move(names)), mean_(std::move(mean)), covariance_(symmetric(covariance)) {
  assert(mean_.size() == size() && covariance_.rows() == size() && covariance_.cols() == size());
}

std::optional<int> Gaussian::find(std::string_view name) const {
  const auto at = std::find(names_.begin(), names_.end(), name);
  if (at == names_.end()) return std::nullopt;
  return static_cast<int>(at - names_.begin());
}

int Gaussian::index(std::string_view name) const {
  const auto at = find(name);
  assert(at && "a name that the distribution does not hold");
  return at.value_or(0);
}

double Gaussian::u(std::string_view name) const {
  const int i = index(name);
  return std::sqrt(covariance_(i, i));
}

double Gaussian::correlation(std::string_view a, std::string_view b) const {
  const int i = index(a), j = index(b);
  const double scale = std::sqrt(covariance_(i, i) * covariance_(j, j));
  return scale > 0.0 ? covariance_(i, j) / scale : 0.0;
}

Gaussian Gaussian::marginal(std::span<const std::string> names) const {
  const auto n = static_cast<Eigen::Index>(names.size());
  Eigen::MatrixXd pick = Eigen::MatrixXd::Zero(n, size());
  for (Eigen::Index i = 0; i < n; ++i) pick(i, index(names[i])) = 1.0;
  return {{names.begin(), names.end()}, pick * mean_, pick * covariance_ * pick.transpose()};
}

void Gaussian::append(std::string name, double mean, double u) {
  append(Gaussian({std::move(name)}, Eigen::VectorXd::Constant(1, mean), Eigen::MatrixXd::Constant(1, 1, u * u)));
}

void Gaussian::append(const Gaussian& other) {
  for (const std::string& name : other.names_) assert(!find(name)), names_.push_back(name);
  const Eigen::Index old = mean_.size(), more = other.mean_.size();
  mean_.conservativeResize(old + more);
  mean_.tail(more) = other.mean_;
  Eigen::MatrixXd joint = Eigen::MatrixXd::Zero(old + more, old + more);
  joint.topLeftCorner(old, old) = covariance_;
  joint.bottomRightCorner(more, more) = other.covariance_;
  covariance_ = std::move(joint);
}

void Gaussian::derive(std::span<const std::string> names, const Eigen::VectorXd& values,
                      const Eigen::MatrixXd& jacobian) {
  Eigen::MatrixXd j(size() + jacobian.rows(), size());
  j << Eigen::MatrixXd::Identity(size(), size()), jacobian;
  Eigen::VectorXd all(j.rows());
  all << mean_, values;
  std::vector<std::string> all_names = names_;
  all_names.insert(all_names.end(), names.begin(), names.end());
  *this = propagated(std::move(all_names), all, j);
}

Gaussian Gaussian::propagated(std::vector<std::string> names, const Eigen::VectorXd& values,
                              const Eigen::MatrixXd& jacobian, const Eigen::MatrixXd& noise) const {
  assert(jacobian.rows() == values.size() && jacobian.cols() == size());
  Eigen::MatrixXd u = jacobian * covariance_ * jacobian.transpose();
  if (noise.size() != 0) u += noise;
  return {std::move(names), values, u};
}

ObservationReport Gaussian::observe(const Eigen::MatrixXd& h, const Eigen::VectorXd& predicted,
                                    const Eigen::VectorXd& z, const Eigen::MatrixXd& r) {
  assert(h.cols() == size() && h.rows() == z.size() && predicted.size() == z.size() && r.rows() == z.size());
  ObservationReport report;
  report.innovation = z - predicted;
  report.innovation_covariance = symmetric(h * covariance_ * h.transpose() + r);

  // Readings of different kinds differ by orders of size: scale them to their own spread first.
  const Eigen::VectorXd spread = report.innovation_covariance.diagonal().cwiseSqrt();
  if (!(spread.minCoeff() > 0.0)) {
    report.outcome = ObservationOutcome::undetermined;
    return report;
  }
  const Eigen::VectorXd scale = spread.cwiseInverse();
  const Eigen::LDLT<Eigen::MatrixXd> s(scale.asDiagonal() * report.innovation_covariance * scale.asDiagonal());
  if (s.info() != Eigen::Success || !(s.vectorD().minCoeff() > 1e-14)) {
    report.outcome = ObservationOutcome::undetermined;
    return report;
  }
  const Eigen::VectorXd scaled = scale.cwiseProduct(report.innovation);
  report.chi_squared = scaled.dot(s.solve(scaled));

  const Eigen::MatrixXd scaled_h = scale.asDiagonal() * h;
  const Eigen::MatrixXd gain = s.solve(scaled_h * covariance_).transpose() * scale.asDiagonal();
  const Eigen::MatrixXd kept = Eigen::MatrixXd::Identity(size(), size()) - gain * h;
  mean_ += gain * report.innovation;
  covariance_ = symmetric(kept * covariance_ * kept.transpose() + gain * r * gain.transpose());
  return report;
}

}  // namespace trammel
