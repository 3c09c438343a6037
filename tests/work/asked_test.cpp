// What is asked of a fastener as the work stands, and which readings count. Numbers are invented; the laws are the
// header's own.
#include "work/asked.h"

#include <gtest/gtest.h>

#include "work/builder.h"
#include "work/hauler.h"

namespace trammel::work {
namespace {

Procedure two_nuts() {
  Procedure p;
  p.name = "two nuts";
  p.parts = {part("arm", "rear.{left,right}", PartKind::suspension, PartSource::on_cart, "")};
  Fastener bush = fastener("B", "rear.{left,right}", {"arm"}, Duty::general);
  bush.torque = 60.0 * units::Nm;
  bush.only_final = Support::on_wheels;
  bush.new_each_time = true;
  bush.as_found = FastenerState::final;
  Fastener castle = fastener("C", "rear.{left,right}", {"arm"}, Duty::general);
  castle.torque = 35.0 * units::Nm;
  castle.torque_limit = 45.0 * units::Nm;
  castle.castle = true;
  castle.as_found = FastenerState::final;
  Fastener wheel = fastener("W", "rear.{left,right}", {"arm"}, Duty::general);
  wheel.torque = 85.0 * units::Nm;
  wheel.passes = {30.0 * units::Nm, 60.0 * units::Nm, 85.0 * units::Nm};
  wheel.as_found = FastenerState::out;
  Fastener hub = fastener("H", "rear.{left,right}", {"arm"}, Duty::general);
  hub.set_by_measure = true;
  p.fasteners = {bush, castle, wheel, hub};
  StepText up{"up"}, open{"open"}, shut{"shut"}, down{"down"};
  up.sides = "once", up.loads = {"rear on stands"};
  open.sides = "once", open.slacken = {"B out"};
  shut.sides = "once", shut.tighten = {"B snug"};
  down.sides = "once", down.loads = {"rear on wheels"};
  write_steps(p, {up, open, shut, down});
  return p;
}

class AskedOf : public ::testing::Test {
 protected:
  Roster r = make_roster(two_nuts());
  Ledger l = open_ledger(r);
  std::uint64_t next = 1;
  void enter(auto what) {
    Event e;
    e.sequence = next++;
    e.what = what;
    l = apply(r, std::move(l), e);
  }
  std::size_t at(const char* name) const { return *r.fastener(name); }
  Asked asked(const char* name) const { return asked_of(r, l.state, at(name)); }
  FastenerState state(const char* name) const { return l.state.fasteners[at(name)]; }
};

TEST_F(AskedOf, AReadingCountsInItsWindowAndACastleNutToItsLimit) {
  const auto read = [&](const char* name, double torque) { return read_against(asked(name), torque * units::Nm); };
  EXPECT_EQ(read("B left rear", 60), TorqueRead::final);
  EXPECT_EQ(read("B left rear", 54.01), TorqueRead::final);
  EXPECT_EQ(read("B left rear", 53.9), TorqueRead::below);
  EXPECT_EQ(read("B left rear", 66.1), TorqueRead::above);
  EXPECT_EQ(read("C left rear", 44.9), TorqueRead::final);
  EXPECT_EQ(read("C left rear", 45.1), TorqueRead::above);
  EXPECT_EQ(read("W left rear", 61), TorqueRead::pass);
  EXPECT_EQ(read("W left rear", 45), TorqueRead::below);
  EXPECT_EQ(read("W left rear", 85), TorqueRead::final);
  EXPECT_TRUE(asked("H left rear").wants_entry());
  EXPECT_FALSE(asked("H left rear").torque());
}

TEST_F(AskedOf, ADecidedTorqueKeepsTheCastleNutsLimit) {
  const auto read = [&](double torque) { return read_against(asked("C left rear"), torque * units::Nm); };
  TorqueInstead decided;
  decided.fastener = at("C left rear");
  decided.torque = 40.0 * units::Nm;
  l.state.instead.push_back(decided);
  EXPECT_EQ(read(44.9), TorqueRead::final);
  EXPECT_EQ(read(45.1), TorqueRead::above);
  // A torque above the limit has taken its place.
  l.state.instead.back().torque = 50.0 * units::Nm;
  EXPECT_EQ(read(50.0), TorqueRead::final);
}

TEST_F(AskedOf, NothingIsMadeFinalHangingThatMustStandOnItsWheels) {
  enter(StepDone{"up", Side::none});
  EXPECT_FALSE(stands_for_final(r, l.state, at("B left rear")));
  EXPECT_TRUE(stands_for_final(r, l.state, at("C left rear")));
  enter(Found{"B left rear", FastenerState::snug});
  enter(TorqueReached{"B left rear", FastenerState::final, 60.0 * units::Nm, "W1"});
  EXPECT_EQ(state("B left rear"), FastenerState::part_tight);
  enter(StepDone{"down", Side::none});
  enter(TorqueReached{"B left rear", FastenerState::final, 60.0 * units::Nm, "W1"});
  EXPECT_EQ(state("B left rear"), FastenerState::final);
}

TEST_F(AskedOf, WhatServesOnceWantsANewOneOnceItWasLoosened) {
  enter(StepDone{"up", Side::none});
  EXPECT_FALSE(asked("B left rear").spent);
  enter(StepDone{"open", Side::none});
  EXPECT_TRUE(asked("B left rear").spent);
  EXPECT_FALSE(new_one_to_come(r, l.state, at("B left rear")));
  enter(StepDone{"down", Side::none});
  enter(TorqueReached{"B left rear", FastenerState::final, 60.0 * units::Nm, "W1"});
  EXPECT_EQ(state("B left rear"), FastenerState::part_tight);
  enter(TorqueReached{"B left rear", FastenerState::final, 60.0 * units::Nm, "W1", true});
  EXPECT_EQ(state("B left rear"), FastenerState::final);
  EXPECT_FALSE(asked("B left rear").spent);
  // Found slack, it has been loosened too.
  enter(Found{"B left rear", FastenerState::slack});
  EXPECT_TRUE(asked("B left rear").spent);
  // One that the step still to come brings serves as well.
  Procedure p = two_nuts();
  p.steps[2].tighten[0].fresh = true;
  r = make_roster(p);
  l = open_ledger(r);
  enter(StepDone{"up", Side::none});
  enter(StepDone{"open", Side::none});
  EXPECT_TRUE(new_one_to_come(r, l.state, at("B left rear")));
}

TEST_F(AskedOf, WhatIsDecidedIsAskedInPlaceOfTheKitsAndIsUndoneWithItsEntry) {
  enter(TorqueDecided{"W left rear", std::nullopt});
  EXPECT_FALSE(asked("W left rear").valid);
  enter(TorqueReached{"W left rear", FastenerState::final, 85.0 * units::Nm, "W1"});
  EXPECT_NE(state("W left rear"), FastenerState::final);
  enter(TorqueDecided{"W left rear", 70.0 * units::Nm});
  const Asked now = asked("W left rear");
  EXPECT_TRUE(now.valid);
  ASSERT_EQ(now.passes.size(), 1u);
  EXPECT_EQ(*now.torque(), 70.0 * units::Nm);
  EXPECT_EQ(read_against(now, 85.0 * units::Nm), TorqueRead::above);
  EXPECT_EQ(*asked("W right rear").torque(), 85.0 * units::Nm);
  enter(TorqueReached{"W left rear", FastenerState::final, 70.0 * units::Nm, "W1"});
  EXPECT_EQ(state("W left rear"), FastenerState::final);
  enter(Undone{3});
  EXPECT_FALSE(asked("W left rear").valid);
}

}  // namespace
}  // namespace trammel::work
