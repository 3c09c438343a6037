// What longer shackles, blocks and wedges do to an axle on leaf springs: where it comes to stand under its old load.
//
// The load on each spring is kept, so the spring is not bent: with a longer shackle it swings about its fixed eye
// (leaf_spring.h). A block of height h puts the axle h further from the seat, square to the seat's line: down where the
// spring lies over the axle, up where it lies under it. A wedge turns the axle by its angle against the seat, nose up
// positive. Left and right may differ: the axle's line then goes through both of its new places, its pitch is the
// mean of both seats' turns, and the cart leans. All parts fixed to the axle move with it.
// Half rule: a shackle longer by d is said to let the axle down by d / 2; the true figure stands beside it.
// Frame: cart, the body held. Ignores: the change of load by the lean; friction. Error: 1e-12 m in closure.
// Source: rigid geometry; leaf_spring.h for the spring. Law 1: no change moves nothing. Law 2: equal changes on both
// sides do not steer or lean. Law 3: mirrored changes give the mirrored axle.
#pragma once

#include <array>

#include "suspension/linkage/live_axle.h"
#include "suspension/linkage/wheel_pose.h"

namespace trammel::suspension {

struct SpringChange {
  Length shackle_longer{}, block{};
  Angle wedge{};
  bool any() const { return shackle_longer.si() != 0 || block.si() != 0 || wedge.si() != 0; }
};

struct ChangedAxle {
  PoseOutcome outcome;
  Side side = Side::left;              // whose shackle cannot reach, where it does not
  LiveAxlePoints axle;                 // as it stands now
  AxlePlace<double> place{};           // of the new axle against the old
  Angle nose_up{}, lean{}, steer{};    // lean positive with the left end of the axle up against the body
  std::array<Length, 2> axle_down{};   // at each seat, left and right, by shackle, block and wedge together
  std::array<Length, 2> by_shackle{};  // the seat's own way down
  // A part fixed to the axle, from its old place.
  Vector3<double> carried(const Vector3<double>& part) const { return moved(part, old_centre, place, AxleAxes(place)); }
  Vector3<double> old_centre;
};
ChangedAxle change_springs(const LiveAxlePoints& fitted, const std::array<SpringChange, 2>& changes);

}  // namespace trammel::suspension
