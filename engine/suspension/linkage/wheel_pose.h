// Where a wheel is and how it moves: all that wheel geometry needs to know of any layout.
//
// Everything is in the cart frame of the LEFT wheel (x forward, y left and outward, z up, metres); a
// right wheel is handed over as its mirror image in y = 0. See docs/frames-and-signs.md.
#pragma once

#include "measure/vector3.h"

namespace trammel::suspension {

enum class Side { left, right };

// Velocity of a rigid body per unit of some coordinate (rise, roll, a length).
template <class T = double>
struct Twist {
  Vector3<T> turn;   // angular velocity, rad per unit of the coordinate
  Vector3<T> shift;  // velocity of the hub centre, m per unit of the coordinate
};

template <class T = double>
struct WheelPose {
  Vector3<T> hub_centre;
  Vector3<T> spin_axis;      // unit, outward
  Vector3<T> steering_foot;  // a point on the steering axis: the lower ball joint or kingpin
  Vector3<T> steering_axis;  // unit, upward
  bool steered = true;       // without a steering axis the two above, and what is read from them, mean nothing
};

}  // namespace trammel::suspension
