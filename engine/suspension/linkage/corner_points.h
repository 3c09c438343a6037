// One side of an independent axle as it was measured: the fitted pose.
//
// Points are metres in the cart frame. `camber` and `toe` are the wheel's own at the fitted pose:
// camber positive with the top outward, toe positive toe-in (ISO 8855:2011 7.1.6), both sides alike.
// The lower arm turns about the straight line through its two bushes; ball joints are points; the inner end of
// the tie rod slides along y. What guides the knuckle above its lower joint:
//   upper_arm   a second arm; a transverse leaf in its place is an arm as leaf_link.h makes it
//   strut       a damper fast to the knuckle that slides through a top mount on the body
//   the_arm     the arm itself: swing axles (steered about a kingpin in the arm) and trailing arms (not steered)
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "measure/vector3.h"
#include "suspension/linkage/point_fault.h"

namespace trammel::suspension {

enum class Guide { upper_arm, strut, the_arm };

template <class T = double>
struct ArmPoints {
  Vector3<T> front_bush, rear_bush, ball_joint;
};

// A spring or a damper: its end on the body, and the other one on a part that moves.
enum class MountedOn { lower_arm, upper_arm, knuckle };
template <class T = double>
struct SpringPoints {
  Vector3<T> chassis, foot;
  MountedOn on = MountedOn::lower_arm;
};

template <class T = double>
struct CornerPoints {
  // the_arm: lower_arm.ball_joint is the kingpin's lower end, upper_arm.ball_joint its upper one, and the arm's own
  // bushes are the lower arm's. Without steering both are not read.
  ArmPoints<T> lower_arm, upper_arm;
  Vector3<T> rack_end, knuckle_end;  // of the tie rod
  Vector3<T> hub_centre;
  AngleOf<T> camber{}, toe{};
  std::optional<SpringPoints<T>> spring, damper;
  Guide guide = Guide::upper_arm;
  Vector3<T> strut_top, strut_lower;  // on the body, and any lower point of the damper's own line
  bool steered = true;                // false only where the arm is the guide
};

// Changes of length from the fitted pose, positive longer; both links of an arm change alike. A strut's top mount
// moves outward in its slot.
template <class T = double>
struct LengthChanges {
  LengthOf<T> upper_arm{}, lower_arm{}, tie_rod{}, strut_top{};
};

// The names a file gives the points, below its side.
enum class CornerPoint {
  lower_front_bush,
  lower_rear_bush,
  lower_ball_joint,
  upper_front_bush,
  upper_rear_bush,
  upper_ball_joint,
  rack_end,
  knuckle_end,
  hub_centre,
  spring_chassis,
  spring_lower_arm,
  spring_upper_arm,
  spring_knuckle,
  damper_chassis,
  damper_lower_arm,
  damper_upper_arm,
  damper_knuckle,
  strut_top,
  strut_lower,
  arm_bush,
  arm_other_bush,
  kingpin_bottom,
  kingpin_top
};
std::string_view key(CornerPoint point);  // "lower_arm.front_bush", "tie_rod.knuckle_end", "hub.centre"

// Every point that this layout reads under its name: f(CornerPoint, Vector3&).
template <class Points, class F>
auto each_point(Points& p, F f) -> decltype(p.strut_top, void()) {
  using P = CornerPoint;
  const bool alone = p.guide == Guide::the_arm;
  f(alone ? P::arm_bush : P::lower_front_bush, p.lower_arm.front_bush);
  f(alone ? P::arm_other_bush : P::lower_rear_bush, p.lower_arm.rear_bush);
  if (p.steered) f(alone ? P::kingpin_bottom : P::lower_ball_joint, p.lower_arm.ball_joint);
  if (p.guide == Guide::upper_arm) {
    f(P::upper_front_bush, p.upper_arm.front_bush);
    f(P::upper_rear_bush, p.upper_arm.rear_bush);
    f(P::upper_ball_joint, p.upper_arm.ball_joint);
  }
  if (p.guide == Guide::strut) {
    f(P::strut_top, p.strut_top);
    f(P::strut_lower, p.strut_lower);
  }
  if (alone && p.steered) f(P::kingpin_top, p.upper_arm.ball_joint);
  if (p.steered) {
    f(P::rack_end, p.rack_end);
    f(P::knuckle_end, p.knuckle_end);
  }
  f(P::hub_centre, p.hub_centre);
  const auto mount = [&](auto& m, P chassis, P lower, P upper, P knuckle) {
    if (!m) return;
    f(chassis, m->chassis);
    f(m->on == MountedOn::lower_arm ? lower : m->on == MountedOn::upper_arm ? upper : knuckle, m->foot);
  };
  mount(p.spring, P::spring_chassis, P::spring_lower_arm, P::spring_upper_arm, P::spring_knuckle);
  mount(p.damper, P::damper_chassis, P::damper_lower_arm, P::damper_upper_arm, P::damper_knuckle);
}

// The mirror image in y = 0: a right side from a left one and back. Camber and toe keep their signs.
template <class T>
CornerPoints<T> mirrored(const CornerPoints<T>& p) {
  CornerPoints<T> m = p;
  each_point(m, [](CornerPoint, Vector3<T>& at) { at = mirrored(at); });
  return m;
}

// The same points in another scalar, as constants.
template <class T>
CornerPoints<T> lifted(const CornerPoints<double>& p) {
  const auto point = [](const Vector3<double>& a) { return Vector3<T>{T(a.x), T(a.y), T(a.z)}; };
  const auto arm = [&](const ArmPoints<double>& a) {
    return ArmPoints<T>{point(a.front_bush), point(a.rear_bush), point(a.ball_joint)};
  };
  const auto mount = [&](const std::optional<SpringPoints<double>>& s) {
    return s ? std::optional(SpringPoints<T>{point(s->chassis), point(s->foot), s->on}) : std::nullopt;
  };
  return {arm(p.lower_arm),
          arm(p.upper_arm),
          point(p.rack_end),
          point(p.knuckle_end),
          point(p.hub_centre),
          AngleOf<T>::from_si(T(p.camber.si())),
          AngleOf<T>::from_si(T(p.toe.si())),
          mount(p.spring),
          mount(p.damper),
          p.guide,
          point(p.strut_top),
          point(p.strut_lower),
          p.steered};
}

// Everything wrong with one side's points, in the order of the points. Empty: CornerLinkage can be built.
std::vector<PointFault> check(const CornerPoints<double>& points, bool right_side = false);

}  // namespace trammel::suspension
