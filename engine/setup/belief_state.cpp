// What a belief says: the state, the aims and their chance.
#include <cmath>

#include "measure/normal.h"
#include "setup/belief.h"

namespace trammel::setup {

Eigen::Matrix4d aspect_jacobian(const Eigen::Vector4d& wheels, Length diameter) {
  const double l = diameter.si() * std::cos(wheels[left_toe]), r = diameter.si() * std::cos(wheels[right_toe]);
  Eigen::Matrix4d j = Eigen::Matrix4d::Zero();
  j(0, left_camber) = j(1, right_camber) = 1.0;
  j(2, left_toe) = l;
  j(2, right_toe) = r;
  j(3, left_toe) = 0.5 * l;
  j(3, right_toe) = -0.5 * r;
  return j;
}

Eigen::Vector4d aspect_means(const Eigen::Vector4d& wheels, Length diameter) {
  const double l = diameter.si() * std::sin(wheels[left_toe]), r = diameter.si() * std::sin(wheels[right_toe]);
  return {wheels[left_camber], wheels[right_camber], l + r, 0.5 * (l - r)};
}

void place(Aims& aims, const Eigen::Vector4d& wheels, Length diameter) {
  const Eigen::Matrix4d jacobian = aspect_jacobian(wheels, diameter);
  const Eigen::Vector4d mean = aspect_means(wheels, diameter);
  for (std::size_t k = 0; k < aims.aspects.size(); ++k) {
    const int row = static_cast<int>(aims.aspects[k]);
    aims.mean[k] = mean[row];
    aims.jacobian.row(k) = jacobian.row(row);
  }
}

Aims aims_of(const Belief::Inside& b) {
  Aims aims;
  aims.low.setZero(4), aims.high.setZero(4);
  const auto add = [&](Aspect aspect, double from, double to) {
    aims.low[aims.aspects.size()] = from;
    aims.high[aims.aspects.size()] = to;
    aims.aspects.push_back(aspect);
  };
  const Tolerance& t = b.task.tolerance;
  if (t.camber) {
    add(Aspect::left_camber, t.camber->low.si(), t.camber->high.si());
    add(Aspect::right_camber, t.camber->low.si(), t.camber->high.si());
  }
  if (t.total_toe) add(Aspect::total_toe, t.total_toe->low.si(), t.total_toe->high.si());
  if (t.toe_difference) add(Aspect::toe_difference, t.toe_difference->low.si(), t.toe_difference->high.si());
  const int n = static_cast<int>(aims.aspects.size());
  aims.low.conservativeResize(n);
  aims.high.conservativeResize(n);
  aims.mean.setZero(n);
  aims.jacobian.setZero(n, 4);
  place(aims, b.joint.mean().head<4>(), b.task.toe_diameter);
  return aims;
}

double chance_of_all(const Aims& aims, const Eigen::Matrix4d& wheels, Points points) {
  return probability_in_box(aims.mean, aims.jacobian * wheels * aims.jacobian.transpose(), aims.low, aims.high,
                            static_cast<int>(points))
      .value;
}

double normal_between(double mean, double sd, double low, double high) {
  if (!(sd > 0.0)) return mean >= low && mean <= high ? 1.0 : 0.0;
  const double a = (low - mean) / sd, b = (high - mean) / sd;
  return a > 0.0 ? normal_cdf(-a) - normal_cdf(-b) : normal_cdf(b) - normal_cdf(a);
}

AlignmentState Belief::state() const {
  const Inside& b = *inside_;
  const Eigen::Vector4d mean = aspect_means(b.joint.mean().head<4>(), b.task.toe_diameter);
  const Eigen::Matrix4d j = aspect_jacobian(b.joint.mean().head<4>(), b.task.toe_diameter),
                        cov = j * b.joint.covariance().topLeftCorner<4, 4>() * j.transpose();
  const auto angle = [&](int k) {
    return Estimate<Angle>{Angle::from_si(mean[k]), Angle::from_si(std::sqrt(std::max(0.0, cov(k, k))))};
  };
  const auto length = [&](int k) {
    return Estimate<Length>{Length::from_si(mean[k]), Length::from_si(std::sqrt(std::max(0.0, cov(k, k))))};
  };
  // The steering wheel's angle when rolling straight: ratio x half difference, both unknown.
  const double off = 0.5 * (b.joint.mean()[left_toe] - b.joint.mean()[right_toe]),
               ratio = b.joint.mean()[steering_ratio];
  Eigen::RowVectorXd slope = Eigen::RowVectorXd::Zero(b.joint.mean().size());
  slope[left_toe] = 0.5 * ratio;
  slope[right_toe] = -0.5 * ratio;
  slope[steering_ratio] = off;
  const Estimate<Angle> wheel{
      Angle::from_si(ratio * off),
      Angle::from_si(std::sqrt(std::max(0.0, slope.dot(b.joint.covariance() * slope.transpose()))))};
  return {angle(0), angle(1), length(2), length(3), wheel};
}

Estimate<Angle> Belief::own_toe(Side side) const {
  const int i = side == Side::left ? left_toe : right_toe;
  return {Angle::from_si(inside_->joint.mean()[i]),
          Angle::from_si(std::sqrt(std::max(0.0, inside_->joint.covariance()(i, i))))};
}

namespace {

Estimate<double> shown(const Belief::Inside& b, const Observation& o) {
  Eigen::RowVectorXd slope;
  const double value = predict(o, b.joint.mean(), slope);
  return {value, std::sqrt(std::max(0.0, slope.dot(b.joint.covariance() * slope.transpose())))};
}

}  // namespace

Estimate<Angle> Belief::camber_shown(Side side) const {
  Observation o;
  o.item = side == Side::left ? ReadingItem::left_camber : ReadingItem::right_camber;
  o.while_turning = inside_->turning;
  const Estimate<double> e = shown(*inside_, o);
  return {Angle::from_si(e.value), Angle::from_si(e.u)};
}

Estimate<Length> Belief::total_toe_shown() const {
  Observation o;
  o.item = ReadingItem::total_toe;
  o.diameter = inside_->task.toe_diameter.si();
  o.while_turning = inside_->turning;
  const Estimate<double> e = shown(*inside_, o);
  return {Length::from_si(e.value), Length::from_si(e.u)};
}

Effect Belief::effect(std::size_t j) const {
  const Inside& b = *inside_;
  return {Angle::from_si(b.joint.mean()[b.effect(j, 0)]), Angle::from_si(b.joint.mean()[b.effect(j, 1)])};
}

EffectSpread Belief::effect_spread(std::size_t j) const {
  const Inside& b = *inside_;
  const int c = b.effect(j, 0), t = b.effect(j, 1);
  const double uc = std::sqrt(std::max(0.0, b.joint.covariance()(c, c))),
               ut = std::sqrt(std::max(0.0, b.joint.covariance()(t, t)));
  return {Angle::from_si(uc), Angle::from_si(ut), uc > 0.0 && ut > 0.0 ? b.joint.covariance()(c, t) / (uc * ut) : 0.0};
}

bool Belief::turning() const { return inside_->turning; }
Angle Belief::turned(std::size_t j) const { return inside_->turned[j]; }
const std::vector<ReadingFlag>& Belief::flags() const { return inside_->flags; }

double Belief::probability_in_tolerance() const {
  const Aims aims = aims_of(*inside_);
  return chance_of_all(aims, inside_->joint.covariance().topLeftCorner<4, 4>());
}

}  // namespace trammel::setup
