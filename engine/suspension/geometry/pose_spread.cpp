#include "suspension/geometry/pose_spread.h"

#include <cmath>

namespace trammel::suspension {
namespace {

// Every number of a wheel's geometry in its place.
template <class G, class F>
void each_number(G& a, const WheelGeometry<double>& b, const WheelGeometry<double>& c, F f) {
  using W = WheelGeometry<double>;
  const auto put = [&](auto W::*member) { f(a.*member, b.*member, c.*member); };
  put(&W::camber), put(&W::toe), put(&W::caster), put(&W::steering_axis_inclination);
  put(&W::steering_axis_offset_at_ground), put(&W::caster_trail), put(&W::half_track), put(&W::roll_centre_height);
  put(&W::camber_rate), put(&W::toe_rate), put(&W::motion_ratio);
}
double si(double x) { return x; }
template <class D>
double si(Quantity<D, double> x) {
  return x.si();
}

}  // namespace

PoseSpread pose_spread(const AxleMechanism& axle, Side side, const AxleCoordinates& at, const std::vector<Length>& u) {
  PoseSpread result;
  result.outcome = axle.side_pose(side, at).outcome;
  if (!result.outcome.ok()) return result;
  std::vector<Hardpoint> moved = axle.points();
  const char* other_side = side == Side::left ? "right." : "left.";
  for (std::size_t i = 0; i < moved.size() && i < u.size(); ++i) {
    const double step = 0.1 * u[i].si();
    // On one body the points of both sides lead each wheel.
    const bool of_the_other = !axle.one_body() && moved[i].name.starts_with(other_side);
    if (of_the_other || !(step > 0.0)) continue;
    for (double Vector3<double>::*coordinate : {&Vector3<double>::x, &Vector3<double>::y, &Vector3<double>::z}) {
      const double was = moved[i].at.*coordinate;
      moved[i].at.*coordinate = was + step;
      const SidePose above = axle.with_points(moved)->side_pose(side, at);
      moved[i].at.*coordinate = was - step;
      const SidePose below = axle.with_points(moved)->side_pose(side, at);
      moved[i].at.*coordinate = was;
      if (!above.outcome.ok() || !below.outcome.ok()) continue;
      // Squares are gathered first; their roots are taken at the end.
      each_number(result.u, above.geometry, below.geometry, [](auto& sum, const auto& a, const auto& b) {
        const double change = 5.0 * (si(a) - si(b));
        using Q = std::decay_t<decltype(sum)>;
        if constexpr (std::is_same_v<Q, double>)
          sum += change * change;
        else
          sum += Q::from_si(change * change);
      });
    }
  }
  const WheelGeometry<double> none;
  each_number(result.u, none, none, [](auto& sum, const auto&, const auto&) {
    using Q = std::decay_t<decltype(sum)>;
    if constexpr (std::is_same_v<Q, double>)
      sum = std::sqrt(sum);
    else
      sum = Q::from_si(std::sqrt(sum.si()));
  });
  return result;
}

}  // namespace trammel::suspension
