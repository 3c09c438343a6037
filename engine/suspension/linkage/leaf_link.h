// A transverse leaf spring in the place of an arm.
//
// Model: half of the leaf is a strip fast to the body at its clamp, of length L to the eye, that bends into a circular
// arc (uniform strength: constant curvature). Its eye then runs by
//   z = L (1 - cos a) / a,   y drawn in by L (1 - sin a / a)      a the angle through which it is bent
// which to second order is a circle of radius 3/4 L about a point 3/4 L inboard of the eye: an arm whose bush line runs
// along x. Frame: cart. Ignores: twist of the leaf, its own fore-and-aft bending, friction between leaves.
// Error of the eye's path: 0.02 L (z/L)^4, a tenth of a millimetre at z = L/3 of a 400 mm half-leaf. Range: z under
// L/3 either way of straight.
// Law: the arm's eye and the arc's eye part by less than that bound. Source: derived from constant curvature; the
// same 3/4 stands in SAE HS-788 for a cantilever leaf, from memory.
#pragma once

#include "suspension/linkage/corner_points.h"

namespace trammel::suspension {

inline ArmPoints<double> leaf_link(const Vector3<double>& clamp, const Vector3<double>& eye) {
  const Vector3<double> pivot = eye + 0.75 * (clamp - eye), along{0.1, 0.0, 0.0};
  return {pivot + along, pivot - along, eye};
}

}  // namespace trammel::suspension
