// Wheel geometry from a wheel's pose and its motion, whatever the layout.
//
// Wheel: a thin disc of the loaded radius R about the hub centre H, spin axis n (unit, outward).
//   camber = asin(-n.z), toe = atan2(n.x, n.y)                         ISO 8855:2011 7.1.6
//   contact C = H - R d, d = unit(z - (z.n) n): the disc's lowest point, which moves round the tyre
//   heading h = unit(n x z), outward l = z x h; ground: the level plane through C
// Steering axis: foot B, direction s (unit, up), meeting the ground at G.
//   caster = atan2(-s.x, s.z) in side view, inclination = atan2(-s.y, s.z) in front view  ISO 8855 7.2
//   steering-axis offset at ground = (C - G).l, positive with the contact outboard (7.2.6, signed here)
//   caster trail = (G - C).h, positive with the axis ahead of the contact
// Rates are per metre of wheel-centre rise. Roll centre: the normal to the path of C in front view meets the
// cart's middle plane at half_track * dC.y/dC.z above the ground (the contact point that moves round the
// tyre; one fixed in the knuckle gives up to 1.4 mm other).
// Frame: cart, left wheel or a right wheel's mirror image. Range: |camber| < 90 deg, steering axis not level.
// Ignores the tyre's width, deflection with camber, and a ground that is not level with the cart.
#pragma once

#include <cmath>

#include "measure/quantity.h"
#include "suspension/linkage/wheel_pose.h"

namespace trammel::suspension {

template <class T = double>
struct WheelGeometry {
  AngleOf<T> camber{}, toe{}, caster{}, steering_axis_inclination{};
  LengthOf<T> steering_axis_offset_at_ground{}, caster_trail{}, half_track{}, roll_centre_height{};
  AnglePerLengthOf<T> camber_rate{}, toe_rate{};
  T motion_ratio{};         // spring compression per wheel-centre rise; 0 where no spring is given
  Vector3<T> contact;       // where the disc meets the ground
  Vector3<T> contact_rate;  // its motion per metre of rise
};

// `per_rise`: the wheel's motion per metre of wheel-centre rise.
template <class T>
WheelGeometry<T> wheel_geometry(const WheelPose<T>& pose, const Twist<T>& per_rise, LengthOf<T> loaded_radius,
                                const T& spring_per_rise = T(0)) {
  using std::asin, std::atan2, std::sqrt;
  const Vector3<T>&n = pose.spin_axis, &s = pose.steering_axis;
  const T flat2 = T(1) - n.z * n.z, flat = sqrt(flat2);  // the spin axis seen from above
  const Vector3<T> dn = cross(per_rise.turn, n);
  const T turned = n.y * dn.x - n.x * dn.y;

  // The disc's lowest point and its path.
  const T radius = loaded_radius.si();
  const T steep = n.z / flat;
  const Vector3<T> down_spoke{-n.x * steep, -n.y * steep, flat};  // d, from the contact to the hub
  const T dsteep = dn.z / (flat2 * flat);
  const Vector3<T> dspoke{-dn.x * steep - n.x * dsteep, -dn.y * steep - n.y * dsteep, -n.z * dn.z / flat};
  WheelGeometry<T> g;
  g.contact = pose.hub_centre - radius * down_spoke;
  g.contact_rate = per_rise.shift - radius * dspoke;

  // The steering axis at the ground, seen in the wheel's heading.
  const Vector3<T> meets = pose.steering_foot + ((g.contact.z - pose.steering_foot.z) / s.z) * s;
  const T ahead = meets.x - g.contact.x, inward = meets.y - g.contact.y;
  const T hx = n.y / flat, hy = -n.x / flat;  // heading

  using A = AngleOf<T>;
  using L = LengthOf<T>;
  using R = AnglePerLengthOf<T>;
  g.camber = A::from_si(asin(-n.z));
  g.toe = A::from_si(atan2(n.x, n.y));
  g.caster = A::from_si(atan2(-s.x, s.z));
  g.steering_axis_inclination = A::from_si(atan2(-s.y, s.z));
  g.steering_axis_offset_at_ground = L::from_si(ahead * hy - inward * hx);
  g.caster_trail = L::from_si(ahead * hx + inward * hy);
  g.half_track = L::from_si(g.contact.y);
  g.roll_centre_height = L::from_si(g.contact.y * g.contact_rate.y / g.contact_rate.z);
  g.camber_rate = R::from_si(-dn.z / flat);
  g.toe_rate = R::from_si(turned / flat2);
  g.motion_ratio = spring_per_rise;
  return g;
}

}  // namespace trammel::suspension
