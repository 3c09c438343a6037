#include "suspension/geometry/steered_beam.h"

#include "suspension/geometry/linked_axle.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

template <class Points, class F>
void each_point(Points& p, F f) {
  for (const Side side : {Side::left, Side::right}) {
    const std::string name = side == Side::left ? "left." : "right.";
    auto& k = side == Side::left ? p.left : p.right;
    f(name + "kingpin.top", k.king_pin_top);
    f(name + "kingpin.bottom", k.king_pin_bottom);
    f(name + "tie_rod.end", k.tie_rod_end);
    f(name + "hub.centre", k.hub_centre);
  }
  f("drag_link.chassis_end", p.drag_link.frame_end);
  f("drag_link.axle_end", p.drag_link.knuckle_end);
  if (p.drag_link.pitman_arm) f("drag_link.pitman_pivot", p.drag_link.pitman_arm->pivot);
}

SidePose wheel_of(const BeamSide& b, Side side, Length radius, Length roll_centre) {
  SidePose s;
  const bool right = side == Side::right;
  const double up = b.per_rise.shift.z;
  s.geometry = wheel_geometry(b.wheel, {b.per_rise.turn / up, b.per_rise.shift / up}, radius);
  s.geometry.roll_centre_height = roll_centre;
  s.wheel = b.wheel;
  if (right) {
    for (V* v : {&s.wheel.hub_centre, &s.wheel.spin_axis, &s.wheel.steering_foot, &s.wheel.steering_axis})
      *v = mirrored(*v);
    s.geometry.contact = mirrored(s.geometry.contact);
    s.geometry.contact_rate = mirrored(s.geometry.contact_rate);
  }
  s.points = {{"kingpin.top", b.king_pin_top},
              {"kingpin.bottom", b.king_pin_bottom},
              {"tie_rod.end", b.tie_rod_end},
              {"hub.centre", b.hub_centre}};
  return s;
}

}  // namespace

Length SteeredBeam::loaded_radius() const {
  return fitted_.beam.loaded_radius.si() > 0.0 ? fitted_.beam.loaded_radius
                                               : Length::from_si(fitted_.left.hub_centre.z);
}

namespace {

BeamChanges changes_of(const AxleCoordinates& at) { return {at.changes.left.tie_rod + at.changes.right.tie_rod, {}}; }

}  // namespace

AxlePose SteeredBeam::pose(const AxleCoordinates& at) const {
  return read(beam_pose(fitted_, at.rise, at.roll, at.steer, changes_of(at)), at);
}

std::function<AxlePose(Length)> SteeredBeam::over_steer(const AxleCoordinates& at) const {
  if (!check().empty()) return AxleMechanism::over_steer(at);
  return [this, at, axle = live_axle_pose(fitted_.beam, at.rise, at.roll)](Length steer) {
    AxleCoordinates there = at;
    there.steer = steer;
    return read(beam_pose(fitted_, axle, at.rise, at.roll, steer, changes_of(at)), there);
  };
}

AxlePose SteeredBeam::read(const BeamPose& beam, const AxleCoordinates& at) const {
  AxlePose pose{at.rise, at.steer, at.roll, {}, {}, beam.axle};
  pose.left.outcome = pose.right.outcome = pose.body->outcome = beam.outcome;
  if (!beam.outcome.ok()) return pose;
  const Length centre = beam.axle.roll_centre_height;
  pose.left = wheel_of(beam.left, Side::left, loaded_radius(), centre);
  pose.right = wheel_of(beam.right, Side::right, loaded_radius(), centre);
  pose.body->left_wheel = beam.left.hub_centre;
  pose.body->right_wheel = beam.right.hub_centre;
  const V& ball = beam.drag_link_ball;
  SidePose& turned = fitted_.drag_link.on == Side::left ? pose.left : pose.right;
  turned.points.push_back({"drag_link.axle_end", ball});
  turned.rod_inner_end = beam.frame_end;
  return pose;
}

std::vector<Hardpoint> SteeredBeam::points() const {
  std::vector<Hardpoint> all = LinkedAxle(fitted_.beam).points();
  each_point(fitted_, [&](const std::string& name, const V& at) { all.push_back({name, at}); });
  return all;
}

std::unique_ptr<const AxleMechanism> SteeredBeam::with_points(const std::vector<Hardpoint>& points) const {
  BeamAxlePoints moved = fitted_;
  const std::size_t of_beam = LinkedAxle(fitted_.beam).points().size();
  moved.beam = LinkedAxle(fitted_.beam).moved_to({points.begin(), points.begin() + of_beam});
  std::size_t next = of_beam;
  each_point(moved, [&](const std::string&, V& at) { at = points.at(next++).at; });
  return std::make_unique<SteeredBeam>(moved);
}

}  // namespace trammel::suspension
