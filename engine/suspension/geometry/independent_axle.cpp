#include "suspension/geometry/independent_axle.h"

namespace trammel::suspension {
namespace {

WheelAnglesRate angles_rate(const CornerPose<double>& pose, const Twist<double>& twist) {
  const WheelGeometry<double> g = wheel_geometry(pose.wheel(), twist, Length{});
  return {g.camber_rate, g.toe_rate};
}

SidePose read(const CornerPose<double>& pose, const CornerPoints<double>& points, Side side, Length radius) {
  SidePose s;
  s.outcome = pose.outcome;
  if (side == Side::right && s.outcome.rack_limit) s.outcome.rack_limit = -*s.outcome.rack_limit;
  if (!pose.outcome.ok()) return s;
  s.wheel = pose.wheel();
  s.geometry = wheel_geometry(s.wheel, pose.per_rise, radius, pose.spring_per_rise);
  s.arm_angle = pose.arm_angle();
  if (pose.spring_length > 0.0) s.spring_length = Length::from_si(pose.spring_length);
  if (pose.damper_length > 0.0) s.damper_length = Length::from_si(pose.damper_length);
  if (points.steered && points.guide == Guide::the_arm)
    s.points = {{key(CornerPoint::kingpin_bottom), pose.lower_ball_joint},
                {key(CornerPoint::kingpin_top), pose.upper_ball_joint}};
  else if (points.steered)
    s.points = {{key(CornerPoint::lower_ball_joint), pose.lower_ball_joint}};
  if (points.guide == Guide::upper_arm) s.points.push_back({key(CornerPoint::upper_ball_joint), pose.upper_ball_joint});
  if (points.steered) s.points.push_back({key(CornerPoint::knuckle_end), pose.knuckle_end});
  if (points.steered) s.rod_inner_end = pose.rack_end;
  s.points.push_back({key(CornerPoint::hub_centre), pose.hub_centre});
  if (side == Side::left) return s;
  for (MovedPoint& p : s.points) p.at = mirrored(p.at);
  if (s.rod_inner_end) s.rod_inner_end = mirrored(*s.rod_inner_end);
  for (Vector3<double>* p : {&s.wheel.hub_centre, &s.wheel.spin_axis, &s.wheel.steering_foot, &s.wheel.steering_axis,
                             &s.geometry.contact, &s.geometry.contact_rate})
    *p = mirrored(*p);
  return s;
}

}  // namespace

IndependentAxle::IndependentAxle(const IndependentPoints& fitted)
    : fitted_(fitted), left_(fitted.left), right_(fitted.right ? mirrored(*fitted.right) : fitted.left) {
  const auto half = [&](const CornerLinkage<double>& corner) {
    const CornerPose<double> pose = corner.pose({});
    return pose.outcome.ok() ? wheel_geometry(pose.wheel(), pose.per_rise, fitted.loaded_radius).half_track : Length{};
  };
  left_half_ = half(left_);
  right_half_ = half(right_);
}

CornerPose<double> IndependentAxle::corner_pose(Side side, const AxleCoordinates& at) const {
  const bool right = side == Side::right;
  const CornerLinkage<double>& corner = right ? right_ : left_;
  const Length rise = right ? at.rise - tan(at.roll) * right_half_ : at.rise + tan(at.roll) * left_half_;
  const Length steer = steers_ ? at.steer : Length{};
  Length rack = right ? -steer : steer;
  Vector3<double> drift{};
  if (fitted_.relay && corner.fitted().steered) {
    const auto move = relay_move(*fitted_.relay, left_.fitted().rack_end, mirrored(right_.fitted().rack_end), steer);
    if (!move) {
      CornerPose<double> none;
      none.outcome.status = PoseStatus::relay_cannot_reach;
      return none;
    }
    drift = right ? mirrored(move->right) : move->left;
    rack = {};
  }
  const LengthChanges<double>& change = right ? at.changes.right : at.changes.left;
  if (at.held == Held::wheel) return corner.pose(rise, rack, change, drift);
  // With the arm held its angle is the one it has without the changes.
  const CornerPose<double> plain = corner.pose(rise, rack, {}, drift);
  return plain.outcome.ok() ? corner.pose_at_arm(plain.arm_angle(), rack, change, drift) : plain;
}

SidePose IndependentAxle::side_pose(Side side, const AxleCoordinates& at) const {
  return read(corner_pose(side, at), (side == Side::right ? right_ : left_).fitted(), side, fitted_.loaded_radius);
}
AxlePose IndependentAxle::pose(const AxleCoordinates& at) const {
  return {at.rise, at.steer, at.roll, side_pose(Side::left, at), side_pose(Side::right, at), std::nullopt};
}

AdjusterRates IndependentAxle::adjuster_rates(Side side, const AxleCoordinates& at) const {
  const CornerPose<double> pose = corner_pose(side, at);
  AdjusterRates r;
  r.outcome = pose.outcome;
  if (!pose.outcome.ok()) return r;
  const CornerTwists<double> twists = (side == Side::right ? right_ : left_).twists(pose, at.held);
  const WheelGeometry<double> g = wheel_geometry(pose.wheel(), pose.per_rise, Length{});
  r.camber = g.camber;
  r.toe = g.toe;
  r.rise = {g.camber_rate, g.toe_rate};
  r.upper_arm = angles_rate(pose, twists.upper_arm);
  r.lower_arm = angles_rate(pose, twists.lower_arm);
  r.tie_rod = angles_rate(pose, twists.tie_rod);
  r.rack = angles_rate(pose, twists.rack);
  r.strut_top = angles_rate(pose, twists.strut_top);
  if (side == Side::right) r.rack = {-r.rack.camber, -r.rack.toe};  // the mirror image's rack runs the other way
  if (fitted_.relay) r.rack = AxleMechanism::adjuster_rates(side, at).rack;
  return r;
}

std::vector<PointFault> IndependentAxle::check() const {
  std::vector<PointFault> all;
  const auto add = [&](const std::string& side, const std::vector<PointFault>& faults) {
    for (const PointFault& f : faults) all.push_back({f.kind, side + f.point});
  };
  add("left.", suspension::check(fitted_.left));
  if (fitted_.relay && all.empty() && !relay_move(*fitted_.relay, {}, {}, {}))
    all.push_back({PointFaultKind::relay_in_line, "relay.pitman_end"});
  if (fitted_.right) add("right.", suspension::check(*fitted_.right, true));
  return all;
}

std::vector<Hardpoint> IndependentAxle::points() const {
  std::vector<Hardpoint> all;
  const auto add = [&](const std::string& side, const CornerPoints<double>& points) {
    each_point(points, [&](CornerPoint name, const Vector3<double>& at) {
      all.push_back({side + std::string(key(name)), at});
    });
  };
  add("left.", fitted_.left);
  add("right.", fitted_.right ? *fitted_.right : mirrored(fitted_.left));
  if (fitted_.relay) {
    const RelayPoints& r = *fitted_.relay;
    all.push_back({"relay.pitman_pivot", r.pitman_pivot});
    all.push_back({"relay.pitman_end", r.pitman_end});
    all.push_back({"relay.idler_pivot", r.idler_pivot});
    all.push_back({"relay.idler_end", r.idler_end});
  }
  return all;
}

std::unique_ptr<const AxleMechanism> IndependentAxle::with_points(const std::vector<Hardpoint>& points) const {
  IndependentPoints moved = fitted_;
  if (!moved.right) moved.right = mirrored(moved.left);
  std::size_t next = 0;
  const auto put = [&](CornerPoint, Vector3<double>& at) { at = points.at(next++).at; };
  each_point(moved.left, put);
  each_point(*moved.right, put);
  if (moved.relay)
    for (Vector3<double>* at :
         {&moved.relay->pitman_pivot, &moved.relay->pitman_end, &moved.relay->idler_pivot, &moved.relay->idler_end})
      *at = points.at(next++).at;
  auto axle = std::make_unique<IndependentAxle>(moved);
  if (!steers_) axle->hold_steer();
  return axle;
}

}  // namespace trammel::suspension
