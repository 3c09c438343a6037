// The short texts of a step list.
#include "work/words.h"

#include <gtest/gtest.h>

#include "work/hauler.h"

namespace trammel::work {
namespace {

TEST(StepWords, Selectors) {
  EXPECT_EQ(read_selector("F8 rear left 2"), (Selector{"F8", Side::left, End::rear, 2}));
  EXPECT_EQ(read_selector("F8.left.rear"), (Selector{"F8", Side::left, End::rear}));
  EXPECT_EQ(read_selector("rear pad left", {"rear pad", "rear"}), (Selector{"rear pad", Side::left}));
  EXPECT_EQ(read_selector("S left upper", {"S"}), (Selector{"S", Side::left, End::none, 0, "upper"}));
  EXPECT_EQ(read_selector("unknown thing rear"), (Selector{"unknown thing", Side::none, End::rear}));
}

TEST(StepWords, Targets) {
  const Target t = read_target("F3 left part tight");
  EXPECT_EQ(t.fastener, (Selector{"F3", Side::left}));
  EXPECT_EQ(t.state, FastenerState::part_tight);
  EXPECT_EQ(read_target("F3 final").state, FastenerState::final);
  EXPECT_FALSE(read_target("F3").state);
}

TEST(StepWords, LoadsAndRemovals) {
  EXPECT_EQ(read_applied_load("rear on wheels")->load, Load::on_wheels);
  EXPECT_EQ(read_applied_load("rear on wheels")->end, End::rear);
  EXPECT_EQ(read_applied_load("driven")->load, Load::driven_capped);
  EXPECT_FALSE(read_applied_load("rear rolled"));
  EXPECT_FALSE(read_applied_load("flown"));
  const Remove r = read_removal("hub left, bag 2", {"hub"});
  EXPECT_EQ(r.part, (Selector{"hub", Side::left}));
  EXPECT_EQ(r.kept_at, "bag 2");
  EXPECT_TRUE(read_removal("damper scrap", {"damper"}).scrap);
  EXPECT_EQ(read_torque_of("torque of F3 rear"), (Selector{"F3", Side::none, End::rear}));
  EXPECT_FALSE(read_torque_of("toe"));
}

TEST(StepWords, Needs) {
  const Procedure p = hauler();
  const auto kind = [&](std::string_view text) { return read_need(text, p).kind; };
  using K = Need::Kind;
  EXPECT_EQ(kind("front on stands"), K::support);
  EXPECT_EQ(kind("chocked"), K::condition);
  EXPECT_EQ(kind("lift block fitted"), K::part_on);
  EXPECT_EQ(kind("damper left off"), K::part_off);
  EXPECT_EQ(kind("first-drive done"), K::step_done);
  EXPECT_EQ(kind("lower-rear"), K::step_done);
  EXPECT_EQ(kind("S final"), K::fastener_at_least);
  EXPECT_EQ(kind("settled"), K::proof);
  EXPECT_EQ(kind("moon full"), K::condition);  // unknown: the walk says so
}

// A need in words reads back as itself.
TEST(StepWords, WordsOfANeedReadBack) {
  const Procedure p = hauler();
  int read = 0;
  for (const Step& s : p.steps)
    for (const Need& n : s.needs) {
      EXPECT_EQ(read_need(words_of(n), p), n) << words_of(n);
      ++read;
    }
  for (const char* text : {"left rear on stands", "on wheels", "not anything at all"})
    EXPECT_EQ(words_of(read_need(text, p)), text);
  EXPECT_GT(read, 5);
}

}  // namespace
}  // namespace trammel::work
