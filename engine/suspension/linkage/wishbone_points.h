// One side of a double-wishbone axle as it was measured: the fitted pose.
//
// Points are metres in the cart frame. `camber` and `toe` are the wheel's own at the fitted pose:
// camber positive with the top outward, toe positive toe-in (ISO 8855:2011 7.1.6), both sides alike.
// The arms turn about the straight line through their two bushes; ball joints are points; the rack
// slides along y. An upper link that is a transverse leaf is an arm whose bush line runs along x.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "measure/vector3.h"
#include "suspension/linkage/point_fault.h"

namespace trammel::suspension {

template <class T = double>
struct ArmPoints {
  Vector3<T> front_bush, rear_bush, ball_joint;
};

template <class T = double>
struct SpringPoints {
  Vector3<T> chassis, lower_arm;
};

template <class T = double>
struct WishbonePoints {
  ArmPoints<T> lower_arm, upper_arm;
  Vector3<T> rack_end, knuckle_end;  // of the tie rod
  Vector3<T> hub_centre;
  AngleOf<T> camber{}, toe{};
  std::optional<SpringPoints<T>> spring;
};

// Changes of length from the fitted pose, positive longer; both links of an arm change alike.
template <class T = double>
struct LengthChanges {
  LengthOf<T> upper_arm{}, lower_arm{}, tie_rod{};
};

template <class T>
ArmPoints<T> mirrored(const ArmPoints<T>& a) {
  return {mirrored(a.front_bush), mirrored(a.rear_bush), mirrored(a.ball_joint)};
}
// The mirror image in y = 0: a right side from a left one and back. Camber and toe keep their signs.
template <class T>
WishbonePoints<T> mirrored(const WishbonePoints<T>& p) {
  WishbonePoints<T> m = p;
  m.lower_arm = mirrored(p.lower_arm);
  m.upper_arm = mirrored(p.upper_arm);
  m.rack_end = mirrored(p.rack_end);
  m.knuckle_end = mirrored(p.knuckle_end);
  m.hub_centre = mirrored(p.hub_centre);
  if (p.spring) m.spring = SpringPoints<T>{mirrored(p.spring->chassis), mirrored(p.spring->lower_arm)};
  return m;
}

// The same points in another scalar, as constants.
template <class T>
WishbonePoints<T> lifted(const WishbonePoints<double>& p) {
  const auto point = [](const Vector3<double>& a) { return Vector3<T>{T(a.x), T(a.y), T(a.z)}; };
  const auto arm = [&](const ArmPoints<double>& a) {
    return ArmPoints<T>{point(a.front_bush), point(a.rear_bush), point(a.ball_joint)};
  };
  WishbonePoints<T> q{arm(p.lower_arm),
                      arm(p.upper_arm),
                      point(p.rack_end),
                      point(p.knuckle_end),
                      point(p.hub_centre),
                      AngleOf<T>::from_si(T(p.camber.si())),
                      AngleOf<T>::from_si(T(p.toe.si())),
                      std::nullopt};
  if (p.spring) q.spring = SpringPoints<T>{point(p.spring->chassis), point(p.spring->lower_arm)};
  return q;
}

// The names a file gives the points, below its side.
enum class WishbonePoint {
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
  spring_lower_arm
};
std::string_view key(WishbonePoint point);  // "lower_arm.front_bush", "tie_rod.knuckle_end", "hub.centre"

// Everything wrong with one side's points, in the order of the points. Empty: DoubleWishbone can be built.
std::vector<PointFault> check(const WishbonePoints<double>& points, bool right_side = false);

}  // namespace trammel::suspension
