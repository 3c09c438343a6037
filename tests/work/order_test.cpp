// Precedence, cycles, time and tools.
#include "work/order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "work/builder.h"
#include "work/hauler.h"

namespace trammel::work {
namespace {

TEST(Order, TheHaulersOrderKeepsItsPrecedences) {
  EXPECT_TRUE(broken_precedences(hauler()).empty());
  EXPECT_EQ(precedences(hauler()).size(), 16u);
  const TopologicalOrder o = topological_order(hauler());
  EXPECT_TRUE(o.cycles.empty());
  EXPECT_EQ(o.order.size(), hauler().steps.size());
  EXPECT_TRUE(std::is_sorted(o.order.begin(), o.order.end()));  // an order that is right already stays
}

TEST(Order, AnyShuffleIsPutRightAgain) {
  std::mt19937 random(7);
  for (int n = 0; n < 50; ++n) {
    Procedure p = hauler();
    std::shuffle(p.steps.begin(), p.steps.end(), random);
    const TopologicalOrder o = topological_order(p);
    ASSERT_TRUE(o.cycles.empty());
    Procedure sorted = p;
    sorted.steps.clear();
    for (std::size_t i : o.order) sorted.steps.push_back(p.steps[i]);
    EXPECT_TRUE(broken_precedences(sorted).empty());
  }
}

TEST(Order, ACycleIsNamedOnce) {
  Procedure p;
  write_steps(p, {{.id = "a", .needs = {"c"}},
                  {.id = "b", .needs = {"a"}},
                  {.id = "c", .needs = {"b"}},
                  {.id = "d"},
                  {.id = "e", .needs = {"c"}}});
  const TopologicalOrder o = topological_order(p);
  ASSERT_EQ(o.cycles.size(), 1u);
  EXPECT_EQ(o.cycles[0], (std::vector<std::size_t>{0, 1, 2}));
  EXPECT_EQ(o.order, (std::vector<std::size_t>{3}));
  EXPECT_EQ(broken_precedences(p).size(), 1u);
}

}  // namespace
}  // namespace trammel::work
