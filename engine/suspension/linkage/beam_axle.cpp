#include "suspension/linkage/beam_axle.h"

#include <cmath>
#include <numbers>

#include "measure/dual.h"
#include "suspension/linkage/circle.h"
#include "suspension/linkage/scalar.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
using D = Dual<double, 3>;  // by rise, roll and shift
using VD = Vector3<D>;

V value(const VD& v) { return {v.x.value, v.y.value, v.z.value}; }
V slope(const VD& v, int k) { return {v.x.slope[k], v.y.slope[k], v.z.slope[k]}; }
VD constant(const V& v) { return {D(v.x), D(v.y), D(v.z)}; }

// A ball on a knuckle, about its king pin as fitted.
struct Orbit {
  V foot, out, along;  // foot of the ball on the king pin; unit vectors outward to it and up the pin
  double radius = 0;
};
Orbit orbit(const KnucklePoints& k, const V& ball) {
  Orbit o;
  o.along = unit(k.king_pin_top - k.king_pin_bottom);
  o.foot = k.king_pin_bottom + dot(ball - k.king_pin_bottom, o.along) * o.along;
  const V out = ball - o.foot;
  o.radius = norm(out);
  o.out = out / o.radius;
  return o;
}
// On which side of the line from king pin to the rod's other end the ball lies; its size is the sine between them.
double branch_of(const Orbit& o, const V& other_end) {
  const V w = other_end - o.foot, across = w - dot(w, o.along) * o.along;
  return dot(cross(o.along, unit(across)), o.out);
}

// The knuckle as it is turned now: where its own directions point.
struct Knuckle {
  V foot_fitted, along_fitted, out_fitted, side_fitted;
  VD foot, along, out, side;
  VD direction(const V& fitted) const {
    return D(dot(fitted, along_fitted)) * along + D(dot(fitted, out_fitted)) * out + D(dot(fitted, side_fitted)) * side;
  }
  VD at(const V& fitted) const { return foot + direction(fitted - foot_fitted); }
};

struct Beam {
  V centre;
  AxlePlace<D> q;
  AxleAxes<D> axes;
  Beam(const V& c, const AxlePlace<D>& place) : centre(c), q(place), axes(place) {}
  VD at(const V& fitted) const { return moved(fitted, centre, q, axes); }
};

// Turns a knuckle until its ball is `length` from `end`. Nothing where it cannot.
std::optional<Knuckle> turn(const Beam& beam, const Orbit& o, const VD& end, double length, double branch) {
  Knuckle k;
  k.foot = beam.at(o.foot);
  k.along = beam.axes.turned(o.along);
  const Meeting<D> ball = meet(Circle<D>{k.foot, k.along, D(o.radius)}, end, D(length), branch > 0 ? 1.0 : -1.0);
  if (!(ball.reach.value > 1e-9)) return std::nullopt;
  k.out = (ball.point - k.foot) / D(o.radius);
  k.side = cross(k.along, k.out);
  k.foot_fitted = o.foot;
  k.along_fitted = o.along;
  k.out_fitted = o.out;
  k.side_fitted = cross(o.along, o.out);
  return k;
}

// The wheel's motion by one of the three coordinates.
Twist<double> twist(const Knuckle& k, const VD& hub, int by) {
  V turned{};
  for (const VD* e : {&k.along, &k.out, &k.side}) turned += 0.5 * cross(value(*e), slope(*e, by));
  return {turned, slope(hub, by)};
}
// An angular velocity is mirrored with its sign turned about.
Twist<double> mirrored_twist(const Twist<double>& t) { return {{-t.turn.x, t.turn.y, -t.turn.z}, mirrored(t.shift)}; }

BeamSide side(const Knuckle& k, const KnucklePoints& p, Side which) {
  const bool right = which == Side::right;
  const double camber = p.camber.si(), toe = p.toe.si();
  V spin{std::sin(toe) * std::cos(camber), std::cos(toe) * std::cos(camber), -std::sin(camber)};
  if (right) spin = mirrored(spin);
  const VD hub = k.at(p.hub_centre);
  BeamSide s;
  s.king_pin_top = value(k.at(p.king_pin_top));
  s.king_pin_bottom = value(k.at(p.king_pin_bottom));
  s.tie_rod_end = value(k.at(p.tie_rod_end));
  s.hub_centre = value(hub);
  s.wheel = {s.hub_centre, value(k.direction(spin)), s.king_pin_bottom, value(k.along)};
  Twist<double>* rates[] = {&s.per_rise, &s.per_roll, &s.per_shift};
  for (int by = 0; by < 3; ++by) *rates[by] = right ? mirrored_twist(twist(k, hub, by)) : twist(k, hub, by);
  if (right)
    for (V* v : {&s.wheel.hub_centre, &s.wheel.spin_axis, &s.wheel.steering_foot, &s.wheel.steering_axis})
      *v = mirrored(*v);
  return s;
}

// The drag link's frame end, moved by the shift.
VD frame_end(const DragLink& link, Length shift, Angle& turned) {
  const D s = D::variable(shift.si(), 2);
  const V span = link.knuckle_end - link.frame_end;
  const bool across = std::abs(span.y) >= std::abs(span.x);
  const V straight = across ? V{0, 1, 0} : V{1, 0, 0};
  if (!link.pitman_arm) return constant(link.frame_end) + s * constant(straight);
  const V shaft = unit(link.pitman_arm->shaft), arm = link.frame_end - link.pitman_arm->pivot;
  const V along = dot(arm, shaft) * shaft, out = arm - along, way = cross(shaft, out);
  const double sign = dot(way, straight) < 0 ? -1.0 : 1.0;
  const D angle = s * (sign / norm(out));
  turned = Angle::from_si(angle.value);
  return constant(link.pitman_arm->pivot + along) + cos(angle) * constant(out) + sin(angle) * constant(way);
}

// Both knuckles on a beam that stands at `axle`. Says which rod does not reach.
PoseStatus set_knuckles(const BeamAxlePoints& p, const LiveAxlePose& axle, Length rise, Angle roll, Length shift,
                        const BeamChanges& changes, BeamPose& pose) {
  const AxlePlace<double> at = place(axle, rise, roll);
  const AxleRates &z = axle.per_rise, &r = axle.per_roll;
  const Beam beam(p.beam.axle_centre,
                  {D(at[0], {z.long_shift, r.long_shift, 0}), D(at[1], {z.lateral_shift, r.lateral_shift, 0}),
                   D(at[2], {z.steer, r.steer, 0}), D(at[3], {-z.pinion_nose_up, -r.pinion_nose_up, 0}),
                   D(at[4], {1, 0, 0}), D(at[5], {0, 1, 0})});

  // The knuckle that the drag link turns.
  const bool on_left = p.drag_link.on == Side::left;
  const KnucklePoints &first = on_left ? p.left : p.right, &second = on_left ? p.right : p.left;
  const VD end = frame_end(p.drag_link, shift, pose.pitman_turn);
  const Orbit ball = orbit(first, p.drag_link.knuckle_end);
  const double link = norm(p.drag_link.knuckle_end - p.drag_link.frame_end) + changes.drag_link.si();
  const auto driven = turn(beam, ball, end, link, branch_of(ball, p.drag_link.frame_end));
  if (!driven || !(link > 0)) return PoseStatus::drag_link_cannot_reach;

  // The other one, by the tie rod.
  const Orbit other = orbit(second, second.tie_rod_end);
  const double rod = norm(first.tie_rod_end - second.tie_rod_end) + changes.tie_rod.si();
  const auto follower = turn(beam, other, driven->at(first.tie_rod_end), rod, branch_of(other, first.tie_rod_end));
  if (!follower || !(rod > 0)) return PoseStatus::tie_rod_cannot_reach;

  pose.axle = axle;
  pose.frame_end = value(end);
  pose.drag_link_ball = value(driven->at(p.drag_link.knuckle_end));
  pose.left = side(on_left ? *driven : *follower, p.left, Side::left);
  pose.right = side(on_left ? *follower : *driven, p.right, Side::right);
  return PoseStatus::ok;
}

}  // namespace

std::vector<PointFault> check(const BeamAxlePoints& p) {
  std::vector<PointFault> faults = check(p.beam);
  const auto finite = [](const V& a) { return std::isfinite(a.x) && std::isfinite(a.y) && std::isfinite(a.z); };
  using enum PointFaultKind;
  for (const Side of : {Side::left, Side::right}) {
    const KnucklePoints& k = of == Side::left ? p.left : p.right;
    const double out = of == Side::left ? 1.0 : -1.0;
    const std::string side = of == Side::left ? "left." : "right.";
    const V pin = k.king_pin_top - k.king_pin_bottom;
    bool sound = true;
    for (const auto& [point, at] : {std::pair{"kingpin.top", k.king_pin_top},
                                    {"kingpin.bottom", k.king_pin_bottom},
                                    {"tie_rod.end", k.tie_rod_end},
                                    {"hub.centre", k.hub_centre}}) {
      if (finite(at) && out * at.y > 0) continue;
      faults.push_back({finite(at) ? wrong_side : not_a_number, side + point});
      sound = false;
    }
    if (!sound) continue;
    if (norm(pin) < 1e-3) {
      faults.push_back({zero_length_part, side + "kingpin.top"});
      continue;
    }
    if (!(pin.z > 0)) faults.push_back({upper_below_lower, side + "kingpin.top"});
    if (orbit(k, k.tie_rod_end).radius < 5e-3) faults.push_back({no_steering_arm, side + "tie_rod.end"});
    const double steep = std::numbers::pi / 4;
    if (!(std::abs(k.camber.si()) < steep) || !(std::abs(k.toe.si()) < steep))
      faults.push_back({angle_too_large, side + "hub.centre"});
  }
  const DragLink& link = p.drag_link;
  if (!finite(link.frame_end)) faults.push_back({not_a_number, "drag_link.chassis_end"});
  if (!finite(link.knuckle_end)) faults.push_back({not_a_number, "drag_link.axle_end"});
  if (!faults.empty()) return faults;

  // The rods against their arms.
  const bool on_left = link.on == Side::left;
  const KnucklePoints &first = on_left ? p.left : p.right, &second = on_left ? p.right : p.left;
  const Orbit ball = orbit(first, link.knuckle_end), end = orbit(second, second.tie_rod_end);
  if (norm(link.knuckle_end - link.frame_end) < 1e-3)
    faults.push_back({zero_length_part, "drag_link.axle_end"});
  else if (ball.radius < 5e-3)
    faults.push_back({no_steering_arm, "drag_link.axle_end"});
  else if (std::abs(branch_of(ball, link.frame_end)) < 0.05)
    faults.push_back({drag_link_in_line, "drag_link.axle_end"});
  if (std::abs(branch_of(end, first.tie_rod_end)) < 0.05)
    faults.push_back({tie_rod_in_line, std::string(on_left ? "right." : "left.") + "tie_rod.end"});
  if (link.pitman_arm) {
    const PitmanArm& arm = *link.pitman_arm;
    if (!finite(arm.pivot) || !finite(arm.shaft))
      faults.push_back({not_a_number, "drag_link.pitman_pivot"});
    else if (norm(arm.shaft) < 1e-6 || norm(cross(link.frame_end - arm.pivot, arm.shaft)) < 5e-3 * norm(arm.shaft))
      faults.push_back({zero_length_part, "drag_link.pitman_pivot"});
  }
  return faults;
}

BeamPose beam_pose(const BeamAxlePoints& p, Length rise, Angle roll, Length shift, const BeamChanges& changes) {
  BeamPose pose;
  pose.outcome.status = PoseStatus::bad_geometry;
  if (!check(p).empty()) return pose;
  return beam_pose(p, live_axle_pose(p.beam, rise, roll), rise, roll, shift, changes);
}

BeamPose beam_pose(const BeamAxlePoints& p, const LiveAxlePose& axle, Length rise, Angle roll, Length shift,
                   const BeamChanges& changes) {
  BeamPose pose;
  pose.outcome = axle.outcome;
  if (!axle.outcome.ok()) return pose;
  pose.outcome.status = set_knuckles(p, axle, rise, roll, shift, changes, pose);
  if (pose.outcome.ok()) return pose;

  // How far towards the shift it gets, where it does without any.
  BeamPose trial;
  if (set_knuckles(p, axle, rise, roll, {}, changes, trial) != PoseStatus::ok) return pose;
  double low = 0, high = 1;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    const bool reached = set_knuckles(p, axle, rise, roll, middle * shift, changes, trial) == PoseStatus::ok;
    (reached ? low : high) = middle;
  }
  pose.outcome.rack_limit = low * shift;
  return pose;
}

}  // namespace trammel::suspension
