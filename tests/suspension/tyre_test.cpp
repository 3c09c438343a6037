// Tyre sizes as they are marked.
#include <gtest/gtest.h>

#include "suspension/tyre/size.h"

namespace trammel::suspension {
namespace {

TyreSize size(const char* text) {
  const auto r = read_tyre(text);
  EXPECT_TRUE(std::holds_alternative<TyreSize>(r)) << text;
  return std::holds_alternative<TyreSize>(r) ? std::get<TyreSize>(r) : TyreSize{};
}
TyreFault fault(const char* text) {
  const auto r = read_tyre(text);
  EXPECT_TRUE(std::holds_alternative<TyreError>(r)) << text;
  return std::holds_alternative<TyreError>(r) ? std::get<TyreError>(r).fault : TyreFault::empty;
}

// Row TYRE-2: ISO 4000-1 nominal arithmetic (from memory).
TEST(Tyre, MetricSize) {
  const TyreSize t = size("205/50-10");
  EXPECT_NEAR(t.overall_diameter.in(units::mm), 459.0, 1e-9);
  EXPECT_NEAR(t.section_width.in(units::mm), 205, 1e-9);
  EXPECT_NEAR(t.rim_diameter.in(units::inch), 10, 1e-12);
  EXPECT_NEAR(t.section_height().in(units::mm), 102.5, 1e-9);
  EXPECT_FALSE(t.radial);
  EXPECT_NEAR(size("205/65-10").overall_diameter.in(units::mm), 520.5, 1e-9);
}

// Row TYRE-1: as printed by secondary pages; the same pages' metric equivalent is wrong and not used.
TEST(Tyre, InchSize) {
  const TyreSize t = size("22x10-10");
  EXPECT_NEAR(t.overall_diameter.in(units::mm), 558.8, 1e-9);
  EXPECT_NEAR(t.section_width.in(units::mm), 254, 1e-9);
  EXPECT_NEAR(t.rim_diameter.in(units::inch), 10, 1e-12);
  EXPECT_NEAR(size("18x8.5-8").overall_diameter.in(units::inch), 18, 1e-12);
  EXPECT_NEAR(size("18 X 8.50 - 8").section_width.in(units::inch), 8.5, 1e-12);
  EXPECT_NEAR(size("18×8.5-8").section_width.in(units::inch), 8.5, 1e-12);
}

TEST(Tyre, Markings) {
  const TyreSize t = size("205/50R10 78M");
  EXPECT_TRUE(t.radial);
  EXPECT_EQ(t.load_index, 78);
  EXPECT_EQ(t.speed_symbol, 'M');
  EXPECT_EQ(size("18x8.5-8 4PR").ply_rating, 4);
  EXPECT_EQ(size("18x8.5-8 6 ply").ply_rating, 6);
  const TyreSize both = size("205/50-10 4PR 72L");
  EXPECT_EQ(both.ply_rating, 4);
  EXPECT_EQ(both.load_index, 72);
}

TEST(Tyre, WhatCannotBeReadIsRefused) {
  EXPECT_EQ(fault(""), TyreFault::empty);
  EXPECT_EQ(fault("   "), TyreFault::empty);
  EXPECT_EQ(fault("big ones"), TyreFault::not_a_size);
  EXPECT_EQ(fault("205/50"), TyreFault::not_a_size);
  EXPECT_EQ(fault("4.80-8"), TyreFault::no_overall_diameter);
  EXPECT_EQ(fault("8x18-18"), TyreFault::rim_not_smaller);
  EXPECT_EQ(fault("20/50-10"), TyreFault::out_of_range);
  EXPECT_EQ(fault("205/50-254"), TyreFault::out_of_range);
  EXPECT_EQ(fault("205/50-10 fast"), TyreFault::trailing_text);
  EXPECT_EQ(std::get<TyreError>(read_tyre("205/50-10 fast")).at, 10u);
}

TEST(Tyre, LoadedRadiusIsAnEstimateWithItsSpread) {
  const LoadedRadius r = loaded_radius_estimate(size("205/50-10"));
  EXPECT_NEAR(r.value.in(units::mm), 229.5 - 0.6 * 0.20 * 102.5, 1e-9);
  EXPECT_NEAR(r.u.in(units::mm), 0.6 * 0.05 * 102.5, 1e-9);
  EXPECT_NEAR(loaded_radius_estimate(size("205/50-10"), 0).value.in(units::mm), 229.5, 1e-9);
}

}  // namespace
}  // namespace trammel::suspension
