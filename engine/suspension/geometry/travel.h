// An axle over its travel: every pose asked for, with all that is read from it.
//
// Independent axle: rise is the wheel centres' above their fitted height, the body held and level; rack is its
// shift along +y (left), so it moves the left tie rod outward and the right one inward; roll adds plus and
// minus half-track times its tangent to the left and the right wheel's rise. Changes of length: what is held
// meanwhile is the wheel centre's height, or the angle that the lower arm has without the changes.
// Right side: its own points where given, else the left's mirror image; results are in the cart frame.
// Angles and rates by wheel_geometry.h. Law: all zero gives the fitted pose.
#pragma once

#include <optional>
#include <vector>

#include "suspension/geometry/wheel_geometry.h"
#include "suspension/linkage/double_wishbone.h"
#include "suspension/linkage/live_axle.h"

namespace trammel::suspension {

struct IndependentAxle {
  WishbonePoints<double> left;
  std::optional<WishbonePoints<double>> right;  // in the cart frame, y negative
  Length loaded_radius{};
};

struct AxleChanges {
  LengthChanges<double> left, right;
};

// Every rise with every roll with every rack shift, in that order of nesting.
struct TravelRequest {
  std::vector<Length> rises{Length{}};
  std::vector<Angle> rolls{Angle{}};
  std::vector<Length> racks{Length{}};
  AxleChanges changes;
  Held held = Held::wheel;
};

// Moved points in the cart frame, named as in the files.
struct SidePoints {
  Vector3<double> lower_ball_joint, upper_ball_joint, tie_rod_knuckle_end, hub_centre;
};

struct SidePose {
  PoseOutcome outcome;             // numbers below may be used only where it is ok
  WheelGeometry<double> geometry;  // contact and contact_rate in the cart frame
  SidePoints points;
  Angle arm_angle{};  // of the lower arm from its fitted place, positive up
};

struct TravelPose {
  Length rise{}, rack{};
  Angle roll{};
  SidePose left, right;
};

struct Travel {
  std::vector<TravelPose> poses;
};

Travel travel(const IndependentAxle& axle, const TravelRequest& request);

// One pose of one side; `points` and the results in the cart frame.
SidePose side_pose(const WishbonePoints<double>& points, Side side, Length loaded_radius, Length rise, Length rack,
                   const LengthChanges<double>& change = {}, Held held = Held::wheel);

struct AxleTravelPose {
  Length rise{};
  Angle roll{};
  LiveAxlePose axle;
};
struct AxleTravel {
  std::vector<AxleTravelPose> poses;
};
AxleTravel travel(const LiveAxlePoints& axle, const std::vector<Length>& rises, const std::vector<Angle>& rolls,
                  const std::vector<Length>& changes = {});

}  // namespace trammel::suspension
