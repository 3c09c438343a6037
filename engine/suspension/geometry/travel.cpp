#include "suspension/geometry/travel.h"

namespace trammel::suspension {
namespace {

SidePose side_pose(const DoubleWishbone<double>& linkage, Side side, Length radius, Length rise, Length rack,
                   const LengthChanges<double>& change, Held held) {
  const bool right = side == Side::right;
  const Length image_rack = right ? -rack : rack;
  // With the arm held its angle is the one it has without the changes.
  WishbonePose<double> pose;
  if (held == Held::wheel) {
    pose = linkage.pose(rise, image_rack, change);
  } else {
    pose = linkage.pose(rise, image_rack);
    if (pose.outcome.ok()) pose = linkage.pose_at_arm(pose.arm_angle(), image_rack, change);
  }
  SidePose s;
  s.outcome = pose.outcome;
  if (right && s.outcome.rack_limit) s.outcome.rack_limit = -*s.outcome.rack_limit;
  if (!pose.outcome.ok()) return s;

  s.geometry = wheel_geometry(pose.wheel(), pose.per_rise, radius, pose.spring_per_rise);
  s.arm_angle = pose.arm_angle();
  s.points = {pose.lower_ball_joint, pose.upper_ball_joint, pose.knuckle_end, pose.hub_centre};
  if (right) {
    for (Vector3<double>* p : {&s.points.lower_ball_joint, &s.points.upper_ball_joint, &s.points.tie_rod_knuckle_end,
                               &s.points.hub_centre, &s.geometry.contact, &s.geometry.contact_rate})
      *p = mirrored(*p);
  }
  return s;
}

}  // namespace

SidePose side_pose(const WishbonePoints<double>& points, Side side, Length loaded_radius, Length rise, Length rack,
                   const LengthChanges<double>& change, Held held) {
  const DoubleWishbone<double> linkage(side == Side::right ? mirrored(points) : points);
  return side_pose(linkage, side, loaded_radius, rise, rack, change, held);
}

Travel travel(const IndependentAxle& axle, const TravelRequest& request) {
  const DoubleWishbone<double> left(axle.left);
  const DoubleWishbone<double> right(axle.right ? mirrored(*axle.right) : axle.left);
  const auto half_track = [&](const DoubleWishbone<double>& linkage) {
    return side_pose(linkage, Side::left, axle.loaded_radius, {}, {}, {}, Held::wheel).geometry.half_track;
  };
  const Length left_half = half_track(left), right_half = half_track(right);

  Travel t;
  t.poses.reserve(request.rises.size() * request.rolls.size() * request.racks.size());
  for (const Length rise : request.rises)
    for (const Angle roll : request.rolls)
      for (const Length rack : request.racks) {
        const double slope = tan(roll);
        t.poses.push_back({rise, rack, roll,
                           side_pose(left, Side::left, axle.loaded_radius, rise + slope * left_half, rack,
                                     request.changes.left, request.held),
                           side_pose(right, Side::right, axle.loaded_radius, rise - slope * right_half, rack,
                                     request.changes.right, request.held)});
      }
  return t;
}

AxleTravel travel(const LiveAxlePoints& axle, const std::vector<Length>& rises, const std::vector<Angle>& rolls,
                  const std::vector<Length>& changes) {
  AxleTravel t;
  t.poses.reserve(rises.size() * rolls.size());
  for (const Length rise : rises)
    for (const Angle roll : rolls) t.poses.push_back({rise, roll, live_axle_pose(axle, rise, roll, changes)});
  return t;
}

}  // namespace trammel::suspension
