#include "fastener/engagement.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "fastener/worst.h"
#include "reference/iso898_1_classes.h"
#include "reference/thread_strip_areas.h"

namespace trammel::fastener {
namespace {

Thread thread(std::string_view text) { return std::get<Thread>(read_thread(text)); }

// W27: Bickford, 4th ed. (S18), strip areas at one diameter of engagement, 6H/6g; limits of ISO 965-1 from memory.
TEST(StripAreas, AsPublished) {
  Worst bolt("bolt thread strip area, Bickford"), tapped("tapped thread strip area, Bickford");
  for (const auto& row : reference::thread_strip_areas) {
    const Thread t = thread(row.thread);
    const auto a = strip_areas(t, t.d);
    ASSERT_TRUE(a) << row.thread;
    EXPECT_LT(bolt.see(a->bolt_thread.in(units::mm2), row.external_6h6g_mm2, std::string(row.thread)), 5e-5)
        << row.thread;
    EXPECT_LT(tapped.see(a->tapped_thread.in(units::mm2), row.internal_mm2, std::string(row.thread)), 5e-5)
        << row.thread;
  }
}

TEST(StripAreas, GrowWithEngagement) {
  const Thread t = thread("M10x1.25");
  EXPECT_NEAR(strip_areas(t, 20.0 * units::mm)->bolt_thread / strip_areas(t, 10.0 * units::mm)->bolt_thread, 2.0,
              1e-12);
}

// ASME B1.1 limits of 1/2-13 UNC 2A/2B from memory: minor 2B max 0.434 in, pitch 2A min 0.4435 in,
// major 2A min 0.4876 in, pitch 2B max 0.4565 in.
TEST(StripAreas, InchLimitsFromMemory) {
  const Thread t = thread("1/2-13");
  const auto a = strip_areas(t, 1.0 * units::inch);
  ASSERT_TRUE(a);
  const double root3 = std::sqrt(3.0), p = 1.0 / 13.0;
  const double bolt = std::numbers::pi / p * 0.434 * (p / 2 + (0.4435 - 0.434) / root3);
  const double tapped = std::numbers::pi / p * 0.4876 * (p / 2 + (0.4876 - 0.4565) / root3);
  EXPECT_NEAR(a->bolt_thread / (units::inch * units::inch), bolt, 0.008 * bolt);
  EXPECT_NEAR(a->tapped_thread / (units::inch * units::inch), tapped, 0.008 * tapped);
}

// W28, Machinery's Handbook, 24th ed., formula 1 (S19): Le = 2 At / (pi Kn,max [1/2 + 0.57735 n (Es,min - Kn,max)]).
TEST(Engagement, HandbookFormulaForEqualStrength) {
  const Thread t = thread("1/2-13");
  const Strength bolt = *strength("grade 5", t);
  // A tapped part far stronger than the bolt leaves the bolt's own thread to decide: the handbook's formula.
  const double at = stress_area(t) / (units::inch * units::inch);
  const double printed = 2.0 * at / (std::numbers::pi * 0.434 * (0.5 + 0.57735 * 13.0 * (0.4435 - 0.434)));
  const auto areas = strip_areas(t, 1.0 * units::inch);
  const double by_bolt = 2.0 * (stress_area(t) / areas->bolt_thread);
  EXPECT_NEAR(by_bolt, printed, 0.008 * printed);
  // Whatever is tapped, the answer is never below that.
  for (Material m :
       {Material::steel, Material::cast_iron, Material::ductile_iron, Material::aluminium, Material::stainless})
    EXPECT_GE(needed_engagement(t, bolt, m)->needed.in(units::inch), 0.992 * printed) << name(m);
}

// At the needed engagement the thread of the weaker side strips exactly when the bolt breaks (half of tensile in
// shear).
TEST(Engagement, StripsAsTheBoltBreaks) {
  for (const char* size : {"M6", "M8", "M10x1.25", "M12", "M16x1.5"})
    for (Material m : {Material::steel, Material::aluminium, Material::cast_iron}) {
      const Thread t = thread(size);
      const Strength bolt = *strength("8.8", t);
      const auto e = needed_engagement(t, bolt, m);
      ASSERT_TRUE(e);
      const auto areas = strip_areas(t, e->needed);
      const Force strips =
          std::min(0.5 * (bolt.tensile * areas->bolt_thread), 0.5 * (e->assumed_tensile * areas->tapped_thread));
      EXPECT_NEAR(strips / (stress_area(t) * bolt.tensile), 1.0, 1e-9) << size << name(m);
    }
}

TEST(Engagement, SofterNeedsMore) {
  const Thread t = thread("M10");
  const Strength bolt = *strength("8.8", t);
  const auto in = [&](Material m) { return needed_engagement(t, bolt, m)->needed; };
  EXPECT_LT(in(Material::steel), in(Material::cast_iron));
  EXPECT_LT(in(Material::cast_iron), in(Material::aluminium));
  EXPECT_FALSE(needed_engagement(t, bolt, Material::plastic));
  EXPECT_EQ(needed_engagement(t, bolt, Material::steel)->basis, Basis::from_memory);
  // Makers' rule of thumb (S52): 1.25 d in steel and cast iron, 2 d in aluminium.
  std::cout << "M10 8.8 needs " << in(Material::steel).in(units::mm) << " mm in steel, "
            << in(Material::cast_iron).in(units::mm) << " in cast iron, " << in(Material::aluminium).in(units::mm)
            << " in aluminium\n";
  EXPECT_NEAR(in(Material::steel) / t.d, 1.25, 0.15);
  EXPECT_NEAR(in(Material::aluminium) / t.d, 2.0, 0.5);
}

}  // namespace
}  // namespace trammel::fastener
