#include "setup/learned.h"

#include <Eigen/QR>

#include "setup/belief.h"
#include "setup/blunder.h"

namespace trammel::setup {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// Means of all effects, four an adjuster.
VectorXd means_of(const AlignmentTask& task) {
  VectorXd m(4 * task.adjusters.size());
  for (std::size_t j = 0; j < task.adjusters.size(); ++j) {
    const Adjuster& a = task.adjusters[j];
    m.segment<4>(4 * j) << a.own.camber.si(), a.own.toe.si(), a.other.camber.si(), a.other.toe.si();
  }
  return m;
}

// A task whose effects are N(m, cov) before anything is read.
void set_prior(AlignmentTask& task, const VectorXd& m, const MatrixXd& cov) {
  for (std::size_t j = 0; j < task.adjusters.size(); ++j) {
    Adjuster& a = task.adjusters[j];
    a.own = {Angle::from_si(m[4 * j]), Angle::from_si(m[4 * j + 1])};
    a.other = {Angle::from_si(m[4 * j + 2]), Angle::from_si(m[4 * j + 3])};
  }
  task.learned.assign(cov.data(), cov.data() + cov.size());
}

bool same_adjusters(const AlignmentTask& a, const AlignmentTask& b) {
  if (a.adjusters.size() != b.adjusters.size()) return false;
  for (std::size_t j = 0; j < a.adjusters.size(); ++j)
    if (a.adjusters[j].side != b.adjusters[j].side || a.adjusters[j].name != b.adjusters[j].name ||
        a.adjusters[j].flats_per_turn != b.adjusters[j].flats_per_turn)
      return false;
  return true;
}

// Turned, and read after it: else nothing was learned.
bool teaches(const std::vector<Event>& events) {
  bool turned = false, read = false;
  for (const Event& e : events) {
    const auto* adjustment = std::get_if<Adjustment>(&e);
    if (adjustment && !adjustment->turns.empty()) turned = true;
    if (turned && std::holds_alternative<Reading>(e)) read = true;
  }
  return read;
}

}  // namespace

int learn_from(AlignmentTask& task, std::span<const FinishedJob> jobs) {
  const int n = 4 * static_cast<int>(task.adjusters.size());
  if (n == 0) return 0;
  VectorXd m = means_of(task);
  const MatrixXd open = Belief(task).inside().joint.covariance().block(effects, effects, n, n);
  const MatrixXd own = between_carts * open;
  MatrixXd common = (1.0 - between_carts) * open;

  int used = 0;
  for (const FinishedJob& job : jobs) {
    if (!same_adjusters(task, job.task) || !teaches(job.events)) continue;
    AlignmentTask then = job.task;
    const MatrixXd before = common + own;
    set_prior(then, m, before);
    const Blunders slips = find_blunders(then, job.events);
    const Belief after = fold(then, slips.any() ? without(slips.suspects.front(), job.events) : job.events);
    const Gaussian& joint = after.inside().joint;
    const MatrixXd gain = common * before.completeOrthogonalDecomposition().pseudoInverse();
    m += gain * (joint.mean().segment(effects, n) - m);
    common -= gain * (before - joint.covariance().block(effects, effects, n, n)) * gain.transpose();
    ++used;
  }
  if (used > 0) set_prior(task, m, common + own);
  return used;
}

}  // namespace trammel::setup
