// A nut factor that the kit states: it reckons the preload, within the spread that is published for the surface, and is
// held against it. Bands: reference/surface_states.csv.
#include <gtest/gtest.h>

#include <algorithm>

#include "assess/shuttle.h"
#include "messages/catalogue.h"

namespace trammel::test {
namespace {

KitFastener& fastener(Job& job, const std::string& id) {
  for (KitUse& use : job.kits)
    for (KitFastener& f : use.kit.fastener)
      if (f.id.value == id) return f;
  throw std::logic_error("no fastener " + id);
}
Valued<double> factor(double k, std::optional<double> u = std::nullopt) { return {k, u, Basis::kit, {}}; }
FastenerLine line(const Job& job, const std::string& id) {
  for (FastenerLine& f : assess(job).fasteners)
    if (f.id == id) return f;
  throw std::logic_error("no fastener " + id);
}

// R4 of the load cart: M10, 35 N·m, dry zinc (0.15 to 0.295, 0.2 as a rule).
TEST(NutFactor, TheKitsOwnReckonsThePreloadAndNarrowsNothing) {
  Job job = load_cart();
  const FastenerLine usual = line(job, "R4");
  fastener(job, "R4").nut_factor = factor(0.16);
  const FastenerLine own = line(job, "R4");
  ASSERT_TRUE(usual.preload && own.preload);
  EXPECT_NEAR((*own.preload)[1].si(), 35.0 / (0.16 * 0.010), 1.0);  // F = T / (K d)
  EXPECT_NEAR((*own.preload)[1].si(), (*usual.preload)[1].si() * 0.20 / 0.16, 1.0);
  EXPECT_DOUBLE_EQ(own.nut_factor[0], usual.nut_factor[0]);
  EXPECT_DOUBLE_EQ(own.nut_factor[2], usual.nut_factor[2]);
  EXPECT_DOUBLE_EQ(own.nut_factor[1], 0.16);
}

TEST(NutFactor, OutsideWhatIsPublishedIsToldByWhatItDoesToTheClampForce) {
  Job job = load_cart();
  const auto said = [&](double k) {
    fastener(job, "R4").nut_factor = factor(k);
    return of_code(assess(job), "nut-factor-outside");
  };
  EXPECT_TRUE(said(0.15).empty());
  EXPECT_TRUE(said(0.295).empty());
  ASSERT_EQ(said(0.10).size(), 1u);
  EXPECT_EQ(said(0.10).front().outcome, Outcome::condition);
  EXPECT_NE(word(said(0.10).front().message, {}).find("50 % less"), std::string::npos);
  EXPECT_NE(word(said(0.30).front().message, {}).find("50 % more"), std::string::npos);
  // A hair beyond the band of a surface with a narrow one: a note.
  fastener(job, "R4").surface = Text{"waxed", {}};
  ASSERT_EQ(said(0.13105).size(), 1u);
  EXPECT_EQ(said(0.13105).front().outcome, Outcome::note);
}

TEST(NutFactor, OneForDryAndOiledIsTold) {
  Job job = load_cart();  // R1 light oil (0.18 as a rule), F8 dry zinc (0.2)
  fastener(job, "F8").nut_factor = factor(0.18);
  fastener(job, "R1").nut_factor = factor(0.18);
  auto told = of_code(assess(job), "nut-factor-dry-and-oiled");
  ASSERT_EQ(told.size(), 1u);
  EXPECT_EQ(told.front().subject, "F8");
  EXPECT_EQ(told.front().outcome, Outcome::note);  // a tenth of the clamp force
  EXPECT_NE(word(told.front().message, {}).find("R1 (light oil)"), std::string::npos) << word(told.front().message, {});
  // A third of it: a condition.
  fastener(job, "R1").surface = Text{"greased", {}};
  fastener(job, "F8").nut_factor = factor(0.15);
  fastener(job, "R1").nut_factor = factor(0.15);
  told = of_code(assess(job), "nut-factor-dry-and-oiled");
  ASSERT_EQ(told.size(), 1u);
  EXPECT_EQ(told.front().outcome, Outcome::condition);
  // Measured ones may well be alike; dry ones among themselves too.
  fastener(job, "F8").nut_factor = factor(0.15, 0.01);
  EXPECT_TRUE(of_code(assess(job), "nut-factor-dry-and-oiled").empty());
  fastener(job, "R1").surface = Text{"dry zinc", {}};
  fastener(job, "F8").nut_factor = factor(0.15);
  EXPECT_TRUE(of_code(assess(job), "nut-factor-dry-and-oiled").empty());
}

}  // namespace
}  // namespace trammel::test
