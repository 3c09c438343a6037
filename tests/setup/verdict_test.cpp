// Verdicts: thresholds, and that nothing is turned where nothing can help.
#include <gtest/gtest.h>

#include <iostream>

#include "setup/cart.h"

namespace trammel::setup {
namespace {

const WheelAngles centred{Angle{}, Angle{}, toe_angle(2.25 * mm, 508.0 * mm), toe_angle(2.25 * mm, 508.0 * mm)};

// Law 1: accept exactly from the limit on.
TEST(Verdict, AcceptsFromTheLimit) {
  AlignmentTask s = two_arm_cart();
  Belief b(s);
  for (int i = 0; i < 8; ++i) b.condition(exact_reading(s, centred), i);
  const double p = b.probability_in_tolerance();
  ASSERT_GT(p, 0.95);
  EXPECT_EQ(judge(s, b).verdict, Verdict::accept);
  s.accept_probability = p;
  EXPECT_EQ(judge(s, b).verdict, Verdict::accept);
  s.accept_probability = std::nextafter(p, 1.0);
  EXPECT_NE(judge(s, b).verdict, Verdict::accept);
}

TEST(Verdict, AcceptOnlyAboveTheLimitOnRandomCarts) {
  Generator g(17);
  int seen[4] = {};
  for (int trial = 0; trial < 120; ++trial) {
    const AlignmentTask s = two_arm_cart();
    WheelAngles w = random_start(s, g);
    if (trial % 2)
      w = {0.1 * w.left_camber, 0.1 * w.right_camber, centred.left_toe + 0.02 * w.left_toe, centred.right_toe};
    SimulatedCart cart(s, draw_cart(s, w, g));
    std::vector<Event> events;
    ReadingPlan plan;
    plan.repeats = 1 + trial % 8;
    plan.strings = trial % 3 == 0;
    for (int i = 0; i <= trial % 4; ++i) events.push_back(cart.read(plan, g));
    const Answer a = align(s, events);
    ++seen[static_cast<int>(a.verdict)];
    EXPECT_EQ(a.verdict == Verdict::accept,
              a.probability_in_tolerance >= s.accept_probability && a.reason != Reason::reading_in_doubt);
    EXPECT_EQ(a.verdict == Verdict::adjust, !a.turns.empty());
    if (a.verdict == Verdict::adjust) { EXPECT_GE(a.after.probability_in_tolerance, a.probability_in_tolerance); }
  }
  std::cout << "accept " << seen[0] << ", adjust " << seen[1] << ", measure " << seen[2] << ", diagnose " << seen[3]
            << '\n';
  EXPECT_GT(seen[0], 0);
  EXPECT_GT(seen[1], 0);
}

// The demo's start: everything out, all of it adjustable.
TEST(Verdict, AdjustsWhatCanBeAdjusted) {
  const AlignmentTask s = two_arm_cart();
  const Angle half = toe_angle(-9.5 * mm, s.toe_diameter), off = 6.0 / 14.0 * degree;
  const Answer a = align(s, {exact_reading(s, {1.4 * degree, -0.6 * degree, half + off, half - off}, false)});
  EXPECT_EQ(a.verdict, Verdict::adjust);
  EXPECT_EQ(a.turns.size(), 4u);
  EXPECT_NEAR(a.state.steering_wheel_angle.value.in(degree), 6.0, 0.5);
  EXPECT_NEAR(a.state.total_toe.value.in(mm), -19.0, 0.2);
  EXPECT_EQ(a.out.size(), 4u);
}

// No adjuster at all: diagnose, never any turns; a beam axle's camber likewise though its toe can be turned.
TEST(Verdict, NoAdjusterIsDiagnosed) {
  AlignmentTask none = two_arm_cart();
  none.adjusters.clear();
  AlignmentTask toe_only = two_arm_cart();
  std::erase_if(toe_only.adjusters, [](const Adjuster& a) { return a.name == "upper_arm"; });
  Generator g(2);
  for (int trial = 0; trial < 30; ++trial) {
    WheelAngles w = random_start(none, g);
    w.left_camber = (trial % 2 ? 1.5 : -1.5) * degree;
    for (const AlignmentTask* s : {&none, &toe_only}) {
      const Answer a = align(*s, {exact_reading(*s, w), exact_reading(*s, w)});
      EXPECT_EQ(a.verdict, Verdict::diagnose);
      EXPECT_EQ(a.reason, Reason::no_adjuster);
      EXPECT_TRUE(a.turns.empty());
      EXPECT_FALSE(a.suspects.empty());
    }
  }
  // Camber well and toe out: the toe is turned.
  const Reading toe_out = exact_reading(toe_only, {0.05 * degree, -0.05 * degree, -0.5 * degree, -0.5 * degree});
  std::vector<Event> events{toe_out};
  Answer a = align(toe_only, events);
  // A second reading may be asked for before it is turned that far, hardly a third.
  if (a.verdict == Verdict::measure) events.push_back(toe_out), a = align(toe_only, events);
  EXPECT_EQ(a.verdict, Verdict::adjust);
  EXPECT_EQ(a.turns.size(), 2u);
}

TEST(Verdict, ThreadsThatEndAreDiagnosed) {
  AlignmentTask s = two_arm_cart();
  s.adjusters[0].most_shorter = -0.5 * turn;
  const Answer a = align(s, {exact_reading(s, {2.5 * degree, Angle{}, 0.3 * degree, 0.2 * degree})});
  EXPECT_EQ(a.verdict, Verdict::diagnose);
  EXPECT_EQ(a.reason, Reason::adjuster_out_of_range);
  EXPECT_TRUE(a.turns.empty());
}

// Centred but read once with a rough tape: read again, and that many readings do decide it.
TEST(Verdict, AsksForReadingsThatDecide) {
  const AlignmentTask s = two_arm_cart();
  Reading once = exact_reading(s, centred);
  once.repeats = 1;
  std::vector<Event> events{once};
  Answer a = align(s, events);
  EXPECT_EQ(a.verdict, Verdict::measure);
  ASSERT_GT(a.more_readings, 0);
  int asked = 0;
  for (int round = 0; round < 6 && a.verdict == Verdict::measure; ++round) {
    ASSERT_GT(a.more_readings, 0);
    asked += a.more_readings;
    for (int i = 0; i < a.more_readings; ++i) events.push_back(once);
    a = align(s, events);
  }
  EXPECT_EQ(a.verdict, Verdict::accept) << "after " << asked << " more: " << a.probability_in_tolerance;
  std::cout << "asked for " << asked << " more in all, then p = " << a.probability_in_tolerance << '\n';
}

// A square that is itself out by more than the tolerance: no number of readings helps.
TEST(Verdict, CannotBeDecided) {
  AlignmentTask s = two_arm_cart();
  s.instruments.square_true.sd = 0.3 * degree;
  const Answer a = align(s, {exact_reading(s, centred), exact_reading(s, centred), exact_reading(s, centred)});
  EXPECT_EQ(a.verdict, Verdict::measure);
  EXPECT_EQ(a.reason, Reason::cannot_be_decided_with_these_instruments);
  EXPECT_EQ(a.more_readings, 0);
}

TEST(Verdict, AsksForWhatWasNeverRead) {
  const AlignmentTask s = two_arm_cart();
  Reading r = exact_reading(s, centred, false);
  r.steering_wheel_angle.reset();
  const Answer a = align(s, {r});
  EXPECT_EQ(a.verdict, Verdict::measure);
  EXPECT_EQ(a.reason, Reason::never_read);
  EXPECT_EQ(a.to_read, std::vector<Aspect>{Aspect::toe_difference});
  EXPECT_EQ(align(s, {}).to_read.size(), 4u);
}

}  // namespace
}  // namespace trammel::setup
