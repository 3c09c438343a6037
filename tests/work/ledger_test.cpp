// The ledger's entries: torque, undo, dispute, substitution, what is refused; release and resume from it.
#include "work/ledger.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "work/builder.h"
#include "work/hauler.h"
#include "work/resume.h"
#include "work/unfinished.h"

namespace trammel::work {
namespace {

class HaulerLedger : public ::testing::Test {
 protected:
  Roster r = make_roster(hauler());
  Ledger l = open_ledger(r);
  std::uint64_t next = 1;
  template <class What>
  std::uint64_t enter(What what) {
    Event e;
    e.sequence = next;
    e.who = "first hand";
    e.what = what;
    l = apply(r, std::move(l), e);
    return next++;
  }
  void do_all() {
    for (const ExpandedStep& x : r.order) enter(StepDone{r.procedure.steps[x.step].id, x.side});
  }
  FastenerState state(const std::string& n) const { return l.state.fasteners[*r.fastener(n)]; }
};

TEST_F(HaulerLedger, StepsDoneGiveTheWalksLastState) {
  do_all();
  EXPECT_EQ(l.state, walk(hauler()).end());
  EXPECT_TRUE(release(r, l.state).granted());
}

TEST_F(HaulerLedger, OneSlackNutRefusesRelease) {
  do_all();
  enter(Found{"W left rear 3", FastenerState::slack});
  const Release refused = release(r, l.state);
  ASSERT_EQ(refused.refused_by.size(), 1u);
  EXPECT_EQ(refused.refused_by[0].why, Refusal::fastener_below_final);
  EXPECT_EQ(refused.refused_by[0].subject, "W left rear 3");
  enter(TorqueReached{"W left rear 3", FastenerState::final, 85.0 * units::Nm, "wrench 4"});
  // Final, and the second person has not looked at it again.
  ASSERT_EQ(release(r, l.state).refused_by.size(), 1u);
  EXPECT_EQ(release(r, l.state).refused_by[0].why, Refusal::fastener_not_checked);
  enter(TorqueReached{"W left rear 3", FastenerState::verified, 85.0 * units::Nm, "wrench 7"});
  EXPECT_TRUE(release(r, l.state).granted());
}

TEST_F(HaulerLedger, DisputeHoldsUntilDecided) {
  do_all();
  enter(Disputed{"K left front"});
  enter(TorqueReached{"K left front", FastenerState::final, 22.0 * units::Nm, "wrench 4"});
  EXPECT_EQ(state("K left front"), FastenerState::disputed);
  EXPECT_EQ(release(r, l.state).refused_by.at(0).why, Refusal::fastener_off_ladder);
  enter(Decided{"K left front", FastenerState::snug});
  EXPECT_EQ(state("K left front"), FastenerState::snug);
  enter(TorqueReached{"K left front", FastenerState::final, 20.0 * units::Nm, "wrench 4"});
  EXPECT_TRUE(release(r, l.state).granted());
}

TEST_F(HaulerLedger, ASubstituteIsTightenedAnew) {
  do_all();
  enter(Substituted{"T left front", "M10 castle nut from stock"});
  EXPECT_EQ(state("T left front"), FastenerState::substituted);
  // Toe says that it is void once a tie rod nut is loosened.
  bool toe = false;
  for (const RefusedBy& why : release(r, l.state).refused_by)
    toe |= why.subject == "toe" && why.why == Refusal::proof_voided;
  EXPECT_TRUE(toe);
  enter(TorqueReached{"T left front", FastenerState::final, 35.0 * units::Nm, "wrench 4"});
  EXPECT_EQ(state("T left front"), FastenerState::final);
}

TEST_F(HaulerLedger, ADisputedProofRefuses) {
  do_all();
  enter(ProofDisputed{"brakes"});
  EXPECT_EQ(release(r, l.state).refused_by.at(0).why, Refusal::proof_disputed);
  enter(StepDone{"first-drive", Side::none});
  EXPECT_TRUE(release(r, l.state).granted());
}

TEST_F(HaulerLedger, UndoOfAnUndoBringsItBack) {
  do_all();
  const State whole = l.state;
  const auto torque = enter(Found{"W left rear 3", FastenerState::slack});
  const State slack = l.state;
  const auto undo = enter(Undone{torque});
  EXPECT_EQ(l.state, whole);
  enter(Undone{undo});
  EXPECT_EQ(l.state, slack);
  EXPECT_EQ(l.entries.size(), r.order.size() + 3);  // nothing is ever erased
}

TEST_F(HaulerLedger, WhatNamesNothingChangesNothingAndIsKept) {
  const State before = l.state;
  enter(StepDone{"fly", Side::none});
  enter(StepDone{"blocks-in", Side::none});  // it is done on a side
  enter(TorqueReached{"W left rear 9", FastenerState::final, 85.0 * units::Nm, "wrench 4"});
  enter(ProofDisputed{"smell"});
  enter(Undone{99});
  next = 2;
  enter(Disputed{"B"});  // a sequence that was there before
  EXPECT_EQ(l.state, before);
  using F = EntryFault;
  const F wanted[] = {F::unknown_step,  F::wrong_side,    F::unknown_instance,
                      F::unknown_proof, F::no_such_entry, F::sequence};
  ASSERT_EQ(l.entries.size(), std::size(wanted));
  for (std::size_t i = 0; i < std::size(wanted); ++i) EXPECT_EQ(l.entries[i].fault, wanted[i]) << i;
}

TEST_F(HaulerLedger, ResumeCardAfterAnInterruption) {
  for (const ExpandedStep& x : r.order) {
    enter(StepDone{r.procedure.steps[x.step].id, x.side});
    if (r.procedure.steps[x.step].id == "shackles-in" && x.side == Side::left) break;
  }
  enter(TorqueReached{"S left rear upper", FastenerState::part_tight, 30.0 * units::Nm, "wrench 4"});
  const Resume card = resume(r, l.state);
  const Unfinished left = unfinished(r, l.state);
  EXPECT_EQ(card.rear, Support::on_stands);
  EXPECT_EQ(card.front, Support::on_wheels);
  // Two U-bolt sets of four part-tight, two shackle bolts, three cable clips; the battery terminal. And out with what
  // they held: four rear wheel nuts on each side, two damper bolts on each.
  std::vector<std::string> names;
  for (const LooseItem& i : left.loose)
    if (below(i.state, FastenerState::final)) names.push_back(r.fasteners[i.fastener].name);
  EXPECT_EQ(names.size(), 8u + 2u + 3u + 1u + 8u + 4u) << ::testing::PrintToString(names);
  EXPECT_EQ(r.procedure.steps[r.order[card.next.front()].step].id, "shackles-in");
  EXPECT_EQ(r.order[card.next.front()].side, Side::right);
  std::vector<std::string> off;  // the wheels, and the dampers, whose longer ones are not on yet; the pads are replaced
  for (const std::size_t i : left.places) off.push_back(r.parts[i].name);
  EXPECT_THAT(off, ::testing::UnorderedElementsAre("wheel left rear", "wheel right rear", "damper left rear",
                                                   "damper right rear"));
  EXPECT_EQ(left.most, Load::on_stands);
}

// Toe is made void by what comes after it, and a nut made final is found slack: both come again, and nothing else does.
TEST(DoneAgain, OnlyWhatLaterWorkUndidAndNoStepToComeMakesGood) {
  const Roster r = make_roster(hauler());
  std::vector<Event> events;
  const auto enter = [&](auto what) { events.push_back({events.size() + 1, {}, {}, what}); };
  std::size_t drive = 0;
  for (std::size_t at = 0; at < r.order.size(); ++at) {
    const std::string& id = r.procedure.steps[r.order[at].step].id;
    if (id == "first-drive") drive = at;
    if (id != "first-drive" && id != "give-back") enter(StepDone{id, r.order[at].side});
  }
  ASSERT_GT(drive, 0u);
  EXPECT_TRUE(done_again(r, fold(r, events).state).empty());
  enter(Found{"T left front", FastenerState::slack});
  const auto again = done_again(r, fold(r, events).state);
  std::vector<std::string> ids;
  for (std::size_t at : again) ids.push_back(r.procedure.steps[r.order[at].step].id);
  EXPECT_EQ(ids, (std::vector<std::string>{"tie-rod-on", "align"}));
  EXPECT_EQ(resume(r, fold(r, events).state).next.size(), 4u);
  // Put right and read again, they are done.
  enter(StepDone{"tie-rod-on", Side::none});
  enter(StepDone{"align", Side::none});
  EXPECT_TRUE(done_again(r, fold(r, events).state).empty());
}

}  // namespace
}  // namespace trammel::work
