// The joint Gaussian against a brute-force particle filter that draws every unknown, and what it says against what is
// true on simulated carts whose adjusters are a real mechanism.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>

#include "setup/cart.h"
#include "setup/population.h"
#include "setup/prescription.h"

namespace trammel::setup {
namespace {

// One wheel's camber: read, turned, read under scrub, turned again, rolled and read. Independent method: a million
// drawn histories, weighted by the readings' likelihood; turn error times the drawn effect, not its mean.
TEST(Filter, AgainstParticles) {
  AlignmentTask task = two_arm_cart();
  task.prior.left_camber = {0.5 * degree, 0.6 * degree};
  task.adjusters[0].own_spread.camber = 0.2 * degree;
  task.handling.turn_error = turn / 12.0;
  task.instruments.floor.sd = {};
  task.instruments.camber_gauge.sd = 0.2 * degree;
  const double n1 = -0.8, n2 = 0.25, z[3] = {0.9, -0.1, 0.2};

  Belief belief(task);
  const auto gauge = [&](double value, bool while_turning) {
    Reading r;
    r.left_camber_gauge = value * degree;
    r.while_turning = while_turning;
    belief.condition(r);
  };
  gauge(z[0], false);
  belief.adjust({{{Side::left, "upper_arm", n1 * turn}}, false});
  gauge(z[1], true);
  belief.adjust({{{Side::left, "upper_arm", n2 * turn}}, false});
  belief.roll();
  gauge(z[2], false);

  Generator g(77);
  double w = 0.0, c1 = 0.0, c2 = 0.0, e1 = 0.0, e2 = 0.0, ce = 0.0;
  const auto likelihood = [](double off) { return std::exp(-0.5 * off * off / 0.04); };
  const Handling& h = task.handling;
  const double scrub_sd = h.scrub_camber.in(degree), settling = h.settling_camber.in(degree),
               error = h.turn_error.in(turn), twist = h.jam_twist.in(turn);
  for (int i = 0; i < 1000000; ++i) {
    double c = 0.5 + 0.6 * normal(g);
    const double effect = 0.95 + 0.2 * normal(g), scrub = scrub_sd * normal(g);
    double weight = likelihood(z[0] - c);
    c += effect * (n1 + error * normal(g));
    weight *= likelihood(z[1] - c - scrub);
    c += effect * (n2 + error * normal(g) + twist * normal(g)) + settling * normal(g);
    weight *= likelihood(z[2] - c);
    w += weight, c1 += weight * c, c2 += weight * c * c;
    e1 += weight * effect, e2 += weight * effect * effect, ce += weight * c * effect;
  }
  c1 /= w, e1 /= w;
  const double uc = std::sqrt(c2 / w - c1 * c1), ue = std::sqrt(e2 / w - e1 * e1);
  const double worst = std::max({std::abs(belief.state().left_camber.value.in(degree)-c1) / uc,
                                 std::abs(belief.state().left_camber.u.in(degree) / uc - 1.0),
                                 std::abs(belief.effect(0).camber.in(degree)-e1) / ue,
                                 std::abs(belief.effect_spread(0).camber.in(degree) / ue - 1.0)});
  EXPECT_LT(worst, 0.03);
  std::cout << "worst difference to the particles: " << worst << " of a standard uncertainty (" << uc << " deg, " << ue
            << " deg a turn)\n";
}

// Of the stops where it said so much, as many were truly in tolerance.
TEST(Filter, ReliabilityTable) {
  Generator g(5);
  const Population population({}, g);
  const AlignmentTask& task = population.task();
  constexpr int bins = 5;
  std::array<double, bins> said{}, in{}, count{}, variance{};
  for (int cart_number = 0; cart_number < 100; ++cart_number) {
    SimulatedCart cart(task, population.draw(g));
    Belief belief(task);
    for (int stop = 0; stop < 4; ++stop) {
      ReadingPlan plan;
      plan.repeats = 1 + 3 * (stop > 0);
      belief.condition(cart.read(plan, g));
      const double p = belief.probability_in_tolerance();
      if (stop > 0) {
        const int k = std::min(bins - 1, static_cast<int>(p * bins));
        said[k] += p, in[k] += cart.in_tolerance(), count[k] += 1.0, variance[k] += p * (1.0 - p);
      }
      const Adjustment turns = prescribe(task, belief).as_adjustment();
      cart.turn(turns, g);
      belief.adjust(turns);
    }
  }
  for (int k = 0; k < bins; ++k) {
    std::cout << "said " << said[k] / count[k] << ", true " << in[k] / count[k] << " of " << count[k] << " stops\n";
    EXPECT_LE(std::abs(said[k] - in[k]), 3.0 * std::sqrt(variance[k]) + 0.02 * count[k]);
  }
}

}  // namespace
}  // namespace trammel::setup
