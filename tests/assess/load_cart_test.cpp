// The load cart (invented demo data) against the figures worked out for it by hand when it was invented, each given to
// the digits stated there.
#include <gtest/gtest.h>

#include <iostream>

#include "assess/shuttle.h"

namespace trammel::test {
namespace {

TEST(LoadCart, figures_by_hand) {
  Job job = load_cart();
  LoadCase laden = job.load_case.back();
  laden.name.value = "laden";
  laden.cargo = Valued<Mass>{150.0 * units::kg, {}, Basis::assumed, {}};
  job.load_case.push_back(laden);
  const Assessment a = assess(job);
  double worst = 0.0;
  const auto expect = [&](double computed, double by_hand, double digits, const char* what) {
    EXPECT_NEAR(computed, by_hand, digits) << what;
    worst = std::max(worst, std::abs(computed - by_hand) / digits);
  };
  const LoadCaseResult &two = load_case(a, "two people"), &full = load_case(a, "laden");
  // Static stability factor, half track over height; to three decimals, the after row's track being the smaller one.
  expect(*two.before.stability_factor, 0.860, 6e-4, "factor, two people, before");
  expect(*two.after.stability_factor, 0.771, 6e-4, "factor, two people, after");
  expect(*full.before.stability_factor, 0.807, 6e-4, "factor, laden, before");
  expect(*full.after.stability_factor, 0.726, 6e-4, "factor, laden, after");
  // Laden mass, axle loads and height of the weight, to the kilogram and millimetre.
  expect(full.before.total.si(), 932, 0.6, "mass");
  expect(full.before.front.si(), 357, 0.6, "front axle");
  expect(full.before.rear.si(), 575, 0.6, "rear axle");
  expect(full.after.total.si(), 956, 0.6, "mass after");
  expect(full.after.front.si(), 368, 0.6, "front axle after");
  expect(1e3 * full.before.cg.z.si(), 586, 0.6, "height");
  expect(1e3 * full.after.cg.z.si(), 668, 0.6, "height after");
  expect(full.after.tip_back->in(units::degree), 46.1, 0.06, "tip-back after");
  expect(a.after.top_speed->in(units::km_per_h), 26.7, 0.06, "top speed");
  expect(1e3 * a.after.height->si(), 1940, 0.6, "height of the roof");
  std::cout << "worst error: " << worst << " of the stated digits\n";
}

TEST(LoadCart, says_what_the_outline_asks_for) {
  const Assessment a = assess(load_cart());
  EXPECT_EQ(a.verdict, Verdict::go_with_conditions);
  // 10 mm under the door with a tape good to 5: a condition, since the tape cannot tell.
  const auto door = of_code(a, "doorway");
  ASSERT_EQ(door.size(), 1u);
  EXPECT_EQ(door[0].outcome, Outcome::condition);
  EXPECT_NEAR(door[0].margin->si, 0.010, 1e-9);
  // It leaves its class by speed, and tips in the bend below that speed.
  EXPECT_EQ(worst(a, "speed-class"), Outcome::condition);
  EXPECT_EQ(worst(a, "bend-speed"), Outcome::condition);
  // 150 kg of cargo no longer go: the rating leaves 144.
  Job laden = load_cart();
  laden.load_case.back().cargo = Valued<Mass>{150.0 * units::kg, {}, Basis::assumed, {}};
  EXPECT_EQ(worst(assess(laden), "gross-mass"), Outcome::stop);
}

TEST(LoadCart, nothing_is_guessed_of_its_springs_and_nothing_left_loose) {
  const Assessment a = assess(load_cart());
  EXPECT_EQ(of_code(a, "layout-not-computed").size(), 2u);
  EXPECT_FALSE(a.front_after.computed);
  EXPECT_EQ(of_code(a, "work-walked").size(), 1u);
}

}  // namespace
}  // namespace trammel::test
