#include "suspension/geometry/axle_turn.h"

#include <cmath>

namespace trammel::suspension {
namespace {

// Turn in side view from one direction to another, nose up positive: forward (+x) towards up (+z).
double turn(const Vector3<double>& from, const Vector3<double>& to) {
  return std::atan2(from.x * to.z - from.z * to.x, from.x * to.x + from.z * to.z);
}

}  // namespace

std::optional<Angle> axle_turn(const LiveAxlePoints& before, const LiveAxlePoints& after) {
  if (before.location != after.location || before.links.size() != after.links.size()) return std::nullopt;
  if (before.location == AxleLocation::leaf_springs) return after.turned - before.turned;
  double sum = 0.0, weight = 0.0;
  if (before.location == AxleLocation::two_trailing_arms_and_track_bar) {
    for (std::size_t i = 0; i < before.links.size(); ++i) {
      sum += turn(before.links[i].axle - before.links[i].chassis, after.links[i].axle - after.links[i].chassis);
      weight += 1.0;
    }
  } else {
    for (std::size_t i = 0; i <= before.links.size(); ++i) {
      const Link& a = i < before.links.size() ? before.links[i] : before.track_bar;
      const Link& b = i < after.links.size() ? after.links[i] : after.track_bar;
      const Vector3<double> was = a.axle - before.axle_centre, is = b.axle - after.axle_centre;
      const double r2 = was.x * was.x + was.z * was.z;
      if (r2 < 0.02 * 0.02) continue;
      sum += r2 * turn(was, is);
      weight += r2;
    }
  }
  if (!(weight > 0.0)) return std::nullopt;
  return Angle::from_si(sum / weight);
}

}  // namespace trammel::suspension
