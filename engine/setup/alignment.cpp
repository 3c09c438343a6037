#include "setup/alignment.h"

#include <cassert>
#include <cmath>
#include <numbers>

#include "setup/belief.h"

namespace trammel::setup {

namespace {

constexpr Estimate<double> assumed_ratio{14.0, 4.0};

double square(double a) { return a * a; }

// One scalar reading, iterated so that the slope is taken at the posterior.
void update(Gaussian& joint, const Observation& o, double variance) {
  const Eigen::VectorXd mean = joint.mean();
  Eigen::RowVectorXd slope;
  Eigen::VectorXd x = mean;
  double expected = 0.0;
  for (int i = 0; i < 20; ++i) {
    // What the prior mean would read by the straight line through x.
    expected = predict(o, x, slope) + slope.dot(mean - x);
    const Eigen::VectorXd seen = joint.covariance() * slope.transpose();
    const Eigen::VectorXd next = mean + seen * ((o.value - expected) / (slope.dot(seen) + variance));
    const double moved = (next - x).norm();
    x = next;
    if (moved < 1e-13 * (1.0 + x.norm())) break;
  }
  const auto one = [](double v) { return Eigen::VectorXd::Constant(1, v); };
  joint.observe(slope, one(expected), one(o.value), one(variance));
}

// An unknown drawn afresh, or re-opened: its own value and variance, the rest as it was.
void renew(Gaussian& joint, int i, double value, double variance) {
  Eigen::MatrixXd keep = Eigen::MatrixXd::Identity(joint.size(), joint.size());
  Eigen::MatrixXd noise = Eigen::MatrixXd::Zero(joint.size(), joint.size());
  Eigen::VectorXd mean = joint.mean();
  keep(i, i) = 0.0;
  noise(i, i) = variance;
  mean[i] = value;
  joint = joint.propagated(joint.names(), mean, keep, noise);
}

// The same reading with a usual slip undone, in the order in which a person would suspect them.
Suspicion suspect(const Observation& o, double predicted, double sd) {
  const auto fits = [&](double value) { return std::abs(value - predicted) < 2.0 * sd; };
  const bool camber = o.item == ReadingItem::left_camber || o.item == ReadingItem::right_camber;
  if (fits(-o.value) && o.by_square) return Suspicion::gap_at_wrong_edge;
  if (fits(-o.value))
    return camber || o.item == ReadingItem::steering_wheel_angle ? Suspicion::wrong_sign
                                                                 : Suspicion::front_and_rear_swapped;
  if (o.is_length)
    for (const double slip : {0.0254, 0.0127, 0.00635, 0.1, 0.05, 0.01})
      if (slip > 3.0 * sd && (fits(o.value + slip) || fits(o.value - slip))) return Suspicion::tape_misread;
  return Suspicion::unlikely;
}

}  // namespace

int moved_by(const Adjuster& a, int k) {
  const bool left = (a.side == Side::left) == (k < 2);
  return k % 2 == 0 ? (left ? left_camber : right_camber) : (left ? left_toe : right_toe);
}

double Belief::Inside::centre_variance() const {
  return square(task.instruments.steering_centre.sd / task.toe_diameter);
}

Eigen::Vector4d Belief::Inside::scrub_variance() const {
  const double camber = square(task.handling.scrub_camber.si());
  const double toe = square(task.handling.scrub_toe / task.toe_diameter);
  return {camber, camber, toe, toe};
}

Eigen::Vector4d Belief::Inside::settling_variance() const {
  const double camber = square(task.handling.settling_camber.si());
  const double toe = square(task.handling.settling_toe / task.toe_diameter);
  return {camber, camber, toe, toe};
}

Eigen::Matrix4d Belief::Inside::turning_noise(std::size_t j, double turns_sd) const {
  const int first = effect(j, 0);
  const Eigen::Vector4d e = joint.mean().segment<4>(first);
  const Eigen::Matrix4d q = square(turns_sd) * (e * e.transpose() + joint.covariance().block<4, 4>(first, first));
  Eigen::Matrix4d noise = Eigen::Matrix4d::Zero();
  for (int k = 0; k < 4; ++k)
    for (int l = 0; l < 4; ++l) noise(moved_by(task.adjusters[j], k), moved_by(task.adjusters[j], l)) += q(k, l);
  return noise;
}

Handling standing_on(Floor floor, Handling h) {
  if (floor == Floor::plates) {
    h.scrub_camber = 0.03 * units::degree;
    h.scrub_toe = 0.2 * units::mm;
  }
  return h;
}

Belief::Belief(const AlignmentTask& task) : inside_(std::make_unique<Inside>()) {
  assert(task.toe_diameter.si() > 0.0);
  Inside& b = *inside_;
  b.task = task;
  b.turned.assign(task.adjusters.size(), Angle{});
  b.touched.assign(task.adjusters.size(), false);
  std::vector<std::string> names{"left_camber",       "right_camber",       "left_toe",       "right_toe",
                                 "steering_ratio",    "floor_slope",        "square_error",   "centre_error",
                                 "left_camber_scrub", "right_camber_scrub", "left_toe_scrub", "right_toe_scrub"};
  for (const Adjuster& a : task.adjusters)
    for (const char* effect : {".own_camber", ".own_toe", ".other_camber", ".other_toe"})
      names.push_back((a.side == Side::left ? "left." : "right.") + a.name + effect);
  const int n = static_cast<int>(names.size());
  Eigen::VectorXd mean = Eigen::VectorXd::Zero(n);
  Eigen::MatrixXd cov = Eigen::MatrixXd::Zero(n, n);

  const auto set = [&](int i, double value, double u) {
    assert(std::isfinite(value) && std::isfinite(u));
    mean[i] = value;
    cov(i, i) = u * u;
  };
  const auto wheel = [&](int i, const Estimate<Angle>& e) { set(i, e.value.si(), e.u.si()); };
  wheel(left_camber, task.prior.left_camber);
  wheel(right_camber, task.prior.right_camber);
  wheel(left_toe, task.prior.left_toe);
  wheel(right_toe, task.prior.right_toe);
  const Estimate<double> ratio = task.steering_ratio.value_or(assumed_ratio);
  set(steering_ratio, ratio.value, ratio.u);
  set(floor_slope, 0.0, task.instruments.floor.sd.si());
  set(square_error, 0.0, task.instruments.square_true.sd.si());
  cov(centre_error, centre_error) = b.centre_variance();

  // Each adjuster's effects, own camber and toe correlated as given.
  for (std::size_t j = 0; j < task.adjusters.size(); ++j) {
    const Adjuster& a = task.adjusters[j];
    const auto pair = [&](int k, const Effect& e, const EffectSpread& u) {
      const int c = b.effect(j, k), t = b.effect(j, k + 1);
      set(c, e.camber.si(), u.camber.si());
      set(t, e.toe.si(), u.toe.si());
      cov(c, t) = cov(t, c) = u.correlation * u.camber.si() * u.toe.si();
    };
    pair(0, a.own, a.own_spread);
    pair(2, a.other, a.other_spread);
    // The same part across has part of it from the same design.
    for (std::size_t other = 0; other < j && task.alike > 0.0; ++other) {
      if (task.adjusters[other].name != a.name) continue;
      const auto root = [&](std::size_t i) -> Eigen::Matrix2d {
        Eigen::Matrix2d r = Eigen::Matrix2d::Zero();
        const EffectSpread& u = task.adjusters[i].own_spread;
        const double rest = std::sqrt(std::max(0.0, 1.0 - u.correlation * u.correlation));
        r << u.camber.si(), 0.0, u.correlation * u.toe.si(), rest * u.toe.si();
        return r;
      };
      const Eigen::Matrix2d shared = task.alike * root(j) * root(other).transpose();
      cov.block<2, 2>(b.effect(j, 0), b.effect(other, 0)) = shared;
      cov.block<2, 2>(b.effect(other, 0), b.effect(j, 0)) = shared.transpose();
    }
  }
  if (!task.learned.empty()) {
    const int m = 4 * static_cast<int>(task.adjusters.size());
    assert(task.learned.size() == static_cast<std::size_t>(m) * m);
    cov.block(effects, effects, m, m) = Eigen::Map<const Eigen::MatrixXd>(task.learned.data(), m, m);
  }
  b.joint = Gaussian(std::move(names), mean, cov);
}

Belief::~Belief() = default;
Belief::Belief(const Belief& o) : inside_(std::make_unique<Inside>(*o.inside_)) {}
Belief::Belief(Belief&&) noexcept = default;
Belief& Belief::operator=(const Belief& o) {
  if (this != &o) inside_ = std::make_unique<Inside>(*o.inside_);
  return *this;
}
Belief& Belief::operator=(Belief&&) noexcept = default;

void Belief::condition(const Reading& reading, std::size_t event) {
  Inside& b = *inside_;
  const AlignmentTask& task = b.task;
  if (!reading.while_turning) roll();  // read on a straight run: it was rolled

  // A new stop: the steering wheel is centred afresh, but not while it is clamped; a floor that was measured is known
  // as measured.
  if (!(reading.while_turning && b.clamped)) renew(b.joint, centre_error, 0.0, b.centre_variance());
  b.clamped = reading.while_turning;
  const auto& floor_before = b.last_reading ? b.last_reading->floor_slope : std::nullopt;
  if (reading.floor_slope && !(floor_before && floor_before->value == reading.floor_slope->value))
    renew(b.joint, floor_slope, reading.floor_slope->value.si(), square(reading.floor_slope->u.si()));

  std::map<ReadingItem, double> doubted;
  for (const Observation& o : observations(reading, task)) {
    // How far the reading lies from what the state expects.
    Eigen::RowVectorXd slope;
    const double predicted = predict(o, b.joint.mean(), slope),
                 known = slope.dot(b.joint.covariance() * slope.transpose());
    const double off = o.value - predicted, z = off / std::sqrt(known + o.variance);
    b.log_evidence -= 0.5 * (z * z + std::log(2.0 * std::numbers::pi * (known + o.variance)));
    b.most_surprise = std::max(b.most_surprise, std::abs(z));
    double variance = o.variance;
    if (std::abs(z) > task.surprise_limit) {
      const auto before = b.doubted.find(o.item);
      const bool confirmed = before != b.doubted.end() &&
                             std::abs(before->second - o.value) < task.surprise_limit * std::sqrt(2.0 * o.variance);
      if (confirmed) {
        // Read twice alike: the wheels did move. Re-open the wheel angles that this reading sees.
        Eigen::MatrixXd noise = Eigen::MatrixXd::Zero(b.joint.size(), b.joint.size());
        for (int i = left_camber; i <= right_toe; ++i)
          if (slope[i] != 0.0) noise(i, i) = square(off / slope[i]);
        b.joint = b.joint.propagated(b.joint.names(), b.joint.mean(),
                                     Eigen::MatrixXd::Identity(b.joint.size(), b.joint.size()), noise);
      } else {
        // Kept with the weight that makes it just believable.
        variance = std::max(variance, square(off / task.surprise_limit) - known);
        doubted[o.item] = o.value;
        ReadingFlag flag;
        flag.event = event;
        flag.item = o.item;
        flag.suspicion = suspect(o, predicted, std::sqrt(known + o.variance));
        flag.z = z;
        flag.is_length = o.is_length;
        if (o.is_length) {
          flag.read_length = Length::from_si(o.value);
          flag.expected_length = Length::from_si(predicted);
        } else {
          flag.read_angle = Angle::from_si(o.value);
          flag.expected_angle = Angle::from_si(predicted);
        }
        b.flags.push_back(flag);
      }
    }
    update(b.joint, o, variance);
  }
  b.doubted = doubted;
  if (reading.while_turning) {
    const int n = std::max(1, reading.repeats);
    if (reading.left_camber_gap || reading.left_camber_gauge) b.here.cambers += n;
    if (reading.toe_front) b.here.toe += n;
    if (reading.left_string) b.here.strings += n;
  } else {
    b.read_since_turn = true;
  }
  b.last_reading = reading;
  b.last_event = event;
}

void Belief::adjust(const Adjustment& adjustment) {
  Inside& b = *inside_;
  const int n = b.joint.size();
  const Eigen::MatrixXd same = Eigen::MatrixXd::Identity(n, n);

  // The first turn of a pass: the tyres begin to wind up.
  if (!adjustment.turns.empty() && !b.turning) {
    b.turning = true;
    const Eigen::Vector4d scrub = b.scrub_variance();
    for (int k = 0; k < 4; ++k) renew(b.joint, left_camber_scrub + k, 0.0, scrub[k]);
  }
  for (const Turn& turn : adjustment.turns) {
    std::size_t j = 0;
    while (j < b.task.adjusters.size() &&
           (b.task.adjusters[j].side != turn.side || b.task.adjusters[j].name != turn.adjuster))
      ++j;
    assert(j < b.task.adjusters.size() && "a turn of an adjuster that the task does not have");
    if (j == b.task.adjusters.size()) continue;

    // (c, t) += effect x turns, the effect itself unknown. Turn error acts through the true effects, on all that the
    // adjuster moves together.
    const double turns = turns_of(turn.turns);
    Eigen::MatrixXd step = same, added = Eigen::MatrixXd::Zero(n, n);
    added.topLeftCorner<4, 4>() = b.turning_noise(j, turns_of(b.task.handling.turn_error));
    for (int k = 0; k < 4; ++k) step(moved_by(b.task.adjusters[j], k), b.effect(j, 0) + k) = turns;
    b.joint = b.joint.propagated(b.joint.names(), step * b.joint.mean(), step, added);
    b.turned[j] += turn.turns;
    b.touched[j] = true;
  }
  if (!adjustment.turns.empty()) b.read_since_turn = false, b.here = {};
  if (adjustment.rolled) roll();
  b.doubted.clear();
}

void Belief::roll() {
  Inside& b = *inside_;
  if (!b.turning) return;
  const int n = b.joint.size();
  Eigen::MatrixXd added = Eigen::MatrixXd::Zero(n, n);
  added.topLeftCorner<4, 4>().diagonal() = b.settling_variance();
  for (std::size_t j = 0; j < b.touched.size(); ++j)
    if (b.touched[j]) added.topLeftCorner<4, 4>() += b.turning_noise(j, turns_of(b.task.handling.jam_twist));
  b.joint = b.joint.propagated(b.joint.names(), b.joint.mean(), Eigen::MatrixXd::Identity(n, n), added);
  for (int k = 0; k < 4; ++k) renew(b.joint, left_camber_scrub + k, 0.0, 0.0);
  b.turning = false;
  b.touched.assign(b.touched.size(), false);
}

void Belief::apply(const Event& event, std::size_t index) {
  if (const auto* reading = std::get_if<Reading>(&event))
    condition(*reading, index);
  else
    adjust(std::get<Adjustment>(event));
}

Belief fold(const AlignmentTask& task, const std::vector<Event>& events) {
  Belief belief(task);
  for (std::size_t i = 0; i < events.size(); ++i) belief.apply(events[i], i);
  return belief;
}

}  // namespace trammel::setup
