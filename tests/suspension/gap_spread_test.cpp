// The gap's uncertainty by the linkage's points: against samples drawn over and over.
#include "suspension/clearance/gap_spread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "suspension/clearance/axle_places.h"
#include "suspension/corners.h"
#include "suspension/geometry/independent_axle.h"

namespace trammel::suspension {
namespace {

Length m(double si) { return Length::from_si(si); }

TEST(GapSpread, LinearAgainstMonteCarlo) {
  const IndependentAxle axle({corners::invented(), std::nullopt, m(0.3)});
  const PlacesOf places = [](std::shared_ptr<const AxleMechanism> a) {
    return wheel_places(std::move(a), Side::left, m(0.04), {}, {});
  };
  const TyreShape tyre{m(0.305), m(0.215), m(0.03), m(0.003)};
  const std::vector<BodyFeature> body{{{Solid::point({0.30, 0.33, 0.36})}, {}, {}},
                                      {{Solid::edge({-0.28, 0.36, 0.5}, {-0.05, 0.40, 0.70})}, {}, {}},
                                      {{Solid::box({0.34, 0.2, 0.2}, {0.6, 0.3, 0.5})}, {}, {}}};
  std::vector<Length> u(axle.points().size(), m(0.002));
  WheelStation at;
  at.rise = m(0.03);
  at.steer = -0.7;
  std::mt19937 random(3);
  std::normal_distribution<double> draw(0, 0.002);
  constexpr int samples = 4000;
  std::vector<double> sum(body.size(), 0), squares(body.size(), 0);
  for (int n = 0; n < samples; ++n) {
    auto points = axle.points();
    for (Hardpoint& p : points) p.at += Vector3<double>{draw(random), draw(random), draw(random)};
    const WheelPlaces moved = places(axle.with_points(points));
    for (std::size_t k = 0; k < body.size(); ++k) {
      const auto gap = gap_at(moved, at, tyre, body[k]);
      ASSERT_TRUE(gap);
      sum[k] += gap->si(), squares[k] += gap->si() * gap->si();
    }
  }
  double worst = 0;
  for (std::size_t k = 0; k < body.size(); ++k) {
    const double mean = sum[k] / samples, sd = std::sqrt(squares[k] / samples - mean * mean);
    const double linear = gap_spread(axle, Side::left, places, at, tyre, body[k], u).si();
    worst = std::max(worst, std::abs(linear / sd - 1));
  }
  std::cout << "worst spread of a gap against " << samples << " samples at 2 mm: " << 100 * worst << " %\n";
  EXPECT_LT(worst, 0.05);
}

}  // namespace
}  // namespace trammel::suspension
