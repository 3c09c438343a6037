#include "setup/look_ahead.h"

#include <algorithm>
#include <array>

#include "measure/normal.h"
#include "setup/reach.h"

namespace trammel::setup {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using Head = LookAhead::Head;
constexpr int head = LookAhead::head;

constexpr int points = 32;

// Fixed standard normal points from an additive recurrence in four axes.
const Eigen::Matrix<double, 4, points>& normal_points() {
  static const Eigen::Matrix<double, 4, points> z = [] {
    constexpr double alpha[4] = {0.8566748838545029, 0.733891856627126, 0.6287067210378087, 0.5385972572236101};
    Eigen::Matrix<double, 4, points> p;
    for (int i = 0; i < points; ++i)
      for (int k = 0; k < 4; ++k) {
        const double u = 0.5 + (i + 1) * alpha[k];
        p(k, i) = normal_quantile(std::clamp(u - std::floor(u), 1e-6, 1.0 - 1e-6));
      }
    return p;
  }();
  return z;
}

// The normal distribution from a table, good to 1e-6: the look-ahead asks for it very often.
double tabled_cdf(double z) {
  constexpr double reach = 8.0, step = 1.0 / 256.0;
  static const std::vector<double> table = [] {
    std::vector<double> t;
    for (int i = 0; i <= static_cast<int>(2.0 * reach / step) + 1; ++i) t.push_back(normal_cdf(-reach + i * step));
    return t;
  }();
  const double at = std::clamp((z + reach) / step, 0.0, 2.0 * reach / step);
  const int i = static_cast<int>(at);
  return table[i] + (at - i) * (table[i + 1] - table[i]);
}
double tabled_between(double mean, double sd, double low, double high) {
  if (!(sd > 1e-12)) return mean >= low && mean <= high ? 1.0 : 0.0;
  return tabled_cdf((high - mean) / sd) - tabled_cdf((low - mean) / sd);
}

int times_read(ReadingItem item, const Effort& e) {
  if (item == ReadingItem::left_camber || item == ReadingItem::right_camber) return e.cambers;
  if (item == ReadingItem::steering_wheel_angle) return e.rolls;
  return e.toe;
}

template <class M>
void centre_afresh(M& cov, const Belief::Inside& b, int rolls) {
  cov.row(centre_error).setZero();
  cov.col(centre_error).setZero();
  cov(centre_error, centre_error) = b.centre_variance() / rolls;
}

// The covariance after all of these are read as often as `times_of` says.
template <class Rows, class Times>
MatrixXd after(const MatrixXd& cov, const Rows& all, const Times& times_of) {
  const int n = static_cast<int>(cov.rows());
  MatrixXd H = MatrixXd::Zero(all.items.size(), n);
  VectorXd variance(all.items.size());
  int rows = 0;
  for (std::size_t i = 0; i < all.items.size(); ++i)
    if (const int times = times_of(all.items[i]); times > 0) {
      H.row(rows).head<head>() = all.H.row(i);
      variance[rows++] = all.variance[i] / times;
    }
  if (rows == 0) return cov;
  const MatrixXd cross = cov.leftCols<head>() * H.topLeftCorner(rows, head).transpose();
  MatrixXd S = H.topLeftCorner(rows, head) * cross.topRows<head>();
  S.diagonal() += variance.head(rows);
  return cov - cross * S.llt().solve(cross.transpose());
}

}  // namespace

LookAhead::Rows LookAhead::rows_of(const Belief::Inside& b, bool turning, bool strings) {
  Reading r;
  r.while_turning = turning;
  r.left_camber_gap = r.right_camber_gap = SquareGap{{}, GapAt::top, b.task.square_over};
  r.toe_front = r.toe_rear = Length{};
  if (strings) {
    r.left_string = r.right_string = StringReading{};
    r.string_diameter = turning ? b.task.toe_diameter : b.last_reading ? b.last_reading->string_diameter : std::nullopt;
  }
  if (!turning && !strings) r.steering_wheel_angle = Angle{};
  const std::vector<Observation> all = observations(r, b.task);
  Rows rows;
  rows.H.setZero(all.size(), head);
  rows.variance.resize(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    Eigen::RowVectorXd slope;
    predict(all[i], b.joint.mean(), slope);
    rows.H.row(i) = slope.head<head>();
    rows.variance[i] = all[i].variance;
    rows.items.push_back(all[i].item);
  }
  return rows;
}

LookAhead::LookAhead(const Belief& belief, const Way& way)
    : b_(belief.inside()),
      way_(way),
      aims_(aims_of(b_)),
      rolled_(rows_of(b_, false, way.strings)),
      standing_(rows_of(b_, true, way.strings_while_turning)),
      one_side_(normal_quantile(b_.task.accept_probability) - 1e-4) {
  // Turning to the middle: step and noise of the turns that are wanted now.
  const std::vector<bool> served = served_aspects(b_, aims_);
  const int m = static_cast<int>(b_.task.adjusters.size());
  const VectorXd turns = m ? turns_wanted(b_, only(aims_, served)) : VectorXd();
  const double error = turns_of(b_.task.handling.turn_error), twist = turns_of(b_.task.handling.jam_twist);
  step_ = MatrixXd::Zero(4, b_.joint.size());
  step_.leftCols<4>().setIdentity();
  turn_noise_.setZero();
  touch_noise_.setZero();
  jam_noise_ = b_.settling_variance().asDiagonal();
  for (int j = 0; j < m; ++j) {
    touch_noise_ += b_.turning_noise(j, error);
    const bool turned = std::abs(turns[j]) > 0.125 / b_.task.adjusters[j].flats_per_turn;
    if (turned || b_.touched[j]) jam_noise_ += b_.turning_noise(j, twist);
    if (!turned) continue;
    turn_noise_ += b_.turning_noise(j, error);
    for (int k = 0; k < 4; ++k) step_(moved_by(b_.task.adjusters[j], k), b_.effect(j, k)) += turns[j];
  }
  // Turns that undo a miss of the wheels, least squares over the aims in half-widths.
  const Aims aims = only(aims_, served);
  MatrixXd pull = MatrixXd::Zero(aims.mean.size(), m), weight = aims.jacobian;
  for (int j = 0; j < m; ++j)
    for (int k = 0; k < 4; ++k)
      pull.col(j) += aims.jacobian.col(moved_by(b_.task.adjusters[j], k)) * b_.joint.mean()[b_.effect(j, k)];
  for (int k = 0; k < aims.mean.size(); ++k) {
    pull.row(k) /= aims.half(k);
    weight.row(k) /= aims.half(k);
  }
  correct_ = m && aims.mean.size() ? MatrixXd(pull.completeOrthogonalDecomposition().solve(weight)) : MatrixXd(0, 4);
  centred_ = aims_.mean;
  for (std::size_t k = 0; k < served.size(); ++k)
    if (served[k]) centred_[k] = aims_.middle(k);
  round_ = renewed();
}

Time LookAhead::cost(const Effort& e) const {
  return static_cast<double>(e.rolls) * way_.times.roll + static_cast<double>(e.cambers) * way_.times.cambers +
         static_cast<double>(e.toe) * (way_.strings ? way_.times.toe + way_.times.strings : way_.times.toe);
}

Time LookAhead::cost(const InPlace& e) const {
  return static_cast<double>(e.cambers) * way_.times.cambers + static_cast<double>(e.toe) * way_.times.toe +
         static_cast<double>(e.strings) * way_.times.strings;
}

MatrixXd LookAhead::after_stop(MatrixXd cov, const Effort& e) const {
  centre_afresh(cov, b_, e.rolls);
  return after(cov, rolled_, [&](ReadingItem item) { return times_read(item, e); });
}

MatrixXd LookAhead::after_in_place(const MatrixXd& cov, const InPlace& e) const {
  return after(cov, standing_, [&](ReadingItem item) {
    if (item == ReadingItem::left_camber || item == ReadingItem::right_camber) return e.cambers;
    return item == ReadingItem::total_toe ? e.toe : e.strings;
  });
}

MatrixXd LookAhead::after_turns(MatrixXd cov) const {
  const Eigen::Matrix<double, 4, Eigen::Dynamic> top = step_ * cov;
  const Eigen::Matrix4d wheels = top * step_.transpose() + turn_noise_;
  cov.topRows<4>() = top;
  cov.leftCols<4>() = top.transpose();
  cov.topLeftCorner<4, 4>() = wheels;
  cov.middleRows<4>(left_camber_scrub).setZero();
  cov.middleCols<4>(left_camber_scrub).setZero();
  cov.block<4, 4>(left_camber_scrub, left_camber_scrub).diagonal() = b_.scrub_variance();
  return cov;
}

// Turns that correct what a reading while turning showed: their error, and what is still not known of the effects
// over turns of the size that is to be expected.
MatrixXd LookAhead::touched_up(const MatrixXd& before, MatrixXd cov) const {
  const Eigen::Matrix4d shown = before.topLeftCorner<4, 4>() - cov.topLeftCorner<4, 4>();
  Eigen::Matrix4d noise = touch_noise_;
  for (int j = 0; j < correct_.rows(); ++j) {
    const double turns2 = correct_.row(j) * shown * correct_.row(j).transpose();
    const int first = b_.effect(j, 0);
    for (int k = 0; k < 4; ++k)
      for (int l = 0; l < 4; ++l)
        noise(moved_by(b_.task.adjusters[j], k), moved_by(b_.task.adjusters[j], l)) +=
            turns2 * cov(first + k, first + l);
  }
  cov.topLeftCorner<4, 4>() += noise;
  return cov;
}

Head LookAhead::after_roll(const MatrixXd& cov) const {
  Head h = cov.topLeftCorner<head, head>();
  h.topLeftCorner<4, 4>() += jam_noise_;
  h.middleRows<4>(left_camber_scrub).setZero();
  h.middleCols<4>(left_camber_scrub).setZero();
  return h;
}

double LookAhead::acceptance(Head cov, const Vector& mean, const Effort& e) const {
  centre_afresh(cov, b_, e.rolls);
  const int n = static_cast<int>(mean.size());
  Eigen::Matrix<double, Eigen::Dynamic, head, 0, 8, head> H = rolled_.H;
  Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 8, 1> variance = rolled_.variance;
  int rows = 0;
  for (std::size_t i = 0; i < rolled_.items.size(); ++i) {
    const int times = times_read(rolled_.items[i], e);
    if (times == 0) continue;
    H.row(rows) = rolled_.H.row(i);
    variance[rows++] = rolled_.variance[i] / times;
  }
  const auto seen = H.topRows(rows);
  const Eigen::Matrix<double, Eigen::Dynamic, head, 0, 8, head> forward = seen * cov;
  Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 8, 8> S = forward * seen.transpose();
  S.diagonal() += variance.head(rows);
  const Eigen::Matrix<double, Eigen::Dynamic, 4, 0, 8, 4> cross = forward.leftCols<4>();
  const Eigen::Matrix4d gained = cross.transpose() * S.llt().solve(cross);
  const Square spread = aims_.jacobian * gained * aims_.jacobian.transpose();
  const Square left = aims_.jacobian * (cov.topLeftCorner<4, 4>() - gained) * aims_.jacobian.transpose();
  Vector sd(n);
  double at_best = 1.0;
  for (int k = 0; k < n; ++k) {
    sd[k] = std::sqrt(std::max(0.0, left(k, k)));
    if (std::abs(mean[k] - aims_.middle(k)) > aims_.half(k) + 4.0 * std::sqrt(std::max(0.0, spread(k, k)))) return 0.0;
    at_best *= tabled_between(aims_.middle(k), sd[k], aims_.low[k], aims_.high[k]);
  }
  // Nothing near enough to hope for.
  if (at_best < b_.task.accept_probability) return 0.0;
  Square root = spread;
  for (int k = 0; k < n; ++k) root(k, k) += 1e-12 * spread(k, k) + 1e-30;
  root = Square(root.llt().matrixL());
  // No aim may lie nearer to its limit than one side alone allows: most points fall at that, without the
  // distribution.
  Vector most_off(n);
  for (int k = 0; k < n; ++k) most_off[k] = aims_.half(k) - one_side_ * sd[k];
  int enough = 0;
  for (int i = 0; i < points; ++i) {
    Vector at = mean;
    bool near = true;
    for (int k = 0; k < n && near; ++k) {
      for (int l = 0; l <= k; ++l) at[k] += root(k, l) * normal_points()(l, i);
      near = std::abs(at[k] - aims_.middle(k)) <= most_off[k];
    }
    double p = near ? 1.0 : 0.0;
    for (int k = 0; k < n && p >= b_.task.accept_probability; ++k)
      p *= tabled_between(at[k], sd[k], aims_.low[k], aims_.high[k]);
    enough += p >= b_.task.accept_probability;
  }
  return static_cast<double>(enough) / points;
}

LookAhead::Value LookAhead::reading(const Head& cov, const Vector& mean, Time otherwise, const Effort& from,
                                    const Effort& near) const {
  const auto value = [&](const Effort& e) {
    const double p = acceptance(cov, mean, e);
    return Value{cost(e) + (1.0 - p) * otherwise, p, e};
  };
  const int most = 4 * way_.most_repeats;
  const Effort start{std::max(near.rolls, from.rolls), std::max(near.cambers, from.cambers),
                     std::max(near.toe, from.toe)};
  Value best = value(from);
  Value here = value(start);
  for (bool better = true; better;) {
    better = false;
    const Effort e = here.effort;
    for (const auto& [r, c, t] : {Effort{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {-1, 0, 0}, {0, -1, 0}, {0, 0, -1}}) {
      const Effort next{e.rolls + r, e.cambers + c, e.toe + t};
      if (next.rolls < 1 || next.cambers < from.cambers || next.toe < from.toe ||
          std::max({next.cambers, next.toe, next.rolls}) > most || cost(next) >= here.minutes)
        continue;
      const Value v = value(next);
      if (v.minutes < here.minutes) here = v, better = true;
    }
  }
  if (here.chance > 0.0) near_ = here.effort;
  return here.minutes < best.minutes ? here : best;
}

// What is not accepted goes round again: the longer, the less is known of where the wheels stand.
Time LookAhead::another_round(const Head& cov, const Vector& mean) const {
  const Square spread = aims_.jacobian * cov.topLeftCorner<4, 4>() * aims_.jacobian.transpose();
  double lacking = 0.0;
  for (int k = 0; k < mean.size(); ++k) {
    const double off = mean[k] - aims_.middle(k);
    lacking += 0.5 * std::log1p((spread(k, k) + off * off) / (aims_.half(k) * aims_.half(k)));
  }
  return round_ * (1.0 + way_.longer * lacking);
}

LookAhead::Value LookAhead::after_rolling(const MatrixXd& turned, const Vector& mean) const {
  const Head cov = after_roll(turned);
  return reading(cov, mean, another_round(cov, mean), {1, 1, 1});
}

LookAhead::Value LookAhead::from_turned(const MatrixXd& turned) const {
  Value best = after_rolling(turned, centred_);
  if (!way_.read_while_turning) return best;
  for (const int n : {1, 2, 4}) {
    if (n > way_.most_repeats) break;
    const InPlace e{n, n, way_.strings_while_turning ? n : 0};
    Value then = in_place(turned, e);
    if (then.minutes < best.minutes) best = then;
  }
  return best;
}

LookAhead::Value LookAhead::in_place(const MatrixXd& turned, const InPlace& e) const {
  const MatrixXd once = touched_up(turned, after_in_place(turned, e));
  Value best = after_rolling(once, centred_);
  Value again = after_rolling(touched_up(once, after_in_place(once, e)), centred_);
  again.minutes += cost(e) + way_.times.touch_up;
  if (again.minutes < best.minutes) best = again;
  best.minutes += cost(e) + way_.times.touch_up;
  return best;
}

// Minutes of a round from wheels that are known as a stop leaves them, over the chance that it is the last: a small
// turn, a roll, and as many readings as make that ratio least.
Time LookAhead::renewed() const {
  Head cov = after_stop(now(), {1, 2, 2}).topLeftCorner<head, head>();
  cov.topLeftCorner<4, 4>() += touch_noise_ + jam_noise_;
  Time k = 40.0 * units::minute;
  for (int i = 0; i < 4; ++i) {
    const Value v = reading(cov, centred_, k, {1, 1, 1});
    if (!(v.chance > 0.02)) return 400.0 * units::minute;
    k = (way_.times.turning + way_.pass_price + cost(v.effort)) / v.chance;
  }
  return k;
}

}  // namespace trammel::setup
