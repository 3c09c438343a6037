// What keeps a cart from rolling, and one lifted wheel, against statics worked by hand.
//
// By hand: a wheel in the air holds nothing. A drum holds the wheel that it sits in. Behind an open differential both
// wheels of an axle get the same torque, so with one of them free the other gets none (Gillespie ch. 2, from memory).
#include <gtest/gtest.h>

#include <iostream>

#include "work/builder.h"
#include "work/hold.h"
#include "work/words.h"

namespace trammel::work {
namespace {

// One lift of any kind, with whatever holds the rest.
Procedure lift(const std::string& what, const Texts& holds, ParkingBrake front, ParkingBrake rear) {
  Procedure p;
  p.name = "lift";
  p.fasteners = {fastener("A", "arm bolt", {}, Duty::body)};
  p.brakes = {front, rear};
  write_steps(p,
              {{.id = "hold", .sets = holds}, {.id = "lift", .loads = {what}}, {.id = "down", .loads = {"on wheels"}}});
  return p;
}

TEST(Hold, WhatHoldsWhichLift) {
  using enum ParkingBrake;
  struct Row {
    const char* what;
    Texts holds;
    ParkingBrake front, rear;
    bool held;
  };
  const Texts nothing, brake{"parking brake on"};
  const std::vector<Row> rows = {
      // Rear drums by cable: they hold the cart while the front goes up, and nothing once the rear does.
      {"front jacked", brake, none, wheels, true},
      {"rear jacked", brake, none, wheels, false},
      {"front jacked", nothing, none, wheels, false},
      // One rear wheel up: its drum is in the air, the other one still holds.
      {"rear left jacked", brake, none, wheels, true},
      // On the motor's shaft: with one rear wheel up the other turns freely against it.
      {"front jacked", brake, none, motor_shaft, true},
      {"rear left jacked", brake, none, motor_shaft, false},
      {"rear right jacked", brake, none, motor_shaft, false},
      {"front left jacked", brake, none, motor_shaft, true},
      // On by itself while the power is off, until a lever or the tow switch lets it go.
      {"front jacked", nothing, none, power_off_shaft, true},
      {"front jacked", {"brake released"}, none, power_off_shaft, false},
      {"rear right jacked", nothing, none, power_off_shaft, false},
      // Without its cart a kit knows of no brake.
      {"front jacked", brake, not_known, not_known, false},
      // Chocks: at the end that stays down, or at the wheel beside the lifted one.
      {"rear jacked", {"front chocked"}, none, none, true},
      {"rear jacked", {"rear chocked"}, none, none, false},
      {"rear left jacked", {"rear chocked"}, none, none, true},
  };
  for (const Row& row : rows) {
    const Walk w = walk(lift(row.what, row.holds, row.front, row.rear));
    const bool told = has(w, FaultKind::nothing_holds) || has(w, FaultKind::brake_holds_nothing);
    EXPECT_EQ(!told, row.held) << row.what << " with " << (row.holds.empty() ? "nothing" : row.holds[0]) << "\n"
                               << list(w);
  }
  std::cout << "lifts judged by hand: " << rows.size() << "\n";
}

TEST(Hold, LiftingNeverAddsHold) {
  // Law, over every set of lifted corners and every brake.
  using enum ParkingBrake;
  for (const ParkingBrake front : {not_known, none, wheels, motor_shaft, power_off_shaft})
    for (const ParkingBrake rear : {not_known, none, wheels, motor_shaft, power_off_shaft})
      for (const Texts& words : {Texts{}, Texts{"parking brake on"}, Texts{"chocked"}}) {
        const Roster r = make_roster(lift("rear jacked", words, front, rear));
        State s = do_step(r, starting_state(r), r.order[0]);
        for (unsigned up = 0; up < 16; ++up)
          for (unsigned more = up; more < 16; ++more) {
            if ((up & ~more) != 0) continue;
            const auto holds = [&](unsigned lifted) {
              for (unsigned c = 0; c < 4; ++c)
                s.corners[c] = (lifted >> c & 1U) != 0 ? Support::on_stands : Support::on_wheels;
              return static_cast<int>(hold_of(r, s, End::front).any()) +
                     static_cast<int>(hold_of(r, s, End::rear).any());
            };
            EXPECT_LE(holds(more), holds(up));
          }
      }
}

// Rolled by hand, then driven; the brake is let go and put back where the words say so.
TEST(Hold, APowerOffBrakeIsLetGoToRollAndBackOnToDrive) {
  using enum ParkingBrake;
  struct Row {
    ParkingBrake rear;
    bool let_go, back_on, rolls, drives;
  };
  for (const Row& row : {Row{power_off_shaft, true, true, true, true}, Row{power_off_shaft, false, false, false, true},
                         Row{power_off_shaft, true, false, true, false}, Row{motor_shaft, false, false, true, true},
                         Row{wheels, true, false, true, true}, Row{not_known, false, false, true, true}}) {
    Procedure p;
    p.name = "roll";
    p.fasteners = {fastener("A", "arm bolt", {}, Duty::body)};
    p.brakes = {none, row.rear};
    write_steps(p, {{.id = "roll", .sets = row.let_go ? Texts{"brake released"} : Texts{}, .loads = {"rolled"}},
                    {.id = "brake", .clears = row.back_on ? Texts{"brake released"} : Texts{}},
                    {.id = "drive", .loads = {"driven"}}});
    const Walk w = walk(p);
    EXPECT_EQ(!has(w, FaultKind::brake_against_rolling, "rear"), row.rolls) << list(w);
    EXPECT_EQ(!has(w, FaultKind::brake_left_released, "rear"), row.drives) << list(w);
  }
}

// A wheel changed at one corner.
Procedure one_wheel() {
  Procedure p;
  p.name = "one wheel";
  p.parts = {part("wheel", "{left,right}.{front,rear}", PartKind::wheel, PartSource::on_cart)};
  p.fasteners = {fastener("N", "wheel nut, {left,right}.{front,rear}.1..4", {"wheel"}, Duty::wheel)};
  write_steps(p, {{.id = "chock", .sets = {"front chocked"}},
                  {.id = "break", .slacken = {"N left rear slack"}},
                  {.id = "up", .needs = {"front chocked"}, .loads = {"rear left jacked", "rear left on stands"}},
                  {.id = "change",
                   .needs = {"left rear on stands", "front on wheels"},
                   .slacken = {"N left rear out"},
                   .removes = {"wheel left rear"},
                   .fits = {"wheel left rear"},
                   .tighten = {"N left rear snug"}},
                  {.id = "down", .loads = {"rear left on wheels"}},
                  {.id = "nuts", .tighten = {"N left rear final"}},
                  {.id = "roll", .loads = {"rolled"}}});
  return p;
}

TEST(OneWheel, OnlyItsOwnCornerIsOffTheFloor) {
  Walk w = walk(one_wheel());
  EXPECT_EQ(list(w),
            "side_missed [] N right rear 1\nside_missed [] N right rear 2\nside_missed [] N right rear 3\n"
            "side_missed [] N right rear 4\nside_missed [] wheel right rear\n");
  const State& up = w.steps[2].after;
  EXPECT_EQ(support_of(up, End::rear, Side::left), Support::on_stands);
  EXPECT_EQ(support_of(up, End::rear, Side::right), Support::on_wheels);
  EXPECT_EQ(support_of(up, End::rear), Support::on_stands);
  EXPECT_TRUE(on_floor(up, End::rear));
  EXPECT_FALSE(all_stand(up, Support::on_stands, End::rear));

  // The wheel across stands on the floor: it may not come off, nor its nuts.
  Procedure p = one_wheel();
  step(p, "change").slacken[0].fastener.side = Side::right;
  step(p, "change").removes[0].part.side = Side::right;
  w = walk(p);
  EXPECT_TRUE(has(w, FaultKind::support_missing, "wheel right rear")) << list(w);
  step(p, "change").removes.clear();
  step(p, "change").fits.clear();
  w = walk(p);
  EXPECT_TRUE(has(w, FaultKind::wheel_on_ground_loose, "N right rear 1")) << list(w);
  // Rolled on three wheels; the whole end wanted on stands.
  p = one_wheel();
  std::erase_if(p.steps, [](const Step& s) { return s.id == "down"; });
  EXPECT_TRUE(has(walk(p), FaultKind::not_on_wheels, "rear"));
  p = one_wheel();
  step(p, "change").needs[0] = read_need("rear on stands", p);
  EXPECT_TRUE(has(walk(p), FaultKind::need_not_met));
  // Loose nuts elsewhere are asked about only where a wheel comes down.
  p = one_wheel();
  step(p, "break").slacken.push_back({{"N", Side::right, End::rear}, FastenerState::slack});
  w = walk(p);
  EXPECT_FALSE(std::any_of(w.faults.begin(), w.faults.end(), [](const Fault& f) {
    return f.step == "down" && f.subject.starts_with("N right");
  })) << list(w);
}

}  // namespace
}  // namespace trammel::work
