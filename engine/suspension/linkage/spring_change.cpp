#include "suspension/linkage/spring_change.h"

#include <cmath>

namespace trammel::suspension {
namespace {

using V = Vector3<double>;

// Turned in side view, nose up: x towards z.
V nosed_up(const V& a, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * a.x - s * a.z, a.y, s * a.x + c * a.z};
}

}  // namespace

ChangedAxle change_springs(const LiveAxlePoints& fitted, const std::array<SpringChange, 2>& changes) {
  ChangedAxle out;
  out.axle = fitted;
  out.old_centre = fitted.axle_centre;
  if (fitted.springs.size() != 2 || !(changes[0].any() || changes[1].any())) return out;

  // Each end of the axle, above or below its seat.
  std::array<V, 2> end, was;
  double nose_up = 0;
  for (int i = 0; i < 2; ++i) {
    LeafSpringPoints& spring = out.axle.springs[i];
    const LeafSpring leaf(spring, changes[i].shackle_longer);
    const LeafPose now = leaf.at_fitted_load();
    if (!now.outcome.ok()) {
      out.outcome = now.outcome;
      out.side = i == 0 ? Side::left : Side::right;
      return out;
    }
    const V& c = fitted.axle_centre;
    was[i] = c + ((spring.seat.y - c.y) / fitted.along.y) * fitted.along;
    const V offset = was[i] - spring.seat;
    const V square = leaf.seat_normal();
    const double away = square.x * offset.x + square.z * offset.z < 0 ? -1.0 : 1.0;
    const double turn = now.turn.si(), with_wedge = turn + changes[i].wedge.si();
    end[i] = now.seat + nosed_up(away * changes[i].block.si() * square, turn) + nosed_up(offset, with_wedge);
    nose_up += 0.5 * with_wedge;
    out.axle_down[i] = Length::from_si(was[i].z - end[i].z);
    out.by_shackle[i] = Length::from_si(spring.seat.z - now.seat.z);
    spring.seat = now.seat;
    spring.shackled_eye = now.shackled_eye;
  }

  // The axle's line through both: roll from its slope, yaw from where it points.
  const V line = unit(end[0] - end[1]), line_was = unit(was[0] - was[1]);
  const double pitch = -nose_up, roll = std::asin(line.z / std::cos(pitch)) - std::asin(line_was.z);
  AxlePlace<double> q{0, 0, 0, pitch, 0, roll};
  const V unsteered = AxleAxes(q).turned(fitted.along);
  q[2] = std::atan2(line.y, line.x) - std::atan2(unsteered.y, unsteered.x);
  const double share = (fitted.axle_centre.y - was[1].y) / (was[0].y - was[1].y);
  const V centre = end[1] + share * (end[0] - end[1]);
  q[0] = centre.x - fitted.axle_centre.x;
  q[4] = centre.z - fitted.axle_centre.z;
  out.place = q;
  out.axle.axle_centre = {centre.x, fitted.axle_centre.y, centre.z};
  out.axle.turned = fitted.turned + Angle::from_si(nose_up);
  out.axle.along = AxleAxes(q).turned(fitted.along);
  out.nose_up = Angle::from_si(nose_up);
  out.lean = Angle::from_si(roll);
  out.steer = Angle::from_si(q[2]);
  return out;
}

}  // namespace trammel::suspension
