// What a technician is told of an alignment: the load cart against its outline's figures, the sentences, and each kind
// of adjuster in its own unit.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>

#include "assess/alignment_task.h"
#include "assess/bench_presets.h"
#include "assess/shuttle.h"
#include "messages/catalogue.h"

namespace trammel::test {
namespace {

Reading toe(double total_mm, double diameter_mm) {
  Reading r;
  const auto at = [](double mm) { return Valued<Length>{mm * units::mm, {}, Basis::measured, {}}; };
  r.toe_front = at(850.0 - 0.5 * total_mm);
  r.toe_rear = at(850.0 + 0.5 * total_mm);
  r.toe_diameter = at(diameter_mm);
  const SquareGap gap{4.4 * units::mm, 254.0 * units::mm, SquareGap::At::bottom, {}, {}};
  r.left_camber_gap = r.right_camber_gap = gap;
  r.repeats = Count{4, {}};
  return r;
}

Job load_cart_read(double total_mm) {
  Job job = load_cart();
  job.events.clear();
  job.events.push_back(toe(total_mm, 520.0));
  return job;
}

// One turn of the M14x1.5 right- and left-hand sleeve on arms of 115 mm is 13.6 mm of toe at 520 mm, one flat 2.26 mm:
// closed form 2 pitch D / arm (derived), and the outline's figures to their digits.
TEST(AlignmentFace, one_flat_of_the_beam) {
  const Job job = load_cart_read(-9.0);
  const auto given = job_alignment(job, job.cart, cart_model(job.cart));
  ASSERT_TRUE(given && given->beam);
  ASSERT_EQ(given->adjusters.size(), 1u);
  const FittedAdjuster& rod = given->adjusters[0];
  const double turn = 1e3 * setup::toe_length(rod.law.own.toe, given->task.toe_diameter).si();
  EXPECT_NEAR(turn, 13.6, 0.05 * 13.6);
  EXPECT_NEAR(turn / 6.0, 2.26, 0.05 * 2.26);
  EXPECT_EQ(rod.law.own.camber.si(), 0.0);
  std::cout << "one turn of the load cart's tie rod: " << turn << " mm, closed form " << 3.0 * 520.0 / 115.0 << " mm\n";
}

// 9 mm of toe-out to 3 mm of toe-in is 12 mm: 5.3 flats, so 5 1/4 or 5 1/2; camber is not turned.
TEST(AlignmentFace, load_cart_is_told_its_flats) {
  const Assessment a = assess(load_cart_read(-9.0));
  ASSERT_TRUE(a.align);
  EXPECT_EQ(a.align->verdict, "adjust");
  ASSERT_EQ(a.align->turns.size(), 1u);
  const AlignTurn& t = a.align->turns[0];
  EXPECT_EQ(t.adjuster, "tie_rod");
  EXPECT_EQ(t.side, "both");
  EXPECT_NEAR(t.flats, 5.3, 0.45);
  const std::string text = word(t.sentence);
  EXPECT_NE(text.find("tie rod: turn the sleeve 5"), std::string::npos) << text;
  EXPECT_NE(text.find("lettering moving"), std::string::npos) << text;
  EXPECT_NE(text.find("the rod gets longer, the fronts of the wheels move in"), std::string::npos) << text;
  EXPECT_EQ(text.find('{'), std::string::npos) << text;
  EXPECT_EQ(text.find('@'), std::string::npos) << text;
}

// A beam's camber out of tolerance is looked into, and toe alone is never an excuse to turn for it.
TEST(AlignmentFace, beam_camber_is_diagnosed) {
  Job job = load_cart_read(3.0);
  auto& r = std::get<Reading>(job.events[0]);
  r.left_camber_gap->gap = 14.0 * units::mm;
  r.left_camber_gap->at = SquareGap::At::top;
  const Assessment a = assess(job);
  ASSERT_TRUE(a.align);
  EXPECT_EQ(a.align->verdict, "diagnose");
  EXPECT_TRUE(a.align->turns.empty());
  ASSERT_FALSE(a.align->suspects.empty());
  EXPECT_FALSE(word(a.align->suspects[0].test).empty());
}

// Without the hand a test of one flat comes first, and says what each outcome means.
TEST(AlignmentFace, hand_not_known_asks_for_a_test) {
  Job job = load_cart_read(-9.0);
  job.cart.front->tie_rod->adjuster->right_hand_at.reset();
  const Assessment a = assess(job);
  ASSERT_TRUE(a.align);
  ASSERT_EQ(a.align->turns.size(), 1u);
  EXPECT_TRUE(a.align->turns[0].lettering.empty());
  const Message& test = a.align->turns[0].checks.at(0);
  EXPECT_EQ(test.code, "turn-test-toe-grows");
  const std::string text = word(test);
  EXPECT_NE(text.find("right_hand_at = \"left\" (it got longer) or \"right\" (shorter)"), std::string::npos) << text;
}

// The right hand at the right end and at the left end are opposite ways round.
TEST(AlignmentFace, other_end_other_way) {
  Job job = load_cart_read(-9.0);
  const std::string one = assess(job).align->turns.at(0).lettering;
  job.cart.front->tie_rod->adjuster->right_hand_at->value = "left";
  EXPECT_NE(assess(job).align->turns.at(0).lettering, one);
}

// Each kind of adjuster tells its move in its own unit, a whole number of its own steps.
TEST(AlignmentFace, every_kind_in_its_own_unit) {
  const auto told = [](const char* kind) {
    Job job = shuttle();
    std::vector<Event> first;
    for (const Event& e : job.events)
      if (std::holds_alternative<Reading>(e) && first.empty()) first.push_back(e);
    job.events = first;
    job.kits.clear();
    Adjuster a;
    a.kind.value = kind;
    a.throw_ = Valued<Length>{8.0 * units::mm, {}, Basis::measured, {}};
    a.step = Valued<Length>{(std::string(kind) == "holes" ? 4.0 : 0.5) * units::mm, {}, Basis::measured, {}};
    if (std::string(kind) == "rod end") a.thread = Text{"M14x1.5", {}};
    if (std::string(kind) != "eccentric bolt") a.throw_.reset();
    job.cart.front->left->upper_arm->adjuster = a;
    const Assessment out = assess(job);
    for (const AlignTurn& t : out.align->turns)
      if (t.adjuster == "upper_arm" && t.side == "left") return t;
    return AlignTurn{};
  };
  const AlignTurn shims = told("shims"), slot = told("slot"), bolt = told("eccentric bolt"), end = told("rod end");
  EXPECT_EQ(shims.sentence.code, "turn-shims");
  EXPECT_NEAR(std::remainder(shims.amount->si, 0.5e-3), 0.0, 1e-9);
  EXPECT_EQ(slot.sentence.code, "turn-slot");
  EXPECT_EQ(bolt.sentence.code, "turn-eccentric-middle");
  EXPECT_LE(std::abs(bolt.amount->si), 1.571);
  // The bolt's own law: throw x sin(angle) is what the shims do, to the steps of both.
  EXPECT_NEAR(8e-3 * std::sin(bolt.amount->si), shims.amount->si, 0.8e-3);
  EXPECT_EQ(end.sentence.code, "turn-rod-end");
  EXPECT_NEAR(std::remainder(end.turns, 0.5), 0.0, 1e-9);
  for (const AlignTurn* t : {&shims, &slot, &bolt, &end}) {
    const std::string text = word(t->sentence);
    EXPECT_EQ(text.find_first_of("{@"), std::string::npos) << text;
    EXPECT_NE(text.find("the top of the wheel moves in"), std::string::npos) << text;
  }
}

// The bench is set for the diameter at which toe is read: that of the first reading that stands.
TEST(AlignmentFace, a_struck_reading_sets_no_diameter) {
  const auto toe_wanted = [](bool struck) {
    Job job = shuttle();
    job.events.clear();
    if (struck) {
      job.events.push_back(toe(4.0, 300.0));
      job.events.push_back(Undo{Count{1, {}}, Text{"ann", {}}, {}, {}, {}});
    }
    job.events.push_back(toe(4.0, 508.0));
    return bench_presets(job, job.cart, *cart_model(job.cart).front->mechanism, nullptr).toe_wanted;
  };
  EXPECT_GT(toe_wanted(false).si(), 0.0);
  EXPECT_EQ(toe_wanted(true).si(), toe_wanted(false).si());
}

// Before the first reading: what spoils readings, and no oftener.
TEST(AlignmentFace, coach_before_the_first_reading) {
  Job job = load_cart();
  job.events.clear();
  const Assessment a = assess(job);
  ASSERT_TRUE(a.align);
  const auto has = [&](const char* code) {
    return std::any_of(a.align->coach.begin(), a.align->coach.end(), [&](const Message& m) { return m.code == code; });
  };
  for (const char* code : {"coach-ballast", "coach-settle", "coach-lips-base", "coach-tape-at", "coach-steering-wheel",
                           "coach-run-out", "coach-floor", "coach-beam", "coach-slip-plates", "coach-write"})
    EXPECT_TRUE(has(code)) << code;
  EXPECT_TRUE(assess(load_cart_read(-9.0)).align->coach.size() < a.align->coach.size());
}

}  // namespace
}  // namespace trammel::test
