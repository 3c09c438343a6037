// A steered beam: king pins, a tie rod between the knuckles, a drag link from the frame to one of them.
//
// The beam is a rigid axle on leaf springs or links (live_axle.h). Each knuckle turns about its king pin, which is
// fixed to the beam. The drag link's ball runs on its circle about the king pin and keeps its distance from the link's
// frame end: that sets this knuckle; the tie rod's end of the other knuckle keeps its distance from this one's: that
// sets the other. Both in closed form (circle.h), on the branch that they have as fitted.
// Input: rise and roll of the beam, and shift: the frame end's way along its arc about the pitman shaft, or straight on
// where no pitman arm is given; positive to the left (+y) of a link that lies across, forward (+x) of one that lies
// along. Rates by rise, roll and shift are exact (dual numbers over the rigid axle's own exact rates).
// Changes of length: tie rod and drag link, positive longer.
// Frame: cart; each side's wheel pose is a left wheel's, the right one's mirrored (wheel_pose.h).
// Ignores: play and flex of the steering, springs that wind up under braking (leaf_spring.h tells their stiffness).
// Error: 1e-12 m in closure. Source: rigid-body geometry; no published table was found: an independent multibody
// solver is the outside check.
// Law 1: nothing asked gives the fitted pose. Law 2: left and right mirror. Law 3: a rise that leaves the drag link's
// frame end and ball as far apart as before does not steer.
#pragma once

#include <optional>
#include <vector>

#include "suspension/linkage/live_axle.h"
#include "suspension/linkage/wheel_pose.h"

namespace trammel::suspension {

struct KnucklePoints {
  Vector3<double> king_pin_top, king_pin_bottom;
  Vector3<double> tie_rod_end;
  Vector3<double> hub_centre;
  Angle camber{}, toe{};  // as the points were taken
};
struct PitmanArm {
  Vector3<double> pivot;  // a point of the shaft
  Vector3<double> shaft;  // its direction, any length
};
struct DragLink {
  Vector3<double> frame_end, knuckle_end;
  Side on = Side::left;  // whose knuckle it turns
  std::optional<PitmanArm> pitman_arm;
};
struct BeamAxlePoints {
  LiveAxlePoints beam;
  KnucklePoints left, right;
  DragLink drag_link;
};

// Of the beam, its knuckles and rods, named as in the files: "left.kingpin.top", "drag_link.axle_end".
std::vector<PointFault> check(const BeamAxlePoints& points);

struct BeamChanges {
  Length tie_rod{}, drag_link{};
};

struct BeamSide {
  WheelPose<double> wheel;                      // of a left wheel; the right one's mirror image
  Twist<double> per_rise, per_roll, per_shift;  // likewise
  Vector3<double> king_pin_top, king_pin_bottom, tie_rod_end, hub_centre;  // in the cart frame
};
struct BeamPose {
  PoseOutcome outcome;
  LiveAxlePose axle;
  BeamSide left, right;
  Vector3<double> frame_end, drag_link_ball;
  Angle pitman_turn{};  // about its shaft's direction; 0 where no pitman arm is given
};
BeamPose beam_pose(const BeamAxlePoints& points, Length rise, Angle roll, Length shift,
                   const BeamChanges& changes = {});

// The same on a beam that stands at `axle`, its pose for that rise and roll.
BeamPose beam_pose(const BeamAxlePoints& points, const LiveAxlePose& axle, Length rise, Angle roll, Length shift,
                   const BeamChanges& changes = {});

}  // namespace trammel::suspension
