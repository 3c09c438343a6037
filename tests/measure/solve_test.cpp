// The root solve and the nearest word.
#include "measure/solve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>

#include "measure/nearest.h"

namespace trammel {
namespace {

using D = Dual<double, 1>;

TEST(FindRoot, ClosedForms) {
  double worst = 0.0;
  int most = 0;
  const auto check = [&](auto f, double low, double high, double root) {
    const RootReport r = find_root(f, low, high);
    EXPECT_TRUE(usable(r.outcome)) << root;
    EXPECT_NEAR(r.x, root, 4e-14 * std::max(1.0, std::abs(root)));
    worst = std::max(worst, std::abs(r.x - root));
    most = std::max(most, r.iterations);
  };
  check([](D x) { return x * x - D(2); }, 0, 2, std::sqrt(2.0));
  check([](D x) { return D(2) - x * x; }, 0, 2, std::sqrt(2.0));
  check([](D x) { return cos(x); }, 1, 2, std::numbers::pi / 2);
  check([](D x) { return exp(x) - D(1e6); }, -50, 50, std::log(1e6));
  check([](D x) { return atan(x - D(3)); }, -1e3, 1e4, 3.0);  // Newton alone runs away
  check([](D x) { return x - D(1); }, 1, 5, 1.0);             // at an end
  // Kepler's equation, M = 1, e = 0.9: E - e sin E = M (root derived by substitution back).
  const RootReport kepler = find_root([](D e) { return e - D(0.9) * sin(e) - D(1); }, 0, 4);
  EXPECT_LT(std::abs(kepler.x - 0.9 * std::sin(kepler.x) - 1), 1e-15);
  std::cout << "worst root error " << worst << ", most steps " << most << "\n";
}

TEST(FindRoot, SaysWhyThereIsNone) {
  EXPECT_EQ(find_root([](D x) { return x * x + D(1); }, -1, 1).outcome, RootOutcome::no_sign_change);
  EXPECT_EQ(find_root([](D x) { return sqrt(x); }, -1, 1).outcome, RootOutcome::not_converged);
  EXPECT_EQ(find_root([](D x) { return x * x * x - D(2); }, 0, 1e9, {.most_iterations = 2}).outcome,
            RootOutcome::not_converged);
}

// A jump is found as the place of the jump, and the residual shows it.
TEST(FindRoot, AJumpKeepsItsResidual) {
  const RootReport r = find_root([](D x) { return x.value < 0.3 ? D(-1) : D(1); }, 0, 1);
  EXPECT_NEAR(r.x, 0.3, 1e-13);
  EXPECT_EQ(std::abs(r.residual), 1.0);
}

TEST(Nearest, FindsTheWordMeant) {
  const std::vector<std::string> keys = {"front_bush", "rear_bush", "ball_joint", "tie_rod", "camber", "toe"};
  EXPECT_EQ(nearest("font_bush", keys), "front_bush");
  EXPECT_EQ(nearest("frontbush", keys), "front_bush");
  EXPECT_EQ(nearest("Ball_Joint", keys), "ball_joint");
  EXPECT_EQ(nearest("ball_jiont", keys), "ball_joint");
  EXPECT_EQ(nearest("cambre", keys), "camber");
  EXPECT_EQ(nearest("teo", keys), "toe");
  EXPECT_EQ(nearest("wheelbase", keys), "");
  EXPECT_EQ(nearest("x", keys), "");
  EXPECT_EQ(nearest("", keys), "");
  EXPECT_EQ(nearest(std::string(1000, 'a'), keys), "");
}

TEST(Nearest, CountsTheFourSlips) {
  EXPECT_EQ(edit_distance_quarters("toe", "toe"), 0);
  EXPECT_EQ(edit_distance_quarters("toe", "Toe"), 1);
  EXPECT_EQ(edit_distance_quarters("toe", "to"), 4);
  EXPECT_EQ(edit_distance_quarters("toe", "toes"), 4);
  EXPECT_EQ(edit_distance_quarters("toe", "tow"), 4);
  EXPECT_EQ(edit_distance_quarters("toe", "teo"), 4);
}

}  // namespace
}  // namespace trammel
