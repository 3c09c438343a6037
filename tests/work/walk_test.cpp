// The hauler walked from end to end.
#include "work/walk.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "work/builder.h"
#include "work/hauler.h"
#include "work/unfinished.h"

namespace trammel::work {
namespace {

TEST(Hauler, IsCleanAndReleased) {
  const Walk w = walk(hauler());
  EXPECT_TRUE(w.faults.empty()) << list(w);
  EXPECT_TRUE(w.release.granted());
  EXPECT_EQ(w.steps.size(), w.roster.order.size());
}

TEST(Hauler, AsFoundFollowsFromTheFirstStepThatNamesIt) {
  const Walk w = walk(hauler());
  for (const FastenerEntry& e : w.roster.fasteners) EXPECT_EQ(e.as_found, FastenerState::final) << e.name;
}

TEST(Hauler, LooseListNamesTheLoadNotToMeet) {
  const Walk w = walk(hauler());
  // After blocks-in on the left, the left U-bolts may see the wheels and a roll, but no drive.
  const auto at = std::find_if(w.steps.begin(), w.steps.end(), [&](const WalkedStep& s) {
    return w.roster.procedure.steps[s.step.step].id == "blocks-in";
  });
  ASSERT_NE(at, w.steps.end());
  EXPECT_EQ(at->step.side, Side::left);
  const std::size_t u = *w.roster.fastener("U left rear 3");
  const std::vector<LooseItem> loose = unfinished(w.roster, at->after).loose;
  const auto item = std::find_if(loose.begin(), loose.end(), [&](const LooseItem& l) { return l.fastener == u; });
  ASSERT_NE(item, loose.end());
  EXPECT_EQ(item->state, FastenerState::part_tight);
  EXPECT_EQ(item->not_before, Load::driven_capped);
  // The right side is untouched yet.
  EXPECT_EQ(at->after.fasteners[*w.roster.fastener("U right rear 3")], FastenerState::final);
  // At the end nothing is loose, and the cart may be given back.
  EXPECT_TRUE(unfinished(w.roster, w.end()).loose.empty());
  EXPECT_EQ(unfinished(w.roster, w.end()).most, Load::released);
}

TEST(Hauler, SameProcedureSameFaults) {
  Procedure p = hauler();
  std::erase_if(p.steps, [](const Step& s) { return s.id == "torque-rear-wheels"; });
  const Walk a = walk(p), b = walk(p);
  EXPECT_EQ(list(a), list(b));
  EXPECT_FALSE(a.faults.empty());
}

TEST(Hauler, EveryPrefixIsRefused) {
  // Law: release is refused until the last fastener, proof and part is in place.
  const Walk w = walk(hauler());
  for (std::size_t i = 0; i < w.steps.size(); ++i) {
    const State& s = w.steps[i].after;
    const std::string& id = w.roster.procedure.steps[w.steps[i].step.step].id;
    const bool last = id == "first-drive" || id == "give-back";
    EXPECT_EQ(release(w.roster, s).granted(), last) << id;
  }
}

}  // namespace
}  // namespace trammel::work
