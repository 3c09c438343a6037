// The way a sleeve turns, against a thread drawn as a helix and turned by a general-purpose library's rotation.
#include "setup/thread_hand.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

namespace trammel::setup {
namespace {

constexpr double pitch = 1.5;

// How far the groove of a turned nut, seen at one fixed place of its wall, has moved along +z after it is turned by
// `angle` about +z: what a screw held from turning moves by. Right-hand: the helix climbs along +z as it goes round
// by the right-hand rule (ISO 5408:2009, from memory).
double carried(double angle, bool right_hand) {
  const double rise = (right_hand ? 1.0 : -1.0) * pitch / (2.0 * std::numbers::pi);
  const auto groove = [&](double t) { return Eigen::Vector3d(std::cos(t), std::sin(t), rise * t); };
  // The point of the turned groove that comes to lie on the +x side: search by bisection on its angle.
  const Eigen::AngleAxisd turned(angle, Eigen::Vector3d::UnitZ());
  double low = -angle - 0.5, high = -angle + 0.5;
  for (int i = 0; i < 80; ++i) {
    const double mid = 0.5 * (low + high);
    ((turned * groove(mid)).y() < 0.0 ? low : high) = mid;
  }
  return (turned * groove(low)).z();
}

TEST(ThreadHand, AgainstAHelix) {
  // A left upper arm: axis outward along +y; look at it from ahead. Both-hand sleeve, right-hand thread outside.
  for (const double side : {1.0, -1.0})
    for (const bool right_outside : {true, false}) {
      const Eigen::Vector3d axis(0.0, side, 0.0), eye(1.0, 0.0, 0.0);
      const double angle = 0.3;  // about +axis; outer screw moves along +axis, the inner one likewise
      const double outer = carried(angle, right_outside), inner = carried(angle, !right_outside);
      const double longer = outer - inner;
      EXPECT_NEAR(std::abs(longer), 2.0 * pitch * angle / (2.0 * std::numbers::pi),
                  1e-9);  // TURNBUCKLE: two pitches a turn
      const Eigen::Vector3d turning = (longer > 0.0 ? 1.0 : -1.0) * axis;
      const bool up = (Eigen::AngleAxisd(0.1, turning) * eye).z() > 0.0;
      const auto told = face_when_longer({0.0, side, 0.0}, right_outside ? RightHandAt::far_end : RightHandAt::near_end,
                                         {1.0, 0.0, 0.0});
      ASSERT_TRUE(told.has_value());
      EXPECT_EQ(*told == FaceMoves::up, up);
    }
}

// Law 1, and what has no up.
TEST(ThreadHand, OtherHandOtherWay) {
  const Vector3<double> across{0.1, 0.98, -0.1}, ahead{1.0, 0.0, 0.0}, behind{-1.0, 0.0, 0.0};
  const auto first = face_when_longer(across, RightHandAt::far_end, ahead);
  EXPECT_NE(first, face_when_longer(across, RightHandAt::near_end, ahead));
  EXPECT_NE(first, face_when_longer(across, RightHandAt::far_end, behind));
  EXPECT_EQ(first, face_when_longer(across, RightHandAt::near_end, behind));
  EXPECT_FALSE(face_when_longer({0.0, 0.0, 1.0}, RightHandAt::far_end, ahead).has_value());
  EXPECT_FALSE(face_when_longer({1.0, 0.0, 0.0}, RightHandAt::far_end, ahead).has_value());
}

}  // namespace
}  // namespace trammel::setup
