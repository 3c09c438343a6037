#include "setup/rear_axle.h"

#include <Eigen/QR>

#include <algorithm>
#include <cmath>

#include "measure/box_probability.h"
#include "measure/gaussian.h"
#include "measure/uncertainty.h"

namespace trammel::setup {
namespace {

enum Place : int { steer, shift, forward, toe, skew, frame_off, first_effect };

constexpr double bent = 0.5;            // degrees of toe between the two wheels that no link can cause
constexpr double known_to = 0.010;      // metres: an offset less sure than this was not read
constexpr double worth_turning = 0.02;  // least gain in probability

double square(double a) { return a * a; }

class Rear {
 public:
  explicit Rear(const RearTask& task) : task_(task) {
    joint_.append("steer", 0.0, 0.05);
    joint_.append("shift", 0.0, 0.03);
    joint_.append("forward", 0.0, 0.05);
    joint_.append("toe", 0.0, (0.3 * units::degree).si());
    joint_.append("skew", 0.0, task.string_skew.si());
    joint_.append("frame", 0.0, task.frame.si());
    for (std::size_t j = 0; j < task.adjusters.size(); ++j) {
      const RearAdjuster& a = task.adjusters[j];
      joint_.append("steer " + std::to_string(j), a.steer.si(), a.steer_u.si());
      joint_.append("shift " + std::to_string(j), a.shift.si(), a.shift_u.si());
    }
    turned_.assign(task.adjusters.size(), Angle{});
  }

  void read(const RearReading& r) {
    renew(skew, square(task_.string_skew.si()));
    const double n = std::max(1, r.repeats);
    const double step = square(resolution(task_.instruments.tape_step.sd).si());
    const double tape = (square(task_.instruments.tape.sd.si()) + step) / n;
    const double string = square(task_.instruments.string.sd.si()) / n;
    if (r.left_string && r.right_string) {
      const double d = r.string_diameter.si();
      const auto wheel = [&](double side, const StringReading& s) {
        observe((s.front - s.rear).si(), 2.0 * string, [&](const Eigen::VectorXd& x, Eigen::RowVectorXd& h) {
          const double own = 0.5 * x[toe] - side * (x[steer] - x[skew]), slope = d * std::cos(own);
          h[toe] = 0.5 * slope;
          h[steer] = -side * slope;
          h[skew] = side * slope;
          return d * std::sin(own);
        });
      };
      wheel(1.0, *r.left_string);
      wheel(-1.0, *r.right_string);
      const Length between =
          0.5 * (r.left_string->front + r.left_string->rear - r.right_string->front - r.right_string->rear);
      observe(between.si(), string + 2.0 * square(task_.string_place.si()), [](const auto&, auto& h) {
        h[shift] = -2.0;
        return std::nullopt;
      });
    }
    if (r.left_length && r.right_length) {
      const double a = r.end_out.si(), m = (r.crossed ? -1.0 : 1.0) * r.mark_out.si(), d = r.marks_ahead.si();
      const auto end = [&](double side, Length length, double above) {
        observe(length.si(), tape, [&](const Eigen::VectorXd& x, Eigen::RowVectorXd& h) {
          const double along = d - x[forward] + side * a * std::sin(x[steer]),
                       across = side * m - x[shift] + x[frame_off] - side * a * std::cos(x[steer]),
                       span = std::hypot(along, across, above);
          h[forward] = -along / span;
          h[shift] = -across / span;
          h[frame_off] = across / span;
          h[steer] = (along * side * a * std::cos(x[steer]) + across * side * a * std::sin(x[steer])) / span;
          return span;
        });
      };
      end(1.0, *r.left_length, r.left_mark_above.si());
      end(-1.0, *r.right_length, r.right_mark_above.si());
    }
    if (r.left_to_frame && r.right_to_frame)
      observe((*r.left_to_frame - *r.right_to_frame).si(), 2.0 * tape, [](const auto&, auto& h) {
        h[shift] = 2.0;
        h[frame_off] = -2.0;
        return std::nullopt;
      });
    read_ = read_since_ = true;
    last_ = r;
  }

  void turn(const RearTurn& t) {
    const int at = first_effect + 2 * static_cast<int>(t.adjuster), n = joint_.size();
    const double turns = t.turns.in(units::turn);
    Eigen::MatrixXd step = Eigen::MatrixXd::Identity(n, n), noise = Eigen::MatrixXd::Zero(n, n);
    step(steer, at) = step(shift, at + 1) = turns;
    // The turn's own error moves both together.
    const Eigen::Vector2d e = joint_.mean().segment<2>(at);
    noise.topLeftCorner<2, 2>() = square(task_.turn_error.in(units::turn)) * e * e.transpose();
    noise(shift, shift) += square(task_.settling.si());
    joint_ = joint_.propagated(joint_.names(), step * joint_.mean(), step, noise);
    turned_[t.adjuster] += t.turns;
    read_since_ = false;
  }

  bool ever_read() const { return read_; }
  bool read_since() const { return read_since_; }
  bool offset_known() const { return joint_.u("shift") < known_to; }
  Estimate<Angle> angle(int i) const {
    return {Angle::from_si(joint_.mean()[i]), Angle::from_si(std::sqrt(joint_.covariance()(i, i)))};
  }
  Estimate<Length> offset() const {
    return {Length::from_si(joint_.mean()[shift]), Length::from_si(joint_.u("shift"))};
  }
  const std::optional<RearReading>& last() const { return last_; }
  const std::vector<Angle>& turned() const { return turned_; }
  Eigen::Vector2d effect(std::size_t j) const { return joint_.mean().segment<2>(first_effect + 2 * j); }

  // What the same places are expected to show as the axle is believed to stand.
  RearReading expected(RearReading r) const {
    const Eigen::VectorXd& x = joint_.mean();
    const double s = x[steer], t = x[toe], y = x[shift], c = std::cos(s), d = r.marks_ahead.si() - x[forward];
    const double a = r.end_out.si(), m = (r.crossed ? -1.0 : 1.0) * r.mark_out.si(), f = x[frame_off];
    if (r.left_string) {
      const double half = 0.5 * r.string_diameter.si(), l = half * std::sin(0.5 * t - s),
                   k = half * std::sin(0.5 * t + s);
      r.left_string = StringReading{Length::from_si(l - y), Length::from_si(-l - y)};
      r.right_string = StringReading{Length::from_si(k + y), Length::from_si(y - k)};
    }
    if (r.left_length) {
      r.left_length = Length::from_si(std::hypot(d + a * std::sin(s), m + f - y - a * c, r.left_mark_above.si()));
      r.right_length = Length::from_si(std::hypot(d - a * std::sin(s), -m + f - y + a * c, r.right_mark_above.si()));
    }
    if (r.left_to_frame) {
      r.left_to_frame = Length::from_si(y - f);
      r.right_to_frame = Length::from_si(f - y);
    }
    return r;
  }

  double probability() const {
    const int n = task_.offset && offset_known() ? 2 : 1;
    Eigen::VectorXd low(2), high(2);
    low << task_.thrust.low.si(), task_.offset ? task_.offset->low.si() : 0.0;
    high << task_.thrust.high.si(), task_.offset ? task_.offset->high.si() : 0.0;
    return probability_in_box(joint_.mean().head(n), joint_.covariance().topLeftCorner(n, n), low.head(n), high.head(n),
                              61)
        .value;
  }

 private:
  // One scalar reading; `model` gives its value, or nothing where it is linear, and sets its slope.
  template <class Model>
  void observe(double value, double variance, const Model& model) {
    const Eigen::VectorXd mean = joint_.mean();
    Eigen::VectorXd x = mean;
    Eigen::RowVectorXd h = Eigen::RowVectorXd::Zero(x.size());
    double expected = 0.0;
    for (int i = 0; i < 10; ++i) {
      h.setZero();
      const std::optional<double> curved = model(x, h);
      expected = curved ? *curved + h.dot(mean - x) : h.dot(mean);
      const Eigen::VectorXd seen = joint_.covariance() * h.transpose();
      x = mean + seen * ((value - expected) / (h.dot(seen) + variance));
      if (!curved) break;
    }
    const auto one = [](double v) { return Eigen::VectorXd::Constant(1, v); };
    joint_.observe(h, one(expected), one(value), one(variance));
  }
  void renew(int i, double variance) {
    const int n = joint_.size();
    Eigen::MatrixXd keep = Eigen::MatrixXd::Identity(n, n), noise = Eigen::MatrixXd::Zero(n, n);
    Eigen::VectorXd mean = joint_.mean();
    keep(i, i) = 0.0;
    noise(i, i) = variance;
    mean[i] = 0.0;
    joint_ = joint_.propagated(joint_.names(), mean, keep, noise);
  }

  RearTask task_;
  Gaussian joint_;
  std::vector<Angle> turned_;
  std::optional<RearReading> last_;
  bool read_ = false, read_since_ = false;
};

// Quarter flats near the least-squares turns, least turned in all where several do as well.
std::vector<RearTurn> turns_for(const RearTask& task, const Rear& now, bool offset) {
  const int m = static_cast<int>(task.adjusters.size());
  Eigen::MatrixXd pull(offset ? 2 : 1, m);
  Eigen::VectorXd wanted(pull.rows());
  const double half_thrust = std::max(1e-6, task.thrust.half().si());
  wanted[0] = (task.thrust.middle().si() - now.angle(steer).value.si()) / half_thrust;
  if (offset) wanted[1] = (task.offset->middle() - now.offset().value) / task.offset->half();
  for (int j = 0; j < m; ++j) {
    pull(0, j) = now.effect(j)[0] / half_thrust;
    if (offset) pull(1, j) = now.effect(j)[1] / task.offset->half().si();
  }
  // Limits one after another: an adjuster that would pass its end is set there and the rest is solved again.
  Eigen::VectorXd turns = Eigen::VectorXd::Zero(m);
  std::vector<bool> fixed(m, false);
  for (int round = 0; round <= m; ++round) {
    std::vector<int> open;
    for (int j = 0; j < m; ++j)
      if (!fixed[j] && pull.col(j).norm() > 1e-3) open.push_back(j);
    if (open.empty()) break;
    Eigen::MatrixXd part(pull.rows(), open.size());
    Eigen::VectorXd rest = wanted;
    for (int j = 0; j < m; ++j)
      if (fixed[j]) rest -= pull.col(j) * turns[j];
    for (std::size_t k = 0; k < open.size(); ++k) part.col(k) = pull.col(open[k]);
    const Eigen::VectorXd found = part.completeOrthogonalDecomposition().solve(rest);
    bool passed = false;
    for (std::size_t k = 0; k < open.size(); ++k) {
      const int j = open[k];
      const double low = (task.adjusters[j].most_shorter - now.turned()[j]).in(units::turn),
                   high = (task.adjusters[j].most_longer - now.turned()[j]).in(units::turn);
      turns[j] = std::clamp(found[k], std::min(low, 0.0), std::max(high, 0.0));
      if (turns[j] != found[k]) fixed[j] = passed = true;
    }
    if (!passed) break;
  }
  // The neighbour in quarter flats with the highest chance.
  std::vector<RearTurn> best;
  double best_chance = now.probability() + worth_turning;
  for (int corner = 0; corner < (1 << m); ++corner) {
    std::vector<RearTurn> tried;
    Rear then = now;
    bool within = true;
    for (int j = 0; j < m; ++j) {
      const double quarters = turns[j] * 4.0 * task.adjusters[j].flats_per_turn;
      const double whole = corner >> j & 1 ? std::ceil(quarters) : std::floor(quarters);
      if (whole == 0.0) continue;
      const Angle by = whole / (4.0 * task.adjusters[j].flats_per_turn) * units::turn;
      const Angle at = now.turned()[j] + by;
      within &= at >= task.adjusters[j].most_shorter - 1e-9 * units::turn &&
                at <= task.adjusters[j].most_longer + 1e-9 * units::turn;
      tried.push_back({static_cast<std::size_t>(j), by});
      then.turn(tried.back());
    }
    if (!within || tried.empty()) continue;
    const double chance = then.probability();
    if (chance > best_chance) best_chance = chance, best = tried;
  }
  return best;
}

// Fewest further readings as the last that would accept it where it seems to stand; nothing where none would.
int more_wanted(const RearTask& task, const Rear& now) {
  for (int n = 1; n <= task.most_readings; ++n) {
    Rear then = now;
    RearReading r = now.expected(*now.last());
    r.repeats = n;
    then.read(r);
    if (then.probability() >= task.accept_probability) return n;
  }
  return 0;
}

}  // namespace

RearAnswer align_rear(const RearTask& task, const std::vector<RearEvent>& events) {
  Rear rear(task);
  for (const RearEvent& event : events) {
    if (const auto* r = std::get_if<RearReading>(&event))
      rear.read(*r);
    else
      rear.turn(std::get<RearTurn>(event));
  }
  RearAnswer a;
  a.thrust = a.thrust_after = rear.angle(steer);
  a.toe = rear.angle(toe);
  a.offset = a.offset_after = rear.offset();
  a.offset_known = rear.offset_known();
  if (!rear.ever_read()) return a;
  a.probability = a.probability_after = rear.probability();
  if (!rear.read_since()) {
    a.reason = RearReason::turned_not_read;
    a.more_readings = 1;
    return a;
  }
  // A housing that is bent steers one wheel against the other: no link cures it.
  const bool is_bent = abs(a.toe.value) - 2.0 * a.toe.u > bent * units::degree;
  if (is_bent) {
    a.verdict = RearVerdict::diagnose;
    a.reason = RearReason::housing_bent;
    return a;
  }
  if (a.probability >= task.accept_probability) {
    a.verdict = RearVerdict::accept;
    a.reason = RearReason::in_tolerance;
    return a;
  }
  const auto turns = turns_for(task, rear, task.offset && a.offset_known);
  const int more = more_wanted(task, rear);
  // Out for certain and nothing to turn.
  if (turns.empty() && a.probability <= 1.0 - task.accept_probability) {
    a.verdict = RearVerdict::diagnose;
    a.reason = RearReason::no_adjuster;
    return a;
  }
  if (turns.empty() || (more > 0 && more <= 2 && a.probability > 0.5)) {
    a.more_readings = more;
    a.reason = more > 0 ? RearReason::reading_helps : RearReason::cannot_be_decided;
    return a;
  }
  a.verdict = RearVerdict::adjust;
  a.reason = RearReason::turning_helps;
  a.turns = turns;
  for (const RearTurn& t : turns) rear.turn(t);
  a.thrust_after = rear.angle(steer);
  a.offset_after = rear.offset();
  a.probability_after = rear.probability();
  a.expected = rear.expected(*rear.last());
  return a;
}

}  // namespace trammel::setup
