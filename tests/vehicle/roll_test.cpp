// The roll equilibrium: its laws, and an independent witness that never uses its closed pieces. The witness relaxes
// body and axles under their springs, weights and one-sided tyres (descent on the potential) and pushes the lateral
// acceleration up until no equilibrium holds.
#include <gtest/gtest.h>

#include <array>
#include <iostream>
#include <random>

#include "vehicle/stability.h"

namespace trammel::vehicle {
namespace {

using namespace trammel::units;

RollModel<double> cart(std::mt19937& random, bool tyres) {
  const auto within = [&](double low, double high) { return std::uniform_real_distribution<>(low, high)(random); };
  const auto item = [&](double kilograms, double x, double z, Rides r) {
    return MassItem<double>{"", kilograms * kg, {x * metre, 0.0 * metre, z * metre}, r};
  };
  const std::vector<MassItem<double>> items{
      item(within(350, 800), within(-1.2, -0.7), within(0.55, 0.75), Rides::sprung),
      item(within(30, 70), 0, 0.23, Rides::front_unsprung), item(within(80, 130), -1.8, 0.24, Rides::rear_unsprung)};
  RollModel<double> m;
  m.mass = sum(items);
  m.footprint = {1.8 * metre, within(0.85, 1.0) * metre, within(0.85, 1.0) * metre};
  const auto axle = [&](double low, double high) {
    RollAxle<double> a{RollStiffness::from_si(within(low, high)), within(0.05, 0.32) * metre, {}};
    if (tyres) a.tyre_rate = within(90, 200) * N_per_mm;
    return a;
  };
  m.front = axle(6000, 15000);
  m.rear = axle(6000, 20000);
  return m;
}

// Does an upright equilibrium exist at lateral acceleration a? Damped descent from rest.
class Witness {
 public:
  explicit Witness(const RollModel<double>& m, double g = units::g.si()) {
    const double x = -m.mass.sprung.at.x.si() / 1.8;
    const double axis = m.front.roll_centre_height.si() * (1 - x) + m.rear.roll_centre_height.si() * x;
    ms_g = m.mass.sprung.mass.si() * g;
    e = m.mass.sprung.at.z.si() - axis;
    const RollAxle<double>* axles[] = {&m.front, &m.rear};
    const LumpedMass<double>* unsprung[] = {&m.mass.front_unsprung, &m.mass.rear_unsprung};
    const double share[] = {1 - x, x}, track[] = {m.footprint.front_track.si(), m.footprint.rear_track.si()};
    for (int i = 0; i < 2; ++i) {
      k[i] = axles[i]->stiffness.si();
      half[i] = 0.5 * track[i];
      tyre[i] = axles[i]->tyre_rate->si();
      weight[i] = share[i] * ms_g + unsprung[i]->mass.si() * g;
      q[i] = share[i] * ms_g * axles[i]->roll_centre_height.si() + unsprung[i]->mass.si() * g * unsprung[i]->at.z.si();
    }
  }
  double threshold() const {
    double low = 0.0, high = 2.0;
    for (int n = 0; n < 24; ++n) {
      const double a = 0.5 * (low + high);
      (stands(a) ? low : high) = a;
    }
    return low;
  }
  bool stands(double a) const {
    double p = 0, t[2] = {0, 0};
    for (int n = 0; n < 200000; ++n) {
      double body = ms_g * e * (a * std::cos(p) + std::sin(p)), residual = 0;
      for (int i = 0; i < 2; ++i) {
        const double spring = k[i] * (p - t[i]);
        body -= spring;
        const double axle = spring + a * q[i] - ground(i, t[i]);
        t[i] += axle / (k[i] + 2 * tyre[i] * half[i] * half[i]);
        residual = std::max(residual, std::abs(axle));
      }
      p += 0.7 * body / (k[0] + k[1] + ms_g * e);
      residual = std::max(residual, std::abs(body));
      if (residual < 1e-6) return true;
      if (p > 0.6 || t[0] > 0.6 || t[1] > 0.6) return false;
    }
    return false;
  }

 private:
  // Moment of the ground on axle i rolled by t: each tyre pushes with its rate and never pulls.
  double ground(int i, double t) const {
    const double inner = weight[i] / 2 - tyre[i] * half[i] * t, outer = weight[i] / 2 + tyre[i] * half[i] * t;
    if (inner < 0) return weight[i] * half[i];
    return (outer - inner) * half[i];
  }
  double ms_g, e;
  std::array<double, 2> k, half, tyre, weight, q;
};

TEST(Roll, AgreesWithARelaxationThatPushesUntilItTips) {
  std::mt19937 random(7);
  double worst = 0.0;
  int compared = 0;
  for (int n = 0; n < 60; ++n) {
    const auto m = cart(random, true);
    const auto t = roll_threshold(m);
    if (t.outcome != RollOutcome::found) continue;
    worst = std::max(worst, std::abs(t.threshold - Witness(m).threshold()));
    ++compared;
  }
  std::cout << "worst roll threshold against relaxation " << worst << " g over " << compared << " carts\n";
  EXPECT_GT(compared, 30);
  EXPECT_LT(worst, 2e-4);
}

TEST(Roll, TiltTableAgreesWithTheRelaxation) {
  std::mt19937 random(13);
  double worst = 0.0;
  for (int n = 0; n < 20; ++n) {
    const auto m = cart(random, true);
    const auto t = sprung_tilt_angle(m);
    if (t.outcome != RollOutcome::found) continue;
    double low = 0.0, high = 1.2;
    for (int k = 0; k < 24; ++k) {
      const double b = 0.5 * (low + high);
      (Witness(m, units::g.si() * std::cos(b)).stands(std::tan(b)) ? low : high) = b;
    }
    worst = std::max(worst, std::abs(t.angle.si() - low));
    EXPECT_GE(tan(t.angle), roll_threshold(m).threshold);
    EXPECT_LT(t.angle, rigid_tilt_angle(m.mass.whole, m.footprint));
  }
  std::cout << "worst tilt angle against relaxation " << worst << " rad\n";
  EXPECT_GT(worst, 0.0);
  EXPECT_LT(worst, 2e-4);
}

TEST(Roll, SideSlopeTakesFromTheBend) {
  // At the table's own angle nothing is left for a bend; on the level all of it.
  const double threshold = 0.7;
  const Angle tips = atan2(threshold * metre, 1.0 * metre);
  EXPECT_FALSE(bend_speed_on_side_slope(threshold, 6.0 * metre, tips));
  EXPECT_NEAR(bend_speed_on_side_slope(threshold, 6.0 * metre, 0.0 * degree)->si(),
              bend_speed(threshold, 6.0 * metre).si(), 1e-12);
  // 5 degrees outward: g sin 5 and v2/r cos 5 across, g cos 5 less v2/r sin 5 down, in the ratio of the threshold.
  const double v = bend_speed_on_side_slope(threshold, 6.0 * metre, 5.0 * degree)->si(), a = v * v / 6.0;
  const double s = std::sin(5 * std::numbers::pi / 180), c = std::cos(5 * std::numbers::pi / 180), g = units::g.si();
  EXPECT_NEAR((a * c + g * s) / (g * c - a * s), threshold, 1e-12);
}

TEST(Roll, SoftCartIsNotGivenAThresholdBeyondTheModel) {
  RollModel<double> m;
  m.mass = sum(std::vector<MassItem<double>>{{"", 500.0 * kg, {-0.9 * metre, {}, 0.5 * metre}}});
  m.footprint = {1.8 * metre, 1.6 * metre, 1.6 * metre};
  m.front = m.rear = {RollStiffness::from_si(2500.0), 0.1 * metre, {}};
  const auto t = roll_threshold(m);
  EXPECT_EQ(t.outcome, RollOutcome::beyond_model);
  EXPECT_NEAR(t.roll.in(degree), 20.0, 1e-9);
  EXPECT_LT(t.threshold, rigid_threshold(m.mass.whole, m.footprint));
}

TEST(Roll, StiffSpringsGiveTheRigidLimit) {
  std::mt19937 random(8);
  double worst = 0.0;
  for (int n = 0; n < 100; ++n) {
    auto m = cart(random, false);
    m.front.stiffness = m.rear.stiffness = RollStiffness::from_si(1e9);
    const auto t = roll_threshold(m);
    ASSERT_EQ(t.outcome, RollOutcome::found);
    worst = std::max(worst, std::abs(t.threshold - rigid_threshold(m.mass.whole, m.footprint)));
  }
  std::cout << "worst rigid limit " << worst << " g\n";
  EXPECT_LT(worst, 1e-5);
}

TEST(Roll, NeverAboveRigidAndHigherIsNeverBetter) {
  std::mt19937 random(9);
  for (int n = 0; n < 200; ++n) {
    auto m = cart(random, n % 2 == 0);
    double last = rigid_threshold(m.mass.whole, m.footprint);
    for (int up = 0; up < 4; ++up) {
      const auto t = roll_threshold(m);
      if (t.outcome != RollOutcome::found) break;
      EXPECT_LT(t.threshold, last);
      EXPECT_LE(t.first_lift, t.threshold + 1e-12);
      last = t.threshold;
      m.mass.sprung.at.z += 0.05 * metre;
      m.mass.whole.at.z += 0.05 * metre * (m.mass.sprung.mass / m.mass.whole.mass);
    }
  }
}

TEST(Roll, GradientIsTheSlopeAtTheStart) {
  // One axle pair on rigid tyres: gradient m_s g e / (K - m_s g e), by hand for 500 kg, e = 0.4 m, K = 20 kN m/rad.
  RollModel<double> m;
  m.mass = sum(std::vector<MassItem<double>>{{"", 500.0 * kg, {-0.9 * metre, {}, 0.6 * metre}}});
  m.footprint = {1.8 * metre, 0.9 * metre, 0.9 * metre};
  m.front = m.rear = {RollStiffness::from_si(10000.0), 0.2 * metre, {}};
  EXPECT_NEAR(roll_threshold(m).roll_per_g.si(), 1961.33 / (20000.0 - 1961.33), 1e-9);
}

TEST(Roll, LeaningLoadTipsSooner) {
  std::mt19937 random(10);
  auto m = cart(random, true);
  const double middle = roll_threshold(m).threshold;
  m.mass.sprung.at.y = 0.05 * metre;
  const auto t = roll_threshold(m);
  EXPECT_LT(t.threshold, middle - 0.02);
  m.mass.sprung.at.y = -0.05 * metre;
  EXPECT_EQ(roll_threshold(m).threshold, t.threshold);
}

TEST(Roll, SaysWhereItHasNoNumbers) {
  std::mt19937 random(11);
  auto m = cart(random, false);
  m.front.stiffness = m.rear.stiffness = RollStiffness::from_si(300.0);
  EXPECT_EQ(roll_threshold(m).outcome, RollOutcome::cannot_stand_upright);
}

TEST(Roll, BendSpeedAndDemandAreInverse) {
  const Speed v = bend_speed(0.6, 5.0 * metre);
  EXPECT_NEAR(bend_demand(v, 5.0 * metre), 0.6, 1e-12);
  EXPECT_NEAR(v.si() * v.si(), 0.6 * 9.80665 * 5.0, 1e-12);
}

}  // namespace
}  // namespace trammel::vehicle
