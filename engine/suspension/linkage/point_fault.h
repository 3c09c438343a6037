// What can be wrong with an axle's points, whatever its layout.
#pragma once

#include <string>

namespace trammel::suspension {

enum class PointFaultKind {
  not_a_number,     // or infinite
  bushes_coincide,  // an arm needs two bushes apart to have a bush line
  ball_joint_on_bush_line,
  ball_joints_coincide,
  upper_below_lower,  // the upper ball joint is not above the lower one
  zero_length_tie_rod,
  no_steering_arm,    // the knuckle end lies on the steering axis
  wrong_side,         // on the other side of the cart's middle, or a ball joint inboard of its bushes
  arms_in_line,       // upper arm and knuckle in one line at the fitted pose: no branch to keep to
  tie_rod_in_line,    // tie rod and steering arm in one line at the fitted pose
  lower_arm_upright,  // turning the lower arm does not raise the wheel
  zero_length_spring,
  zero_length_strut,
  strut_across,     // the damper leans more than 45 degrees off the steering axis
  relay_in_line,    // the pitman or the idler arm in line with the relay
  angle_too_large,  // camber or toe beyond 45 degrees
  wrong_number_of_links,
  zero_length_link,
  half_track_not_positive,
  links_in_line,  // the fitted pose is singular, a motion is left free
  zero_length_part,
  drag_link_in_line,       // with its arm at the knuckle: no way to steer is given
  leaf_seat_outside,       // the seat is not between the eyes
  leaf_eyes_exchanged,     // the shackle would be longer than half the spring
  leaf_too_arched,         // a half leaves the seat's line by more than 35 deg
  leaf_shackle_in_line,    // with the eyes: over centre as it stands
  leaf_shackle_too_short,  // does not span its pivot and the eye
  spring_too_long          // the arms cannot come down as far as a longer spring puts them
};

struct PointFault {
  PointFaultKind kind{};
  std::string point;  // its name below the side or the axle that was asked: "lower_arm.front_bush", "axle_centre"
};

}  // namespace trammel::suspension
