// Caster from a steering sweep, against the suspension room's own mechanism steered by its rack: another solver.
#include "setup/caster.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <cmath>
#include <iostream>

#include "setup/chance.h"
#include "suspension/geometry/wheel_geometry.h"
#include "suspension/linkage/corner_linkage.h"

namespace trammel::setup {
namespace {

using units::degree;

// Law 1 against a simulated knuckle: round trip through the exact relation.
TEST(Caster, RoundTrip) {
  Generator g(6);
  double worst = 0.0;
  for (int k = 0; k < 200; ++k) {
    const Angle c = (12.0 * uniform(g) - 2.0) * degree, i = 15.0 * uniform(g) * degree,
                camber = (4.0 * uniform(g) - 2.0) * degree, steer = (8.0 + 20.0 * uniform(g)) * degree;
    const CasterReading r = caster_of({steer, camber, camber_when_steered(c, i, camber, steer),
                                       camber_when_steered(c, i, camber, -steer), 0.05 * degree});
    ASSERT_TRUE(usable(r.outcome));
    worst =
        std::max({worst, std::abs((r.caster.value - c).in(degree)), std::abs((r.inclination.value - i).in(degree))});
  }
  EXPECT_LT(worst, 1e-8);
  std::cout << "worst error, caster round trip: " << worst << " deg\n";
}

// An independent solver: a double wishbone steered by its rack at a held lower arm. Its points are invented.
TEST(Caster, AgainstTheMechanism) {
  suspension::CornerPoints<double> p;
  p.lower_arm = {{0.107, 0.078, 0.269}, {-0.096, 0.081, 0.265}, {0.012, 0.361, 0.219}};
  p.upper_arm = {{0.095, 0.087, 0.435}, {-0.084, 0.091, 0.429}, {-0.011, 0.338, 0.390}};
  p.rack_end = {0.120, 0.085, 0.323};
  p.knuckle_end = {0.105, 0.362, 0.275};
  p.hub_centre = {0.0, 0.459, 0.300};
  p.camber = -0.4 * degree;
  const suspension::CornerLinkage<double> corner(p);
  const auto at = [&](double rack) {
    const auto pose = corner.pose_at_arm({}, Length::from_si(rack));
    return suspension::wheel_geometry(pose.wheel(), pose.per_rise, 300.0 * units::mm);
  };
  const double steer = (12.0 * degree).si();
  // The rack shift that turns the heading so far.
  const auto camber_at = [&](double heading) {
    double low = -0.06, high = 0.06;
    const bool rising = at(high).toe.si() > at(low).toe.si();
    for (int k = 0; k < 80; ++k) {
      const double mid = 0.5 * (low + high);
      ((at(mid).toe.si() < heading) == rising ? low : high) = mid;
    }
    return at(low).camber;
  };
  const auto straight = at(0.0);
  const CasterReading r =
      caster_of({Angle::from_si(steer), straight.camber, camber_at(steer), camber_at(-steer), 0.05 * degree});
  ASSERT_TRUE(usable(r.outcome));
  const double worst = std::max(std::abs((r.caster.value - straight.caster).in(degree)),
                                std::abs((r.inclination.value - straight.steering_axis_inclination).in(degree)));
  EXPECT_LT(worst, 1e-6);
  EXPECT_NEAR(r.by_rule_of_thumb.in(degree), r.caster.value.in(degree), 1.0);
  EXPECT_GT(r.caster.u.in(degree), 0.05);
  std::cout << "worst error, caster against the mechanism: " << worst << " deg of " << straight.caster.in(degree)
            << "; rule of thumb off by " << (r.by_rule_of_thumb - straight.caster).in(degree) << " deg\n";
}

// The steered camber against a general-purpose library's rotation: Eigen's AngleAxis turned until the heading is
// reached (bisection), the steering axis built from its two slopes.
TEST(Caster, AgainstRotationByALibrary) {
  Generator g(7);
  double worst = 0.0;
  for (int k = 0; k < 200; ++k) {
    const double caster = (12.0 * uniform(g) - 2.0) * degree.si(), inclination = 15.0 * uniform(g) * degree.si(),
                 camber = (4.0 * uniform(g) - 2.0) * degree.si(), steer = (56.0 * uniform(g) - 28.0) * degree.si();
    const Eigen::Vector3d axis = Eigen::Vector3d(-std::tan(caster), -std::tan(inclination), 1.0).normalized();
    const Eigen::Vector3d spin(0.0, std::cos(camber), -std::sin(camber));
    double low = -0.9, high = 0.9;
    for (int i = 0; i < 80; ++i) {
      const double mid = 0.5 * (low + high);
      const Eigen::Vector3d n = Eigen::AngleAxisd(mid, axis) * spin;
      (std::atan2(n.x(), n.y()) > steer ? low : high) = mid;
    }
    const Eigen::Vector3d n = Eigen::AngleAxisd(low, axis) * spin;
    const Angle ours = camber_when_steered(Angle::from_si(caster), Angle::from_si(inclination), Angle::from_si(camber),
                                           Angle::from_si(steer));
    worst = std::max(worst, std::abs(ours.si() + std::asin(n.z())));
  }
  EXPECT_LT(worst, 1e-12);
  std::cout << "worst error, steered camber against Eigen's AngleAxis: " << worst << " rad\n";
}

// Law 3: caster = (camber out - camber in) / (2 sin steer), the usual rule (common practice, no source), is the limit
// for small angles.
TEST(Caster, RuleOfThumbIsTheLimit) {
  double before = 1.0;
  for (const double size : {4.0, 2.0, 1.0, 0.5}) {
    const Angle c = size * degree, i = size * degree, steer = 10.0 * degree;
    const CasterReading r = caster_of(
        {steer, {}, camber_when_steered(c, i, {}, steer), camber_when_steered(c, i, {}, -steer), 0.05 * degree});
    const double off = std::abs(r.by_rule_of_thumb / r.caster.value - 1.0);
    EXPECT_LT(off, before);
    before = off;
  }
  EXPECT_LT(before, 2e-4);
  std::cout << "rule of thumb off by " << before << " of the caster at 0.5 deg\n";
}

// The uncertainty against sweeps read over and over with errors of that size.
TEST(Caster, UncertaintyIsTheScatter) {
  Generator g(8);
  const Angle c = 4.0 * degree, i = 9.0 * degree, camber = -0.5 * degree, steer = 15.0 * degree, u = 0.15 * degree,
              steer_u = 0.8 * degree;
  double sum = 0.0, squares = 0.0, told = 0.0;
  constexpr int n = 4000;
  for (int k = 0; k < n; ++k) {
    const Angle really = steer + normal(g) * steer_u;
    const CasterReading r =
        caster_of({steer, camber + normal(g) * u, camber_when_steered(c, i, camber, really) + normal(g) * u,
                   camber_when_steered(c, i, camber, -really) + normal(g) * u, u, steer_u});
    ASSERT_TRUE(usable(r.outcome));
    sum += r.caster.value.in(degree), squares += std::pow(r.caster.value.in(degree), 2), told = r.caster.u.in(degree);
  }
  const double sd = std::sqrt(squares / n - std::pow(sum / n, 2));
  EXPECT_NEAR(told / sd, 1.0, 0.06);
  std::cout << "caster told to " << told << " deg, scatter " << sd << " deg\n";
}

// Law 2, and what cannot be told.
TEST(Caster, UprightAxisAndNoSweep) {
  EXPECT_NEAR(camber_when_steered({}, {}, 1.0 * degree, 20.0 * degree).in(degree), 1.0, 1e-12);
  EXPECT_FALSE(usable(caster_of({Angle{}, Angle{}, Angle{}, Angle{}, 0.1 * degree}).outcome));
}

}  // namespace
}  // namespace trammel::setup
