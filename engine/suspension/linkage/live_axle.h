// A rigid axle on links and a track bar or on leaf springs: from the axle's rise and roll to its place.
//
// The axle is a rigid body, links are straight rods with ball joints. Given: rise z of the axle's centre and roll
// (positive with the left wheel up against the body; the body is held). Unknown: x, y, yaw, pitch; the axle's
// turn is R = Rz(yaw) Ry(pitch) Rx(roll). The four conditions that close it:
//   three links and track bar     each of the four keeps its length: exact
//   two trailing arms and track bar  each keeps its length, and the axle's pitch is the mean of the two arms'
//                                 turn in side view (the arms are rigid to the axle in pitch)
//   four links and track bar      the least sum of squared elongations of all five at equal stiffness; what
//                                 remains is what the bushes give, reported as the largest elongation (m)
//   leaf springs                  each seat stays on its own spring's path (leaf_spring.h); the axle's pitch is the
//                                 mean of the two seats' turn; the axle's point at the height of the line from fixed
//                                 eye to shackle pivot, above the axle, stays where it is sideways (Gillespie ch. 7,
//                                 from memory); the residual is how far a seat bends its spring sideways
// Newton with exact derivatives from the fitted pose, by continuation in small steps of rise and roll; the rates
// by rise and by roll are exact (implicit differentiation).
// Frame: cart. Signs: shift forward and to the left, steer to the left, pinion nose up, all positive.
// Roll centre: on the line upright through the axle's centre, where the rolling axle has no sideways velocity;
// its height is above the point midway between the tyres' lowest points (thin discs of the loaded radius).
// Ignores: bush stiffness by direction, housing flex, spring and damper forces.
// Range: roll under 30 deg, links within 60 deg of their fitted directions. Error: 1e-13 m in closure.
// Source: closure rules as stated; Euler order and signs ISO 8855:2011 5.2. No published table was found: the
// outside checks are closed forms and an independent multibody solver.
#pragma once

#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "measure/vector3.h"
#include "suspension/linkage/leaf_spring.h"
#include "suspension/linkage/outcome.h"
#include "suspension/linkage/point_fault.h"
#include "suspension/linkage/rigid_axle.h"

namespace trammel::suspension {

struct Link {
  Vector3<double> chassis, axle;  // its two ends as fitted
};

enum class AxleLocation {
  two_trailing_arms_and_track_bar,
  three_links_and_track_bar,
  four_links_and_track_bar,
  leaf_springs
};
// How many links, without the track bar, a location needs.
int links_of(AxleLocation location);

struct LiveAxlePoints {
  AxleLocation location{};
  Vector3<double> axle_centre;
  Length half_track{};
  Length loaded_radius{};   // as fitted; 0 takes the axle centre's height above the ground z = 0
  std::vector<Link> links;  // two, three or four; of two trailing arms in any order
  Link track_bar;
  std::vector<LeafSpringPoints> springs;  // left and right, in place of links and bar
  Vector3<double> along{0, 1, 0};         // unit, from the right wheel to the left as fitted
  Angle turned{};                         // by shackles and wedges since the springs were first fitted, nose up
};

std::vector<PointFault> check(const LiveAxlePoints& points);

// Change per metre of rise and per radian of roll.
struct AxleRates {
  double long_shift = 0, lateral_shift = 0;  // m per m, m per rad
  double steer = 0, pinion_nose_up = 0;      // rad per m, rad per rad
};

struct LiveAxlePose {
  PoseOutcome outcome;
  Length long_shift{}, lateral_shift{};
  Angle steer{}, pinion_nose_up{};
  Length roll_centre_height{}, max_link_residual{};
  AxleRates per_rise, per_roll;
  Vector3<double> centre, left_wheel, right_wheel;  // axle centre and the two hub centres
  std::vector<LeafPose> springs;                    // left and right, where it is on leaf springs
};

// The pose's six coordinates and their rates by rise and roll, for what else is fixed to the axle.
AxlePlace<double> place(const LiveAxlePose& pose, Length rise, Angle roll);
// Height above the ground z = 0 at which leaf springs hold their axle sideways.
Length sideways_height(const LiveAxlePoints& points);

// Changes of length: of each link in order, then the track bar; missing ones are zero.
LiveAxlePose live_axle_pose(const LiveAxlePoints& points, Length rise, Angle roll,
                            const std::vector<Length>& changes = {});

}  // namespace trammel::suspension
