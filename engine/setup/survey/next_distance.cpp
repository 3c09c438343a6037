#include "setup/survey/next_distance.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace trammel::survey {

namespace {

class Surety {
 public:
  Surety(const Survey& survey, const Solution& s) : survey_(survey), n_(static_cast<long>(3 * survey.points.size())) {
    c_ = Eigen::Map<const Eigen::MatrixXd>(s.covariance.data(), n_, n_);
    for (const PlacedPoint& p : s.points) at_.emplace_back(p.at.x.si(), p.at.y.si(), p.at.z.si());
  }

  // C a and u^2 + a'C a of a distance.
  std::pair<Eigen::VectorXd, double> effect(std::size_t from, std::size_t to, double u) const {
    const Eigen::Vector3d along = (at_[from] - at_[to]).normalized();
    const Eigen::VectorXd ca =
        c_.middleCols(3 * static_cast<long>(from), 3) * along - c_.middleCols(3 * static_cast<long>(to), 3) * along;
    const double aca =
        along.dot(ca.segment(3 * static_cast<long>(from), 3)) - along.dot(ca.segment(3 * static_cast<long>(to), 3));
    return {ca, u * u + aca};
  }
  double worst(std::size_t point, const Eigen::VectorXd& ca, double weight) const {
    const long k = 3 * static_cast<long>(point);
    const Eigen::Vector3d v = ca.segment(k, 3);
    const Eigen::Matrix3d block = c_.block(k, k, 3, 3) - v * v.transpose() / weight;
    Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen;
    eigen.computeDirect(block, Eigen::EigenvaluesOnly);
    return std::sqrt(std::max(0.0, eigen.eigenvalues()[2]));
  }
  double worst(std::size_t point) const { return worst(point, Eigen::VectorXd::Zero(n_), 1.0); }
  double cost(const Eigen::VectorXd& ca, double weight) const {
    double sum = 0.0;
    for (std::size_t p = 0; p < survey_.points.size(); ++p)
      if (survey_.points[p].needed) sum += std::pow(worst(p, ca, weight), 4);
    return sum;
  }
  void measure(const Eigen::VectorXd& ca, double weight) { c_ -= ca * ca.transpose() / weight; }

 private:
  const Survey& survey_;
  long n_;
  Eigen::MatrixXd c_;
  std::vector<Eigen::Vector3d> at_;
};

}  // namespace

Length worst_needed(const Survey& survey, const std::vector<PlacedPoint>& points) {
  Length worst;
  for (std::size_t p = 0; p < survey.points.size(); ++p)
    if (survey.points[p].needed) worst = std::max(worst, points[p].worst_u);
  return worst;
}

std::vector<NextDistance> next_distances(const Survey& survey, const Solution& solution, std::size_t how_many, Length u,
                                         const std::vector<std::size_t>& left_out) {
  std::vector<NextDistance> out;
  if (!usable(solution.outcome)) return out;
  Surety surety(survey, solution);
  const auto measured = [&](std::size_t a, std::size_t b) {
    for (std::size_t i = 0; i < survey.distances.size(); ++i) {
      const Distance& d = survey.distances[i];
      const bool is_out = std::find(left_out.begin(), left_out.end(), i) != left_out.end();
      if (((d.from == a && d.to == b) || (d.from == b && d.to == a)) && !is_out) return true;
    }
    return std::any_of(out.begin(), out.end(), [&](const NextDistance& d) { return d.from == a && d.to == b; });
  };
  const double none = surety.cost(Eigen::VectorXd::Zero(static_cast<long>(3 * survey.points.size())), 1.0);
  double now = none;
  for (std::size_t k = 0; k < how_many; ++k) {
    // Of all pairs the one that leaves least; a second reading only where it does clearly more.
    NextDistance best;
    double least = now * (1.0 - 1e-3);
    bool found = false;
    for (std::size_t a = 0; a < survey.points.size(); ++a)
      for (std::size_t b = a + 1; b < survey.points.size(); ++b) {
        const bool again = measured(a, b);
        const auto [ca, weight] = surety.effect(a, b, u.si());
        const double left = surety.cost(ca, weight) * (again ? 1.1 : 1.0);
        if (left < least) least = left, best = {a, b, again, 0, {}, {}, {}}, found = true;
      }
    if (!found) break;
    const auto [ca, weight] = surety.effect(best.from, best.to, u.si());
    double gain = 0.0;
    for (std::size_t p = 0; p < survey.points.size(); ++p) {
      if (!survey.points[p].needed) continue;
      const double before = surety.worst(p), after = surety.worst(p, ca, weight);
      if (std::pow(before, 4) - std::pow(after, 4) > gain) {
        gain = std::pow(before, 4) - std::pow(after, 4);
        best.helps = p;
        best.before = Length::from_si(before);
        best.after = Length::from_si(after);
      }
      best.worst_after = std::max(best.worst_after, Length::from_si(after));
    }
    surety.measure(ca, weight);
    now = surety.cost(Eigen::VectorXd::Zero(static_cast<long>(3 * survey.points.size())), 1.0);
    out.push_back(best);
  }
  return out;
}

}  // namespace trammel::survey
