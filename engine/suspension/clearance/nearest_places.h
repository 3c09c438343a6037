// The nearest places of two convex bodies that are known by their furthest place in any direction.
//
// Gilbert, Johnson and Keerthi's method: the difference a - b of the two bodies is approached by simplices of its
// furthest places; v is the simplex's place nearest to the origin. It ends where |v| - v.w / |v|, the most that another
// step could gain, is under 1e-10 m, where rounding lets v get no shorter, or where v.w / |v|, which the distance is
// never less than, is more than `enough`: then that is told as the distance, without the places. Range: bodies of about
// a metre. Error: 1e-7 m where surfaces are curved, less where they are flat. Source: Gilbert, Johnson & Keerthi 1988,
// IEEE J. Robotics and Automation 4(2), 193-203; nearest place of a tetrahedron as in Ericson, Real-Time Collision
// Detection (2005), 5.1 (both from memory).
#pragma once

#include <cmath>
#include <limits>

#include "measure/vector3.h"

namespace trammel::suspension {

struct NearestPlaces {
  Vector3<double> on_a, on_b;
  double distance = 0;
  bool overlap = false;
};

namespace nearest_detail {

inline constexpr double fine = 1e-10;  // metres

struct Corner {
  Vector3<double> a, b, w;  // w = a - b
  double share = 0;
};
struct Simplex {
  Corner corner[4];
  int size = 0;
  // Keeps the corners that carry the place nearest to the origin; true where the origin is inside.
  bool reduce();
};

}  // namespace nearest_detail

template <class FurthestA, class FurthestB>
NearestPlaces nearest_places(const FurthestA& a, const FurthestB& b, const Vector3<double>& from_a_to_b,
                             double enough = std::numeric_limits<double>::infinity()) {
  using nearest_detail::Corner, nearest_detail::fine;
  nearest_detail::Simplex s;
  const auto corner = [&](const Vector3<double>& direction) {
    const Vector3<double> pa = a(direction), pb = b(-direction);
    return Corner{pa, pb, pa - pb, 1};
  };
  s.corner[0] = corner(from_a_to_b);
  s.size = 1;
  Vector3<double> v = s.corner[0].w;
  NearestPlaces n;
  for (int i = 0; i < 100; ++i) {
    const double squared = dot(v, v);
    if (squared < 1e-22) {
      n.overlap = true;
      break;
    }
    const Corner next = corner(-v);
    // The plane across v through the furthest place lies between the bodies: they are at least that far apart.
    const double length = std::sqrt(squared), apart = dot(v, next.w) / length;
    if (length - apart <= fine) break;
    if (apart > enough) {
      n.distance = apart;
      return n;
    }
    nearest_detail::Simplex grown = s;
    grown.corner[grown.size++] = next;
    if (grown.reduce()) {
      // A plane between the two bodies says more than a sliver of a simplex that rounding has the origin in.
      n.overlap = !(dot(v, next.w) > 0);
      break;
    }
    Vector3<double> nearer{};
    for (int k = 0; k < grown.size; ++k) nearer += grown.corner[k].share * grown.corner[k].w;
    if (!(dot(nearer, nearer) < squared)) break;
    s = grown;
    v = nearer;
  }
  for (int k = 0; k < s.size; ++k) {
    n.on_a += s.corner[k].share * s.corner[k].a;
    n.on_b += s.corner[k].share * s.corner[k].b;
  }
  n.distance = norm(n.on_a - n.on_b);
  return n;
}

}  // namespace trammel::suspension
