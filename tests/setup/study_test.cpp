// A population of carts as the project states it (population.h): bounds a little below the shares seen over several
// fleets of 1000; the figures themselves have no published source.
#include "setup/study.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iomanip>
#include <iostream>

#include "setup/cart.h"
#include "setup/population.h"

namespace trammel::setup {
namespace {

// A share with three standard deviations of so many draws on top.
double at_most(double share, int draws) { return share + 3.0 * std::sqrt(share * (1.0 - share) / std::max(1, draws)); }

struct Both {
  StudySummary told, feel;
};

// Of all carts that these tests accepted: how many were out, how many by their own chances, and the variance of that.
struct Pool {
  int accepted = 0, out = 0;
  double stated = 0.0, variance = 0.0;
};
Pool pool;

Both study(const char* name, const Fleet& fleet, int carts, std::uint64_t seed) {
  Generator g(seed);
  const Population population(fleet, g);
  const Way way = usual_way(fleet.floor);
  std::vector<CartRun> told, feel;
  for (int i = 0; i < carts; ++i) {
    Generator own(1000 * seed + i);
    const TrueCart cart = population.draw(own);
    told.push_back(align_as_told(population.task(), way, cart, own));
    if (const CartRun& run = told.back(); run.accepted) {
      ++pool.accepted;
      pool.out += run.out;
      pool.stated += 1.0 - run.believed;
      pool.variance += run.believed * (1.0 - run.believed);
    }
    feel.push_back(align_by_feel(population.task(), way.times, cart, own));
  }
  const Both b{summary(told), summary(feel)};
  const auto line = [&](const char* how, const StudySummary& s) {
    std::cout << std::left << std::setw(26) << name << how << " accepted in one pass " << s.within_one << ", two "
              << s.within_two << ", truly out " << s.share_out() << ", passes " << s.median_passes << " ("
              << s.ninetieth_passes << "), minutes " << s.median_minutes.in(units::minute) << " ("
              << s.ninetieth_minutes.in(units::minute) << ")\n";
  };
  line("as told", b.told);
  line("by feel", b.feel);
  return b;
}

// Turning by feel: 5 to 7 passes, 9 to 11 for nine in ten, 1 to 7 % done in two (the project's earlier simulations).
TEST(Study, NominalGeometryOnABareFloor) {
  const Both b = study("nominal, bare floor", {}, 100, 1);
  EXPECT_GE(b.told.within_one, 0.08);
  EXPECT_GE(b.told.within_two, 0.70);
  EXPECT_LE(b.told.share_out(), at_most(0.05, b.told.accepted));
  EXPECT_LE(b.told.ninetieth_minutes, b.feel.ninetieth_minutes);
  EXPECT_NEAR(b.feel.median_passes, 6.0, 1.0);
  EXPECT_NEAR(b.feel.ninetieth_passes, 10.5, 2.0);
  EXPECT_LE(b.feel.within_two, 0.10);
}

TEST(Study, NominalGeometryOnSlipPlates) {
  Fleet f;
  f.floor = Floor::plates;
  const Both b = study("nominal, slip plates", f, 60, 2);
  EXPECT_GE(b.told.within_one, 0.55);
  EXPECT_GE(b.told.within_two, 0.92);
  EXPECT_LE(b.told.share_out(), at_most(0.05, b.told.accepted));
}

TEST(Study, SurveyedGeometry) {
  Fleet f;
  f.points = 2.0 * mm;
  const Both bare = study("surveyed, bare floor", f, 50, 3);
  EXPECT_GE(bare.told.within_one, 0.25);
  EXPECT_GE(bare.told.within_two, 0.78);
  f.floor = Floor::plates;
  const Both plates = study("surveyed, slip plates", f, 50, 3);
  EXPECT_GE(plates.told.within_one, 0.68);
  EXPECT_GE(plates.told.within_two, 0.94);
}

TEST(Study, ClassAverages) {
  Fleet f;
  f.design = 15.0 * mm;
  const Both bare = study("no geometry, bare floor", f, 50, 4);
  EXPECT_GE(bare.told.within_two, 0.48);
  f.floor = Floor::plates;
  const Both plates = study("no geometry, slip plates", f, 50, 4);
  EXPECT_GE(plates.told.within_one, 0.34);
  EXPECT_GE(plates.told.within_two, 0.85);
}

TEST(Study, BeamAxle) {
  Fleet f;
  f.beam = true;
  const Both b = study("beam axle, bare floor", f, 40, 5);
  EXPECT_GE(b.told.within_two, 0.85);
}

// Of those accepted at most 3 in the hundred are out. So few carts cannot show that by count (the study's 5000 do), but
// they show both halves of it: the carts' own chances come to less, and the count is what those chances allow.
TEST(Study, AtMostThreeInAHundredAcceptedAreOut) {
  if (pool.accepted < 300) {  // where this test runs alone
    study("nominal, bare floor", {}, 150, 1);
    Fleet f;
    f.floor = Floor::plates;
    study("nominal, slip plates", f, 150, 2);
  }
  const double stated = pool.stated / pool.accepted, bound = share_at_most(pool.out, pool.accepted);
  std::cout << "accepted " << pool.accepted << ", out " << pool.out << ", by their own chances " << pool.stated
            << ", with 95 % confidence at most " << bound << '\n';
  ASSERT_GE(pool.accepted, 295);
  EXPECT_LE(stated, 0.028);
  EXPECT_NEAR(pool.out, pool.stated, 3.0 * std::sqrt(pool.variance));
  EXPECT_LE(bound, 0.06);
}

// Clopper and Pearson's limit where it has a closed form: none of n, and all but one of n.
TEST(Study, ShareAtMost) {
  double worst = 0.0;
  for (const int n : {1, 7, 59, 300, 5000}) {
    worst = std::max(worst, std::abs(share_at_most(0, n) - (1.0 - std::pow(0.05, 1.0 / n))));
    worst = std::max(worst, std::abs(share_at_most(n - 1, n, 0.9) - std::pow(0.9, 1.0 / n)));
  }
  std::cout << "worst share " << worst << '\n';
  EXPECT_LT(worst, 1e-9);
  EXPECT_EQ(share_at_most(4, 4), 1.0);
}

// The same generator gives the same run, and leaves the generator alike.
TEST(Study, Repeats) {
  const AlignmentTask s = two_arm_cart();
  Generator a(9), b(9);
  const TrueCart x = draw_cart(s, random_start(s, a), a), y = draw_cart(s, random_start(s, b), b);
  EXPECT_EQ(align_as_told(s, {}, x, a).minutes, align_as_told(s, {}, y, b).minutes);
  EXPECT_EQ(a(), b());
}

// Readings while turning carry the scrub, the same all through a pass, and none after the roll.
TEST(Scrub, StaysWithinAPassAndGoesWithTheRoll) {
  AlignmentTask s = two_arm_cart();
  s.instruments.tape.sd = s.instruments.square.sd = {};
  s.instruments.tape_step.sd = {};
  s.handling.turn_error = s.handling.jam_twist = {};
  s.handling.settling_camber = {};
  s.handling.settling_toe = {};
  Generator g(4);
  double sum_camber = 0.0, sum_toe = 0.0;
  constexpr int carts = 400;
  for (int i = 0; i < carts; ++i) {
    SimulatedCart cart(s, draw_cart(s, {}, g));
    cart.turn({{{Side::left, "upper_arm", 0.2 * turn}}, false}, g);
    const Reading first = cart.read({}, g);
    ASSERT_TRUE(first.while_turning);
    EXPECT_FALSE(first.steering_wheel_angle.has_value());
    const Angle off = camber_of(*first.left_camber_gap) - cart.truth().left_camber;
    sum_camber += std::pow(off.in(degree), 2) / carts;
    sum_toe += std::pow(((*first.toe_rear - *first.toe_front) - toe_length(cart.truth().left_toe, s.toe_diameter) -
                         toe_length(cart.truth().right_toe, s.toe_diameter))
                            .in(mm),
                        2) /
               carts;
    cart.turn({{{Side::left, "upper_arm", 0.2 * turn}}, false}, g);
    EXPECT_NEAR((camber_of(*cart.read({}, g).left_camber_gap) - cart.truth().left_camber).in(degree), off.in(degree),
                1e-9);
    cart.roll(g);
    const Reading rolled = cart.read({}, g);
    EXPECT_FALSE(rolled.while_turning);
    EXPECT_NEAR((camber_of(*rolled.left_camber_gap) - cart.truth().left_camber).in(degree), 0.0, 1e-9);
  }
  EXPECT_NEAR(std::sqrt(sum_camber), 0.15, 0.02);
  EXPECT_NEAR(std::sqrt(sum_toe), std::sqrt(2.0) * 1.0, 0.12);
}

// The belief's account of the scrub: a reading while turning tells a gripped wheel's camber no better than the scrub.
TEST(Scrub, LimitsWhatAReadingWhileTurningTells) {
  AlignmentTask s = two_arm_cart();
  s.instruments.square.sd = 1e-6 * mm;
  s.instruments.square_base.sd = {};
  s.instruments.square_true.sd = {};
  s.handling = {};
  Belief b(s);
  b.adjust({{{Side::left, "upper_arm", 0.01 * turn}}, false});
  Reading r;
  r.left_camber_gap = gap_of(0.4 * degree, 280.0 * mm);
  r.while_turning = true;
  b.condition(r);
  // Closed form: prior 3 deg, scrub 0.15 deg.
  const double v = 9.0, w = 0.15 * 0.15;
  EXPECT_NEAR(b.state().left_camber.u.in(degree), std::sqrt(v * w / (v + w)), 1e-4);
  EXPECT_TRUE(b.turning());
  b.roll();
  EXPECT_FALSE(b.turning());
  // A second time exactly the same is no news of the wheel.
  r.while_turning = false;
  b.condition(r);
  EXPECT_LT(b.state().left_camber.u.in(degree), 1e-3);
}

// A square on the sidewall: corrected by half the bulge, and as unsure as the rest of it.
TEST(Scrub, SidewallBulge) {
  AlignmentTask s = two_arm_cart();
  Generator g(12);
  double off = 0.0, worst = 0.0;
  for (int i = 0; i < 200; ++i) {
    SimulatedCart cart(s, draw_cart(s, {0.3 * degree, {}, {}, {}}, g));
    ReadingPlan plan;
    plan.on_lips = false;
    Belief b(s);
    for (int k = 0; k < 4; ++k) b.condition(cart.read(plan, g));
    const Estimate<Angle> c = b.state().left_camber;
    off += (c.value.in(degree)-0.3) / 200;
    worst = std::max(worst, std::abs((c.value.in(degree)-0.3) / c.u.in(degree)));
    EXPECT_GT(c.u.in(degree), 0.08);
  }
  EXPECT_NEAR(off, 0.0, 0.04);
  std::cout << "sidewall: mean error " << off << " deg, worst " << worst << " u\n";
}

}  // namespace
}  // namespace trammel::setup
