// A joint normal distribution of named values: what is known, with every correlation.
//
//   propagated   y = f(x):  U_y = J U_x J^T         JCGM 100:2008 eq. 13 (one output), JCGM 102:2011 6.2 (many)
//   observed     z = H x + noise R:  K = U H^T S^-1, S = H U H^T + R;  x += K (z - z_predicted);
//                U = (I - K H) U (I - K H)^T + K R K^T             Kalman 1960; Joseph's form keeps U symmetric
// Values are in the coherent SI unit of what their name says; this header is the one place of the engine
// where linear algebra with bare doubles is public.
// Ignores: what is not linear within the uncertainty, and any shape but the normal.
// Error: rounding. Covariances are made symmetric; a tiny negative variance from rounding becomes 0.
//
// Law 1: observing with endless noise changes nothing; observing twice with variance 2r is once with r.
// Law 2: what is independent stays so under the marginal; the order of two observations is of no account.
// Source: JCGM 100:2008 5.2.2; R. E. Kalman, J. Basic Eng. 82 (1960) 35-45.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cassert>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/dual.h"
#include "measure/quantity.h"

namespace trammel {

enum class ObservationOutcome {
  used,          // the state has taken it in
  undetermined,  // prediction and reading are both exact: nothing to weigh, the state is unchanged
};
inline bool usable(ObservationOutcome o) { return o == ObservationOutcome::used; }

struct ObservationReport {
  ObservationOutcome outcome = ObservationOutcome::used;
  Eigen::VectorXd innovation;             // reading minus prediction
  Eigen::MatrixXd innovation_covariance;  // what it was expected to scatter by
  double chi_squared = 0.0;               // innovation^T S^-1 innovation; about its length where all is well
};

class Gaussian {
 public:
  Gaussian() = default;
  Gaussian(std::vector<std::string> names, Eigen::VectorXd mean, const Eigen::MatrixXd& covariance);

  int size() const { return static_cast<int>(names_.size()); }
  const std::vector<std::string>& names() const { return names_; }
  const Eigen::VectorXd& mean() const { return mean_; }
  const Eigen::MatrixXd& covariance() const { return covariance_; }

  std::optional<int> find(std::string_view name) const;
  // These take a name that is there; another is our own fault.
  int index(std::string_view name) const;
  double mean(std::string_view name) const { return mean_(index(name)); }
  double u(std::string_view name) const;
  double correlation(std::string_view a, std::string_view b) const;  // 0 where either is exact
  Gaussian marginal(std::span<const std::string> names) const;

  // Independent of all that is there. Names must be new.
  void append(std::string name, double mean, double u);
  void append(const Gaussian& other);
  template <class D>
  void append(std::string name, Quantity<D> mean, Quantity<D> u) {
    append(std::move(name), mean.si(), u.si());
  }
  // Values computed from those that are there, kept with their correlation; rows of the Jacobian are the new values.
  void derive(std::span<const std::string> names, const Eigen::VectorXd& values, const Eigen::MatrixXd& jacobian);

  // The distribution of values computed from this one; `noise` is added where the step brings its own.
  Gaussian propagated(std::vector<std::string> names, const Eigen::VectorXd& values, const Eigen::MatrixXd& jacobian,
                      const Eigen::MatrixXd& noise = {}) const;
  // The same through a kernel over dual numbers: f(std::array<Dual<double, N>, N>) -> std::array<Dual<double, N>, M>.
  template <int N, class F>
  Gaussian propagated(std::vector<std::string> names, F&& f) const;

  // Takes in readings z with covariance R; `predicted` is what the present mean gives, `h` its Jacobian.
  ObservationReport observe(const Eigen::MatrixXd& h, const Eigen::VectorXd& predicted, const Eigen::VectorXd& z,
                            const Eigen::MatrixXd& r);

 private:
  std::vector<std::string> names_;
  Eigen::VectorXd mean_;
  Eigen::MatrixXd covariance_;
};

template <int N, class F>
Gaussian Gaussian::propagated(std::vector<std::string> names, F&& f) const {
  assert(size() == N);
  std::array<Dual<double, N>, N> x;
  for (int i = 0; i < N; ++i) x[i] = Dual<double, N>::variable(mean_(i), i);
  const auto y = f(x);
  Eigen::VectorXd values(y.size());
  Eigen::MatrixXd jacobian(y.size(), N);
  for (std::size_t i = 0; i < y.size(); ++i) {
    values(i) = y[i].value;
    for (int k = 0; k < N; ++k) jacobian(i, k) = y[i].slope[k];
  }
  return propagated(std::move(names), values, jacobian);
}

}  // namespace trammel
