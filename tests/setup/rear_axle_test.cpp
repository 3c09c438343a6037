// A rear axle's square against closed forms of plane geometry, and the laws of its answer.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "setup/chance.h"
#include "setup/rear_axle.h"

namespace trammel::setup {
namespace {

// What a tape shows of an axle that stands at (x, y) and points s to the left: worked out point by point.
struct Stand {
  double s = 0, x = 0, y = 0, toe = 0;
};
struct Marks {
  double ahead = 0.9, out = 0.3, end = 0.3;
  bool crossed = false;
  double left_above = 0, right_above = 0;
};
RearReading lengths(const Stand& at, const Marks& m) {
  const auto span = [&](double side) {
    const double ex = at.x - side * m.end * std::sin(at.s), ey = at.y + side * m.end * std::cos(at.s);
    const double my = (m.crossed ? -side : side) * m.out;
    return Length::from_si(std::hypot(m.ahead - ex, my - ey, side > 0 ? m.left_above : m.right_above));
  };
  RearReading r;
  r.left_length = span(1);
  r.right_length = span(-1);
  r.marks_ahead = Length::from_si(m.ahead);
  r.mark_out = Length::from_si(m.out);
  r.end_out = Length::from_si(m.end);
  r.crossed = m.crossed;
  r.left_mark_above = Length::from_si(m.left_above);
  r.right_mark_above = Length::from_si(m.right_above);
  return r;
}
RearReading strings(const Stand& at, double d = 0.3) {
  // Rim edges half a diameter ahead of and behind each wheel's middle, strings 0.7 m from the cart's middle.
  const auto wheel = [&](double side) {
    const double own = 0.5 * at.toe - side * at.s;  // toe-in
    const double middle = 0.7 - (0.5 + side * at.y);
    return StringReading{Length::from_si(middle + 0.5 * d * std::sin(own)),
                         Length::from_si(middle - 0.5 * d * std::sin(own))};
  };
  RearReading r;
  r.left_string = wheel(1);
  r.right_string = wheel(-1);
  r.string_diameter = Length::from_si(d);
  return r;
}

RearTask task() {
  RearTask t;
  t.thrust = {-0.2 * units::degree, 0.2 * units::degree};
  t.offset = Band<Length>{-5.0 * units::mm, 5.0 * units::mm};
  t.instruments.tape.sd = 0.5 * units::mm;
  t.instruments.tape_step.sd = 1.0 * units::mm;
  t.instruments.string.sd = 0.3 * units::mm;
  // Arms 0.25 m from the middle, 1.5 mm a turn: longer on the left puts the left end back, so the wheels point left.
  const double a_turn = 1.5e-3;
  const auto arm = [&](const char* name, double side) {
    RearAdjuster a;
    a.name = name;
    a.steer = Angle::from_si(side * a_turn / 0.5);
    a.steer_u = 0.05 * abs(a.steer);
    return a;
  };
  RearAdjuster bar;
  bar.name = "track bar";
  bar.shift = Length::from_si(a_turn);
  bar.shift_u = 0.05 * bar.shift;
  t.adjusters = {arm("left arm", 1), arm("right arm", -1), bar};
  return t;
}

// A tape without error says how the axle stands.
TEST(RearAxle, FindsTheStandFromExactReadings) {
  RearTask t = task();
  t.instruments.tape.sd = t.instruments.tape_step.sd = t.instruments.string.sd = 1e-7 * units::metre;
  t.string_skew = {};
  t.string_place = t.frame = 1e-7 * units::metre;
  double worst_s = 0, worst_y = 0;
  for (const Stand at : {Stand{0.01, 0.004, 0, 0}, Stand{-0.02, 0, 0.006, 0}, Stand{0.005, -0.01, -0.008, 0.003}}) {
    RearReading gaps;
    gaps.left_to_frame = Length::from_si(0.2 + at.y);
    gaps.right_to_frame = Length::from_si(0.2 - at.y);
    for (const Marks m : {Marks{}, Marks{0.9, 0.0, 0.3, false}, Marks{1.2, 0.35, 0.3, true},
                          Marks{0.9, 0.3, 0.3, false, 0.15, 0.19}, Marks{1.2, 0.3, 0.3, true, -0.1, 0.05}}) {
      const RearAnswer a = align_rear(t, {gaps, lengths(at, m)});
      worst_s = std::max(worst_s, std::abs(a.thrust.value.si() - at.s));
      worst_y = std::max(worst_y, std::abs(a.offset.value.si() - at.y));
    }
    const RearAnswer a = align_rear(t, {strings(at)});
    worst_s = std::max(worst_s, std::abs(a.thrust.value.si() - at.s));
    worst_y = std::max(worst_y, std::abs(a.offset.value.si() - at.y));
    EXPECT_NEAR(a.toe.value.si(), at.toe, 2e-5);
  }
  std::cout << "worst thrust " << worst_s << " rad, worst offset " << worst_y << " m\n";
  EXPECT_LT(worst_s, 1e-4);
  EXPECT_LT(worst_y, 5e-6);
}

// Closed form: straight lengths of equal half-widths differ by 2 a sin s, whatever the axle's shift; u by JCGM 100.
TEST(RearAxle, StraightLengthsSayTheAngleWithItsUncertainty) {
  RearTask t = task();
  t.frame = {};
  RearReading r = lengths({0, 0, 0, 0}, {});
  r.left_length = *r.left_length + 3.0 * units::mm;
  const RearAnswer a = align_rear(t, {r});
  const double s = std::asin(0.003 / 0.6), one = std::sqrt(0.25e-6 + 1e-6 / 12.0), u = std::sqrt(2.0) * one / 0.6;
  EXPECT_NEAR(a.thrust.value.si(), s, 0.01 * s);
  EXPECT_NEAR(a.thrust.u.si(), u, 0.03 * u);
  EXPECT_FALSE(a.offset_known);
}

// A mark 10 mm higher on one side, 150 mm up and 420 mm along, taken as level: 3.5 mm of length too much (closed form).
TEST(RearAxle, MarksOfUnequalHeight) {
  RearTask t = task();
  t.frame = {};
  const Marks m{0.42, 0.3, 0.3, false, 0.16, 0.15};
  RearReading r = lengths({}, m);
  EXPECT_NEAR(align_rear(t, {r}).thrust.value.si(), 0.0, 1e-6);
  r.left_mark_above = r.right_mark_above;
  const double longer = std::sqrt(std::pow(std::hypot(0.42, 0.16), 2) - 0.15 * 0.15) - 0.42;
  const double s = std::asin(longer / 0.6);
  EXPECT_NEAR(align_rear(t, {r}).thrust.value.si(), s, 0.02 * s);
}

// Law 1.
TEST(RearAxle, MirroredReadingsGiveTheMirroredAnswer) {
  RearTask t = task();
  const RearAnswer a = align_rear(t, {strings({0.02, 0, 0.007, 0.001}), lengths({0.02, 0, 0.007, 0}, {0.9, 0, 0.3})}),
                   b = align_rear(t,
                                  {strings({-0.02, 0, -0.007, 0.001}), lengths({-0.02, 0, -0.007, 0}, {0.9, 0, 0.3})});
  EXPECT_NEAR(a.thrust.value.si(), -b.thrust.value.si(), 1e-9);
  EXPECT_NEAR(a.offset.value.si(), -b.offset.value.si(), 1e-9);
  EXPECT_NEAR(a.probability, b.probability, 1e-4);
  ASSERT_EQ(a.turns.size(), b.turns.size());
  double left = 0, right = 0, bar = 0;
  for (const RearTurn& x : a.turns) (x.adjuster == 0 ? left : x.adjuster == 1 ? right : bar) += x.turns.si();
  for (const RearTurn& x : b.turns)
    (x.adjuster == 0 ? right : x.adjuster == 1 ? left : bar) -= x.adjuster == 2 ? -x.turns.si() : x.turns.si();
  EXPECT_NEAR(left, 0.0, 0.3);
  EXPECT_NEAR(right, 0.0, 0.3);
  EXPECT_NEAR(bar, 0.0, 0.3);
}

// A whole job: out, turned as told, read again, accepted.
TEST(RearAxle, TurnsAreToldReadAndAccepted) {
  const RearTask t = task();
  const Stand out{0.02, 0, 0.009, 0};
  std::vector<RearEvent> events{strings(out)};
  const RearAnswer first = align_rear(t, events);
  ASSERT_EQ(first.verdict, RearVerdict::adjust);
  EXPECT_GT(first.probability_after, first.probability);
  Stand then = out;
  for (const RearTurn& turn : first.turns) {
    events.push_back(turn);
    const double turns = turn.turns.in(units::turn), quarters = 4 * 6 * turns;
    EXPECT_NEAR(quarters, std::round(quarters), 1e-9);
    then.s += turns * t.adjusters[turn.adjuster].steer.si();
    then.y += turns * t.adjusters[turn.adjuster].shift.si();
  }
  EXPECT_NEAR(then.s, 0.0, 0.001);
  EXPECT_NEAR(then.y, 0.0, 0.001);
  // Law 2: not before it is read again.
  EXPECT_EQ(align_rear(t, events).reason, RearReason::turned_not_read);
  events.push_back(strings(then));
  events.push_back(strings(then));
  const RearAnswer last = align_rear(t, events);
  EXPECT_EQ(last.verdict, RearVerdict::accept);
  EXPECT_GE(last.probability, t.accept_probability);
}

// Law 3, and nothing to turn.
TEST(RearAxle, KeepsToLimitsAndSaysWhereNothingTurns) {
  RearTask t = task();
  t.adjusters.resize(1);
  t.adjusters[0].most_longer = 1.0 * units::turn;
  const RearAnswer a = align_rear(t, {strings({0.02, 0, 0, 0}), strings({0.02, 0, 0, 0})});
  for (const RearTurn& turn : a.turns) EXPECT_LE(turn.turns.si(), (1.0 * units::turn).si() + 1e-9);
  t.adjusters.clear();
  const RearAnswer none = align_rear(t, {strings({0.02, 0, 0, 0}), strings({0.02, 0, 0, 0})});
  EXPECT_EQ(none.verdict, RearVerdict::diagnose);
  EXPECT_EQ(none.reason, RearReason::no_adjuster);
  const RearAnswer bent = align_rear(task(), {strings({0, 0, 0, 0.03}), strings({0, 0, 0, 0.03})});
  EXPECT_EQ(bent.reason, RearReason::housing_bent);
}

// What it says of its own sureness holds: 2000 axles, read with the tools' own scatter.
TEST(RearAxle, TheUncertaintyIsHonest) {
  Generator g(7);
  const RearTask t = task();
  int within = 0;
  const int n = 2000;
  for (int i = 0; i < n; ++i) {
    const Stand at{0.01 * normal(g), 0.005 * normal(g), 0.005 * normal(g), 0};
    RearReading r = lengths(at, {});
    const auto read = [&](Length l) { return Length::from_si(1e-3 * std::round(1e3 * (l.si() + 0.5e-3 * normal(g)))); };
    r.left_length = read(*r.left_length);
    r.right_length = read(*r.right_length);
    const RearAnswer a = align_rear(t, {r});
    within += std::abs(a.thrust.value.si() - at.s) < 2.0 * a.thrust.u.si();
  }
  std::cout << "within two u: " << 100.0 * within / n << " %\n";
  EXPECT_NEAR(100.0 * within / n, 95.4, 1.6);
}

}  // namespace
}  // namespace trammel::setup
