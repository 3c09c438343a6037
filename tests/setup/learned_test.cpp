// What finished jobs teach: the laws in the header, against the closed form of a hierarchical normal model.
#include "setup/learned.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "setup/cart.h"
#include "setup/simulate.h"

namespace trammel::setup {
namespace {

// One tie rod whose toe effect alone is uncertain, read without error: the posterior of e is then exact.
AlignmentTask one_rod(double mean, double sd) {
  AlignmentTask t;
  t.toe_diameter = 0.508 * units::metre;
  t.tolerance.total_toe = {3.0 * units::mm, 6.0 * units::mm};
  Adjuster a;
  a.name = "tie_rod";
  a.own.toe = Angle::from_si(mean);
  a.own_spread.toe = Angle::from_si(sd);
  t.adjusters = {a};
  t.handling.turn_error = t.handling.jam_twist = {};
  t.handling.settling_camber = {};
  t.handling.settling_toe = {};
  t.instruments.tape.sd = 1e-9 * units::metre;
  t.instruments.tape_step.sd = {};
  return t;
}
FinishedJob finished(const AlignmentTask& t, double effect) {
  const auto read = [&](double toe) {
    Reading r;
    r.toe_front = 0.85 * units::metre - 0.5 * toe_length(Angle::from_si(toe), t.toe_diameter);
    r.toe_rear = 0.85 * units::metre + 0.5 * toe_length(Angle::from_si(toe), t.toe_diameter);
    return r;
  };
  FinishedJob job{t, {}};
  job.events.emplace_back(read(0.0));
  job.events.emplace_back(Adjustment{{{Side::left, "tie_rod", 1.0 * units::turn}}, true});
  job.events.emplace_back(read(effect));
  return job;
}

// Closed form: carts e_i = m + d_i read exactly, prior of m with variance (1 - b) S, of d with b S.
TEST(Learned, SpreadShrinksAsTheHierarchicalModelSays) {
  const double s = 1e-3, m0 = 0.01, b = between_carts;
  const std::vector<double> found = {0.0112, 0.0105, 0.0108, 0.0114};
  std::vector<FinishedJob> jobs;
  double worst = 0.0, last = s;
  for (std::size_t n = 1; n <= found.size(); ++n) {
    AlignmentTask task = one_rod(m0, s);
    jobs.push_back(finished(task, found[n - 1]));
    EXPECT_EQ(learn_from(task, jobs), static_cast<int>(n));
    double precision = 1.0 / ((1.0 - b) * s * s), sum = m0 * precision;
    for (std::size_t i = 0; i < n; ++i) precision += 1.0 / (b * s * s), sum += found[i] / (b * s * s);
    const double u = std::sqrt(1.0 / precision + b * s * s);
    const Belief belief(task);
    worst = std::max({worst, std::abs(belief.effect(0).toe.si() / (sum / precision) - 1.0),
                      std::abs(belief.effect_spread(0).toe.si() / u - 1.0)});
    // Law 2.
    EXPECT_LT(belief.effect_spread(0).toe.si(), last);
    EXPECT_GT(belief.effect_spread(0).toe.si(), std::sqrt(b) * s);
    last = belief.effect_spread(0).toe.si();
  }
  std::cout << "worst " << worst << " of the value\n";
  EXPECT_LT(worst, 1e-4);
}

// Law 1, law 3, and what teaches nothing.
TEST(Learned, NothingIsLearnedFromNothing) {
  AlignmentTask task = one_rod(0.01, 1e-3);
  EXPECT_EQ(learn_from(task, {}), 0);
  EXPECT_TRUE(task.learned.empty());
  FinishedJob unturned = finished(task, 0.012);
  unturned.events.resize(1);
  EXPECT_EQ(learn_from(task, std::vector{unturned}), 0);
  FinishedJob other = finished(task, 0.012);
  other.task.adjusters[0].name = "drag_link";
  EXPECT_EQ(learn_from(task, std::vector{other}), 0);
  AlignmentTask one = task, two = task;
  learn_from(one, std::vector{finished(task, 0.012), finished(task, 0.009)});
  learn_from(two, std::vector{finished(task, 0.009), finished(task, 0.012)});
  EXPECT_NEAR(Belief(one).effect(0).toe.si(), Belief(two).effect(0).toe.si(), 1e-8);
}

// The same part across learns along with it, and the covariance stays one.
TEST(Learned, LeftTeachesRightWhereTheyAreAlike) {
  AlignmentTask task = two_arm_cart();
  for (Adjuster& a : task.adjusters) a.own_spread = {0.2 * abs(a.own.camber), 0.2 * abs(a.own.toe), 0.3};
  task.alike = 0.9;
  const Belief before(task);
  Generator g(5);
  TrueCart truth = draw_cart(task, {-2.0 * units::degree, -2.0 * units::degree, {}, {}}, g);
  SimulatedCart cart(task, truth);
  Belief belief(task);
  belief.condition(cart.read({}, g));
  const Adjustment turn{{{Side::left, task.adjusters[0].name, 2.0 * units::turn}}, true};
  cart.turn(turn, g);
  belief.adjust(turn);
  belief.condition(cart.read({}, g));
  // What the left arm taught of camber narrows the right arm too.
  std::size_t right = 0;
  while (task.adjusters[right].side != Side::right || task.adjusters[right].name != task.adjusters[0].name) ++right;
  EXPECT_LT(belief.effect_spread(0).camber.si(), 0.6 * before.effect_spread(0).camber.si());
  EXPECT_LT(belief.effect_spread(right).camber.si(), 0.8 * before.effect_spread(right).camber.si());
}

}  // namespace
}  // namespace trammel::setup
