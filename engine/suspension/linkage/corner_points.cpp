#include "suspension/linkage/corner_points.h"

#include <array>
#include <cmath>

#include "suspension/linkage/corner_linkage.h"

namespace trammel::suspension {
namespace {

using P = CornerPoint;
using K = PointFaultKind;

constexpr double touching = 1e-6;  // m: points nearer than this are one point

bool finite(const Vector3<double>& a) { return std::isfinite(a.x) && std::isfinite(a.y) && std::isfinite(a.z); }

// Distance of `p` from the line through `a` and `b`.
double off_line(const Vector3<double>& p, const Vector3<double>& a, const Vector3<double>& b) {
  return norm(cross(p - a, unit(b - a)));
}

// The squared sine at which a rod to `p` meets the circle of `end` about the line through `foot` along `axis`.
double meeting(const Vector3<double>& p, const Vector3<double>& end, const Vector3<double>& foot,
               const Vector3<double>& axis) {
  const auto square = [&](const Vector3<double>& a) { return a - dot(a, axis) * axis; };
  const Vector3<double> a = square(end - foot), b = square(p - foot);
  const double area = dot(cross(a, b), axis), size = dot(a, a) * dot(b, b);
  return size > 0 ? area * area / size : 0;
}

}  // namespace

std::string_view key(CornerPoint point) {
  static constexpr std::string_view names[] = {"lower_arm.front_bush", "lower_arm.rear_bush",
                                               "lower_arm.ball_joint", "upper_arm.front_bush",
                                               "upper_arm.rear_bush",  "upper_arm.ball_joint",
                                               "tie_rod.rack_end",     "tie_rod.knuckle_end",
                                               "hub.centre",           "spring.chassis",
                                               "spring.lower_arm",     "spring.upper_arm",
                                               "spring.knuckle",       "damper.chassis",
                                               "damper.lower_arm",     "damper.upper_arm",
                                               "damper.knuckle",       "strut.top",
                                               "strut.lower",          "arm.bush",
                                               "arm.other_bush",       "kingpin.bottom",
                                               "kingpin.top"};
  return names[static_cast<std::size_t>(point)];
}

std::vector<PointFault> check(const CornerPoints<double>& given, bool right_side) {
  const CornerPoints<double> p = right_side ? mirrored(given) : given;
  const auto &lower = p.lower_arm, &upper = p.upper_arm;
  const bool alone = p.guide == Guide::the_arm;
  std::vector<PointFault> faults;
  const auto add = [&](K kind, P point) { faults.push_back({kind, std::string(key(point))}); };

  // Numbers first: nothing else means anything without them.
  each_point(p, [&](P name, const Vector3<double>& at) {
    if (!finite(at)) add(K::not_a_number, name);
  });
  if (!std::isfinite(p.camber.si()) || !std::isfinite(p.toe.si())) add(K::not_a_number, P::hub_centre);
  if (!faults.empty()) return faults;

  // Each arm: a bush line, and a joint off it and outboard of it.
  const auto arm = [&](const Vector3<double>& front, const Vector3<double>& rear, const Vector3<double>& joint, P bush,
                       P end, bool outboard) {
    if (norm(front - rear) < touching)
      add(K::bushes_coincide, bush);
    else if (off_line(joint, front, rear) < touching)
      add(K::ball_joint_on_bush_line, end);
    else if (joint.y <= 0 || (outboard && joint.y <= 0.5 * (front.y + rear.y)))
      add(K::wrong_side, end);
  };
  if (alone)
    arm(lower.front_bush, lower.rear_bush, p.hub_centre, P::arm_bush, P::hub_centre, false);
  else
    arm(lower.front_bush, lower.rear_bush, lower.ball_joint, P::lower_front_bush, P::lower_ball_joint, true);
  if (p.guide == Guide::upper_arm)
    arm(upper.front_bush, upper.rear_bush, upper.ball_joint, P::upper_front_bush, P::upper_ball_joint, true);
  if (p.guide == Guide::strut && norm(p.strut_top - p.strut_lower) < touching) add(K::zero_length_strut, P::strut_top);

  // The steering axis stands upright, and the tie rod turns it.
  const Vector3<double> top = p.guide == Guide::strut ? p.strut_top : upper.ball_joint;
  const P top_name = p.guide == Guide::strut ? P::strut_top : alone ? P::kingpin_top : P::upper_ball_joint;
  if (p.steered) {
    if (norm(top - lower.ball_joint) < touching)
      add(K::ball_joints_coincide, top_name);
    else if (top.z <= lower.ball_joint.z)
      add(K::upper_below_lower, top_name);
    if (norm(p.knuckle_end - p.rack_end) < touching) add(K::zero_length_tie_rod, P::knuckle_end);
    if (p.knuckle_end.y <= 0) add(K::wrong_side, P::knuckle_end);
  }

  // Hub, spring and damper.
  if (!alone && p.hub_centre.y <= 0) add(K::wrong_side, P::hub_centre);
  constexpr double largest = 0.25 * 3.14159265358979;
  if (std::abs(p.camber.si()) > largest || std::abs(p.toe.si()) > largest) add(K::angle_too_large, P::hub_centre);
  if (p.spring && norm(p.spring->chassis - p.spring->foot) < touching) add(K::zero_length_spring, P::spring_chassis);
  if (p.damper && norm(p.damper->chassis - p.damper->foot) < touching) add(K::zero_length_spring, P::damper_chassis);
  if (!faults.empty()) return faults;

  // Only then whether the parts make a mechanism with a branch to keep to.
  constexpr double in_line = 1e-8;  // squared sine
  if (p.steered) {
    const Vector3<double> steering = unit(top - lower.ball_joint);
    if (off_line(p.knuckle_end, lower.ball_joint, top) < touching) {
      add(K::no_steering_arm, P::knuckle_end);
      return faults;
    }
    if (p.guide == Guide::upper_arm) {
      const Vector3<double> bush_line = unit(upper.front_bush - upper.rear_bush);
      if (meeting(lower.ball_joint, upper.ball_joint, upper.front_bush, bush_line) < in_line)
        add(K::arms_in_line, P::upper_ball_joint);
    }
    // A damper that leans further than 45 degrees off the steering axis jams rather than slides.
    if (p.guide == Guide::strut && dot(unit(p.strut_top - p.strut_lower), steering) < 0.7)
      add(K::strut_across, P::strut_lower);
    if (meeting(p.rack_end, p.knuckle_end, lower.ball_joint, steering) < in_line)
      add(K::tie_rod_in_line, P::knuckle_end);
  }
  const Vector3<double> joint = p.steered ? lower.ball_joint : p.hub_centre;
  const P joint_name = !alone ? P::lower_ball_joint : p.steered ? P::kingpin_bottom : P::hub_centre;
  const Vector3<double> rising = cross(unit(lower.front_bush - lower.rear_bush), joint - lower.front_bush);
  if (std::abs(rising.z) < 1e-3 * norm(rising)) add(K::lower_arm_upright, joint_name);
  if (faults.empty() && !CornerLinkage<double>(p).usable()) add(K::lower_arm_upright, joint_name);
  return faults;
}

}  // namespace trammel::suspension
