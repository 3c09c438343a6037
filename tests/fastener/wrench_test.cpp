#include "fastener/wrench.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "fastener/wheel.h"
#include "fastener/worst.h"
#include "reference/across_flats.h"

namespace trammel::fastener {
namespace {

Thread thread(std::string_view text) { return std::get<Thread>(read_thread(text)); }
WrenchFit fit(std::string_view t, double mm) { return wrench_fit(thread(t), mm * units::mm); }

// Every head tabled by a standard is turned by its own wrench.
TEST(AcrossFlats, EveryTabledHeadIsFound) {
  int rows = 0;
  for (const auto& row : reference::across_flats) {
    std::string named(row.thread);
    if (named.find('/') != std::string::npos) named += named == "9/16" ? "-12" : " UNC";
    const auto r = read_thread(named);
    ASSERT_TRUE(std::holds_alternative<Thread>(r)) << row.thread;
    const auto own = heads_of(std::get<Thread>(r));
    EXPECT_TRUE(std::ranges::any_of(
        own, [&](const Head& h) { return h.standard == row.standard && h.across_flats == row.s_mm * units::mm; }))
        << row.standard << row.thread;
    EXPECT_NE(wrench_fit(std::get<Thread>(r), row.s_mm * units::mm), WrenchFit::fits_none);
    ++rows;
  }
  EXPECT_GE(rows, 130);
}

// ISO 4014 and DIN 931 differ at M10, M12 and M14 (S22, S29); JIS small series again (S24).
TEST(AcrossFlats, AnM10HeadExistsFrom13To17) {
  std::set<double> sizes;
  for (const Head& h : heads_of(thread("M10"))) sizes.insert(std::round(h.across_flats.in(units::mm)));
  EXPECT_EQ(sizes, (std::set<double>{13, 14, 15, 16, 17}));
}

TEST(WrenchFit, HintsAndNeverProves) {
  EXPECT_EQ(fit("M10", 16), WrenchFit::fits);
  EXPECT_EQ(fit("M10", 17), WrenchFit::ambiguous);  // DIN M10, JIS small M12
  EXPECT_EQ(fit("M10", 18), WrenchFit::fits_none);
  EXPECT_EQ(fit("M10", 12), WrenchFit::fits_none);
  EXPECT_EQ(fit("M14", 22), WrenchFit::ambiguous);  // DIN M14, JIS small M16
  EXPECT_EQ(fit("M12", 18), WrenchFit::fits);
  EXPECT_EQ(fit("M22", 32), WrenchFit::not_tabled);
  EXPECT_EQ(wrench_fit(thread("3/8-16"), 9.0 / 16.0 * units::inch), WrenchFit::fits);
  EXPECT_EQ(fit("3/8-16", 13), WrenchFit::fits_none);
  EXPECT_EQ(fit("1/2-13", 19), WrenchFit::fits);  // 3/4 in is 19.05 mm
}

// W17 to W22, one row each from US Army and adapter-maker manuals.
TEST(Extension, InLine) {
  Worst worst("wrench with extension");
  const auto in_line = [](double l, double a) { return Extension{l * units::inch, a * units::inch, Angle{}}; };
  // W17, TM 9-2350-261-20-1 p. 2-29 (S34): 40 lb-ft wanted, 12 and 4 in: 30.
  EXPECT_LT(worst.see(wrench_setting(40.0 * units::lbf_ft, in_line(12, 4)).in(units::lbf_ft), 30.0, "W17"), 1e-9);
  // W18, TM 9-254 fig. 4-5 (S35): 60 in-lb set, 12 and 2 in: 70 applied.
  EXPECT_LT(worst.see(applied_torque(60.0 * units::lbf_in, in_line(12, 2)).in(units::lbf_in), 70.0, "W18"), 1e-9);
  // W19, TM 1-1500-204-23-9 fig. 8-16 (S36): 300 in-lb, 10 and 4 in: 214 (214.29).
  EXPECT_LT(worst.see(wrench_setting(300.0 * units::lbf_in, in_line(10, 4)).in(units::lbf_in), 214.0, "W19"), 0.0015);
  // W22, an adapter maker's sheet (S38): 20 ft-lb, 12 and 3 in: 16.
  EXPECT_LT(worst.see(wrench_setting(20.0 * units::lbf_ft, in_line(12, 3)).in(units::lbf_ft), 16.0, "W22"), 1e-9);
}

// W24 (S35, S38): at 90 deg no correction; setting and applied torque undo each other.
TEST(Extension, AtAnAngle) {
  const Extension square{12.0 * units::inch, 3.0 * units::inch, 90.0 * units::degree};
  EXPECT_NEAR(wrench_setting(20.0 * units::lbf_ft, square).in(units::lbf_ft), 20.0, 1e-9);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> length(0.05, 0.6), angle(-1.5, 1.5), torque(5.0, 200.0);
  for (int i = 0; i < 1000; ++i) {
    const Extension e{Length::from_si(length(random)), Length::from_si(0.5 * length(random)),
                      Angle::from_si(angle(random))};
    const Torque t = torque(random) * units::Nm;
    EXPECT_NEAR(applied_torque(wrench_setting(t, e), e) / t, 1.0, 1e-12);
  }
}

// Common practice, no source: opposite nuts follow each other, each nut once.
TEST(Wheel, OrderOfTightening) {
  EXPECT_EQ(tightening_order(4), (std::vector<int>{0, 2, 1, 3}));
  EXPECT_EQ(tightening_order(5), (std::vector<int>{0, 2, 4, 1, 3}));
  EXPECT_EQ(tightening_order(6), (std::vector<int>{0, 3, 1, 4, 2, 5}));
  for (int n = 1; n <= 12; ++n) {
    const auto order = tightening_order(n);
    EXPECT_EQ(std::set<int>(order.begin(), order.end()).size(), static_cast<std::size_t>(n));
    EXPECT_EQ(*std::ranges::max_element(order), n - 1);
  }
}

TEST(Wheel, Passes) {
  const auto p = pass_torques(90.0 * units::Nm);
  ASSERT_EQ(p.size(), 3u);
  EXPECT_NEAR(p[0].si(), 30.0, 1e-12);
  EXPECT_NEAR(p[1].si(), 60.0, 1e-12);
  EXPECT_EQ(p[2], 90.0 * units::Nm);
}

}  // namespace
}  // namespace trammel::fastener
