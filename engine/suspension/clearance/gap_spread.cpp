#include "suspension/clearance/gap_spread.h"

#include <cmath>
#include <limits>

namespace trammel::suspension {
namespace {

bool leads_the_wheel(const std::string& point, Side side) {
  for (const char* part : {".leaf.", ".spring.", ".damper."})
    if (point.find(part) != point.npos) return false;
  return !point.starts_with(side == Side::left ? "right." : "left.");
}

}  // namespace

std::optional<Length> gap_at(const WheelPlaces& places, const WheelStation& at, const TyreShape& tyre,
                             const BodyFeature& feature) {
  const auto station = places(at.rise, at.steer, at.roll);
  if (!station) return std::nullopt;
  const PlacedTyre placed(tyre, station->tyre);
  double least = std::numeric_limits<double>::infinity();
  each_near_piece(feature, *station, placed, least, [&](const Solid& piece, double) {
    least = std::min(least, placed.gap(piece, Length::from_si(least)).gap.si());
  });
  return Length::from_si(least);
}

Length gap_spread(const AxleMechanism& axle, Side side, const PlacesOf& places, const WheelStation& at,
                  const TyreShape& tyre, const BodyFeature& feature, const std::vector<Length>& u) {
  auto points = axle.points();
  double sum = 0;
  for (std::size_t i = 0; i < points.size() && i < u.size(); ++i) {
    const double step = 0.1 * u[i].si();
    if (!(step > 0) || !leads_the_wheel(points[i].name, side)) continue;
    for (double Vector3<double>::*coordinate : {&Vector3<double>::x, &Vector3<double>::y, &Vector3<double>::z}) {
      const double was = points[i].at.*coordinate;
      const auto gap = [&](double by) {
        points[i].at.*coordinate = was + by;
        const auto found = gap_at(places(axle.with_points(points)), at, tyre, feature);
        points[i].at.*coordinate = was;
        return found;
      };
      const auto above = gap(step), below = gap(-step);
      if (above && below) sum += std::pow(5.0 * (*above - *below).si(), 2);
    }
  }
  return Length::from_si(std::sqrt(sum));
}

}  // namespace trammel::suspension
