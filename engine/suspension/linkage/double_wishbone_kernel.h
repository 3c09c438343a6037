// The body of DoubleWishbone; include double_wishbone.h.
#pragma once

#include <algorithm>
#include <cmath>

#include "suspension/linkage/double_wishbone.h"

namespace trammel::suspension {

template <class T>
struct DoubleWishbone<T>::Setup {
  Circle<T> lower, upper;
  Vector3<T> rack_end;
  T tie_rod{};
};

template <class T>
struct DoubleWishbone<T>::Station {
  T half_tan{}, cos_q{}, sin_q{};
  Vector3<T> lower, upper, end;  // ball joints and knuckle end
  Vector3<T> radial, axis;       // of the lower arm; the steering axis
  Vector3<T> e, f;               // with `axis` the knuckle's frame
  Vector3<T> hub;
  T upper_reach{-1.0}, tie_reach{-1.0};
  Twist<T> per_arm;  // per radian of q
  bool meets = false;
};

template <class T>
AngleOf<T> WishbonePose<T>::arm_angle() const {
  using std::atan;
  return AngleOf<T>::from_si(T(2) * atan(half_tan));
}

template <class T>
DoubleWishbone<T>::DoubleWishbone(const WishbonePoints<T>& fitted) : fitted_(fitted) {
  using std::cos, std::sin;
  const auto& lower = fitted.lower_arm;
  const auto& upper = fitted.upper_arm;
  lower_ = Arm<T>(lower.front_bush, lower.rear_bush, lower.ball_joint);
  upper_ = Arm<T>(upper.front_bush, upper.rear_bush, upper.ball_joint);
  lower_circle_ = lower_.circle(T(0));
  upper_circle_ = upper_.circle(T(0));
  knuckle_length_ = norm(upper.ball_joint - lower.ball_joint);
  tie_rod_length_ = norm(fitted.knuckle_end - fitted.rack_end);

  // The knuckle's own frame: along the steering axis, towards the knuckle end, and square to both.
  const Vector3<T> axis = (upper.ball_joint - lower.ball_joint) / knuckle_length_;
  const Vector3<T> arm = fitted.knuckle_end - lower.ball_joint;
  end_along_ = dot(arm, axis);
  const Vector3<T> off = arm - end_along_ * axis;
  end_radius_ = norm(off);
  const Vector3<T> e = off / end_radius_, f = cross(axis, e);
  const Vector3<T> hub = fitted.hub_centre - lower.ball_joint;
  hub_local_ = {dot(hub, axis), dot(hub, e), dot(hub, f)};
  const T cc = cos(fitted.camber);
  const Vector3<T> spin{sin(fitted.toe) * cc, cos(fitted.toe) * cc, -sin(fitted.camber)};
  spin_local_ = {dot(spin, axis), dot(spin, e), dot(spin, f)};

  // The branches as fitted.
  upper_branch_ = value_of(dot(cross(upper_circle_.axis, lower.ball_joint - upper_circle_.centre),
                               upper.ball_joint - upper_circle_.centre)) < 0
                      ? -1.0
                      : 1.0;
  const Vector3<T> foot = lower.ball_joint + end_along_ * axis;
  tie_branch_ = value_of(dot(cross(axis, fitted.rack_end - foot), off)) < 0 ? -1.0 : 1.0;

  if (fitted.spring) {
    const Vector3<T> a = fitted.spring->lower_arm - lower_.front_bush;
    spring_base_ = lower_.front_bush + dot(a, lower_.axis) * lower_.axis;
    spring_out_ = dot(a, lower_.out);
    spring_side_ = dot(a, cross(lower_.axis, lower_.out));
  }

  // How the hub's height leaves the fitted pose: starts Newton, and fixes which way is up.
  const Station at = station(setup(T(0), {}), T(0));
  rate_at_fit_ = at.per_arm.shift.z;
  rise_sign_ = value_of(rate_at_fit_) < 0 ? -1.0 : 1.0;
  const Vector3<T> all = hub_local_ + spin_local_ + spring_base_ + Vector3<T>{spring_out_, spring_side_, T(0)};
  usable_ = std::isfinite(value_of(all.x + all.y + all.z)) && at.meets && std::abs(value_of(rate_at_fit_)) > 1e-6 &&
            value_of(at.upper_reach) > 1e-10 && value_of(at.tie_reach) > 1e-10;
  if (!usable_) return;
  const double h = 1e-3;  // the curvature is only a first guess's, so a difference will do
  const Station near = station(setup(T(0), {}), T(h));
  if (near.meets) curve_at_fit_ = (near.per_arm.shift.z - rate_at_fit_) / T(2 * h);
}

template <class T>
typename DoubleWishbone<T>::Setup DoubleWishbone<T>::setup(const T& rack, const LengthChanges<T>& change) const {
  Setup s{lower_circle_, upper_circle_, fitted_.rack_end, tie_rod_length_ + change.tie_rod.si()};
  if (!exactly_zero(change.lower_arm.si())) s.lower = lower_.circle(change.lower_arm.si());
  if (!exactly_zero(change.upper_arm.si())) s.upper = upper_.circle(change.upper_arm.si());
  s.rack_end.y += rack;
  return s;
}

template <class T>
typename DoubleWishbone<T>::Station DoubleWishbone<T>::station(const Setup& s, const T& half_tan) const {
  Station at;
  // Lower ball joint: on its circle, q given by tan(q/2) so that no sine is called.
  const T t2 = half_tan * half_tan, d = T(1) / (T(1) + t2);
  at.half_tan = half_tan;
  at.cos_q = (T(1) - t2) * d;
  at.sin_q = T(2) * half_tan * d;
  const Vector3<T> side = cross(lower_.axis, lower_.out);
  at.radial = at.cos_q * lower_.out + at.sin_q * side;
  at.lower = s.lower.centre + s.lower.radius * at.radial;

  // Upper ball joint.
  const Meeting<T> up = meet(s.upper, at.lower, knuckle_length_, upper_branch_);
  at.upper_reach = up.reach;
  if (!(value_of(up.reach) > 0)) return at;
  at.upper = up.point;
  at.axis = (at.upper - at.lower) / knuckle_length_;

  // Knuckle end, and with it the knuckle's frame.
  const Vector3<T> foot = at.lower + end_along_ * at.axis;
  const Meeting<T> tie = meet(Circle<T>{foot, at.axis, end_radius_}, s.rack_end, s.tie_rod, tie_branch_);
  at.tie_reach = tie.reach;
  if (!(value_of(tie.reach) > 0)) return at;
  at.end = tie.point;
  at.e = (at.end - foot) / end_radius_;
  at.f = cross(at.axis, at.e);
  at.hub = at.lower + hub_local_.x * at.axis + hub_local_.y * at.e + hub_local_.z * at.f;
  at.meets = true;

  // Its motion as the lower arm turns.
  at.per_arm = twist(s, at, s.lower.radius * cross(lower_.axis, at.radial), {T(0), T(0), T(0)}, T(0), T(0));
  return at;
}

// The knuckle's velocity from that of the lower ball joint, the upper one's own part (at a fixed angle of its
// arm), the rack end's along y and the tie rod's lengthening.
template <class T>
Twist<T> DoubleWishbone<T>::twist(const Setup& s, const Station& at, const Vector3<T>& lower_velocity,
                                  const Vector3<T>& upper_own, const T& rack_rate, const T& tie_rod_rate) const {
  // The upper arm turns so that the ball joints keep their distance.
  const Vector3<T> swing = cross(s.upper.axis, at.upper - s.upper.centre);
  const T turn = dot(at.axis, lower_velocity - upper_own) / dot(at.axis, swing);
  const Vector3<T> across = (upper_own + turn * swing - lower_velocity) / knuckle_length_;
  const Vector3<T> tilt = cross(at.axis, across);
  // The knuckle turns about the steering axis so that the tie rod keeps its length.
  const Vector3<T> rod = at.end - s.rack_end, arm = at.end - at.lower;
  const Vector3<T> end_velocity = lower_velocity + cross(tilt, arm);
  const T spin =
      (s.tie_rod * tie_rod_rate + rod.y * rack_rate - dot(rod, end_velocity)) / (end_radius_ * dot(rod, at.f));
  const Vector3<T> omega = tilt + spin * at.axis;
  return {omega, lower_velocity + cross(omega, at.hub - at.lower)};
}

template <class T>
WishbonePose<T> DoubleWishbone<T>::finish(const Setup& s, const Station& at, const T& rack,
                                          const LengthChanges<T>& change) const {
  WishbonePose<T> p;
  p.lower_ball_joint = at.lower;
  p.upper_ball_joint = at.upper;
  p.knuckle_end = at.end;
  p.rack_end = s.rack_end;
  p.hub_centre = at.hub;
  p.steering_axis = at.axis;
  p.spin_axis = spin_local_.x * at.axis + spin_local_.y * at.e + spin_local_.z * at.f;
  const T per_rise = T(1) / at.per_arm.shift.z;
  p.per_rise = {per_rise * at.per_arm.turn, per_rise * at.per_arm.shift};
  if (fitted_.spring) {
    const Vector3<T> side = cross(lower_.axis, lower_.out);
    const Vector3<T> offset = (spring_out_ * at.cos_q - spring_side_ * at.sin_q) * lower_.out +
                              (spring_out_ * at.sin_q + spring_side_ * at.cos_q) * side;
    p.spring_foot = spring_base_ + offset;
    const Vector3<T> spring = fitted_.spring->chassis - p.spring_foot;
    const T length = norm(spring);
    if (value_of(length) > 0) p.spring_per_rise = per_rise * dot(spring, cross(lower_.axis, offset)) / length;
  }
  p.half_tan = at.half_tan;
  p.rack = rack;
  p.change = change;
  return p;
}

// A rack shift and changes small enough that they bring no gap between them and the fitted pose.
template <class T>
bool DoubleWishbone<T>::near_fit(const T& rack, const LengthChanges<T>& change) const {
  constexpr double small = 0.03;  // m
  return std::abs(value_of(rack)) < 0.25 * value_of(tie_rod_length_) &&
         std::abs(value_of(change.upper_arm.si())) < small && std::abs(value_of(change.lower_arm.si())) < small &&
         std::abs(value_of(change.tie_rod.si())) < small;
}

template <class T>
WishbonePose<T> DoubleWishbone<T>::failed(PoseStatus status) const {
  WishbonePose<T> p;
  p.outcome.status = status;
  return p;
}

template <class T>
WishbonePose<T> DoubleWishbone<T>::pose(LengthOf<T> rise, LengthOf<T> rack, const LengthChanges<T>& change) const {
  if (!usable_) return failed(PoseStatus::bad_geometry);
  const Setup s = setup(rack.si(), change);
  if (!(value_of(s.lower.radius) > 0) || !(value_of(s.upper.radius) > 0) || !(value_of(s.tie_rod) > 0))
    return failed(PoseStatus::length_too_short);
  const T target = fitted_.hub_centre.z + rise.si();

  // Newton from the fitted angle with the exact derivative: enough wherever no reach is nearly used up.
  constexpr double comfortable = 0.02, furthest = 0.35, exact = 4e-15;
  const T step = rise.si() / rate_at_fit_;
  const T bend = T(0.5) * curve_at_fit_ * step / rate_at_fit_;
  T t = T(0.5) * step * (T(1) - bend);
  bool fast = std::abs(value_of(t)) < furthest && near_fit(rack.si(), change);
  int settled = 0;
  for (int i = 0; fast && i < 12; ++i) {
    const Station at = station(s, t);
    if (!at.meets || !(value_of(at.upper_reach) > comfortable) || !(value_of(at.tie_reach) > comfortable) ||
        !(rise_sign_ * value_of(at.per_arm.shift.z) > 0.1 * rise_sign_ * value_of(rate_at_fit_)))
      break;
    const T miss = at.hub.z - target;
    // A scalar that carries slopes takes one step more: they settle a step after the value.
    if (std::abs(value_of(miss)) < exact && (!carries_slopes<T> || settled++ > 0))
      return finish(s, at, rack.si(), change);
    t -= T(0.5) * miss * (T(1) + t * t) / at.per_arm.shift.z;
    fast = std::abs(value_of(t)) < furthest;
  }

  // Near the end of the branch, or beyond it: follow the mechanism there.
  PoseOutcome outcome = fitted_angle_outcome(rack.si(), change);
  if (!outcome.ok()) {
    WishbonePose<T> p;
    p.outcome = outcome;
    return p;
  }
  const Station start = station(s, T(0));
  outcome = follow(s, value_of(target), value_of(target) >= value_of(start.hub.z), t);
  if (!outcome.ok()) {
    WishbonePose<T> p;
    p.outcome = outcome;
    return p;
  }
  Station at = station(s, t);
  if constexpr (carries_slopes<T>) {
    for (int i = 0; i < 2; ++i) {
      t -= T(0.5) * (at.hub.z - target) * (T(1) + t * t) / at.per_arm.shift.z;
      at = station(s, t);
      if (!at.meets) return failed(PoseStatus::not_converged);
    }
  }
  return finish(s, at, rack.si(), change);
}

template <class T>
WishbonePose<T> DoubleWishbone<T>::pose_at_arm(AngleOf<T> arm_angle, LengthOf<T> rack,
                                               const LengthChanges<T>& change) const {
  using std::tan;
  if (!usable_) return failed(PoseStatus::bad_geometry);
  const Setup s = setup(rack.si(), change);
  if (!(value_of(s.lower.radius) > 0) || !(value_of(s.upper.radius) > 0) || !(value_of(s.tie_rod) > 0))
    return failed(PoseStatus::length_too_short);
  PoseOutcome outcome = fitted_angle_outcome(rack.si(), change);
  const T t = tan(T(0.5) * arm_angle.si());
  // Every angle between the fitted one and this one must meet too, or this is another branch.
  Station at;
  const double end = value_of(t);
  const int parts = std::clamp(static_cast<int>(std::min(std::abs(end), 2.0) / 0.01), 1, 200);
  for (int i = 1; outcome.ok() && i <= parts; ++i) {
    at = station(s, i == parts ? t : T(end * i / parts));
    if (at.meets) continue;
    outcome.status =
        value_of(at.upper_reach) > 0 ? PoseStatus::tie_rod_cannot_reach : PoseStatus::upper_arm_cannot_reach;
    double good = end * (i - 1) / parts, bad = end * i / parts;
    for (int k = 0; k < 60; ++k) {
      const double mid = 0.5 * (good + bad);
      (station(s, T(mid)).meets ? good : bad) = mid;
    }
    outcome.rise_limit = Length::from_si(value_of(station(s, T(good)).hub.z - fitted_.hub_centre.z));
  }
  if (outcome.ok() && !(rise_sign_ * value_of(at.per_arm.shift.z) > 0)) {
    outcome.status = PoseStatus::lower_arm_cannot_reach;
    outcome.rise_limit = Length::from_si(value_of(at.hub.z - fitted_.hub_centre.z));
  }
  if (!outcome.ok()) {
    WishbonePose<T> p;
    p.outcome = outcome;
    return p;
  }
  return finish(s, at, rack.si(), change);
}

// Whether the mechanism closes with the lower arm as fitted: the start of every continuation. Rack and changes are
// brought in together in small shares, so that no gap is passed; where one is met its edge is found by halving.
template <class T>
PoseOutcome DoubleWishbone<T>::fitted_angle_outcome(const T& rack, const LengthChanges<T>& change) const {
  const auto at_share = [&](double share) {
    const T k(share);
    return station(setup(k * rack, {k * change.upper_arm, k * change.lower_arm, k * change.tie_rod}), T(0));
  };
  const auto closes = [&](const Station& at) { return at.meets && rise_sign_ * value_of(at.per_arm.shift.z) > 0; };
  constexpr double step = 0.005, most = 400;
  const double way = std::max({std::abs(value_of(rack)), std::abs(value_of(change.upper_arm.si())),
                               std::abs(value_of(change.lower_arm.si())), std::abs(value_of(change.tie_rod.si()))});
  const int parts = way < step * most ? 1 + static_cast<int>(way / step) : static_cast<int>(most);
  for (int i = 1; i <= parts; ++i) {
    const Station at = at_share(double(i) / parts);
    if (closes(at)) continue;
    PoseOutcome outcome;
    if (!(value_of(at.upper_reach) > 0))
      outcome.status = PoseStatus::upper_arm_cannot_reach;
    else if (!at.meets)
      outcome.status = PoseStatus::tie_rod_cannot_reach;
    else
      outcome.status = PoseStatus::lower_arm_cannot_reach;
    if (value_of(rack) == 0) return outcome;
    double good = double(i - 1) / parts, bad = double(i) / parts;
    for (int k = 0; k < 60; ++k) {
      const double mid = 0.5 * (good + bad);
      (closes(at_share(mid)) ? good : bad) = mid;
    }
    outcome.rack_limit = Length::from_si(good * value_of(rack));
    return outcome;
  }
  return {};
}

template <class T>
PoseOutcome DoubleWishbone<T>::follow(const Setup& s, double target_z, bool upward, T& half_tan) const {
  const double direction = (upward ? 1.0 : -1.0) * rise_sign_;
  const double origin = value_of(fitted_.hub_centre.z);
  const double full_rate = std::abs(value_of(rate_at_fit_));
  constexpr double longest = 0.01, shortest = 1e-13, furthest = 1.0;  // of tan(q/2)
  double t = 0, step = longest;
  Station at = station(s, T(0));
  const auto rate = [&](const Station& x) { return rise_sign_ * value_of(x.per_arm.shift.z) / full_rate; };
  PoseStatus stopped_by = PoseStatus::lower_arm_cannot_reach;

  for (int i = 0; i < 4000; ++i) {
    // No step may spend more than half of a reach, nor jump one that is nearly closed.
    const double least = std::min(value_of(at.upper_reach), value_of(at.tie_reach));
    step = std::min({step, longest, 0.25 * std::sqrt(std::max(least, 0.0))});
    if (step < shortest || std::abs(t) >= furthest) break;
    const double next_t = t + direction * step;
    const Station next = station(s, T(next_t));
    const bool upper_ok = value_of(next.upper_reach) > 0.5 * value_of(at.upper_reach);
    const bool tie_ok = next.meets && value_of(next.tie_reach) > 0.5 * value_of(at.tie_reach);
    const bool rate_ok = next.meets && rate(next) > 0.5 * std::min(rate(at), 1.0);
    if (!upper_ok || !tie_ok || !rate_ok) {
      stopped_by = !upper_ok ? PoseStatus::upper_arm_cannot_reach
                   : !tie_ok ? PoseStatus::tie_rod_cannot_reach
                             : PoseStatus::lower_arm_cannot_reach;
      step *= 0.5;
      continue;
    }
    const double over = (upward ? 1.0 : -1.0) * (value_of(next.hub.z) - target_z);
    if (over < 0) {
      t = next_t;
      at = next;
      step *= 1.5;
      continue;
    }

    // The target lies within this step: Newton kept inside it by halving.
    double near = t, far = next_t, x = next_t;
    Station here = next;
    for (int k = 0; k < 100; ++k) {
      const double miss = value_of(here.hub.z) - target_z;
      if (std::abs(miss) < 4e-15 || std::abs(far - near) < 1e-17) break;
      ((upward ? miss : -miss) > 0 ? far : near) = x;
      double trial = x - 0.5 * miss * (1 + x * x) / value_of(here.per_arm.shift.z);
      if (!((trial - near) * (trial - far) < 0)) trial = 0.5 * (near + far);
      if (trial == x) break;
      x = trial;
      here = station(s, T(x));
      if (!here.meets) return {PoseStatus::not_converged, Length::from_si(value_of(at.hub.z) - origin), {}};
    }
    if (!(std::abs(value_of(here.hub.z) - target_z) < 1e-12))
      return {PoseStatus::not_converged, Length::from_si(value_of(at.hub.z) - origin), {}};
    half_tan = T(x);
    return {};
  }
  return {stopped_by, Length::from_si(value_of(at.hub.z) - origin), {}};
}

template <class T>
PoseOutcome DoubleWishbone<T>::reach(bool upward, LengthOf<T> rack, const LengthChanges<T>& change) const {
  if (!usable_) return {PoseStatus::bad_geometry, {}, {}};
  const Setup s = setup(rack.si(), change);
  if (!(value_of(s.lower.radius) > 0) || !(value_of(s.upper.radius) > 0) || !(value_of(s.tie_rod) > 0))
    return {PoseStatus::length_too_short, {}, {}};
  const PoseOutcome outcome = fitted_angle_outcome(rack.si(), change);
  if (!outcome.ok()) return outcome;
  T t{};
  return follow(s, upward ? 1e9 : -1e9, upward, t);
}

template <class T>
WishboneTwists<T> DoubleWishbone<T>::twists(const WishbonePose<T>& pose, Held held) const {
  const Setup s = setup(pose.rack, pose.change);
  const Station at = station(s, pose.half_tan);
  const Vector3<T> none{T(0), T(0), T(0)};
  const Vector3<T> upper_radial = (at.upper - s.upper.centre) / s.upper.radius;
  WishboneTwists<T> w;
  w.rack = twist(s, at, none, none, T(1), T(0));
  w.tie_rod = twist(s, at, none, none, T(0), T(1));
  w.upper_arm = twist(s, at, none, upper_.lengthening(s.upper, pose.change.upper_arm.si(), upper_radial), T(0), T(0));
  w.lower_arm = twist(s, at, lower_.lengthening(s.lower, pose.change.lower_arm.si(), at.radial), none, T(0), T(0));
  if (held == Held::arm) return w;
  // The wheel centre's height is kept: the arm turns back by what the change alone would raise it.
  for (Twist<T>* x : {&w.rack, &w.upper_arm, &w.lower_arm, &w.tie_rod}) {
    const T back = x->shift.z;
    x->turn -= back * pose.per_rise.turn;
    x->shift -= back * pose.per_rise.shift;
  }
  return w;
}

}  // namespace trammel::suspension
