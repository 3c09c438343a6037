// A second kit brought in between two steps of the first.
#include "work/merge.h"

#include <gtest/gtest.h>

#include "work/builder.h"
#include "work/hauler.h"

namespace trammel::work {
namespace {

// A cradle held by four bolts; the cover's hoop uses the two front holes of it.
Procedure cradle_kit() {
  Procedure p;
  p.name = "cradle";
  p.parts = {part("cradle", "front", PartKind::suspension, PartSource::in_pack)};
  p.fasteners = {fastener("C1", "cradle bolt, {left,right}.{front,rear}", {"cradle"})};
  p.fasteners[0].as_found = FastenerState::out;
  write_steps(p, {
                     {.id = "lift", .sets = {"chocked"}, .loads = {"front jacked", "front on stands"}},
                     {.id = "fit-cradle", .fits = {"cradle"}, .tighten = {"C1 finger_tight"}},
                     {.id = "torque-cradle", .sides = "each", .needs = {"cradle on"}, .tighten = {"C1 final"}},
                     {.id = "lower", .loads = {"front on wheels"}},
                     {.id = "give-back", .loads = {"released"}},
                 });
  return p;
}

Procedure cover_kit(bool finishes) {
  Procedure p;
  p.name = "cover";
  p.parts = {part("hoop", "front", PartKind::body, PartSource::in_pack)};
  p.fasteners = {fastener("H1", "hoop bolt, {left,right}.front", {"hoop"}),
                 fastener("H2", "cover screw, {left,right}", {}, Duty::body)};
  p.fasteners[0].shares = {"C1", Side::none, End::front};
  p.fasteners[0].least[static_cast<std::size_t>(Load::on_wheels)] = FastenerState::snug;
  std::vector<StepText> steps = {
      {.id = "fit-hoop", .fits = {"hoop"}, .tighten = {"H1 finger_tight"}, .after = "torque-cradle"},
      {.id = "torque-hoop", .sides = "each", .tighten = {finishes ? "H1 final" : "H1 snug"}},
      {.id = "cover", .tighten = {"H2 final"}, .before = "give-back"},
  };
  write_steps(p, steps);
  return p;
}

std::vector<std::string> ids(const Procedure& p) {
  std::vector<std::string> out;
  for (const Step& s : p.steps) out.push_back(s.id);
  return out;
}
using Ids = std::vector<std::string>;

TEST(Merging, StepsComeInAtTheirAnchors) {
  const Merge m = merge(cradle_kit(), cover_kit(true));
  EXPECT_TRUE(m.faults.empty());
  EXPECT_EQ(ids(m.procedure),
            (Ids{"lift", "fit-cradle", "torque-cradle", "fit-hoop", "torque-hoop", "lower", "cover", "give-back"}));
}

TEST(Merging, SharedBoltsAreFinishedOnlyOnceBothAreOn) {
  const Walk w = walk(merge(cradle_kit(), cover_kit(true)).procedure);
  EXPECT_TRUE(w.faults.empty()) << list(w);
  EXPECT_TRUE(w.release.granted());
  // The cradle's own torque step leaves the shared front bolts at snug; the rear ones are final.
  const WalkedStep& torque = w.steps[2];
  EXPECT_EQ(torque.after.fasteners[*w.roster.fastener("C1 left front")], FastenerState::snug);
  EXPECT_EQ(torque.after.fasteners[*w.roster.fastener("C1 left rear")], FastenerState::final);
  // The longer bolt's spec takes over in the shared holes alone.
  EXPECT_EQ(w.roster.fasteners[*w.roster.fastener("C1 left front")].spec, "H1");
  EXPECT_EQ(w.roster.fasteners[*w.roster.fastener("C1 left rear")].spec, "C1");
  // The stricter least state holds.
  EXPECT_EQ(least_for(w.roster.fasteners[0].least, Load::on_wheels), FastenerState::snug);
}

TEST(Merging, ASharedBoltThatTheSecondKitNeverFinishesIsFound) {
  const Walk w = walk(merge(cradle_kit(), cover_kit(false)).procedure);
  EXPECT_TRUE(has(w, FaultKind::fastener_never_final, "C1 left front")) << list(w);
  EXPECT_FALSE(has(w, FaultKind::fastener_never_final, "C1 left rear"));
  EXPECT_FALSE(w.release.granted());
}

TEST(Merging, Law2AnEmptyKitChangesNothing) {
  const Merge m = merge(hauler(), Procedure{});
  EXPECT_TRUE(m.faults.empty());
  EXPECT_EQ(ids(m.procedure), ids(hauler()));
  EXPECT_TRUE(walk(m.procedure).faults.empty());
  EXPECT_EQ(ids(merge(Procedure{}, hauler()).procedure), ids(hauler()));
}

TEST(Merging, Law1SeveralBehindOneAnchorKeepTheirOrder) {
  Procedure second;
  write_steps(second, {{.id = "a", .after = "fit-cradle"},
                       {.id = "b", .after = "fit-cradle"},
                       {.id = "c", .after = "a"},
                       {.id = "d", .before = "lower"},
                       {.id = "e", .before = "lower"}});
  const Merge m = merge(cradle_kit(), second);
  EXPECT_TRUE(m.faults.empty());
  EXPECT_EQ(ids(m.procedure),
            (Ids{"lift", "fit-cradle", "a", "c", "b", "torque-cradle", "d", "e", "lower", "give-back"}));
}

TEST(Merging, WithoutAnAnchorItComesBeforeRelease) {
  Procedure second;
  write_steps(second, {{.id = "a"}, {.id = "b"}});
  EXPECT_EQ(ids(merge(cradle_kit(), second).procedure),
            (Ids{"lift", "fit-cradle", "torque-cradle", "lower", "a", "b", "give-back"}));
}

TEST(Merging, ANeedMaySpeakOfTheOtherKitsParts) {
  Procedure cover = cover_kit(true);
  cover.steps[0].needs.push_back(Need{Need::Kind::condition, {"cradle fitted"}});
  const Walk w = walk(merge(cradle_kit(), cover).procedure);
  EXPECT_TRUE(w.faults.empty()) << list(w);
  // Brought in ahead of the cradle, the same need is not met.
  cover.steps[0].after = "lift";
  const Walk early = walk(merge(cradle_kit(), cover).procedure);
  EXPECT_TRUE(has(early, FaultKind::need_not_met, "cradle on")) << list(early);
}

TEST(Merging, AnchorsThatLeadNowhereOrRound) {
  Procedure second;
  write_steps(second, {{.id = "a", .after = "polish"}, {.id = "b", .after = "c"}, {.id = "c", .after = "b"}});
  const Merge m = merge(cradle_kit(), second);
  ASSERT_EQ(m.faults.size(), 3u);
  EXPECT_EQ(m.faults[0].kind, MergeFaultKind::unknown_anchor);
  EXPECT_EQ(m.faults[0].subject, "polish");
  EXPECT_EQ(m.faults[1].kind, MergeFaultKind::anchor_cycle);
  EXPECT_EQ(m.procedure.steps.size(), 8u);  // no step is lost
}

TEST(Merging, EqualIdsAndUnknownSharesAreFaults) {
  const Merge twice = merge(cradle_kit(), cradle_kit());
  EXPECT_FALSE(twice.faults.empty());
  for (const MergeFault& f : twice.faults) EXPECT_EQ(f.kind, MergeFaultKind::duplicate_id);
  Procedure cover = cover_kit(true);
  cover.fasteners[0].shares.id = "Z9";
  EXPECT_EQ(merge(cradle_kit(), cover).faults.at(0).kind, MergeFaultKind::unknown_shared);
}

}  // namespace
}  // namespace trammel::work
