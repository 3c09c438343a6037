#include "fastener/thread.h"

#include <gtest/gtest.h>

#include <random>

#include "fastener/worst.h"
#include "reference/iso898_1_proof_loads.h"
#include "reference/metric_pitches.h"
#include "reference/thread_strip_areas.h"
#include "reference/unified_stress_areas.h"

namespace trammel::fastener {
namespace {

Thread thread(std::string_view text) {
  const auto r = read_thread(text);
  EXPECT_TRUE(std::holds_alternative<Thread>(r)) << text;
  return std::holds_alternative<Thread>(r) ? std::get<Thread>(r) : Thread{};
}
ThreadError error(std::string_view text) {
  const auto r = read_thread(text);
  EXPECT_TRUE(std::holds_alternative<ThreadError>(r)) << text;
  return std::holds_alternative<ThreadError>(r) ? std::get<ThreadError>(r) : ThreadError{};
}

// ISO 898-1 stress areas as tabled, coarse (S01) and fine (S20 for four sizes, the rest from memory).
TEST(StressArea, MetricAsPublished) {
  Worst worst("metric stress area, ISO 898-1");
  for (const auto& row : reference::iso898_1_proof_loads) {
    const double as = stress_area(thread(row.thread)).in(units::mm2);
    EXPECT_LT(worst.see(as, row.stress_area_mm2, std::string(row.thread)), 0.005) << row.thread << row.source;
  }
}

// Bickford, Introduction to the Design and Behavior of Bolted Joints, 4th ed. (S18), five digits.
TEST(StressArea, MetricToFiveDigits) {
  Worst worst("metric stress area, Bickford");
  for (const auto& row : reference::thread_strip_areas)
    EXPECT_LT(worst.see(stress_area(thread(row.thread)).in(units::mm2), row.stress_area_mm2, std::string(row.thread)),
              1e-4);
}

// Shigley, 9th ed., Table 8-2: printed to three or four digits.
TEST(StressArea, UnifiedAsPublished) {
  Worst worst("unified stress area, Shigley Table 8-2");
  for (const auto& row : reference::unified_stress_areas) {
    const double at = stress_area(thread(row.thread)).in(units::mm2) / (25.4 * 25.4);
    EXPECT_LT(worst.see(at, row.stress_area_in2, std::string(row.thread)), 0.004) << row.thread;
  }
}

// Shigley, 9th ed., Table 8-2, minor-diameter areas: root d - 1.299038 p.
TEST(RootDiameter, UnifiedMinorAreaAsPublished) {
  Worst worst("unified minor area, Shigley Table 8-2");
  for (const auto& row : reference::unified_stress_areas) {
    const double r = root_diameter(thread(row.thread)).in(units::inch) / 2.0;
    EXPECT_LT(worst.see(3.14159265358979 * r * r, row.minor_area_in2, std::string(row.thread)), 0.006) << row.thread;
  }
}

// ISO 724 basic sizes of M10 (from memory): d2 9.026, d3 8.160 mm.
TEST(Diameters, M10) {
  EXPECT_NEAR(pitch_diameter(thread("M10")).in(units::mm), 9.026, 0.0005);
  EXPECT_NEAR(root_diameter(thread("M10")).in(units::mm), 8.160, 0.0005);
}

TEST(ReadThread, EveryNameReadsBackAsItself) {
  for (const auto& row : reference::metric_pitches) {
    const Thread t{row.series == "coarse" ? Series::metric_coarse : Series::metric_fine, row.d_mm * units::mm,
                   row.pitch_mm * units::mm};
    EXPECT_EQ(thread(name(t)), t) << name(t);
  }
  for (const auto& row : reference::unified_stress_areas) EXPECT_EQ(name(thread(row.thread)), row.thread);
}

TEST(ReadThread, SpellingsOfOneThread) {
  EXPECT_EQ(thread("M10"), thread("M10x1.5"));
  EXPECT_EQ(thread(" m10 X 1.5 "), thread("M10"));
  EXPECT_EQ(thread("M10×1.25"), thread("M10x1.25"));
  EXPECT_EQ(thread("3/8-16"), thread("3/8-16 UNC"));
  EXPECT_EQ(thread("3/8 UNC"), thread("3/8-16 unc"));
  EXPECT_NE(thread("3/8-24"), thread("3/8-16"));
  EXPECT_EQ(size_name(thread("M10x1.25")), "M10");
  EXPECT_EQ(size_name(thread("3/8-24")), "3/8");
}

TEST(ReadThread, WhatIsNoThreadNamesTheNearest) {
  EXPECT_EQ(error("M10x1.6").fault, ThreadFault::pitch_unknown);
  EXPECT_EQ(error("M10x1.6").nearest, "M10");
  EXPECT_EQ(error("M12x1.3").nearest, "M12x1.25");
  EXPECT_EQ(error("M11").fault, ThreadFault::size_unknown);
  EXPECT_FALSE(error("M11").nearest.empty());
  EXPECT_EQ(error("3/8-18").fault, ThreadFault::pitch_unknown);
  EXPECT_EQ(error("5/7-18").fault, ThreadFault::size_unknown);
  // A size alone names two threads: neither is guessed.
  EXPECT_EQ(error("3/8").fault, ThreadFault::pitch_unknown);
  for (const char* text :
       {"", " ", "M", "Mx", "M10x", "M10xx1", "10", "x", "M10 8.8", "M1e9", "M-10", "M.", "/", "1/", "3/8-"})
    error(text);
}

TEST(ReadThread, AnyBytesGiveAnAnswer) {
  std::mt19937 random(20240611);
  const std::string alphabet = "M0123456789x./- UNCFm\xC3\x97\xFF\0";
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (auto n = random() % 12; n > 0; --n) text += alphabet[random() % alphabet.size()];
    const auto r = read_thread(text);
    if (const auto* t = std::get_if<Thread>(&r)) { EXPECT_EQ(thread(name(*t)), *t) << text; }
  }
}

}  // namespace
}  // namespace trammel::fastener
