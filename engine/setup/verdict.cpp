#include "setup/verdict.h"

#include <algorithm>
#include <cmath>

#include "measure/normal.h"
#include "setup/belief.h"
#include "setup/reach.h"

namespace trammel::setup {

namespace {

// Chance that after `stops` more stops like the last the probability of conforming reaches the limit.
class Foresight {
 public:
  Foresight(const AlignmentTask& task, const Reading& like) : task_(task), like_(observations(like, task)) {
    // Fixed standard normal points from the additive recurrence of the plastic-number kind in four axes.
    constexpr double alpha[4] = {0.8566748838545029, 0.733891856627126, 0.6287067210378087, 0.5385972572236101};
    for (int i = 0; i < points; ++i)
      for (int k = 0; k < 4; ++k) {
        const double u = 0.5 + (i + 1) * alpha[k];
        z_(k, i) = normal_quantile(std::clamp(u - std::floor(u), 1e-6, 1.0 - 1e-6));
      }
  }

  double chance(const Belief& belief, int stops) const {
    const Belief::Inside& b = belief.inside();
    const Aims aims = aims_of(b);
    const int n = static_cast<int>(aims.mean.size()), rows = static_cast<int>(like_.size());
    if (rows == 0) return belief.probability_in_tolerance() >= task_.accept_probability ? 1.0 : 0.0;

    // Covariance after the stops; the wheel is centred afresh at each, so that error averages with the rest.
    const int size = static_cast<int>(b.joint.mean().size());
    Eigen::MatrixXd cov = b.joint.covariance(), H(rows, size), R = Eigen::MatrixXd::Zero(rows, rows);
    cov.row(centre_error).setZero();
    cov.col(centre_error).setZero();
    for (int i = 0; i < rows; ++i) {
      Eigen::RowVectorXd slope;
      predict(like_[i], b.joint.mean(), slope);
      H.row(i) = slope;
      R(i, i) = like_[i].variance;
    }
    R += b.centre_variance() * H.col(centre_error) * H.col(centre_error).transpose();
    const Eigen::MatrixXd S = H * cov * H.transpose() + R / stops;
    const Eigen::Matrix4d before = cov.topLeftCorner<4, 4>();
    const Eigen::MatrixXd cross = cov.topRows<4>() * H.transpose();
    const Eigen::Matrix4d gained = cross * S.ldlt().solve(cross.transpose());
    const Square spread = aims.jacobian * gained * aims.jacobian.transpose();
    const Square left = aims.jacobian * (before - gained) * aims.jacobian.transpose();

    // Where the mean may go, and the probability there with the aims taken one by one.
    const Eigen::SelfAdjointEigenSolver<Square> eigen(spread);
    const Square root = eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
    int enough = 0;
    for (int i = 0; i < points; ++i) {
      const Vector mean = aims.mean + root * z_.col(i).head(n);
      double p = 1.0;
      for (int k = 0; k < n; ++k)
        p *= normal_between(mean[k], std::sqrt(std::max(0.0, left(k, k))), aims.low[k], aims.high[k]);
      enough += p >= task_.accept_probability;
    }
    return static_cast<double>(enough) / points;
  }

 private:
  static constexpr int points = 128;
  const AlignmentTask& task_;
  std::vector<Observation> like_;
  Eigen::Matrix<double, 4, points> z_;
};

// How many more stops would probably let it be accepted; 0 where none would.
int stops_that_decide(const Foresight& foresight, const Belief& belief, int most) {
  double best = 0.05;
  int best_stops = 0;
  for (int n = 1; n <= most; ++n) {
    const double chance = foresight.chance(belief, n);
    if (chance >= 0.5) return n;
    if (chance > best + 0.02) {
      best = chance;
      best_stops = n;
    }
  }
  return best_stops;
}

}  // namespace

Answer judge(const AlignmentTask& task, const Belief& belief) {
  const Belief::Inside& b = belief.inside();
  const Aims aims = aims_of(b);
  const Square cov = aims.jacobian * b.joint.covariance().topLeftCorner<4, 4>() * aims.jacobian.transpose();
  Answer a;
  a.state = belief.state();
  a.toe_diameter = task.toe_diameter;
  a.probability_in_tolerance = belief.probability_in_tolerance();
  a.after = {a.state, a.probability_in_tolerance};
  a.flags = belief.flags();
  a.steering_ratio_assumed = !task.steering_ratio;

  // Each aim alone: out for sure, never read, beyond any adjuster.
  const std::vector<bool> served = served_aspects(b, aims);
  std::vector<bool> is_out(aims.aspects.size(), false);
  for (std::size_t k = 0; k < aims.aspects.size(); ++k) {
    const double sd = std::sqrt(std::max(0.0, cov(k, k)));
    is_out[k] = 1.0 - normal_between(aims.mean[k], sd, aims.low[k], aims.high[k]) >= task.accept_probability;
    const bool unread = sd > 3.0 * aims.half(k);
    if (unread) a.to_read.push_back(aims.aspects[k]);
    is_out[k] = is_out[k] && !unread;
    if (is_out[k]) a.out.push_back(aims.aspects[k]);
    if (!served[k]) a.not_adjustable.push_back(aims.aspects[k]);
  }
  const auto decide = [&](Verdict verdict, Reason reason) {
    a.verdict = verdict;
    a.reason = reason;
    return a;
  };

  // A reading in doubt, or none at all, is read before anything is turned.
  if (!b.doubted.empty()) {
    a.more_readings = 1;
    for (const auto& [item, value] : b.doubted) {
      const Aspect aspect = item == ReadingItem::left_camber    ? Aspect::left_camber
                            : item == ReadingItem::right_camber ? Aspect::right_camber
                            : item == ReadingItem::total_toe    ? Aspect::total_toe
                                                                : Aspect::toe_difference;
      if (std::find(a.to_read.begin(), a.to_read.end(), aspect) == a.to_read.end()) a.to_read.push_back(aspect);
    }
    return decide(Verdict::measure, Reason::reading_in_doubt);
  }
  if (!a.to_read.empty()) {
    a.more_readings = 1;
    return decide(Verdict::measure, Reason::never_read);
  }
  if (a.probability_in_tolerance >= task.accept_probability) return decide(Verdict::accept, Reason::in_tolerance);

  // What is out and beyond the adjusters' reach has none, or not enough thread.
  const Reach reach = reach_of(b, aims);
  bool beyond = false;
  for (std::size_t k = 0; k < aims.aspects.size(); ++k)
    beyond |= is_out[k] && (reach.best.mean[k] < aims.low[k] || reach.best.mean[k] > aims.high[k]);
  if (beyond) {
    a.suspects = diagnose(task, belief);
    return decide(Verdict::diagnose, reach.at_limit ? Reason::adjuster_out_of_range : Reason::no_adjuster);
  }

  const Prescription p = prescribe(task, belief);
  Belief turned = belief;
  turned.adjust(p.as_adjustment());

  // A turn and a stop, or a stop alone: whichever is likelier to end in acceptance.
  const Foresight foresight(task, b.last_reading.value_or(Reading{}));
  const double by_reading = foresight.chance(belief, 1),
               by_turning = p.turns.empty() ? 0.0 : foresight.chance(turned, 1);
  // What is surely out is not read in again: it is turned, and the turn teaches.
  const bool turning_helps = !p.turns.empty() && (!a.out.empty() || by_turning > by_reading + 0.05 ||
                                                  p.after.probability_in_tolerance > a.probability_in_tolerance + 0.1);
  if (turning_helps) {
    a.turns = p.turns;
    a.after = p.after;
    return decide(Verdict::adjust, Reason::turning_helps);
  }
  a.more_readings = stops_that_decide(foresight, belief, task.most_readings);
  for (std::size_t k = 0; k < aims.aspects.size(); ++k) {
    const double sd = std::sqrt(std::max(0.0, cov(k, k)));
    if (normal_between(aims.mean[k], sd, aims.low[k], aims.high[k]) < task.accept_probability ||
        aims.aspects.size() == 1)
      a.to_read.push_back(aims.aspects[k]);
  }
  return decide(Verdict::measure,
                a.more_readings > 0 ? Reason::reading_helps : Reason::cannot_be_decided_with_these_instruments);
}

Answer align(const AlignmentTask& task, const std::vector<Event>& events) { return judge(task, fold(task, events)); }

}  // namespace trammel::setup
