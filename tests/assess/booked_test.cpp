// Jobs booked from the first step to the release. What the record says is all that it has: whatever single entry is
// taken away, the cart is not to be given back, and the reason says which. Invented jobs.
#include <gtest/gtest.h>

#include <iostream>
#include <map>

#include "assess/shuttle.h"
#include "assess/standing.h"
#include "messages/catalogue.h"

namespace trammel::test {
namespace {

const char* const finished[] = {"shuttle/finished-job.toml", "load-cart/finished-job.toml"};

std::string refusals(const Assessment& a) {
  std::string text;
  for (const Message& m : a.release_refused) text += m.code + ": " + word(m, {}) + "\n";
  return text;
}

// Without its n-th entry; an undo keeps its aim.
Job without(Job job, std::size_t n) {
  job.events.erase(job.events.begin() + static_cast<std::ptrdiff_t>(n));
  for (Event& e : job.events)
    if (auto* u = std::get_if<Undo>(&e); u && u->entry.value > static_cast<int>(n) + 1) --u->entry.value;
  return job;
}

// What the reason must name where this entry is gone.
std::string named_by(const Event& event) {
  if (const auto* s = std::get_if<Signed>(&event)) return s->step.value;
  if (const auto* t = std::get_if<TorqueEntry>(&event)) return t->fastener.value.substr(0, t->fastener.value.find(' '));
  if (std::holds_alternative<Adjustment>(event)) return "asked for a turn";
  if (const auto* f = std::get_if<FoundSo>(&event)) return f->fastener.value.substr(0, f->fastener.value.find(' '));
  if (const auto* d = std::get_if<Decision>(&event)) return d->about.value.substr(0, d->about.value.find(' '));
  return "";
}

TEST(BookedJob, IsReleasedWithNothingOpen) {
  for (const char* name : finished) {
    const Assessment a = assess(example(name));
    EXPECT_EQ(a.work_state, "released") << name << "\n" << refusals(a);
    EXPECT_TRUE(a.unfinished.loose.empty());
    ASSERT_TRUE(a.given_back) << name;
    ASSERT_TRUE(a.align) << name;
    EXPECT_EQ(a.align->verdict, "accept") << name;
    EXPECT_GE(a.align->passes.size(), 3u) << name;
    for (const StepLine& s : a.steps) EXPECT_TRUE(s.done && s.faults.empty()) << s.id;
    // What was found and put right stays on the page, as a note.
    for (const Finding& f : a.findings)
      if (f.message.code.starts_with("record-")) { EXPECT_EQ(f.outcome, Outcome::note) << word(f.message, {}); }
    EXPECT_FALSE(of_code(a, "record-above-window").empty()) << name;
    EXPECT_EQ(of_code(a, "record-seized").size() + of_code(a, "record-damaged").size(), 1u) << name;
  }
}

TEST(BookedJob, WithoutAnyOneEntryItIsHeldBackAndTheReasonNamesIt) {
  for (const char* name : finished) {
    const Job whole = example(name);
    const std::vector<unsigned char> struck = struck_entries(whole);
    std::map<std::size_t, int> kinds;
    for (std::size_t n = 0; n < whole.events.size(); ++n) {
      if (struck[n]) continue;  // counts for nothing
      const Event& gone = whole.events[n];
      const Assessment a = assess_record(without(whole, n));
      const std::string why = refusals(a);
      ++kinds[gone.index()];
      // The signature that gives it back: all else is done.
      if (n + 1 == whole.events.size()) {
        EXPECT_EQ(a.work_state, "ready") << name;
        continue;
      }
      EXPECT_NE(a.work_state, "released") << name << " without entry " << n + 1 << " " << named_by(gone);
      EXPECT_NE(why.find(named_by(gone)), std::string::npos) << name << " without entry " << n + 1 << ":\n" << why;
    }
    std::cout << name << ": entries " << whole.events.size() << ", signatures " << kinds[Event(Signed{}).index()]
              << ", torques " << kinds[Event(TorqueEntry{}).index()] << ", readings " << kinds[Event(Reading{}).index()]
              << ", turns " << kinds[Event(Adjustment{}).index()] << ", each held back when it is gone\n";
    EXPECT_GT(kinds[Event(Signed{}).index()], 40);
    EXPECT_GT(kinds[Event(TorqueEntry{}).index()], 15);
    EXPECT_GE(kinds[Event(Reading{}).index()], 3);
    EXPECT_GE(kinds[Event(Adjustment{}).index()], 2);
  }
}

// A check of a torque is what the nut did, not that there was one; and a turn of nothing is a turn that is entered.
TEST(BookedJob, ACheckSaysHowFarItMovedAndATurnOfNothingIsEntered) {
  const Job whole = example("load-cart/finished-job.toml");
  int checks = 0, turns = 0;
  for (std::size_t n = 0; n < whole.events.size(); ++n) {
    Job job = whole;
    if (auto* t = std::get_if<TorqueEntry>(&job.events[n]); t && t->turned) {
      ++checks;
      t->turned.reset();
      const Assessment a = assess_record(job);
      EXPECT_EQ(a.work_state, "held-back") << t->fastener.value;
      EXPECT_NE(refusals(a).find("record-not-checked-again"), std::string::npos) << refusals(a);
      // It moved: the nut has settled, and the cart stays.
      t->turned = Valued<Angle>{20.0 * units::degree, {}, Basis::measured, {}};
      EXPECT_NE(refusals(assess_record(job)).find("record-moved"), std::string::npos);
    }
    if (auto* a = std::get_if<Adjustment>(&job.events[n])) {
      ++turns;
      a->tie_rod->amount = 0.0;
      EXPECT_EQ(refusals(assess_record(job)).find("record-turn-missing"), std::string::npos);
      job.events.erase(job.events.begin() + static_cast<std::ptrdiff_t>(n));
      EXPECT_NE(refusals(assess_record(job)).find("record-turn-missing"), std::string::npos);
    }
  }
  EXPECT_EQ(checks, 3);
  EXPECT_EQ(turns, 2);
  // Tightened anew by the same step, or slackened between, it is no check: the plan of the shuttle has none.
  EXPECT_TRUE(of_code(assess_record(example("shuttle/finished-job.toml")), "record-not-checked-again").empty());
}

TEST(BookedJob, WithoutAnyOneSecondLookItIsHeldBack) {
  for (const char* name : finished) {
    const Job whole = example(name);
    int looks = 0;
    for (std::size_t n = 0; n < whole.events.size(); ++n) {
      const auto* s = std::get_if<Signed>(&whole.events[n]);
      if (!s || !s->second) continue;
      ++looks;
      Job job = whole;
      std::get<Signed>(job.events[n]).second.reset();
      const Assessment a = assess_record(job);
      EXPECT_EQ(a.work_state, "held-back") << s->step.value;
      EXPECT_NE(refusals(a).find(s->step.value), std::string::npos) << refusals(a);
      // The same pair of eyes twice is no second look.
      std::get<Signed>(job.events[n]).second = s->who;
      EXPECT_EQ(assess_record(job).work_state, "held-back") << s->step.value;
    }
    EXPECT_GE(looks, 4) << name;
  }
}

TEST(BookedJob, TheRecordAloneSaysWhatTheWholeAssessmentSays) {
  for (const char* name : finished) {
    Job job = example(name);
    job.events.pop_back();
    EXPECT_EQ(refusals(assess(job)), refusals(assess_record(job))) << name;
  }
}

TEST(BookedJob, AWrenchPastItsDateHoldsItBack) {
  Job job = example(finished[0]);
  job.shop->wrench.front().calibration_due->value = "2026-01-31";
  const Assessment a = assess_record(job);
  EXPECT_EQ(a.work_state, "held-back");
  EXPECT_NE(refusals(a).find("2026-01-31"), std::string::npos) << refusals(a);
}

TEST(InterruptedJob, ItsCardTellsTheLastTwoStepsWhatIsPartTightAndWhatHoldsTheCart) {
  const Assessment a = assess(example("shuttle/interrupted-job.toml"));
  EXPECT_EQ(a.work_state, "in-work");
  ASSERT_TRUE(a.resume);
  ASSERT_EQ(a.resume->last_done.size(), 2u);
  EXPECT_EQ(a.resume->last_done[0].what, "rear-wheels-on right");
  EXPECT_EQ(a.resume->last_done[1].what, "rear-wheels-on left");
  EXPECT_EQ(a.resume->front, "on wheels");
  EXPECT_EQ(a.resume->rear, "on stands");
  const auto& holds = a.resume->conditions;
  for (const char* word : {"front chocked", "axle on jack", "pack isolated"})
    EXPECT_NE(std::find(holds.begin(), holds.end(), word), holds.end()) << word;
  int part_tight = 0, snug = 0;
  for (const LooseItem& l : a.unfinished.loose) {
    part_tight += l.state == "part-tight" && l.id == "R8";
    snug += l.state == "snug" && (l.id == "R1" || l.id == "R4");
  }
  EXPECT_EQ(part_tight, 8);
  EXPECT_EQ(snug, 4);
  ASSERT_FALSE(a.resume->next.empty());
  EXPECT_EQ(a.steps[static_cast<std::size_t>(a.resume->next.front()) - 1].id, "rear-down");
}

}  // namespace
}  // namespace trammel::test
