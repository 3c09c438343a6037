#include "suspension/geometry/independent_axle.h"

namespace trammel::suspension {
namespace {

// Each point of a corner under its name: for reading and for moving.
template <class Points, class F>
void each_point(Points& p, F f) {
  using P = WishbonePoint;
  f(P::lower_front_bush, p.lower_arm.front_bush);
  f(P::lower_rear_bush, p.lower_arm.rear_bush);
  f(P::lower_ball_joint, p.lower_arm.ball_joint);
  f(P::upper_front_bush, p.upper_arm.front_bush);
  f(P::upper_rear_bush, p.upper_arm.rear_bush);
  f(P::upper_ball_joint, p.upper_arm.ball_joint);
  f(P::rack_end, p.rack_end);
  f(P::knuckle_end, p.knuckle_end);
  f(P::hub_centre, p.hub_centre);
  if (p.spring) {
    f(P::spring_chassis, p.spring->chassis);
    f(P::spring_lower_arm, p.spring->lower_arm);
  }
}

WheelAnglesRate angles_rate(const WishbonePose<double>& pose, const Twist<double>& twist) {
  const WheelGeometry<double> g = wheel_geometry(pose.wheel(), twist, Length{});
  return {g.camber_rate, g.toe_rate};
}

SidePose read(const WishbonePose<double>& pose, Side side, Length radius) {
  SidePose s;
  s.outcome = pose.outcome;
  if (side == Side::right && s.outcome.rack_limit) s.outcome.rack_limit = -*s.outcome.rack_limit;
  if (!pose.outcome.ok()) return s;
  s.wheel = pose.wheel();
  s.geometry = wheel_geometry(s.wheel, pose.per_rise, radius, pose.spring_per_rise);
  s.arm_angle = pose.arm_angle();
  s.points = {{key(WishbonePoint::lower_ball_joint), pose.lower_ball_joint},
              {key(WishbonePoint::upper_ball_joint), pose.upper_ball_joint},
              {key(WishbonePoint::knuckle_end), pose.knuckle_end},
              {key(WishbonePoint::hub_centre), pose.hub_centre}};
  if (side == Side::left) return s;
  for (MovedPoint& p : s.points) p.at = mirrored(p.at);
  for (Vector3<double>* p : {&s.wheel.hub_centre, &s.wheel.spin_axis, &s.wheel.steering_foot, &s.wheel.steering_axis,
                             &s.geometry.contact, &s.geometry.contact_rate})
    *p = mirrored(*p);
  return s;
}

}  // namespace

IndependentAxle::IndependentAxle(const IndependentPoints& fitted)
    : fitted_(fitted), left_(fitted.left), right_(fitted.right ? mirrored(*fitted.right) : fitted.left) {
  const auto half = [&](const DoubleWishbone<double>& corner) {
    const WishbonePose<double> pose = corner.pose({});
    return pose.outcome.ok() ? wheel_geometry(pose.wheel(), pose.per_rise, fitted.loaded_radius).half_track : Length{};
  };
  left_half_ = half(left_);
  right_half_ = half(right_);
}

WishbonePose<double> IndependentAxle::corner_pose(Side side, const AxleCoordinates& at) const {
  const bool right = side == Side::right;
  const DoubleWishbone<double>& corner = right ? right_ : left_;
  const Length rise = right ? at.rise - tan(at.roll) * right_half_ : at.rise + tan(at.roll) * left_half_;
  const Length rack = right ? -at.steer : at.steer;
  const LengthChanges<double>& change = right ? at.changes.right : at.changes.left;
  if (at.held == Held::wheel) return corner.pose(rise, rack, change);
  // With the arm held its angle is the one it has without the changes.
  const WishbonePose<double> plain = corner.pose(rise, rack);
  return plain.outcome.ok() ? corner.pose_at_arm(plain.arm_angle(), rack, change) : plain;
}

SidePose IndependentAxle::side_pose(Side side, const AxleCoordinates& at) const {
  return read(corner_pose(side, at), side, fitted_.loaded_radius);
}
AxlePose IndependentAxle::pose(const AxleCoordinates& at) const {
  return {at.rise, at.steer, at.roll, side_pose(Side::left, at), side_pose(Side::right, at), std::nullopt};
}

AdjusterRates IndependentAxle::adjuster_rates(Side side, const AxleCoordinates& at) const {
  const WishbonePose<double> pose = corner_pose(side, at);
  AdjusterRates r;
  r.outcome = pose.outcome;
  if (!pose.outcome.ok()) return r;
  const WishboneTwists<double> twists = (side == Side::right ? right_ : left_).twists(pose, at.held);
  const WheelGeometry<double> g = wheel_geometry(pose.wheel(), pose.per_rise, Length{});
  r.camber = g.camber;
  r.toe = g.toe;
  r.rise = {g.camber_rate, g.toe_rate};
  r.upper_arm = angles_rate(pose, twists.upper_arm);
  r.lower_arm = angles_rate(pose, twists.lower_arm);
  r.tie_rod = angles_rate(pose, twists.tie_rod);
  r.rack = angles_rate(pose, twists.rack);
  if (side == Side::right) r.rack = {-r.rack.camber, -r.rack.toe};  // the mirror image's rack runs the other way
  return r;
}

std::vector<PointFault> IndependentAxle::check() const {
  std::vector<PointFault> all;
  const auto add = [&](const std::string& side, const std::vector<PointFault>& faults) {
    for (const PointFault& f : faults) all.push_back({f.kind, side + f.point});
  };
  add("left.", suspension::check(fitted_.left));
  if (fitted_.right) add("right.", suspension::check(*fitted_.right, true));
  return all;
}

std::vector<Hardpoint> IndependentAxle::points() const {
  std::vector<Hardpoint> all;
  const auto add = [&](const std::string& side, const WishbonePoints<double>& points) {
    each_point(points, [&](WishbonePoint name, const Vector3<double>& at) {
      all.push_back({side + std::string(key(name)), at});
    });
  };
  add("left.", fitted_.left);
  add("right.", fitted_.right ? *fitted_.right : mirrored(fitted_.left));
  return all;
}

std::unique_ptr<const AxleMechanism> IndependentAxle::with_points(const std::vector<Hardpoint>& points) const {
  IndependentPoints moved = fitted_;
  if (!moved.right) moved.right = mirrored(moved.left);
  std::size_t next = 0;
  const auto put = [&](WishbonePoint, Vector3<double>& at) { at = points.at(next++).at; };
  each_point(moved.left, put);
  each_point(*moved.right, put);
  return std::make_unique<IndependentAxle>(moved);
}

}  // namespace trammel::suspension
