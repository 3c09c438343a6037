#include "setup/diagnosis.h"

#include <algorithm>
#include <cmath>

#include "setup/belief.h"

namespace trammel::setup {

namespace {

// A cause's pattern in (left camber, right camber, left toe, right toe), degrees; `where` right is the left one
// mirrored.
struct Pattern {
  Cause cause;
  Where where;
  double prior;
  Eigen::Vector4d mean;
  Eigen::Matrix4d cov;
};

// Spread of a healthy wheel about the middle, degrees: camber, toe.
constexpr double healthy_camber = 0.2, healthy_toe = 0.2;

Eigen::Matrix4d healthy() {
  const double c = healthy_camber * healthy_camber, t = healthy_toe * healthy_toe;
  return Eigen::Vector4d(c, c, t, t).asDiagonal();
}

// A scatter of size `sd` along a direction.
Eigen::Matrix4d along(const Eigen::Vector4d& direction, double sd) {
  return sd * sd * direction * direction.transpose();
}

Pattern mirrored(const Pattern& p) {
  Eigen::PermutationMatrix<4> swap;
  swap.indices() << 1, 0, 3, 2;
  return {p.cause, p.where == Where::left ? Where::right : p.where, p.prior, swap * p.mean,
          swap * p.cov * swap.transpose()};
}

// Assumed patterns and shares: our own figures after common practice, no source.
std::vector<Pattern> patterns() {
  const Eigen::Matrix4d ok = healthy();
  const auto v = [](double cl, double cr, double tl, double tr) { return Eigen::Vector4d(cl, cr, tl, tr); };
  std::vector<Pattern> all;
  const auto one_side = [&](Cause cause, double prior, const Eigen::Vector4d& mean, const Eigen::Matrix4d& cov) {
    all.push_back({cause, Where::left, 0.5 * prior, mean, cov});
    all.push_back(mirrored(all.back()));
  };
  // A knock bends one corner: camber and toe of one wheel, either way.
  one_side(Cause::bent_part, 0.20, v(0, 0, 0, 0), ok + along(v(1, 0, 0, 0), 1.8) + along(v(0, 0, 1, 0), 1.0));
  // Play lets the top lean in under load.
  one_side(Cause::worn_joint, 0.20, v(-0.8, 0, -0.2, 0), ok + along(v(1, 0, 0, 0), 0.5) + along(v(0, 0, 1, 0), 0.5));
  all.push_back({Cause::worn_joint, Where::both, 0.10, v(-0.8, -0.8, -0.2, -0.2), ok + along(v(1, 1, 0, 0), 0.5)});
  // Sag carries both links upward: tops lean in, together or one side.
  all.push_back({Cause::sagged_spring, Where::both, 0.15, v(-1.2, -1.2, 0, 0),
                 ok + along(v(1, 1, 0, 0), 0.6) + along(v(0, 0, 1, 1), 0.4)});
  one_side(Cause::sagged_spring, 0.10, v(-1.2, 0, 0, 0), ok + along(v(1, 0, 0, 0), 0.6) + along(v(0, 0, 1, 0), 0.3));
  // A part of another length on both sides: alike, either way.
  all.push_back({Cause::wrong_part, Where::both, 0.12, v(0, 0, 0, 0),
                 ok + along(v(1, 1, 0, 0), 2.0) + along(v(0, 0, 1, 1), 1.0)});
  // Left and right arms changed over: equal and opposite.
  all.push_back({Cause::swapped_arms, Where::both, 0.05, v(0, 0, 0, 0),
                 ok + along(v(1, -1, 0, 0), 1.5) + along(v(0, 0, 1, -1), 0.5)});
  // The rack off its middle: toe opposite, cambers well.
  all.push_back({Cause::rack_not_centred, Where::both, 0.08, v(0, 0, 0, 0), ok + along(v(0, 0, 1, -1), 1.5)});
  return all;
}

}  // namespace

std::vector<Suspect> diagnose(const AlignmentTask& task, const Belief& belief) {
  const Belief::Inside& b = belief.inside();

  // The wheels off the middle of their tolerance, degrees.
  const double degree = units::degree.si();
  const Angle camber = task.tolerance.camber ? task.tolerance.camber->middle() : Angle{};
  const Length total = task.tolerance.total_toe ? task.tolerance.total_toe->middle() : Length{};
  const double toe = toe_angle(0.5 * total, task.toe_diameter).si();
  const Eigen::Vector4d off = (b.joint.mean().head<4>() - Eigen::Vector4d(camber.si(), camber.si(), toe, toe)) / degree;
  const Eigen::Matrix4d read = b.joint.covariance().topLeftCorner<4, 4>() / (degree * degree);

  // Bayes over the listed causes.
  std::vector<Suspect> suspects;
  std::vector<double> log_weight;
  for (const Pattern& p : patterns()) {
    const Eigen::LLT<Eigen::Matrix4d> llt(p.cov + read);
    const Eigen::Vector4d miss = llt.matrixL().solve(off - p.mean);
    const double log_det = 2.0 * llt.matrixLLT().diagonal().array().log().sum();
    suspects.push_back({p.cause, p.where, 0.0});
    log_weight.push_back(std::log(p.prior) - 0.5 * (miss.squaredNorm() + log_det));
  }
  const double most = *std::max_element(log_weight.begin(), log_weight.end());
  double sum = 0.0;
  for (std::size_t i = 0; i < suspects.size(); ++i) sum += suspects[i].share = std::exp(log_weight[i] - most);
  for (Suspect& s : suspects) s.share /= sum;
  std::stable_sort(suspects.begin(), suspects.end(),
                   [](const Suspect& x, const Suspect& y) { return x.share > y.share; });
  return suspects;
}

}  // namespace trammel::setup
