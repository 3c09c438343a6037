#include "suspension/clearance/wheel_places.h"

#include <cmath>

namespace trammel::suspension {
namespace {

double spread(double low, double high, int i, int n) {
  return n < 2 ? 0.5 * (low + high) : low + (high - low) * i / (n - 1);
}

}  // namespace

Length PoseGrid::rise(int i) const { return Length::from_si(spread(lowest.si(), highest.si(), i, rises)); }
double PoseGrid::steer(int j) const { return spread(right_lock, left_lock, j, steers); }
Angle PoseGrid::roll_of(int k) const { return Angle::from_si(spread(-roll.si(), roll.si(), k, rolls)); }

Stations stations(const WheelPlaces& places, const PoseGrid& grid) {
  Stations s{grid, {}, 0};
  s.at.reserve(static_cast<std::size_t>(grid.size()));
  for (int i = 0; i < grid.rises; ++i)
    for (int j = 0; j < grid.steers; ++j)
      for (int k = 0; k < grid.rolls; ++k) {
        s.at.push_back(places(grid.rise(i), grid.steer(j), grid.roll_of(k)));
        if (!s.at.back()) ++s.unreachable;
      }
  return s;
}

Angle steer_angle(const TyrePlace& place, Side side) {
  const Vector3<double> out = side == Side::left ? place.spin_axis : -place.spin_axis;
  return Angle::from_si(std::atan2(-out.x, out.y));
}

WheelPlaces mirrored(WheelPlaces places) {
  return [places = std::move(places)](Length rise, double steer, Angle roll) -> std::optional<WheelStation> {
    auto s = places(rise, -steer, -roll);
    if (!s) return s;
    s->steer = steer;
    s->roll = roll;
    s->tyre = {mirrored(s->tyre.hub_centre), mirrored(s->tyre.spin_axis)};
    s->carrier = mirrored(s->carrier);
    s->knuckle = mirrored(s->knuckle);
    return s;
  };
}

}  // namespace trammel::suspension
