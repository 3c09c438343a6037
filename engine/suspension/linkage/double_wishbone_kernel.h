// The closed form of DoubleWishbone: fitted points to a mechanism, an arm angle to a pose, a pose to velocities.
// Include double_wishbone.h.
#pragma once

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

template <class T>
WishbonePose<T> DoubleWishbone<T>::failed(PoseStatus status) const {
  WishbonePose<T> p;
  p.outcome.status = status;
  return p;
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
