#include "suspension/linkage/wishbone_points.h"

#include <array>
#include <cmath>

#include "suspension/linkage/double_wishbone.h"

namespace trammel::suspension {
namespace {

using P = WishbonePoint;
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

std::string_view key(WishbonePoint point) {
  switch (point) {
    case P::lower_front_bush:
      return "lower_arm.front_bush";
    case P::lower_rear_bush:
      return "lower_arm.rear_bush";
    case P::lower_ball_joint:
      return "lower_arm.ball_joint";
    case P::upper_front_bush:
      return "upper_arm.front_bush";
    case P::upper_rear_bush:
      return "upper_arm.rear_bush";
    case P::upper_ball_joint:
      return "upper_arm.ball_joint";
    case P::rack_end:
      return "tie_rod.rack_end";
    case P::knuckle_end:
      return "tie_rod.knuckle_end";
    case P::hub_centre:
      return "hub.centre";
    case P::spring_chassis:
      return "spring.chassis";
    case P::spring_lower_arm:
      return "spring.lower_arm";
  }
  return "";
}

std::vector<PointFault> check(const WishbonePoints<double>& given, bool right_side) {
  const WishbonePoints<double> p = right_side ? mirrored(given) : given;
  const auto &lower = p.lower_arm, &upper = p.upper_arm;
  std::vector<PointFault> faults;
  const auto add = [&](K kind, P point) { faults.push_back({kind, std::string(key(point))}); };

  // Numbers first: nothing else means anything without them.
  const std::array<std::pair<P, Vector3<double>>, 9> all{{{P::lower_front_bush, lower.front_bush},
                                                          {P::lower_rear_bush, lower.rear_bush},
                                                          {P::lower_ball_joint, lower.ball_joint},
                                                          {P::upper_front_bush, upper.front_bush},
                                                          {P::upper_rear_bush, upper.rear_bush},
                                                          {P::upper_ball_joint, upper.ball_joint},
                                                          {P::rack_end, p.rack_end},
                                                          {P::knuckle_end, p.knuckle_end},
                                                          {P::hub_centre, p.hub_centre}}};
  for (const auto& [point, at] : all)
    if (!finite(at)) add(K::not_a_number, point);
  if (!std::isfinite(p.camber.si()) || !std::isfinite(p.toe.si())) add(K::not_a_number, P::hub_centre);
  if (p.spring && !finite(p.spring->chassis)) add(K::not_a_number, P::spring_chassis);
  if (p.spring && !finite(p.spring->lower_arm)) add(K::not_a_number, P::spring_lower_arm);
  if (!faults.empty()) return faults;

  // Each arm: a bush line, and a ball joint off it and outboard of it.
  const auto arm = [&](const ArmPoints<double>& a, P front, P ball) {
    if (norm(a.front_bush - a.rear_bush) < touching)
      add(K::bushes_coincide, front);
    else if (off_line(a.ball_joint, a.front_bush, a.rear_bush) < touching)
      add(K::ball_joint_on_bush_line, ball);
    else if (a.ball_joint.y <= 0 || a.ball_joint.y <= 0.5 * (a.front_bush.y + a.rear_bush.y))
      add(K::wrong_side, ball);
  };
  arm(lower, P::lower_front_bush, P::lower_ball_joint);
  arm(upper, P::upper_front_bush, P::upper_ball_joint);
  if (norm(upper.ball_joint - lower.ball_joint) < touching)
    add(K::ball_joints_coincide, P::upper_ball_joint);
  else if (upper.ball_joint.z <= lower.ball_joint.z)
    add(K::upper_below_lower, P::upper_ball_joint);

  // Tie rod, hub and spring.
  if (norm(p.knuckle_end - p.rack_end) < touching) add(K::zero_length_tie_rod, P::knuckle_end);
  if (p.knuckle_end.y <= 0) add(K::wrong_side, P::knuckle_end);
  if (p.hub_centre.y <= 0) add(K::wrong_side, P::hub_centre);
  constexpr double largest = 0.25 * 3.14159265358979;
  if (std::abs(p.camber.si()) > largest || std::abs(p.toe.si()) > largest) add(K::angle_too_large, P::hub_centre);
  if (p.spring && norm(p.spring->chassis - p.spring->lower_arm) < touching)
    add(K::zero_length_spring, P::spring_chassis);
  if (!faults.empty()) return faults;

  // Only then whether the parts make a mechanism with a branch to keep to.
  const Vector3<double> steering = unit(upper.ball_joint - lower.ball_joint);
  if (off_line(p.knuckle_end, lower.ball_joint, upper.ball_joint) < touching) {
    add(K::no_steering_arm, P::knuckle_end);
    return faults;
  }
  constexpr double in_line = 1e-8;  // squared sine
  const Vector3<double> bush_line = unit(upper.front_bush - upper.rear_bush);
  if (meeting(lower.ball_joint, upper.ball_joint, upper.front_bush, bush_line) < in_line)
    add(K::arms_in_line, P::upper_ball_joint);
  if (meeting(p.rack_end, p.knuckle_end, lower.ball_joint, steering) < in_line) add(K::tie_rod_in_line, P::knuckle_end);
  const Vector3<double> rising = cross(unit(lower.front_bush - lower.rear_bush), lower.ball_joint - lower.front_bush);
  if (std::abs(rising.z) < 1e-3 * norm(rising)) add(K::lower_arm_upright, P::lower_ball_joint);
  if (faults.empty() && !DoubleWishbone<double>(p).usable()) add(K::lower_arm_upright, P::lower_ball_joint);
  return faults;
}

}  // namespace trammel::suspension
