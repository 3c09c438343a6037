// The joint state: closed forms where the case is linear, a grid where it is not, and its laws.
#include <gtest/gtest.h>

#include <iostream>

#include "setup/cart.h"

namespace trammel::setup {
namespace {

AlignmentTask bare_setup() {
  AlignmentTask s = two_arm_cart();
  s.instruments.floor.sd = {};
  s.instruments.square_true.sd = {};
  return s;
}

// Precisions add (closed form): independent gauge readings of one wheel.
TEST(Alignment, PrecisionsAdd) {
  AlignmentTask s = bare_setup();
  const double v0 = 9.0, v = 0.1 * 0.1;  // deg2
  double precision = 1.0 / v0, weighted = 0.0;
  Belief b(s);
  for (const double z : {0.31, 0.18, 0.27, 0.22}) {
    Reading r;
    r.left_camber_gauge = z * degree;
    b.condition(r);
    precision += 1.0 / v;
    weighted += z / v;
  }
  const Estimate<Angle> c = b.state().left_camber;
  const double worst =
      std::max(std::abs(c.value.in(degree)-weighted / precision), std::abs(c.u.in(degree)-std::sqrt(1.0 / precision)));
  EXPECT_LT(worst, 1e-10);
  std::cout << "worst error, precisions add: " << worst << " deg\n";
}

// One turn teaches an adjuster's effect (closed form of a linear update).
TEST(Alignment, ATurnTeachesTheEffect) {
  AlignmentTask s = bare_setup();
  s.handling.turn_error = s.handling.jam_twist = {};
  s.handling.settling_camber = {};
  s.prior.left_camber = {Angle{}, 1e-9 * degree};
  s.adjusters[0].own_spread.camber = 0.2 * degree;
  Belief b(s);
  const double n = 1.5, s0 = 0.95, vs = 0.04, r = 0.01, z = 1.8;
  b.adjust({{{Side::left, "upper_arm", n * turn}}});
  Reading reading;
  reading.left_camber_gauge = z * degree;
  b.condition(reading);
  const double gain = vs * n / (n * n * vs + r);
  const double mean = std::abs(b.effect(0).camber.in(degree) - (s0 + gain * (z - n * s0)));
  const double u = std::abs(b.effect_spread(0).camber.in(degree)-std::sqrt(vs - gain * n * vs));
  EXPECT_LT(mean, 1e-10);
  EXPECT_LT(u, 1e-10);
  std::cout << "worst error, learned effect: " << std::max(mean, u) << " deg a turn\n";
}

// Steering wheel 6 deg off when rolled straight, ratio unsure: the posterior of the toe difference by a fine grid.
TEST(Alignment, SteeringWheelAgainstAGrid) {
  AlignmentTask s = bare_setup();
  s.steering_ratio = {14.0, 1.0};
  s.prior.left_toe = s.prior.right_toe = {Angle{}, 1.0 * degree};
  Reading r;
  r.steering_wheel_angle = 6.0 * degree;
  Belief b(s);
  b.condition(r);

  // d has prior sd 1/sqrt2 deg; the wheel reads ratio (d + centring) + 0.5 deg noise.
  const double sd_centre = (s.instruments.steering_centre.sd / s.toe_diameter) / degree.si();
  double w = 0.0, wd = 0.0, wdd = 0.0;
  for (double d = -1.0; d <= 2.0; d += 0.002)
    for (double k = 9.0; k <= 19.0; k += 0.02) {
      const double var = 0.25 + std::pow(k * sd_centre, 2);
      const double p =
          std::exp(-d * d - 0.5 * (k - 14.0) * (k - 14.0) - 0.5 * std::pow(6.0 - k * d, 2) / var) / std::sqrt(var);
      w += p, wd += p * d, wdd += p * d * d;
    }
  const double mean = wd / w, sd = std::sqrt(wdd / w - mean * mean),
               mm_per_degree = (s.toe_diameter * degree.si()).in(mm);
  const Estimate<Length> got = b.state().toe_difference;
  EXPECT_NEAR(got.value.in(mm), mean * mm_per_degree, 0.05);
  EXPECT_NEAR(got.u.in(mm), sd * mm_per_degree, 0.05);
  std::cout << "worst error, steering wheel against a grid: " << std::abs(got.value.in(mm)-mean * mm_per_degree)
            << " mm of " << mean * mm_per_degree << ", u " << std::abs(got.u.in(mm)-sd * mm_per_degree) << " mm\n";
}

// Law 1: a reading never enlarges any variance that is asked for.
TEST(Alignment, AReadingNeverTakesKnowledgeAway) {
  Generator g(11);
  double worst = -1.0;
  for (int trial = 0; trial < 40; ++trial) {
    const AlignmentTask s = two_arm_cart();
    SimulatedCart cart(s, draw_cart(s, random_start(s, g), g));
    Belief b(s);
    for (int step = 0; step < 6; ++step) {
      const AlignmentState before = b.state();
      ReadingPlan plan;
      plan.strings = step % 2;
      b.condition(cart.read(plan, g));
      if (!b.flags().empty()) break;
      const AlignmentState after = b.state();
      for (const auto& [x, y] : {std::pair{before.left_camber.u.si(), after.left_camber.u.si()},
                                 {before.right_camber.u.si(), after.right_camber.u.si()},
                                 {before.total_toe.u.si(), after.total_toe.u.si()},
                                 {before.toe_difference.u.si(), after.toe_difference.u.si()}})
        worst = std::max(worst, (y - x) / x);
      if (step == 2) {
        const Adjustment a{{{Side::left, "upper_arm", 0.5 * turn}, {Side::right, "tie_rod", -0.3 * turn}}};
        cart.turn(a, g);
        b.adjust(a);
      }
    }
  }
  // The toe lengths' gradient D cos t moves with t by less than 0.2 %.
  EXPECT_LT(worst, 2e-3);
  std::cout << "worst relative growth of u by a reading: " << worst << '\n';
}

// Law 2: mirrored readings and turns give the mirrored state.
TEST(Alignment, Mirror) {
  Generator g(5);
  double worst = 0.0;
  for (int trial = 0; trial < 20; ++trial) {
    const AlignmentTask s = two_arm_cart();
    Belief a(s), b(s);
    const Reading r = exact_reading(s, random_start(s, g), trial % 2);
    const Adjustment left{{{Side::left, "upper_arm", 0.4 * turn}, {Side::right, "tie_rod", -1.2 * turn}}};
    const Adjustment right{{{Side::right, "upper_arm", 0.4 * turn}, {Side::left, "tie_rod", -1.2 * turn}}};
    a.condition(r);
    b.condition(mirrored(r));
    a.adjust(left);
    b.adjust(right);
    const AlignmentState x = a.state(), y = b.state();
    for (const double d :
         {(x.left_camber.value - y.right_camber.value).si(), (x.right_camber.u - y.left_camber.u).si(),
          (x.total_toe.value - y.total_toe.value).si(), (x.toe_difference.value + y.toe_difference.value).si(),
          (x.steering_wheel_angle.value + y.steering_wheel_angle.value).si()})
      worst = std::max(worst, std::abs(d));
  }
  EXPECT_LT(worst, 1e-9);
  std::cout << "worst mirror difference: " << worst << " (rad, m)\n";
}

// Blunders are named, kept with less weight, and a repeat that agrees re-opens the state.
TEST(Alignment, BlundersAreNamed) {
  const AlignmentTask s = two_arm_cart();
  const WheelAngles truth{1.2 * degree, -0.4 * degree, 0.3 * degree, 0.2 * degree};
  Belief known(s);
  for (int i = 0; i < 3; ++i) known.condition(exact_reading(s, truth), i);

  Reading wrong = exact_reading(s, truth);
  wrong.left_camber_gap->at = GapAt::top;
  Belief b = known;
  b.condition(wrong, 3);
  ASSERT_EQ(b.flags().size(), 1u);
  EXPECT_EQ(b.flags()[0].item, ReadingItem::left_camber);
  EXPECT_EQ(b.flags()[0].suspicion, Suspicion::gap_at_wrong_edge);
  EXPECT_EQ(b.flags()[0].event, 3u);
  EXPECT_NEAR(b.state().left_camber.value.in(degree), 1.2, 0.1);

  Reading inch_off = exact_reading(s, truth);
  inch_off.toe_front = *inch_off.toe_front + 1.0 * inch;
  Belief c = known;
  c.condition(inch_off, 3);
  ASSERT_EQ(c.flags().size(), 1u);
  EXPECT_EQ(c.flags()[0].item, ReadingItem::total_toe);
  EXPECT_EQ(c.flags()[0].suspicion, Suspicion::tape_misread);

  Reading swapped = exact_reading(s, {1.2 * degree, -0.4 * degree, 0.9 * degree, 0.9 * degree});
  Belief e(s);
  e.condition(swapped, 0);
  std::swap(swapped.toe_front, swapped.toe_rear);
  e.condition(swapped, 1);
  ASSERT_EQ(e.flags().size(), 1u);
  EXPECT_EQ(e.flags()[0].suspicion, Suspicion::front_and_rear_swapped);

  // The wheel was knocked: read once it is doubted, read again it is believed.
  Belief d = known;
  const Reading knocked = exact_reading(s, {-1.0 * degree, -0.4 * degree, 0.3 * degree, 0.2 * degree});
  d.condition(knocked, 3);
  EXPECT_GT(d.state().left_camber.value.in(degree), 0.8);
  EXPECT_EQ(judge(s, d).reason, Reason::reading_in_doubt);
  d.condition(knocked, 4);
  EXPECT_NEAR(d.state().left_camber.value.in(degree), -1.0, 0.1);
  EXPECT_EQ(d.flags().size(), 1u);
}

// Honest readings of honest carts are hardly ever doubted.
TEST(Alignment, HonestReadingsAreNotDoubted) {
  Generator g(3);
  const AlignmentTask s = two_arm_cart();
  int flags = 0, items = 0;
  for (int trial = 0; trial < 150; ++trial) {
    SimulatedCart cart(s, draw_cart(s, random_start(s, g), g));
    Belief b(s);
    for (int step = 0; step < 3; ++step) {
      b.condition(cart.read({}, g));
      items += 4;
      const Adjustment a = prescribe(s, b).as_adjustment();
      cart.turn(a, g);
      b.adjust(a);
    }
    flags += static_cast<int>(b.flags().size());
  }
  std::cout << "honest readings doubted: " << flags << " of " << items << '\n';
  EXPECT_LT(flags, 0.01 * items);
}

// No string and no steering wheel: the toe difference stays wide and the state says so.
TEST(Alignment, WhatIsNotReadStaysWide) {
  const AlignmentTask s = two_arm_cart();
  Reading r = exact_reading(s, {}, false);
  r.steering_wheel_angle.reset();
  Belief b(s);
  b.condition(r);
  EXPECT_GT(b.state().toe_difference.u.in(mm), 10.0);
  EXPECT_LT(b.state().total_toe.u.in(mm), 1.5);
  EXPECT_GT(b.state().steering_wheel_angle.u.in(degree), 10.0);
}

}  // namespace
}  // namespace trammel::setup
