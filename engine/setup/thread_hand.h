// Which way the face of a turned part moves when the part gets longer, from where one stands.
//
// The part that is turned lies along the unit axis a, from its near end to its far end. Turned by the right-hand rule
// about +a it draws a right-hand thread at its far end in by one pitch a turn, and pushes one at its near end out; a
// left-hand thread does the other. So the part gets longer when it turns about -a where the right-hand thread is at the
// far end, about +a where it is at the near end. A left-hand thread at one end counts as a right-hand one at the other.
// Seen from the eye e (unit vector from the part to whoever looks) the face moves as rotation x e; its z tells up or
// down. Frame: ISO 8855. Range: parts that lie across or along the cart; a part within 30 deg of upright has no "up",
// and neither has one that is looked at along its own length.
// Source: screw kinematics (derived). Law 1: the other hand, the other end, or the other side to stand at each change
// the answer, and two of them together do not.
#pragma once

#include <optional>

#include "measure/vector3.h"

namespace trammel::setup {

enum class FaceMoves { up, down };
enum class RightHandAt { near_end, far_end };

// Nothing where the part has no up and down from there.
inline std::optional<FaceMoves> face_when_longer(const Vector3<double>& axis, RightHandAt right_hand,
                                                 const Vector3<double>& eye) {
  const double sign = right_hand == RightHandAt::far_end ? -1.0 : 1.0;
  const double up = sign * (axis.x * eye.y - axis.y * eye.x);
  if (!(up > 0.5 || up < -0.5)) return std::nullopt;
  return up > 0.0 ? FaceMoves::up : FaceMoves::down;
}

}  // namespace trammel::setup
