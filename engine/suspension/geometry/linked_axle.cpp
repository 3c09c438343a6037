#include "suspension/geometry/linked_axle.h"

#include <cmath>

#include "suspension/geometry/axle_turn.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

template <class Points, class F>
void each_spring_point(Points& p, F f) {
  for (std::size_t i = 0; i < p.springs.size(); ++i) {
    const std::string name = i == 0 ? "left.leaf." : "right.leaf.";
    f(name + "fixed_eye", p.springs[i].fixed_eye);
    f(name + "seat", p.springs[i].seat);
    f(name + "shackled_eye", p.springs[i].shackled_eye);
    f(name + "shackle_pivot", p.springs[i].shackle_pivot);
  }
}
template <class Points, class F>
void each_point(Points& p, F f) {
  f("axle_centre", p.axle_centre);
  if (!p.springs.empty()) return each_spring_point(p, f);
  for (std::size_t i = 0; i < p.links.size(); ++i) {
    const std::string name = "link." + std::to_string(i);
    f(name + ".chassis", p.links[i].chassis);
    f(name + ".axle", p.links[i].axle);
  }
  f("track_bar.chassis", p.track_bar.chassis);
  f("track_bar.axle", p.track_bar.axle);
}

// One wheel from how the body stands and moves with its rise.
SidePose wheel_of(const LiveAxlePose& body, Side side, Length radius) {
  SidePose s;
  s.outcome = body.outcome;
  if (!s.outcome.ok()) return s;
  const bool right = side == Side::right;
  const auto image = [right](const V& a) { return right ? mirrored(a) : a; };
  const V hub = right ? body.right_wheel : body.left_wheel;
  const V along = unit(body.left_wheel - body.right_wheel);
  s.wheel = {hub, right ? -along : along, hub, {0.0, 0.0, 1.0}, false};

  // The body's turn per metre of its rise: yaw about z, pitch about the turned y.
  const double yaw = body.steer.si();
  const V turn = V{0, 0, body.per_rise.steer} - body.per_rise.pinion_nose_up * V{-std::sin(yaw), std::cos(yaw), 0};
  const V shift = V{body.per_rise.long_shift, body.per_rise.lateral_shift, 1.0} + cross(turn, hub - body.centre);
  // A mirrored rotation turns the other way: its vector is mirrored and reversed.
  const V image_turn = right ? -mirrored(turn) : turn;
  const Twist<double> per_rise{image_turn / shift.z, image(shift) / shift.z};
  const WheelPose<double> left_image{image(hub), image(s.wheel.spin_axis), image(hub), {0.0, 0.0, 1.0}, false};
  s.geometry = wheel_geometry(left_image, per_rise, radius);
  s.geometry.contact = image(s.geometry.contact);
  s.geometry.contact_rate = image(s.geometry.contact_rate);
  s.geometry.roll_centre_height = body.roll_centre_height;
  s.points = {{"hub.centre", hub}};
  return s;
}

}  // namespace

Length LinkedAxle::loaded_radius() const {
  return fitted_.loaded_radius.si() > 0.0 ? fitted_.loaded_radius : Length::from_si(fitted_.axle_centre.z);
}

AxlePose LinkedAxle::pose(const AxleCoordinates& at) const {
  const LiveAxlePose body = live_axle_pose(fitted_, at.rise, at.roll, at.changes.links);
  return {at.rise,
          at.steer,
          at.roll,
          wheel_of(body, Side::left, loaded_radius()),
          wheel_of(body, Side::right, loaded_radius()),
          body};
}

std::optional<Angle> LinkedAxle::turned_since(const AxleMechanism& before) const {
  const auto* was = dynamic_cast<const LinkedAxle*>(&before);
  return was ? axle_turn(was->fitted_, fitted_) : std::nullopt;
}

std::vector<Hardpoint> LinkedAxle::points() const {
  std::vector<Hardpoint> all;
  each_point(fitted_, [&](const std::string& name, const V& at) { all.push_back({name, at}); });
  return all;
}

LiveAxlePoints LinkedAxle::moved_to(const std::vector<Hardpoint>& points) const {
  LiveAxlePoints moved = fitted_;
  std::size_t next = 0;
  each_point(moved, [&](const std::string&, V& at) { at = points.at(next++).at; });
  return moved;
}

std::unique_ptr<const AxleMechanism> LinkedAxle::with_points(const std::vector<Hardpoint>& points) const {
  return std::make_unique<LinkedAxle>(moved_to(points));
}

}  // namespace trammel::suspension
