#include "suspension/geometry/sensitivity.h"

#include <algorithm>
#include <cmath>

#include "suspension/geometry/wheel_geometry.h"

namespace trammel::suspension {
namespace {

WheelAnglesRate angles_rate(const WishbonePose<double>& pose, const Twist<double>& twist) {
  const WheelGeometry<double> g = wheel_geometry(pose.wheel(), twist, Length{});
  return {g.camber_rate, g.toe_rate};
}

}  // namespace

AdjusterRates adjuster_rates(const WishbonePoints<double>& points, Side side, Length rise, Length rack,
                             const LengthChanges<double>& change, Held held) {
  const bool right = side == Side::right;
  const DoubleWishbone<double> linkage(right ? mirrored(points) : points);
  // With the arm held its angle is the one it has without the changes, as in travel().
  const Length image_rack = right ? -rack : rack;
  WishbonePose<double> pose = linkage.pose(rise, image_rack, held == Held::wheel ? change : LengthChanges<double>{});
  if (held == Held::arm && pose.outcome.ok()) pose = linkage.pose_at_arm(pose.arm_angle(), image_rack, change);
  AdjusterRates r;
  r.outcome = pose.outcome;
  if (!pose.outcome.ok()) return r;

  const WishboneTwists<double> twists = linkage.twists(pose, held);
  const WheelGeometry<double> g = wheel_geometry(pose.wheel(), pose.per_rise, Length{});
  r.camber = g.camber;
  r.toe = g.toe;
  r.rise = {g.camber_rate, g.toe_rate};
  r.upper_arm = angles_rate(pose, twists.upper_arm);
  r.lower_arm = angles_rate(pose, twists.lower_arm);
  r.tie_rod = angles_rate(pose, twists.tie_rod);
  r.rack = angles_rate(pose, twists.rack);
  if (right) r.rack = {-r.rack.camber, -r.rack.toe};  // the mirror image's rack runs the other way
  return r;
}

BumpSteer bump_steer(const WishbonePoints<double>& points, Side side, Length lowest, Length highest, Length rack,
                     const LengthChanges<double>& change) {
  const bool right = side == Side::right;
  const DoubleWishbone<double> linkage(right ? mirrored(points) : points);
  const Length image_rack = right ? -rack : rack;
  const auto at = [&](Length rise, BumpSteer& b) {
    const WishbonePose<double> pose = linkage.pose(rise, image_rack, change);
    if (!pose.outcome.ok() && b.outcome.ok()) b.outcome = pose.outcome;
    return pose;
  };
  BumpSteer b;
  const WishbonePose<double> fit = at(Length{}, b);
  if (!fit.outcome.ok()) return b;
  b.at_fit = wheel_geometry(fit.wheel(), fit.per_rise, Length{}).toe_rate;

  constexpr int parts = 48;
  Angle least{}, most{};
  bool first = true;
  for (int i = 0; i <= parts; ++i) {
    const Length rise = lowest + (double(i) / parts) * (highest - lowest);
    const WishbonePose<double> pose = at(rise, b);
    if (!pose.outcome.ok()) continue;
    const WheelGeometry<double> g = wheel_geometry(pose.wheel(), pose.per_rise, Length{});
    if (first || abs(g.toe_rate) > abs(b.worst)) {
      b.worst = g.toe_rate;
      b.worst_at = rise;
    }
    least = first ? g.toe : std::min(least, g.toe);
    most = first ? g.toe : std::max(most, g.toe);
    first = false;
  }
  b.toe_change = most - least;
  return b;
}

}  // namespace trammel::suspension
