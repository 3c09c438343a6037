#include "suspension/geometry/steering.h"

#include <algorithm>
#include <cmath>

namespace trammel::suspension {
namespace {

// Distance of the steering axis from the middle plane where it meets the ground.
double axis_offset(const WheelGeometry<double>& g) {
  const double c = cos(g.toe), s = sin(g.toe);
  return g.half_track.si() - g.steering_axis_offset_at_ground.si() * c - g.caster_trail.si() * s;
}

}  // namespace

Angle ackermann_outer(Angle inner, Length kingpin_track, Length wheelbase) {
  if (inner.si() == 0) return Angle{};
  const double size = std::abs(inner.si());
  const double outer = std::atan2(1.0, 1.0 / std::tan(size) + kingpin_track / wheelbase);
  return Angle::from_si(std::copysign(outer, inner.si()));
}

std::optional<Steering> steering(const AxlePose& pose, Length wheelbase) {
  if (!pose.left.outcome.ok() || !pose.right.outcome.ok()) return std::nullopt;
  const WheelGeometry<double>&l = pose.left.geometry, &r = pose.right.geometry;
  Steering s;
  s.left = -l.toe;
  s.right = r.toe;
  s.kingpin_track = Length::from_si(axis_offset(l) + axis_offset(r));
  const double mean = 0.5 * (s.left.si() + s.right.si());
  if (std::abs(mean) < 1e-9) return s;

  const bool to_left = mean > 0;
  const Angle inner = to_left ? s.left : s.right, outer = to_left ? s.right : s.left;
  const double error = std::abs(outer.si()) - std::abs(ackermann_outer(inner, s.kingpin_track, wheelbase).si());
  s.ackermann_error = Angle::from_si(error);
  const double contact_x = (to_left ? r : l).contact.x;
  if (std::abs(outer.si()) > 1e-6)
    s.turning_circle = Length::from_si(2 * (wheelbase.si() + contact_x) / std::sin(std::abs(outer.si())));
  return s;
}

}  // namespace trammel::suspension
