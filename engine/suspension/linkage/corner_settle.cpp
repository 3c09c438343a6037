#include "suspension/linkage/corner_settle.h"

#include <cassert>
#include <cmath>

#include "suspension/linkage/corner_linkage.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

// A knuckle, told not by the steering axis, which moves in a strut's.
RigidMove::Placing placing(const CornerPose<double>& p) {
  return {p.hub_centre, p.spin_axis, p.knuckle_end - p.lower_ball_joint};
}

// About its bush line, so that the joint goes from one place to the other.
RigidMove arm_move(const ArmPoints<double>& arm, const V& joint) {
  const V axis = unit(arm.front_bush - arm.rear_bush);
  const auto off = [&](const V& p) { return p - arm.front_bush - dot(p - arm.front_bush, axis) * axis; };
  const V a = off(arm.ball_joint), b = off(joint);
  return RigidMove::about(arm.front_bush, axis, Angle::from_si(std::atan2(dot(axis, cross(a, b)), dot(a, b))));
}

// The rise at which the spring is as long as asked for.
PoseOutcome solve(const CornerLinkage<double>& corner, double wanted, double first, CornerPose<double>& pose) {
  const bool down = wanted > first;
  // A metre of travel holds every light cart; beyond the reach the pose says so.
  double near = 0, near_miss = first - wanted, far = down ? -0.05 : 0.05;
  for (;; far *= 2) {
    pose = corner.pose(Length::from_si(far));
    if (!pose.outcome.ok()) {
      const PoseOutcome end = pose.outcome;
      if (!end.rise_limit) return end;
      far = 0.999 * end.rise_limit->si();
      pose = corner.pose(Length::from_si(far));
      if (!pose.outcome.ok() || (pose.spring_length < wanted) == down) return end;
      break;
    }
    if ((pose.spring_length < wanted) != down) break;
    if (std::abs(far) > 1) return {PoseStatus::lower_arm_cannot_reach, {}, {}};
  }
  double far_miss = pose.spring_length - wanted;
  int kept = 0;
  for (int i = 0; i < 100 && std::abs(far - near) > 1e-13; ++i) {
    const double rise = i % 3 == 2 ? 0.5 * (near + far) : (near * far_miss - far * near_miss) / (far_miss - near_miss);
    pose = corner.pose(Length::from_si(rise));
    if (!pose.outcome.ok()) return pose.outcome;
    const double miss = pose.spring_length - wanted;
    if (std::abs(miss) < 1e-14) break;
    const bool nearer = (miss > 0) == (near_miss > 0);
    (nearer ? near : far) = rise;
    (nearer ? near_miss : far_miss) = miss;
    if (kept == (nearer ? 1 : 2)) (nearer ? far_miss : near_miss) *= 0.5;
    kept = nearer ? 1 : 2;
  }
  return pose.outcome;
}

}  // namespace

SettledCorner settled(const CornerPoints<double>& fitted, Length longer) {
  assert(fitted.spring);
  SettledCorner s;
  s.points = fitted;
  if (longer.si() == 0) return s;
  const CornerLinkage<double> corner(fitted);
  const CornerPose<double> was = corner.pose({});
  s.outcome = was.outcome;
  if (!s.outcome.ok()) return s;
  CornerPose<double> now;
  s.outcome = solve(corner, was.spring_length + longer.si(), was.spring_length, now);
  if (!s.outcome.ok()) return s;

  // Every part that moved, and the points it carries.
  const bool alone = fitted.guide == Guide::the_arm;
  s.down = Length::from_si(was.hub_centre.z - now.hub_centre.z);
  s.lower_arm = RigidMove::about(fitted.lower_arm.front_bush,
                                 unit(fitted.lower_arm.front_bush - fitted.lower_arm.rear_bush), now.arm_angle());
  if (fitted.guide == Guide::upper_arm) s.upper_arm = arm_move(fitted.upper_arm, now.upper_ball_joint);
  s.knuckle = fitted.steered ? RigidMove::between(placing(was), placing(now)) : s.lower_arm;
  CornerPoints<double>& p = s.points;
  p.hub_centre = now.hub_centre;
  p.camber = Angle::from_si(std::asin(-now.spin_axis.z));
  p.toe = Angle::from_si(std::atan2(now.spin_axis.x, now.spin_axis.y));
  if (fitted.steered) {
    p.lower_arm.ball_joint = now.lower_ball_joint;
    p.knuckle_end = now.knuckle_end;
    if (fitted.guide != Guide::strut) p.upper_arm.ball_joint = now.upper_ball_joint;
  }
  if (fitted.guide == Guide::strut) p.strut_lower = s.knuckle(fitted.strut_lower);
  for (std::optional<SpringPoints<double>>* part : {&p.spring, &p.damper}) {
    if (!*part) continue;
    const MountedOn on = alone && (*part)->on == MountedOn::upper_arm ? MountedOn::lower_arm : (*part)->on;
    const RigidMove& by = on == MountedOn::lower_arm   ? s.lower_arm
                          : on == MountedOn::upper_arm ? s.upper_arm
                                                       : s.knuckle;
    (*part)->foot = by((*part)->foot);
  }
  return s;
}

SettledCorner mirrored(SettledCorner s) {
  s.points = mirrored(s.points);
  for (RigidMove* m : {&s.lower_arm, &s.upper_arm, &s.knuckle}) *m = mirrored(*m);
  return s;
}

}  // namespace trammel::suspension
