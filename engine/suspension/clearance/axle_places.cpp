#include "suspension/clearance/axle_places.h"

#include <cmath>
#include <string>

#include "suspension/geometry/steer_memo.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

// The line that the lower or only arm turns about, where the layout has an arm.
struct Hinge {
  V at, along;
  bool there = false;
};
Hinge hinge_of(const AxleMechanism& axle, Side side, const V& hub) {
  const std::string own = side == Side::left ? "left." : "right.";
  const std::vector<Hardpoint> points = axle.points();
  const auto find = [&](const std::string& name) {
    std::optional<V> found;
    for (const Hardpoint& p : points)
      if (p.name == own + name) found = p.at;
    return found;
  };
  auto front = find("lower_arm.front_bush"), rear = find("lower_arm.rear_bush");
  if (!front || !rear) front = find("arm.bush"), rear = find("arm.other_bush");
  if (!front || !rear) return {};
  // Turned so that the hub rises as the arm turns right-handed about it.
  const V along = unit(*front - *rear);
  return {*rear, cross(along, hub - *rear).z < 0 ? -along : along, true};
}

RigidMove body_move(const LiveAxlePose& body, Angle roll, const V& fitted_centre) {
  // Yaw, then pitch, then roll.
  const RigidMove yaw = RigidMove::about({}, {0, 0, 1}, body.steer),
                  pitch = RigidMove::about({}, {0, 1, 0}, -body.pinion_nose_up),
                  lean = RigidMove::about({}, {1, 0, 0}, roll);
  RigidMove m;
  for (V& column : m.columns) column = yaw(pitch(lean(column)));
  m.shift = body.centre - m.direction(fitted_centre);
  return m;
}

// Of what steers with the wheel, told by the spin axis and the line from the lower joint to the tie rod.
std::optional<RigidMove> knuckle_move(const SidePose& was, const SidePose& now) {
  const auto placing = [](const SidePose& p) -> std::optional<RigidMove::Placing> {
    const V *lower = p.point("lower_arm.ball_joint"), *end = p.point("tie_rod.knuckle_end");
    if (!lower) lower = p.point("kingpin.bottom");
    if (!lower || !end) return std::nullopt;
    return RigidMove::Placing{p.wheel.hub_centre, p.wheel.spin_axis, *end - *lower};
  };
  const auto from = placing(was), to = placing(now);
  return from && to ? std::optional(RigidMove::between(*from, *to)) : std::nullopt;
}

}  // namespace

WheelPlaces wheel_places(std::shared_ptr<const AxleMechanism> axle, Side side, Length lock, Length lowest,
                         Length highest) {
  const auto fitted = axle->pose({});
  const double out = side == Side::left ? 1.0 : -1.0;
  const Length half_track = Length::from_si(0.5 * (fitted.left.wheel.hub_centre.y - fitted.right.wheel.hub_centre.y));
  const V fitted_centre = fitted.body ? fitted.body->centre : V{};
  const bool one_body = axle->one_body();
  const Hinge hinge = one_body ? Hinge{} : hinge_of(*axle, side, fitted.side(side).wheel.hub_centre);
  // Which way the steering's shift goes for a turn to the left.
  AxleCoordinates tenth;
  tenth.steer = 0.1 * lock;
  const SidePose turned = axle->side_pose(side, tenth);
  const bool with_y =
      !turned.outcome.ok() ||
      steer_angle({turned.wheel.hub_centre, turned.wheel.spin_axis}, side).si() >=
          steer_angle({fitted.side(side).wheel.hub_centre, fitted.side(side).wheel.spin_axis}, side).si();

  const auto memo = one_body && axle->steered() ? std::make_shared<SteerMemo>(*axle) : nullptr;
  return [=, axle = std::move(axle)](Length rise, double steer, Angle roll) -> std::optional<WheelStation> {
    AxleCoordinates at;
    at.rise = rise;
    at.steer = (with_y ? steer : -steer) * lock;
    if (one_body) {
      const Length lift = out * std::tan(roll.si()) * half_track;
      const Length other = rise - 2.0 * lift, slack = Length::from_si(1e-6);
      if (other < lowest - slack || other > highest + slack) return std::nullopt;
      at.rise = rise - lift;
      at.roll = roll;
    }
    WheelStation s{rise, steer, roll, {}, {}, {}};
    const auto take = [&](const SidePose& p) { s.tyre = {p.wheel.hub_centre, p.wheel.spin_axis}; };
    if (one_body) {
      const AxlePose pose = memo ? memo->pose(at) : axle->pose(at);
      if (!pose.side(side).outcome.ok()) return std::nullopt;
      take(pose.side(side));
      if (pose.body) s.carrier = s.knuckle = body_move(*pose.body, roll, fitted_centre);
      return s;
    }
    const SidePose pose = axle->side_pose(side, at);
    if (!pose.outcome.ok()) return std::nullopt;
    take(pose);
    if (hinge.there) s.carrier = RigidMove::about(hinge.at, hinge.along, pose.arm_angle);
    s.knuckle = knuckle_move(fitted.side(side), pose).value_or(s.carrier);
    return s;
  };
}

}  // namespace trammel::suspension
