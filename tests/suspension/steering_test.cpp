// Ackermann and the turning circle.
#include <gtest/gtest.h>

#include <iostream>

#include "suspension/corners.h"
#include "suspension/geometry/steering.h"
#include "suspension/geometry/travel.h"

namespace trammel::suspension {
namespace {

// Row ACK-1: the formula as published in several pages and defined in ISO 8855 7.1.9, numbers derived.
TEST(Steering, Ackermann) {
  double worst = 0;
  for (const auto& [inner, outer] : {std::pair{10.0, 9.13810}, {20.0, 16.89253}, {30.0, 23.70517}})
    worst = std::max(
        worst,
        std::abs(
            ackermann_outer(inner * units::degree, 0.90 * units::metre, 1.65 * units::metre).in(units::degree)-outer));
  std::cout << "worst Ackermann angle " << worst << " deg (rows printed to 1e-5 deg)\n";
  EXPECT_LE(worst, 1e-5);
  EXPECT_EQ(ackermann_outer(Angle{}, 0.9 * units::metre, 1.65 * units::metre).si(), 0);
}

TEST(Steering, BothWheelsOfThePose) {
  const IndependentAxle axle({corners::invented(), {}, 300.0 * units::mm});
  TravelRequest request;
  request.steers = {Length::from_si(-0.04), Length{}, Length::from_si(0.04)};
  const std::vector<AxlePose> t = travel(axle, request);
  const Length wheelbase = 1855.0 * units::mm;
  const auto right = steering(t[0], wheelbase), straight = steering(t[1], wheelbase);
  const auto left = steering(t[2], wheelbase);
  ASSERT_TRUE(right && straight && left);
  // A rack ahead of the axle moved to the left steers both wheels to the left.
  EXPECT_GT(left->left.si(), 0.2);
  EXPECT_GT(left->right.si(), 0.2);
  EXPECT_NEAR(left->left.si(), -right->right.si(), 1e-14);
  EXPECT_NEAR(left->ackermann_error.si(), right->ackermann_error.si(), 1e-14);
  EXPECT_FALSE(straight->turning_circle.has_value());
  ASSERT_TRUE(left->turning_circle.has_value());
  EXPECT_NEAR(left->turning_circle->si(), right->turning_circle->si(), 1e-12);
  EXPECT_GT(left->turning_circle->si(), 6);
  EXPECT_LT(left->turning_circle->si(), 14);
  // The steering axes are the knuckle's: their track stays near twice the lower ball joints'.
  EXPECT_NEAR(straight->kingpin_track.si(), 2 * (0.461344 - 0.071162), 1e-4);
}

}  // namespace
}  // namespace trammel::suspension
