// Tyre to body on the shuttle (invented demo data): gaps with their uncertainty, steering stop, cut line, sizes.
#include <gtest/gtest.h>

#include "assess/shuttle.h"

namespace trammel::test {
namespace {

const AxleClearance& front(const Assessment& a) { return a.clearance.front(); }

TEST(Clearance, stop_and_cut_line_of_the_shuttle) {
  const Assessment a = assess(shuttle());
  ASSERT_EQ(a.clearance.size(), 2u);
  const AxleClearance& c = front(a);
  // The spring comes too near on lock: one angle for both sides, within the lock.
  ASSERT_EQ(c.stops.size(), 2u);
  for (const SteerStopResult& s : c.stops) {
    EXPECT_EQ(s.kind, SteerStopResult::Kind::at_an_angle);
    EXPECT_EQ(s.feature, "spring");
    EXPECT_GT(s.inner.in(units::degree), 10);
    EXPECT_GT(s.u.si(), 0);
  }
  EXPECT_NEAR(c.stops[0].inner.si(), c.stops[1].inner.si(), 1e-3);
  // The arch lip is cut back on both sides, mirror images of each other as seen from outside.
  ASSERT_EQ(c.trims.size(), 2u);
  EXPECT_EQ(c.trims[0].kind, TrimResult::Kind::cut);
  EXPECT_NEAR(c.trims[0].deepest.si(), c.trims[1].deepest.si(), 1e-4);
  for (std::size_t i = 0; i < c.trims[0].cut.size(); ++i) {
    EXPECT_NEAR(c.trims[0].cut[i].x.si(), -c.trims[1].cut[i].x.si(), 1e-4);
    EXPECT_NEAR(c.trims[0].cut[i].y.si(), c.trims[1].cut[i].y.si(), 1e-4);
  }
  EXPECT_EQ(worst(a, "tyre-gap"), Outcome::condition);
}

TEST(Clearance, margin_within_its_uncertainty_is_a_condition) {
  Job job = shuttle();
  const auto outcome_with = [&](Length u) {
    for (BodyPoint& p : job.cart.body_point)
      if (p.name.value == "bumper bracket") p.at.u = u;
    const Assessment a = assess(job);
    for (const Finding& f : a.findings)
      if (f.message.code == "tyre-gap" && f.subject.starts_with("bumper bracket")) return f.outcome;
    return Outcome::stop;
  };
  EXPECT_EQ(outcome_with(4.0 * units::mm), Outcome::met);
  EXPECT_EQ(outcome_with(25.0 * units::mm), Outcome::condition);
}

// The linkage's points count in stop and cut line, as they do in the gaps.
TEST(Clearance, stop_and_cut_know_the_linkage) {
  const auto with = [](Length u) {
    Job job = shuttle();
    for (KitUse& k : job.kits)
      for (Change& change : k.kit.change)
        if (change.path == "front.left.hub.centre") std::get<PointValue>(change.value).u = u;
    return assess(job);
  };
  const Assessment sure = with(0.1 * units::mm), rough = with(8.0 * units::mm);
  EXPECT_GT(front(rough).stops[0].u.si(), 1.2 * front(sure).stops[0].u.si());
  EXPECT_GT(front(rough).trims[0].u.si(), 1.2 * front(sure).trims[0].u.si());
  EXPECT_NEAR(front(rough).trims[0].deepest.si(), front(sure).trims[0].deepest.si(), 1e-9);
}

TEST(Clearance, what_must_not_be_cut_is_named) {
  Job job = shuttle();
  EXPECT_TRUE(of_code(assess(job), "trim-keep-out").empty());
  // The wiring moved to where the cut runs.
  for (BodyPart& p : job.cart.body_part)
    if (p.name.value == "lamp wiring") {
      p.from->value = {-292.0 * units::mm, 470.0 * units::mm, 260.0 * units::mm};
      p.to->value = {-292.0 * units::mm, 470.0 * units::mm, 420.0 * units::mm};
    }
  const auto found = of_code(assess(job), "trim-keep-out");
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found[0].outcome, Outcome::condition);
}

TEST(Clearance, sizes_on_offer_and_the_largest) {
  Job job = shuttle();
  job.tyre_choice = {{"18x8.5-8", {}}, {"26x12-12", {}}};
  const Assessment a = assess(job);
  const auto notes = of_code(a, "tyre-choice");
  ASSERT_EQ(notes.size(), 2u);
  EXPECT_GT(notes[0].value->si, 0.015);
  EXPECT_LT(notes[1].value->si, 0.0);
}

}  // namespace
}  // namespace trammel::test
