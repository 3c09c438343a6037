#include "setup/diagnosis.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "setup/belief.h"

namespace trammel::setup {

namespace {

// Rows of the signs, degrees and millimetres.
enum Row : int {
  cl,
  cr,
  tl,
  tr,
  bcl,
  bcr,
  btl,
  btr,
  height_difference,
  height_change,
  caster_left,
  caster_right,
  rows
};
using Signs12 = Eigen::Matrix<double, rows, 1>;
using Scatter = Eigen::Matrix<double, rows, rows>;

const double degree = units::degree.si();
constexpr double mm = 1e-3;

// Healthy wheels about the middle, before adjusters: degrees, millimetres.
// How far the rates are off where points are known to 5 mm, degrees a millimetre: camber, toe.
constexpr double rise_camber = 0.0085, rise_toe = 0.013, length_camber = 0.02, length_toe = 0.03;

constexpr double healthy_camber = 0.2, healthy_toe = 0.2, healthy_height = 4.0, healthy_change = 5.0,
                 healthy_caster = 0.7;

// One way a cause shows: what its size times `signature` does, a scatter of its own, and how far the signature itself
// may be off for each unit of size.
struct Way {
  double share, new_share;  // of its cause; of it, come with the work
  Signs12 signature;
  double size;  // sd
  bool one_signed = false;
  Signs12 own_sd = Signs12::Zero(), rate_sd = Signs12::Zero();
};
struct Pattern {
  Cause cause;
  Where where;
  double prior;
  std::vector<Way> ways;
};

// camber and toe of one wheel per millimetre, degrees.
Eigen::Vector2d rate(const WheelRate& r) { return Eigen::Vector2d(r.camber.si(), r.toe.si()) * mm / degree; }

Signs12 wheels(double left_camber, double right_camber, double left_toe, double right_toe) {
  Signs12 s = Signs12::Zero();
  s[cl] = left_camber, s[cr] = right_camber, s[tl] = left_toe, s[tr] = right_toe;
  return s;
}
Signs12 both(const Eigen::Vector2d& left, const Eigen::Vector2d& right) {
  return wheels(left[0], right[0], left[1], right[1]);
}
Signs12 on(Where where, const Eigen::Vector2d& wheel) {
  const Eigen::Vector2d none(0, 0);
  return where == Where::left ? both(wheel, none) : both(none, wheel);
}
Signs12 with(Signs12 s, Row row, double value) {
  s[row] = value;
  return s;
}

// Priors, sizes and shares: assumed, our own after common practice, no source.
constexpr double old_trouble = 0.3, wear = 0.2, either = 0.4, by_the_work = 0.95, steering = 0.7;
constexpr double bend = 1.8, bent_arm = 6.0, play = 0.9, sag = 25.0, other_part = 7.0, exchanged = 4.5, wedge = 4.0,
                 off_centre = 4.0;

void one_side(std::vector<Pattern>& all, const Chassis& c, Where where) {
  const CornerRates& corner = where == Where::left ? c.left : c.right;
  const double side = where == Where::left ? 1.0 : -1.0, unsure = c.known ? 1.0 : 2.0;
  const auto caster = where == Where::left ? caster_left : caster_right;

  // A knock bends a knuckle: camber either way, toe with it as it likes, caster too. Or it shortens the lower arm.
  Way knuckle{c.beam ? 1.0 : 0.6, old_trouble, on(where, {1.0, 0.0}), bend, false};
  knuckle.own_sd = with(on(where, {0.0, 1.0}), caster, 1.5);
  Way arm{0.4, old_trouble, on(where, -rate(corner.lower_arm)), bent_arm, true};
  arm.own_sd = with(on(where, {0.3, 0.7}), caster, 1.0);
  arm.rate_sd = unsure * on(where, {length_camber, length_toe});
  all.push_back({Cause::bent_part, where, 0.11, c.beam ? std::vector{knuckle} : std::vector{knuckle, arm}});

  // Play lets the top lean in under load.
  Way joint{1.0, wear, on(where, {-1.0, -0.25}), play, true, on(where, {0.1, 0.3})};
  all.push_back({Cause::worn_joint, where, 0.10, {joint}});

  // Sag carries the wheel up against the body.
  Way low{1.0, either, c.beam ? Signs12(Signs12::Zero()) : on(where, rate(corner.rise)), sag, true};
  low.signature[height_difference] = -side;
  low.signature[height_change] = -0.5;
  if (!c.beam) low.rate_sd = unsure * on(where, {rise_camber, rise_toe});
  all.push_back({Cause::sagged_spring, where, 0.06, {low}});

  // One wrong or reversed block or wedge: the caster of that side.
  Way block{1.0, by_the_work, with(Signs12::Zero(), caster, 1.0), wedge, false, wheels(0.2, 0.2, 0.3, 0.3)};
  if (c.leaf_springs) all.push_back({Cause::reversed_block, where, 0.02, {block}});
}

void both_sides(std::vector<Pattern>& all, const Chassis& c) {
  const double unsure = c.known ? 1.0 : 2.0;
  const Signs12 none = Signs12::Zero(), two = wheels(1, 1, 0, 0);
  const Signs12 arms_sd = unsure * wheels(length_camber, length_camber, length_toe, length_toe);
  const Signs12 casters = with(with(none, caster_left, 1.0), caster_right, 1.0);

  Way joints{1.0, wear, wheels(-1, -1, -0.25, -0.25), play, true, wheels(0.3, 0.3, 0.3, 0.3)};
  all.push_back({Cause::worn_joint, Where::both, 0.06, {joints}});

  Way low{1.0, either, c.beam ? none : both(rate(c.left.rise), rate(c.right.rise)), sag, true};
  low.signature[height_change] = -1.0;
  low.own_sd[height_difference] = 4.0;
  if (!c.beam) low.rate_sd = unsure * wheels(rise_camber, rise_camber, rise_toe, rise_toe);
  all.push_back({Cause::sagged_spring, Where::both, 0.13, {low}});

  if (c.beam) {
    // The beam itself bends: both king pins lean. Another beam or spindle on both sides does the same.
    all.push_back(
        {Cause::bent_part, Where::both, 0.10, {{1.0, old_trouble, two, 1.2, false, wheels(0.3, 0.3, 0.3, 0.3)}}});
    all.push_back({Cause::wrong_part, Where::both, 0.10, {{1.0, by_the_work, two, 1.5, false, 0.1 * two}}});
  } else {
    // Arms of another length on both sides, and left and right changed over.
    const auto pair = [&](double share, const WheelRate& left, const WheelRate& right, double sign, double size) {
      return Way{share, by_the_work, both(rate(left), sign * rate(right)), size, false, none, arms_sd};
    };
    Way upper = pair(0.6, c.left.upper_arm, c.right.upper_arm, 1.0, other_part),
        lower = pair(0.4, c.left.lower_arm, c.right.lower_arm, 1.0, other_part);
    all.push_back({Cause::wrong_part, Where::both, 0.12, {upper, lower}});
    upper = pair(0.6, c.left.upper_arm, c.right.upper_arm, -1.0, exchanged);
    lower = pair(0.4, c.left.lower_arm, c.right.lower_arm, -1.0, exchanged);
    upper.own_sd = lower.own_sd = 1.5 * casters;
    all.push_back({Cause::swapped_arms, Where::both, 0.05, {upper, lower}});
  }
  if (c.leaf_springs)
    all.push_back({Cause::reversed_block, Where::both, 0.06, {{1.0, by_the_work, casters, wedge, false}}});

  // Rack or drag link off its middle: toe opposite, cambers well.
  Way rack{1.0, steering, both(rate(c.left.rack), rate(c.right.rack)), off_centre, false};
  rack.rate_sd = unsure * wheels(0, 0, length_toe, length_toe);
  all.push_back({Cause::rack_not_centred, Where::both, 0.08, {rack}});
}

std::vector<Pattern> patterns(const Chassis& c) {
  std::vector<Pattern> all;
  one_side(all, c, Where::left);
  one_side(all, c, Where::right);
  both_sides(all, c);
  return all;
}

// What the adjusters may be off by, a turn each; the pattern of one that ran out of thread is twice as wide.
Scatter adjusters_off(const Belief::Inside& b, double turns) {
  Scatter s = Scatter::Zero();
  for (std::size_t j = 0; j < b.task.adjusters.size(); ++j) {
    Signs12 e = Signs12::Zero();
    for (int k = 0; k < 4; ++k) e[moved_by(b.task.adjusters[j], k)] += b.joint.mean()[b.effect(j, k)] / degree;
    Signs12 before = Signs12::Zero();
    before.segment<4>(bcl) = e.head<4>();
    s += turns * turns * (e * e.transpose() + before * before.transpose());
  }
  return s;
}

struct Seen {
  std::vector<int> at;  // rows that were read
  Signs12 value = Signs12::Zero();
  Scatter error = Scatter::Zero();
};

// What the wheels show with the turns taken off again, and what else was read.
Seen seen(const AlignmentTask& task, const Belief::Inside& b) {
  Seen s;
  const Angle camber = task.tolerance.camber ? task.tolerance.camber->middle() : Angle{};
  const Length total = task.tolerance.total_toe ? task.tolerance.total_toe->middle() : Length{};
  const double middle[2] = {camber / units::degree, toe_angle(0.5 * total, task.toe_diameter) / units::degree};
  Eigen::Vector4d now = b.joint.mean().head<4>() / degree;
  for (std::size_t j = 0; j < task.adjusters.size(); ++j)
    for (int k = 0; k < 4; ++k)
      now[moved_by(task.adjusters[j], k)] -= turns_of(b.turned[j]) * b.joint.mean()[b.effect(j, k)] / degree;
  for (int i = 0; i < 4; ++i) s.value[i] = now[i] - middle[i / 2], s.at.push_back(i);
  s.error.topLeftCorner<4, 4>() = b.joint.covariance().topLeftCorner<4, 4>() / (degree * degree);
  const auto add = [&](Row row, double value, double u) {
    s.at.push_back(row);
    s.value[row] = value;
    s.error(row, row) = u * u;
  };
  const Signs& given = task.signs;
  if (given.before_work) {
    const auto& w = *given.before_work;
    const Estimate<Angle>* all[] = {&w.left_camber, &w.right_camber, &w.left_toe, &w.right_toe};
    for (int i = 0; i < 4; ++i)
      if (all[i]->u.si() > 0.0)
        add(static_cast<Row>(bcl + i), all[i]->value / units::degree - middle[i / 2], all[i]->u / units::degree);
  }
  if (given.height_difference)
    add(height_difference, given.height_difference->value / units::mm, given.height_difference->u / units::mm);
  if (given.height_change)
    add(height_change, given.height_change->value / units::mm, given.height_change->u / units::mm);
  if (given.left_caster)
    add(caster_left, given.left_caster->value / units::degree, given.left_caster->u / units::degree);
  if (given.right_caster)
    add(caster_right, given.right_caster->value / units::degree, given.right_caster->u / units::degree);
  return s;
}

Scatter healthy() {
  Signs12 sd;
  sd << healthy_camber, healthy_camber, healthy_toe, healthy_toe, healthy_camber, healthy_camber, healthy_toe,
      healthy_toe, healthy_height, healthy_change, healthy_caster, healthy_caster;
  return sd.cwiseAbs2().asDiagonal();
}

// log of the integral over the size of N(seen; size x signature, scatter) p(size).
double log_evidence(const Seen& s, const Signs12& signature, const Signs12& rate_sd, const Scatter& scatter,
                    double size, bool one_signed) {
  const int n = static_cast<int>(s.at.size());
  Eigen::VectorXd y(n), along(n), spread(n);
  Eigen::MatrixXd cov(n, n);
  for (int i = 0; i < n; ++i) {
    y[i] = s.value[s.at[i]];
    along[i] = size * signature[s.at[i]];
    spread[i] = size * size * rate_sd[s.at[i]] * rate_sd[s.at[i]];
    for (int j = 0; j < n; ++j) cov(i, j) = scatter(s.at[i], s.at[j]) + s.error(s.at[i], s.at[j]);
  }
  constexpr int points = 41;
  constexpr double reach = 3.5;
  const double low = one_signed ? 0.0 : -reach, step = (reach - low) / (points - 1);
  std::vector<double> logs;
  for (int i = 0; i < points; ++i) {
    const double z = low + i * step;
    const double density = -0.5 * z * z + std::log(step) + (one_signed ? std::log(2.0) : 0.0) +
                           (i == 0 || i == points - 1 ? std::log(0.5) : 0.0);
    Eigen::MatrixXd at = cov;
    at.diagonal() += z * z * spread;
    const Eigen::LLT<Eigen::MatrixXd> llt(at);
    const double spread_log = llt.matrixLLT().diagonal().array().log().sum();
    logs.push_back(density - spread_log - 0.5 * llt.matrixL().solve(y - z * along).squaredNorm());
  }
  const double most = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (const double l : logs) sum += std::exp(l - most);
  return most + std::log(sum);
}

}  // namespace

Chassis class_average(bool beam) {
  Chassis c;
  c.beam = c.leaf_springs = beam;
  const auto rate = [](double camber, double toe) {  // degrees per millimetre
    return WheelRate{AnglePerLength::from_si(camber * degree / mm), AnglePerLength::from_si(toe * degree / mm)};
  };
  if (!beam) {
    c.left.rise = rate(-0.02, 0.0);
    c.left.upper_arm = rate(0.33, 0.1);
    c.left.lower_arm = rate(-0.33, 0.1);
    c.left.tie_rod = rate(0.0, 0.5);
  }
  c.right = c.left;
  c.left.rack = rate(0.0, 0.5);
  c.right.rack = rate(0.0, -0.5);
  return c;
}

std::vector<Suspect> diagnose(const AlignmentTask& task, const Belief& belief) {
  const Belief::Inside& b = belief.inside();
  const Seen s = seen(task, b);
  const Scatter ok = healthy() + adjusters_off(b, 1.0);

  std::vector<Suspect> suspects;
  std::vector<double> log_weight;
  const auto add = [&](Cause cause, Where where, double log) {
    suspects.push_back({cause, where, 0.0});
    log_weight.push_back(log);
  };
  for (const Pattern& p : patterns(task.chassis)) {
    // Each of its ways, there before the work or come with it.
    double sum = 0.0, most = -1e300;
    std::vector<double> logs;
    for (const Way& way : p.ways)
      for (const bool is_new : {true, false}) {
        Signs12 signature = way.signature, own = way.own_sd, rate_sd = way.rate_sd;
        if (!is_new) {
          // What was there before shows in the wheels as it came in, and changes no height.
          signature.segment<4>(bcl) = signature.head<4>();
          own.segment<4>(bcl) = own.head<4>();
          rate_sd.segment<4>(bcl) = rate_sd.head<4>();
          signature[height_change] = 0.0;
        }
        const Scatter scatter = ok + Scatter(own.cwiseAbs2().asDiagonal());
        const double share = way.share * (is_new ? way.new_share : 1.0 - way.new_share);
        logs.push_back(std::log(share) + log_evidence(s, signature, rate_sd, scatter, way.size, way.one_signed));
        most = std::max(most, logs.back());
      }
    for (const double l : logs) sum += std::exp(l - most);
    add(p.cause, p.where, std::log(p.prior) + most + std::log(sum));
  }
  // Nothing wrong but adjusters that began far off.
  if (!task.adjusters.empty())
    add(Cause::adjuster_out_of_range, Where::both,
        std::log(0.08) +
            log_evidence(s, Signs12::Zero(), Signs12::Zero(), healthy() + adjusters_off(b, 3.0), 0.0, false));

  const double most = *std::max_element(log_weight.begin(), log_weight.end());
  double sum = 0.0;
  for (std::size_t i = 0; i < suspects.size(); ++i) sum += suspects[i].share = std::exp(log_weight[i] - most);
  for (Suspect& x : suspects) x.share /= sum;
  std::stable_sort(suspects.begin(), suspects.end(),
                   [](const Suspect& x, const Suspect& y) { return x.share > y.share; });
  return suspects;
}

TellingSign telling_sign(const AlignmentTask& task, const std::vector<Suspect>& ranked) {
  if (ranked.size() < 2 || ranked[0].share > 0.8) return TellingSign::none;
  const auto among = [&](Cause cause) { return ranked[0].cause == cause || ranked[1].cause == cause; };
  if (among(Cause::sagged_spring) && !task.signs.height_difference) return TellingSign::heights;
  if ((among(Cause::reversed_block) || among(Cause::swapped_arms)) &&
      !(task.signs.left_caster && task.signs.right_caster))
    return TellingSign::caster;
  return TellingSign::none;
}

}  // namespace trammel::setup
