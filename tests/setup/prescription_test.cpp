// Turns: their laws, and that turning as told does what was told.
#include <gtest/gtest.h>

#include <chrono>
#include <iostream>

#include "setup/cart.h"

namespace trammel::setup {
namespace {

// Turning exactly as told, with effects as believed, brings the cart to what `after` says, and there in tolerance.
TEST(Prescription, TurningAsToldBringsTheExpected) {
  Generator g(21);
  double worst_angle = 0.0, worst_length = 0.0, worst_flat = 0.0;
  for (int trial = 0; trial < 60; ++trial) {
    AlignmentTask s = two_arm_cart();
    Belief b(s);
    b.condition(exact_reading(s, random_start(s, g)));
    b.condition(exact_reading(s, {b.state().left_camber.value, b.state().right_camber.value,
                                  b.own_toe(Side::left).value, b.own_toe(Side::right).value}));
    const Prescription p = prescribe(s, b);
    WheelAngles w{b.state().left_camber.value, b.state().right_camber.value, b.own_toe(Side::left).value,
                  b.own_toe(Side::right).value};
    for (const PrescribedTurn& t : p.turns)
      for (std::size_t j = 0; j < s.adjusters.size(); ++j) {
        if (s.adjusters[j].side != t.side || s.adjusters[j].name != t.adjuster) continue;
        const double n = t.turns.in(turn);
        const Effect e = b.effect(j);
        (t.side == Side::left ? w.left_camber : w.right_camber) += n * e.camber;
        (t.side == Side::left ? w.left_toe : w.right_toe) += n * e.toe;
        worst_flat = std::max(worst_flat, std::abs(t.flats - n * s.adjusters[j].flats_per_turn));
        EXPECT_NEAR(4.0 * t.flats, std::round(4.0 * t.flats), 1e-9);
        EXPECT_EQ(t.direction, n > 0.0 ? Direction::longer : Direction::shorter);
      }
    const Length l = toe_length(w.left_toe, s.toe_diameter), r = toe_length(w.right_toe, s.toe_diameter);
    const AlignmentState& x = p.after.expected;
    worst_angle = std::max({worst_angle, std::abs((x.left_camber.value - w.left_camber).in(degree)),
                            std::abs((x.right_camber.value - w.right_camber).in(degree))});
    worst_length = std::max({worst_length, std::abs((x.total_toe.value - l - r).in(mm)),
                             std::abs((x.toe_difference.value - 0.5 * (l - r)).in(mm))});
    // A quarter flat is 0.04 deg of camber and 0.3 mm of toe here.
    EXPECT_LT(std::abs(w.left_camber.in(degree)), 0.1);
    EXPECT_LT(std::abs((l + r).in(mm)-4.5), 0.8);
    EXPECT_LT(std::abs(0.5 * (l - r).in(mm)), 0.5);
  }
  EXPECT_LT(worst_angle, 1e-9);
  EXPECT_LT(worst_length, 1e-9);
  EXPECT_LT(worst_flat, 1e-9);
  std::cout << "worst error, turning as told: " << worst_angle << " deg, " << worst_length << " mm\n";
}

// Law 1: never worse than plain rounding nor than leaving it alone.
TEST(Prescription, LatticeIsAtLeastPlainRounding) {
  Generator g(8);
  int better = 0;
  double most = 0.0;
  for (int trial = 0; trial < 60; ++trial) {
    const AlignmentTask s = two_arm_cart();
    SimulatedCart cart(s, draw_cart(s, random_start(s, g), g));
    ReadingPlan plan;
    plan.repeats = 4;
    Belief b(s);
    b.condition(cart.read(plan, g));
    const Prescription p = prescribe(s, b);
    EXPECT_GE(p.gain_over_plain_rounding, 0.0);
    EXPECT_GE(p.after.probability_in_tolerance, b.probability_in_tolerance() - 1e-9);
    better += p.gain_over_plain_rounding > 1e-4;
    most = std::max(most, p.gain_over_plain_rounding);
  }
  std::cout << "search beat plain rounding in " << better << " of 60, by at most " << most << '\n';
}

// Law 2: the mirrored cart gets the mirrored turns.
TEST(Prescription, Mirror) {
  Generator g(13);
  for (int trial = 0; trial < 20; ++trial) {
    const AlignmentTask s = two_arm_cart();
    const Reading r = exact_reading(s, random_start(s, g), trial % 2);
    Belief a(s), b(s);
    a.condition(r);
    b.condition(mirrored(r));
    const Prescription x = prescribe(s, a), y = prescribe(s, b);
    EXPECT_NEAR(x.after.probability_in_tolerance, y.after.probability_in_tolerance, 1e-3);
    for (const PrescribedTurn& t : x.turns) {
      double found = 0.0;
      for (const PrescribedTurn& m : y.turns)
        if (m.adjuster == t.adjuster && m.side != t.side) found = m.flats;
      // Two lattice points of like worth may change places: a quarter flat.
      EXPECT_NEAR(found, t.flats, 0.26) << t.adjuster;
    }
  }
}

// One adjuster alone: the closed form of a single aim, -miss / effect, to the quarter flat.
TEST(Prescription, OneAdjuster) {
  AlignmentTask s;
  s.toe_diameter = 508.0 * mm;
  s.tolerance.total_toe = Band<Length>{3.0 * mm, 6.0 * mm};
  // A single tie rod: the drag link holds the left wheel, the right one moves.
  Adjuster rod;
  rod.side = Side::right;
  rod.name = "tie_rod";
  rod.own = {Angle{}, 1.533 * degree};
  s.adjusters = {rod};
  Reading r;
  r.toe_front = 859.0 * mm;
  r.toe_rear = 850.0 * mm;
  r.repeats = 8;
  Belief b(s);
  b.condition(r);
  const Prescription p = prescribe(s, b);
  ASSERT_EQ(p.turns.size(), 1u);
  // 13.5 mm at 13.6 mm a turn: the worked figure of 12 mm = 5.3 flats scaled to the middle of this band.
  const double exact = 6.0 * 13.5 / toe_length(1.533 * degree, s.toe_diameter).in(mm);
  EXPECT_NEAR(p.turns[0].flats, exact, 0.13 + 0.02 * exact);
  EXPECT_NEAR(p.turns[0].watch.total_toe.value.in(mm), 4.5, 0.5);
  EXPECT_EQ(p.turns[0].direction, Direction::longer);
}

// Laws 3 and 4: what moves nothing is left alone; threads end.
TEST(Prescription, LimitsAndIdleAdjusters) {
  AlignmentTask s = two_arm_cart();
  Adjuster idle;
  idle.name = "idle";
  s.adjusters.push_back(idle);
  s.adjusters[0].most_shorter = -0.5 * turn;
  Belief b(s);
  b.condition(exact_reading(s, {2.0 * degree, 0.0 * degree, 0.3 * degree, 0.2 * degree}));
  const Prescription p = prescribe(s, b);
  bool arm = false;
  for (const PrescribedTurn& t : p.turns) {
    EXPECT_NE(t.adjuster, "idle");
    if (t.adjuster == "upper_arm" && t.side == Side::left) {
      arm = true;
      EXPECT_GE(t.turns.in(turn), -0.5 - 1e-9);
      EXPECT_TRUE(t.at_limit);
    }
  }
  EXPECT_TRUE(arm);

  // What was turned already counts against the thread.
  b.adjust({{{Side::left, "upper_arm", -0.5 * turn}}});
  for (const PrescribedTurn& t : prescribe(s, b).turns)
    EXPECT_FALSE(t.adjuster == "upper_arm" && t.side == Side::left && t.turns.si() < 0.0);
}

// What to watch: the square at the wheel that is being turned, after each turn in the list.
TEST(Prescription, Watch) {
  const AlignmentTask s = two_arm_cart();
  Belief b(s);
  b.condition(exact_reading(s, {1.4 * degree, -0.6 * degree, -1.2 * degree, -0.9 * degree}));
  const Prescription p = prescribe(s, b);
  ASSERT_FALSE(p.turns.empty());
  EXPECT_EQ(p.turns.front().adjuster, "upper_arm");
  for (const PrescribedTurn& t : p.turns) {
    EXPECT_NEAR(camber_of(t.watch.gap).in(degree), t.watch.camber.value.in(degree), 1e-9);
    EXPECT_NEAR(t.watch.gap.over.in(mm), 280.0, 1e-9);
    EXPECT_GT(t.watch.gap_u.si(), 0.0);
  }
  EXPECT_NEAR(p.turns.back().watch.total_toe.value.in(mm), p.after.expected.total_toe.value.in(mm), 1e-9);
}

TEST(Prescription, Time) {
  const AlignmentTask s = two_arm_cart();
  Belief b(s);
  b.condition(exact_reading(s, {1.4 * degree, -0.6 * degree, -1.2 * degree, -0.9 * degree}));
  const auto start = std::chrono::steady_clock::now();
  for (int i = 0; i < 10; ++i) EXPECT_FALSE(prescribe(s, b).turns.empty());
  std::cout << "one prescription: "
            << std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count() / 10.0
            << " ms\n";
}

}  // namespace
}  // namespace trammel::setup
