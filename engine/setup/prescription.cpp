#include "setup/prescription.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "setup/belief.h"
#include "setup/reach.h"

namespace trammel::setup {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// The aims after given turns: exact mean and covariance of the linear model, for many candidates.
class Outcome {
 public:
  // Once for each adjuster: what one turn adds to the variance, jammed or only jammed again, and the settling.
  Outcome(const Belief::Inside& b, const Aims& aims)
      : b_(b), aims_(aims), settling_(b.settling_variance().asDiagonal()) {
    const double error = turns_of(b.task.handling.turn_error), twist = turns_of(b.task.handling.jam_twist);
    for (std::size_t j = 0; j < b.task.adjusters.size(); ++j) {
      turned_.push_back(b.turning_noise(j, std::hypot(error, twist)));
      if (b.touched[j])
        jammed_.push_back(b.turning_noise(j, twist));
      else
        jammed_.push_back(Eigen::Matrix4d::Zero());
    }
  }

  double probability(const VectorXd& turns, Points points) const {
    Aims then = aims_;
    return chance_of_all(then, covariance(turns, then), points);
  }
  // The same as if the aims were independent.
  double one_by_one(const VectorXd& turns) const {
    Aims then = aims_;
    const Eigen::Matrix4d wheels = covariance(turns, then);
    double p = 1.0;
    for (int k = 0; k < then.mean.size(); ++k) {
      const double variance = then.jacobian.row(k) * wheels * then.jacobian.row(k).transpose();
      p *= normal_between(then.mean[k], std::sqrt(std::max(0.0, variance)), then.low[k], then.high[k]);
    }
    return p;
  }

 private:
  // Of the wheels after these turns, rolled; the aims are placed where the turns lead.
  Eigen::Matrix4d covariance(const VectorXd& turns, Aims& then) const {
    const int n = static_cast<int>(b_.joint.mean().size());
    Eigen::Matrix<double, 4, Eigen::Dynamic> step = Eigen::Matrix<double, 4, Eigen::Dynamic>::Zero(4, n);
    step.leftCols<4>().setIdentity();
    Eigen::Matrix4d noise = Eigen::Matrix4d::Zero();
    bool any = b_.turning;
    for (std::size_t j = 0; j < b_.task.adjusters.size(); ++j) {
      noise += turns[j] == 0.0 ? jammed_[j] : turned_[j];
      if (turns[j] == 0.0) continue;
      any = true;
      for (int k = 0; k < 4; ++k) step(moved_by(b_.task.adjusters[j], k), b_.effect(j, k)) = turns[j];
    }
    if (any) noise += settling_;
    // The lengths' gradient is taken where the turns lead, as the state itself will.
    place(then, step * b_.joint.mean(), b_.task.toe_diameter);
    return step * b_.joint.covariance() * step.transpose() + noise;
  }

  const Belief::Inside& b_;
  const Aims& aims_;
  Eigen::Matrix4d settling_;
  std::vector<Eigen::Matrix4d> turned_, jammed_;
};

struct Limits {
  VectorXd low, high;  // turns from where each adjuster stands
};

Limits limits_of(const Belief::Inside& b) {
  const int m = static_cast<int>(b.task.adjusters.size());
  Limits limits{VectorXd(m), VectorXd(m)};
  for (int j = 0; j < m; ++j) {
    limits.low[j] = std::min(0.0, turns_of(b.task.adjusters[j].most_shorter - b.turned[j]));
    limits.high[j] = std::max(0.0, turns_of(b.task.adjusters[j].most_longer - b.turned[j]));
  }
  return limits;
}

// Turns of least expected squared miss in half-widths, within the limits: min 1/2 n'Hn + g'n by coordinates.
// With `sure`, as if the effects were known exactly: how far the adjusters reach.
VectorXd least_expected_miss(const Belief::Inside& b, const Aims& aims, const Limits& limits, bool sure = false) {
  const int m = static_cast<int>(b.task.adjusters.size()), size = static_cast<int>(b.joint.mean().size());
  MatrixXd H = MatrixXd::Zero(m, m);
  VectorXd g = VectorXd::Zero(m);
  for (std::size_t k = 0; k < aims.aspects.size(); ++k) {
    // Row j: the aspect's change for one turn of adjuster j, as a linear form of the unknowns.
    MatrixXd form = MatrixXd::Zero(m, size);
    for (int j = 0; j < m; ++j)
      for (int e = 0; e < 4; ++e) form(j, b.effect(j, e)) = aims.jacobian(k, moved_by(b.task.adjusters[j], e));
    const VectorXd effect = form * b.joint.mean();
    const double w = 1.0 / std::pow(aims.half(k), 2);
    H += w * effect * effect.transpose();
    g += w * (aims.mean[k] - aims.middle(k)) * effect;
    if (sure) continue;
    H += w * form * b.joint.covariance() * form.transpose();
    g += w * form * b.joint.covariance().leftCols<4>() * aims.jacobian.row(k).transpose();
  }
  VectorXd n = VectorXd::Zero(m);
  for (int sweep = 0; sweep < 2000; ++sweep) {
    double moved = 0.0;
    for (int j = 0; j < m; ++j) {
      if (H(j, j) < 1e-12) continue;
      const double next = std::clamp(n[j] - (H.row(j).dot(n) + g[j]) / H(j, j), limits.low[j], limits.high[j]);
      moved = std::max(moved, std::abs(next - n[j]));
      n[j] = next;
    }
    if (moved < 1e-9) break;
  }
  return n;
}

}  // namespace

std::vector<bool> served_aspects(const Belief::Inside& b, const Aims& aims) {
  // An adjuster serves what it moves most, in half-widths a turn, and all that it moves a tenth as much.
  std::vector<bool> served(aims.aspects.size(), false);
  for (std::size_t j = 0; j < b.task.adjusters.size(); ++j) {
    std::array<double, 4> pull{};
    for (std::size_t k = 0; k < served.size(); ++k) {
      for (int e = 0; e < 4; ++e)
        pull[k] += aims.jacobian(k, moved_by(b.task.adjusters[j], e)) * b.joint.mean()[b.effect(j, e)];
      pull[k] = std::abs(pull[k]) / aims.half(k);
    }
    const double most = *std::max_element(pull.begin(), pull.end());
    const bool free = b.task.adjusters[j].most_longer > b.task.adjusters[j].most_shorter;
    for (std::size_t k = 0; k < served.size(); ++k)
      if (free && most > 1e-3 && pull[k] >= 0.1 * most) served[k] = true;
  }
  return served;
}

Aims only(const Aims& aims, const std::vector<bool>& wanted) {
  const int n = static_cast<int>(std::count(wanted.begin(), wanted.end(), true));
  Aims a;
  a.low.resize(n), a.high.resize(n), a.mean.resize(n), a.jacobian.resize(n, 4);
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    if (!wanted[k]) continue;
    const int i = static_cast<int>(a.aspects.size());
    a.aspects.push_back(aims.aspects[k]);
    a.low[i] = aims.low[k];
    a.high[i] = aims.high[k];
    a.mean[i] = aims.mean[k];
    a.jacobian.row(i) = aims.jacobian.row(k);
  }
  return a;
}

Reach reach_of(const Belief::Inside& b, const Aims& all) {
  Reach reach{all, false};
  const Aims aims = only(all, served_aspects(b, all));
  if (aims.aspects.empty()) return reach;
  const Limits limits = limits_of(b);
  const VectorXd turns = least_expected_miss(b, aims, limits, true);
  Eigen::Vector4d wheels = b.joint.mean().head<4>();
  for (int j = 0; j < turns.size(); ++j) {
    for (int e = 0; e < 4; ++e) wheels[moved_by(b.task.adjusters[j], e)] += turns[j] * b.joint.mean()[b.effect(j, e)];
    reach.at_limit |= turns[j] != 0.0 && (turns[j] == limits.low[j] || turns[j] == limits.high[j]);
  }
  place(reach.best, wheels, b.task.toe_diameter);
  return reach;
}

VectorXd turns_wanted(const Belief::Inside& b, const Aims& aims) { return least_expected_miss(b, aims, limits_of(b)); }

Adjustment Prescription::as_adjustment() const {
  Adjustment a;
  for (const PrescribedTurn& t : turns) a.turns.push_back({t.side, t.adjuster, t.turns});
  return a;
}

Prescription prescribe(const AlignmentTask& task, const Belief& belief) {
  const Belief::Inside& b = belief.inside();
  const int m = static_cast<int>(task.adjusters.size());
  const Aims all = aims_of(b);
  const Aims aims = only(all, served_aspects(b, all));
  Prescription result;
  Belief rolled = belief;
  rolled.roll();
  result.after = {rolled.state(), rolled.probability_in_tolerance()};
  if (m == 0 || aims.aspects.empty()) return result;

  const Limits limits = limits_of(b);
  const VectorXd best_real = least_expected_miss(b, aims, limits);
  const Outcome outcome(b, aims);

  // Quarter flats as whole numbers, kept within the threads.
  VectorXd quarter(m);
  for (int j = 0; j < m; ++j) quarter[j] = 0.25 / task.adjusters[j].flats_per_turn;
  const auto clip = [&](int j, double k) {
    return std::clamp(k, std::ceil(limits.low[j] / quarter[j] - 1e-9), std::floor(limits.high[j] / quarter[j] + 1e-9));
  };
  VectorXd plain(m), chosen(m);
  for (int j = 0; j < m; ++j) plain[j] = clip(j, std::round(best_real[j] / quarter[j]));
  const auto probability = [&](const VectorXd& k, Points points = Points::coarse) {
    return outcome.probability(k.cwiseProduct(quarter), points);
  };
  // Candidates are ranked with the aims taken one by one, the best few of them jointly.
  std::vector<std::pair<double, VectorXd>> seen;
  double best = -1.0;
  const auto consider = [&](const VectorXd& k) {
    const double p = outcome.one_by_one(k.cwiseProduct(quarter));
    seen.emplace_back(p, k);
    if (p <= best * (1.0 + 1e-9)) return false;
    best = p;
    chosen = k;
    return true;
  };
  consider(plain);

  // The neighbours on the lattice of quarters, then no turn at all.
  for (int corner = 0; corner < (1 << std::min(m, 8)); ++corner) {
    VectorXd k(m);
    for (int j = 0; j < m; ++j) {
      const double floor = std::floor(best_real[j] / quarter[j]);
      k[j] = clip(j, j < 8 && (corner >> j & 1) ? floor + 1.0 : floor);
    }
    consider(k);
  }
  consider(VectorXd::Zero(m));

  // From the best, one adjuster at a time: a quarter either way, or left alone.
  for (int sweep = 0; sweep < 20; ++sweep) {
    bool better = false;
    for (int j = 0; j < m; ++j)
      for (const double step : {-1.0, 1.0, -chosen[j]}) {
        VectorXd k = chosen;
        k[j] = clip(j, k[j] + step);
        if (k[j] != chosen[j]) better |= consider(k);
      }
    if (!better) break;
  }
  std::stable_sort(seen.begin(), seen.end(), [](const auto& x, const auto& y) { return x.first > y.first; });
  best = -1.0;
  for (std::size_t i = 0, tried = 0; i < seen.size() && tried < 8; ++i) {
    if (i > 0 && seen[i].second == seen[i - 1].second) continue;
    ++tried;
    if (const double p = probability(seen[i].second); p > best) best = p, chosen = seen[i].second;
  }
  // Finely, the last word between the best found, plain rounding and not turning, which wins a tie.
  const VectorXd none = VectorXd::Zero(m);
  const double of_none = probability(none, Points::fine), of_plain = probability(plain, Points::fine);
  best = probability(chosen, Points::fine);
  if (of_plain > best) chosen = plain, best = of_plain;
  if (of_none >= best) chosen = none, best = of_none;
  result.gain_over_plain_rounding = best - of_plain;

  // What moves camber first, then what moves toe alone.
  std::vector<int> order(m);
  std::iota(order.begin(), order.end(), 0);
  const auto camber_share = [&](int j) {
    return std::abs(b.joint.mean()[b.effect(j, 0)]) > 0.3 * std::abs(b.joint.mean()[b.effect(j, 1)]) ? 0 : 1;
  };
  std::stable_sort(order.begin(), order.end(), [&](int i, int j) { return camber_share(i) < camber_share(j); });

  // Each turn with what to see when it is done.
  Belief then = belief;
  Adjustment so_far;
  for (const int j : order) {
    if (chosen[j] == 0.0) continue;
    const Adjuster& a = task.adjusters[j];
    PrescribedTurn turn;
    turn.side = a.side;
    turn.adjuster = a.name;
    turn.turns = chosen[j] * quarter[j] * units::turn;
    turn.flats = 0.25 * chosen[j];
    turn.direction = chosen[j] > 0.0 ? Direction::longer : Direction::shorter;
    turn.at_limit = std::abs(best_real[j] - limits.low[j]) < 1e-9 || std::abs(best_real[j] - limits.high[j]) < 1e-9;
    so_far.turns.push_back({a.side, a.name, turn.turns});
    Belief standing = belief;
    standing.adjust({so_far.turns, false});
    turn.watch.camber_while_turning = standing.camber_shown(a.side);
    turn.watch.gap_while_turning = gap_of(turn.watch.camber_while_turning.value, square_base(task, b, a.side));
    turn.watch.total_toe_while_turning = standing.total_toe_shown();
    then = std::move(standing);
    then.roll();
    const AlignmentState s = then.state();
    const Estimate<Angle> toe = then.own_toe(a.side);
    const Length over = square_base(task, b, a.side);
    turn.watch.camber = a.side == Side::left ? s.left_camber : s.right_camber;
    turn.watch.gap = gap_of(turn.watch.camber.value, over);
    turn.watch.gap_u = over * turn.watch.camber.u.si() / std::pow(cos(turn.watch.camber.value), 2);
    turn.watch.total_toe = s.total_toe;
    turn.watch.string_difference = {toe_length(toe.value, task.toe_diameter),
                                    task.toe_diameter * (cos(toe.value) * toe.u.si())};
    result.turns.push_back(turn);
  }
  if (!result.turns.empty()) result.after = {then.state(), then.probability_in_tolerance()};
  return result;
}

Length square_base(const AlignmentTask& task, const Belief::Inside& b, Side side) {
  if (b.last_reading) {
    const auto& gap = side == Side::left ? b.last_reading->left_camber_gap : b.last_reading->right_camber_gap;
    if (gap) return gap->over;
  }
  return task.square_over;
}

}  // namespace trammel::setup
