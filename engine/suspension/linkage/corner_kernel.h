// The closed form of CornerLinkage: fitted points to a mechanism, an arm angle to a pose, a pose to velocities.
// Include corner_linkage.h.
#pragma once

#include <cmath>

#include "suspension/linkage/corner_linkage.h"

namespace trammel::suspension {

template <class T>
struct CornerLinkage<T>::Setup {
  Circle<T> lower, upper;
  Vector3<T> rack_end, top;
  T tie_rod{};
};

template <class T>
struct CornerLinkage<T>::Station {
  T half_tan{}, cos_q{}, sin_q{};
  Vector3<T> lower, upper, end;   // joints and knuckle end
  Vector3<T> radial, side, axis;  // of the lower arm; the steering axis
  Vector3<T> e, f;                // with `axis` the knuckle's frame
  Vector3<T> swing;               // the way the guide lets the upper joint go
  Vector3<T> hub;
  T end_radius{}, length{};
  T upper_reach{-1.0}, tie_reach{-1.0};
  Twist<T> per_arm;  // per radian of q
  bool meets = false;

  Vector3<T> on_arm(const Arm<T>& arm, const Vector3<T>& local) const {
    return local.x * arm.axis + local.y * radial + local.z * side;
  }
};

template <class T>
AngleOf<T> CornerPose<T>::arm_angle() const {
  using std::atan;
  return AngleOf<T>::from_si(T(2) * atan(half_tan));
}

template <class T>
CornerLinkage<T>::CornerLinkage(const CornerPoints<T>& fitted) : fitted_(fitted) {
  using std::cos, std::sin;
  const auto& lower = fitted.lower_arm;
  const auto& upper = fitted.upper_arm;
  const Vector3<T> outer = fitted.steered ? lower.ball_joint : fitted.hub_centre;
  lower_ = Arm<T>(lower.front_bush, lower.rear_bush, outer);
  lower_circle_ = lower_.circle(T(0));
  hub_fit_ = fitted.hub_centre - outer;
  const T cc = cos(fitted.camber);
  spin_fit_ = {sin(fitted.toe) * cc, cos(fitted.toe) * cc, -sin(fitted.camber)};
  hub_arm_ = lower_.local(fitted.hub_centre);
  spin_arm_ = lower_.local(lower.front_bush + spin_fit_);
  bool sound = true;

  // The guide, its branch as fitted, and the knuckle about its steering axis.
  if (fitted.steered) {
    end_fit_ = fitted.knuckle_end - outer;
    tie_rod_length_ = norm(fitted.knuckle_end - fitted.rack_end);
    Vector3<T> top = upper.ball_joint;
    if (fitted.guide == Guide::upper_arm) {
      upper_ = Arm<T>(upper.front_bush, upper.rear_bush, upper.ball_joint);
      upper_circle_ = upper_.circle(T(0));
      const T way = dot(cross(upper_circle_.axis, outer - upper_circle_.centre), top - upper_circle_.centre);
      upper_branch_ = above(way, 0) ? 1.0 : -1.0;
      sound = above(T(upper_branch_) * way, 0);
    } else if (fitted.guide == Guide::strut) {
      top = fitted.strut_top;
      slide_ = unit(fitted.strut_top - fitted.strut_lower);
      slide_foot_ = (fitted.strut_top - outer) - dot(fitted.strut_top - outer, slide_) * slide_;
      slide_off2_ = dot(slide_foot_, slide_foot_);
    } else {
      kingpin_ = lower_.local(top);
    }
    const T length = norm(top - outer);
    frame_ = frame((top - outer) / length, length);
    const Vector3<T> foot = outer + frame_.end_along * frame_.u;
    const T way = dot(cross(frame_.u, fitted.rack_end - foot), frame_.e);
    tie_branch_ = above(way, 0) ? 1.0 : -1.0;
    sound = sound && above(T(tie_branch_) * way, 0);
  }
  if (fitted.spring) spring_local_ = mount_local(*fitted.spring);
  if (fitted.damper) damper_local_ = mount_local(*fitted.damper);

  // How the hub's height leaves the fitted pose: starts Newton, and fixes which way is up.
  const Station at = station(setup(T(0), {}, {}), T(0));
  rate_at_fit_ = at.per_arm.shift.z;
  rise_sign_ = above(rate_at_fit_, 0) ? 1.0 : -1.0;
  const Vector3<T> all = frame_.hub + frame_.spin + hub_arm_ + spring_local_ + damper_local_;
  usable_ = sound && std::isfinite(value_of(all.x + all.y + all.z)) && at.meets &&
            above(T(rise_sign_) * rate_at_fit_, 1e-6) && above(at.upper_reach, 1e-10) && above(at.tie_reach, 1e-10);
  if (!usable_) return;
  const double h = 1e-3;  // the curvature is only a first guess's, so a difference will do
  const Station near = station(setup(T(0), {}, {}), T(h));
  if (near.meets) curve_at_fit_ = (near.per_arm.shift.z - rate_at_fit_) / T(2 * h);
}

template <class T>
typename CornerLinkage<T>::Frame CornerLinkage<T>::frame(const Vector3<T>& axis, const T& length) const {
  Frame k;
  k.u = axis;
  k.length = length;
  k.end_along = dot(end_fit_, axis);
  const Vector3<T> off = end_fit_ - k.end_along * axis;
  k.end_radius = norm(off);
  k.e = off / k.end_radius;
  k.f = cross(axis, k.e);
  k.hub = {dot(hub_fit_, axis), dot(hub_fit_, k.e), dot(hub_fit_, k.f)};
  k.spin = {dot(spin_fit_, axis), dot(spin_fit_, k.e), dot(spin_fit_, k.f)};
  return k;
}

// As the top mount stands along the damper's line, so does the steering axis stand in the knuckle.
template <class T>
typename CornerLinkage<T>::Frame CornerLinkage<T>::strut_frame(const Vector3<T>& slid) const {
  const T length = norm(slid);
  return frame(slid / length, length);
}

template <class T>
Vector3<T> CornerLinkage<T>::mount_local(const SpringPoints<T>& given) const {
  if (given.on == MountedOn::lower_arm) return lower_.local(given.foot);
  if (given.on == MountedOn::upper_arm) return upper_.local(given.foot);
  if (!fitted_.steered) return lower_.local(given.foot);
  return given.foot - fitted_.lower_arm.ball_joint;
}

template <class T>
typename CornerLinkage<T>::Setup CornerLinkage<T>::setup(const T& rack, const Vector3<T>& drift,
                                                         const LengthChanges<T>& change) const {
  Setup s{lower_circle_, upper_circle_, fitted_.rack_end + drift, fitted_.strut_top,
          tie_rod_length_ + change.tie_rod.si()};
  if (fitted_.guide != Guide::the_arm && !exactly_zero(change.lower_arm.si()))
    s.lower = lower_.circle(change.lower_arm.si());
  if (fitted_.guide == Guide::upper_arm && !exactly_zero(change.upper_arm.si()))
    s.upper = upper_.circle(change.upper_arm.si());
  s.rack_end.y += rack;
  s.top.y += change.strut_top.si();
  return s;
}

template <class T>
bool CornerLinkage<T>::too_short(const Setup& s) const {
  return !above(s.lower.radius, 0) || (fitted_.guide == Guide::upper_arm && !above(s.upper.radius, 0)) ||
         (fitted_.steered && !above(s.tie_rod, 0));
}

template <class T>
typename CornerLinkage<T>::Station CornerLinkage<T>::station(const Setup& s, const T& half_tan) const {
  using std::sqrt;
  Station at;
  // Lower joint: on its circle, q given by tan(q/2) so that no sine is called.
  const T t2 = half_tan * half_tan, d = T(1) / (T(1) + t2);
  at.half_tan = half_tan;
  at.cos_q = (T(1) - t2) * d;
  at.sin_q = T(2) * half_tan * d;
  const Vector3<T> fitted_side = lower_.side();
  at.radial = at.cos_q * lower_.out + at.sin_q * fitted_side;
  at.side = at.cos_q * fitted_side - at.sin_q * lower_.out;
  at.lower = s.lower.centre + s.lower.radius * at.radial;
  const Vector3<T> lower_velocity = s.lower.radius * at.side;

  // A wheel fast to its arm turns with it.
  if (!fitted_.steered) {
    at.hub = at.lower;
    at.per_arm = {lower_.axis, lower_velocity};
    at.upper_reach = at.tie_reach = T(1);
    at.meets = true;
    return at;
  }

  // Upper joint, and the way its guide lets it go.
  Frame own;
  const Frame* k = &frame_;
  Vector3<T> upper_velocity{T(0), T(0), T(0)};  // of its own, at rest in the guide
  if (fitted_.guide == Guide::upper_arm) {
    const Meeting<T> up = meet(s.upper, at.lower, frame_.length, upper_branch_);
    at.upper_reach = up.reach;
    if (!above(up.reach, 0)) return at;
    at.upper = up.point;
    at.swing = cross(s.upper.axis, at.upper - s.upper.centre);
  } else if (fitted_.guide == Guide::strut) {
    at.upper = s.top;
    const Vector3<T> span = s.top - at.lower;
    const T length2 = dot(span, span), slid2 = length2 - slide_off2_;
    at.upper_reach = slid2 / length2;
    if (!above(at.upper_reach, 0)) return at;
    own = strut_frame(slide_foot_ + sqrt(slid2) * slide_);
    k = &own;
  } else {
    const Vector3<T> arm = at.on_arm(lower_, kingpin_);
    at.upper = lower_.front_bush + arm;
    at.upper_reach = T(1);
    upper_velocity = cross(lower_.axis, arm);
  }
  at.axis = (at.upper - at.lower) / k->length;

  // Knuckle end, and with it the knuckle's frame.
  const Vector3<T> foot = at.lower + k->end_along * at.axis;
  const Meeting<T> tie = meet(Circle<T>{foot, at.axis, k->end_radius}, s.rack_end, s.tie_rod, tie_branch_);
  at.tie_reach = tie.reach;
  if (!above(tie.reach, 0)) return at;
  at.end = tie.point;
  at.e = (at.end - foot) / k->end_radius;
  at.f = cross(at.axis, at.e);
  at.length = k->length;
  at.end_radius = k->end_radius;
  at.hub = at.lower + k->hub.x * at.axis + k->hub.y * at.e + k->hub.z * at.f;
  if (fitted_.guide == Guide::strut)
    at.swing = dot(slide_, k->u) * at.axis + dot(slide_, k->e) * at.e + dot(slide_, k->f) * at.f;
  at.meets = true;

  // Its motion as the lower arm turns.
  at.per_arm = twist(s, at, lower_velocity, upper_velocity, T(0), T(0));
  return at;
}

// The knuckle's velocity from that of the lower joint, the upper one's own part (at rest in its guide), the tie
// rod's inner end along y and the tie rod's lengthening. Of a strut the upper point is that of the knuckle which
// passes the top mount.
template <class T>
Twist<T> CornerLinkage<T>::twist(const Setup& s, const Station& at, const Vector3<T>& lower_velocity,
                                 const Vector3<T>& upper_own, const T& rack_rate, const T& tie_rod_rate) const {
  if (!fitted_.steered) return {{T(0), T(0), T(0)}, {T(0), T(0), T(0)}};  // nothing but the arm moves it
  // The guide lets the upper joint go so that no part is stretched.
  Vector3<T> upper_velocity = upper_own;
  if (fitted_.guide != Guide::the_arm)
    upper_velocity += (dot(at.axis, lower_velocity - upper_own) / dot(at.axis, at.swing)) * at.swing;
  const Vector3<T> across = (upper_velocity - lower_velocity) / at.length;
  const Vector3<T> tilt = cross(at.axis, across);
  // The knuckle turns about the steering axis so that the tie rod keeps its length.
  const Vector3<T> rod = at.end - s.rack_end, arm = at.end - at.lower;
  const Vector3<T> end_velocity = lower_velocity + cross(tilt, arm);
  const T spin =
      (s.tie_rod * tie_rod_rate + rod.y * rack_rate - dot(rod, end_velocity)) / (at.end_radius * dot(rod, at.f));
  const Vector3<T> omega = tilt + spin * at.axis;
  return {omega, lower_velocity + cross(omega, at.hub - at.lower)};
}

// A spring or damper: where its foot is, how long it is and how it is pressed per radian of the lower arm.
template <class T>
void CornerLinkage<T>::measure(const SpringPoints<T>& given, const Vector3<T>& local, const Setup& s, const Station& at,
                               Vector3<T>& foot, T& length, T& per_arm) const {
  Vector3<T> velocity;  // of the foot, per radian of q
  if (given.on == MountedOn::lower_arm || !fitted_.steered) {
    const Vector3<T> arm = at.on_arm(lower_, local);
    foot = lower_.front_bush + arm;
    velocity = cross(lower_.axis, arm);
  } else if (given.on == MountedOn::upper_arm) {
    const Vector3<T> radial = (at.upper - s.upper.centre) / s.upper.radius;
    const Vector3<T> arm = local.x * upper_.axis + local.y * radial + local.z * cross(upper_.axis, radial);
    foot = upper_.front_bush + arm;
    const Vector3<T> upper_velocity = at.per_arm.shift + cross(at.per_arm.turn, at.upper - at.hub);
    const T turn = dot(upper_velocity, at.swing) / dot(at.swing, at.swing);
    velocity = turn * cross(upper_.axis, arm);
  } else {
    const Frame k =
        fitted_.guide == Guide::strut ? strut_frame(slide_foot_ + dot(s.top - at.lower, at.swing) * slide_) : frame_;
    foot = at.lower + dot(local, k.u) * at.axis + dot(local, k.e) * at.e + dot(local, k.f) * at.f;
    velocity = at.per_arm.shift + cross(at.per_arm.turn, foot - at.hub);
  }
  const Vector3<T> span = given.chassis - foot;
  length = norm(span);
  if (above(length, 0)) per_arm = dot(span, velocity) / length;
}

template <class T>
CornerPose<T> CornerLinkage<T>::finish(const Setup& s, const Station& at, const T& rack, const Vector3<T>& drift,
                                       const LengthChanges<T>& change) const {
  CornerPose<T> p;
  p.steered = fitted_.steered;
  p.hub_centre = at.hub;
  if (fitted_.steered) {
    p.lower_ball_joint = at.lower;
    p.upper_ball_joint = at.upper;
    p.knuckle_end = at.end;
    p.rack_end = s.rack_end;
    p.steering_axis = at.axis;
    Vector3<T> spin = frame_.spin;
    if (fitted_.guide == Guide::strut) spin = strut_frame(slide_foot_ + dot(s.top - at.lower, at.swing) * slide_).spin;
    p.spin_axis = spin.x * at.axis + spin.y * at.e + spin.z * at.f;
  } else {
    p.lower_ball_joint = at.hub;
    p.steering_axis = {T(0), T(0), T(1)};
    p.spin_axis = at.on_arm(lower_, spin_arm_);
  }
  const T per_rise = T(1) / at.per_arm.shift.z;
  p.per_rise = {per_rise * at.per_arm.turn, per_rise * at.per_arm.shift};
  if (fitted_.spring) {
    measure(*fitted_.spring, spring_local_, s, at, p.spring_foot, p.spring_length, p.spring_per_rise);
    p.spring_per_rise *= per_rise;
  }
  if (fitted_.damper) {
    measure(*fitted_.damper, damper_local_, s, at, p.damper_foot, p.damper_length, p.damper_per_rise);
    p.damper_per_rise *= per_rise;
  }
  p.half_tan = at.half_tan;
  p.rack = rack;
  p.drift = drift;
  p.change = change;
  return p;
}

template <class T>
CornerPose<T> CornerLinkage<T>::failed(const PoseOutcome& outcome) const {
  CornerPose<T> p;
  p.outcome = outcome;
  return p;
}

template <class T>
CornerTwists<T> CornerLinkage<T>::twists(const CornerPose<T>& pose, Held held) const {
  CornerTwists<T> w;
  if (!fitted_.steered) return w;
  const Setup s = setup(pose.rack, pose.drift, pose.change);
  const Station at = station(s, pose.half_tan);
  const Vector3<T> none{T(0), T(0), T(0)};
  w.rack = twist(s, at, none, none, T(1), T(0));
  w.tie_rod = twist(s, at, none, none, T(0), T(1));
  if (fitted_.guide == Guide::upper_arm) {
    const Vector3<T> upper_radial = (at.upper - s.upper.centre) / s.upper.radius;
    w.upper_arm = twist(s, at, none, upper_.lengthening(s.upper, pose.change.upper_arm.si(), upper_radial), T(0), T(0));
  }
  if (fitted_.guide == Guide::strut) w.strut_top = twist(s, at, none, {T(0), T(1), T(0)}, T(0), T(0));
  if (fitted_.guide != Guide::the_arm)
    w.lower_arm = twist(s, at, lower_.lengthening(s.lower, pose.change.lower_arm.si(), at.radial), none, T(0), T(0));
  if (held == Held::arm) return w;
  // The wheel centre's height is kept: the arm turns back by what the change alone would raise it.
  for (Twist<T>* x : {&w.rack, &w.upper_arm, &w.lower_arm, &w.tie_rod, &w.strut_top}) {
    const T back = x->shift.z;
    x->turn -= back * pose.per_rise.turn;
    x->shift -= back * pose.per_rise.shift;
  }
  return w;
}

}  // namespace trammel::suspension
