// Holes, faces, box walls, castle nuts, pivots and torque wrenches: closed forms, and the laws that their headers
// state.
#include <gtest/gtest.h>

#include <numbers>

#include "fastener/ask.h"
#include "fastener/wheel.h"

namespace trammel::fastener {
namespace {

Thread thread(std::string_view text) { return std::get<Thread>(read_thread(text)); }
Judgement judged(std::string_view text) {
  const auto r = read_ask(text);
  EXPECT_TRUE(std::holds_alternative<Question>(r)) << text;
  const auto* q = std::get_if<Question>(&r);
  return q ? judge(q->joint, q->ask) : Judgement{};
}

// The usual tapping drills of the trade (from memory): M6 5, M8 6.8, M10 8.5, M12 10.2 mm; 1/4-20 No. 7 (5.105), 3/8-16
// 5/16 in, 1/2-13 27/64 in. All lie within the limits of the tapped thread.
TEST(TapDrill, TheTradesDrillsLieWithin) {
  struct Row {
    const char* thread;
    double mm;
  };
  for (const Row& r : {Row{"M5", 4.2},
                       {"M6", 5.0},
                       {"M8", 6.8},
                       {"M10", 8.5},
                       {"M10x1.25", 8.8},
                       {"M12", 10.2},
                       {"M14", 12.0},
                       {"M16", 14.0},
                       {"1/4-20", 5.105},
                       {"3/8-16", 7.9375},
                       {"1/2-13", 10.716}}) {
    const auto drill = tap_drill(thread(r.thread));
    ASSERT_TRUE(drill) << r.thread;
    EXPECT_GE(r.mm * units::mm, drill->least) << r.thread;
    EXPECT_LE(r.mm * units::mm, drill->most) << r.thread;
    EXPECT_NEAR(drill->usual.in(units::mm), r.mm, 0.2) << r.thread;
  }
}

TEST(Hole, SeriesRiseAndLetTheBoltThrough) {
  for (const char* t : {"M5", "M6", "M8", "M10", "M12", "M14", "M16", "M20", "1/4-20", "3/8-16", "1/2-13", "3/4-10"}) {
    const auto h = clearance_hole(thread(t));
    ASSERT_TRUE(h) << t;
    EXPECT_LT(thread(t).d, h->fine);
    EXPECT_LT(h->fine, h->medium);
    EXPECT_LT(h->medium, h->coarse);
    EXPECT_EQ(hole_fit(thread(t), h->medium), HoleFit::fits);
  }
  EXPECT_EQ(hole_fit(thread("M10"), 9.9 * units::mm), HoleFit::too_small);
  EXPECT_EQ(hole_fit(thread("M10"), 10.1 * units::mm), HoleFit::tight);
  EXPECT_EQ(hole_fit(thread("M10"), 13.0 * units::mm), HoleFit::too_large);
  EXPECT_EQ(hole_fit(thread("9/16-12"), 16.0 * units::mm), HoleFit::not_tabled);
}

// The cone of the header, its work summed ring by ring: a second way to the wall's limit.
TEST(Wall, VirtualWorkOfTheCone) {
  const Length wall = 3.0 * units::mm, width = 50.0 * units::mm, face = 14.63 * units::mm;
  const double m = 235e6 * 0.003 * 0.003 / 4.0, edge = 0.025, disc = 0.5 * 0.01463, slope = 1.0 / (edge - disc);
  double work = m * slope * 2.0 * std::numbers::pi * (edge + disc);  // the two hinges
  constexpr int rings = 20000;
  for (int i = 0; i < rings; ++i) {
    const double r = disc + (i + 0.5) * (edge - disc) / rings, dr = (edge - disc) / rings;
    work += m * (slope / r) * 2.0 * std::numbers::pi * r * dr;  // hoop bending
  }
  const Force ours = wall_limit(wall, width, face, 235.0 * units::MPa);
  std::cout << "worst box wall against summed virtual work: " << std::abs(ours.si() / work - 1.0) << "\n";
  EXPECT_NEAR(ours.si() / work, 1.0, 1e-9);
  // A point load on a clamped plate: 4 pi m (from memory); twice the wall bears four times as much.
  EXPECT_NEAR(wall_limit(wall, 1000.0 * units::metre, face, 235.0 * units::MPa).si(), 4.0 * std::numbers::pi * m, 1.0);
  EXPECT_NEAR(wall_limit(2.0 * wall, width, face, 235.0 * units::MPa) / ours, 4.0, 1e-12);
}

// A torque offered for a box without a sleeve leaves the whole window below the wall.
TEST(Wall, TheOfferedTorqueSparesIt) {
  const auto j = judged("bolt M10x60 8.8, box rail 40 mm wall 3 mm, nut 8; dry zinc");
  ASSERT_TRUE(j.wall && j.suggested_preload);
  EXPECT_NEAR(j.suggested_preload->high / *j.wall, 1.0, 1e-9);
  const auto sleeved = judged("bolt M10x60 8.8, box rail 40 mm wall 3 mm, sleeve 34 mm, nut 8; dry zinc");
  EXPECT_GT(*sleeved.suggested, *j.suggested);
  // And taken as it is offered it raises no stop and asks for no sleeve.
  const auto taken = judged("bolt M10x60 8.8, box rail 40 mm wall 3 mm, nut 8; 14 N·m dry zinc");
  EXPECT_FALSE(taken.has(Flag::box_without_sleeve) || taken.has(Flag::torque_too_low) ||
               taken.has(Flag::looks_like_factor_12));
}

// A washer spreads the load: less pressure, and a wall bears more under it.
TEST(Faces, AWasherSpreads) {
  const Thread t = thread("M10");
  const Force f = 25.0 * units::kN;
  EXPECT_LT(face_pressure(f, washer_face(t), 11.0 * units::mm), face_pressure(f, head_face(t), 11.0 * units::mm));
  EXPECT_GT(*judged("bolt M10x65 8.8, washer, box rail 40 mm wall 3 mm, nut 8; 20 N·m").wall,
            *judged("bolt M10x65 8.8, box rail 40 mm wall 3 mm, nut 8; 20 N·m").wall);
  EXPECT_NEAR(face_pressure(f, 14.63 * units::mm, 11.0 * units::mm).in(units::MPa),
              25000.0 / (std::numbers::pi / 4.0 * (14.63 * 14.63 - 121.0)), 1e-9);
}

TEST(Castle, ForwardOrAnotherShimAndNeverBack) {
  const auto step = castle_step(thread("M10"));
  EXPECT_NEAR(step.turn.in(units::degree), 60.0, 1e-12);
  EXPECT_NEAR(step.advance.in(units::mm), 0.25, 1e-12);
  EXPECT_NEAR(step.shim.in(units::mm), 0.125, 1e-12);
  const Torque least = 35.0 * units::Nm, limit = 45.0 * units::Nm;
  EXPECT_EQ(castle_answer(30.0 * units::Nm, least, limit), CastleAnswer::forward);
  EXPECT_EQ(castle_answer(35.0 * units::Nm, least, limit), CastleAnswer::pin);
  EXPECT_EQ(castle_answer(45.0 * units::Nm, least, limit), CastleAnswer::pin);
  EXPECT_EQ(castle_answer(46.0 * units::Nm, least, limit), CastleAnswer::change_shim);
  // A stiff joint: steel stretched by a sixth of a pitch over its grip, Hooke's law.
  const auto stiff = castle_step(thread("M10"), 40.0 * units::mm);
  EXPECT_NEAR(stiff.rise->si(), 205e9 * stress_area(thread("M10")).si() * 0.25e-3 / 0.040, 1e-6);
}

// Loads of a wheel of 2 kN on an axle of 4 kN, stability factor 0.8, by the header's numbers.
TEST(Pivot, LoadCases) {
  const WheelLoads w{2.0 * units::kN, 4.0 * units::kN, 0.8};
  EXPECT_NEAR(road_load(PivotCase::bump, w).vertical.in(units::kN), 6.0, 1e-12);
  const auto braking = road_load(PivotCase::braking, w);
  EXPECT_NEAR(braking.vertical.in(units::kN), 3.0, 1e-12);
  EXPECT_NEAR(braking.along_cart.in(units::kN), 2.2, 1e-12);
  const auto kerb = road_load(PivotCase::kerb, w);
  EXPECT_NEAR(kerb.across_cart.in(units::kN), 1.75 * 0.8 * 4.0, 1e-12);
  const auto eye = bolt_load(braking, PivotLies::across_cart, 0.5);
  EXPECT_NEAR(eye.across.in(units::kN), 0.5 * std::hypot(3.0, 2.2), 1e-12);
  EXPECT_EQ(eye.along.si(), 0.0);
  EXPECT_NEAR(bolt_load(kerb, PivotLies::across_cart, 1.0).along.in(units::kN), 5.6, 1e-12);
  EXPECT_NEAR(bolt_load(kerb, PivotLies::along_cart, 1.0).across.in(units::kN), std::hypot(4.0, 5.6), 1e-12);
}

// W12 again through the whole question: Rt^2 + Rs^3 by hand, class 8.8, M12, two planes.
TEST(Pivot, SlipsThenShears) {
  const auto j = judged("bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 20 kN; planes 2");
  ASSERT_TRUE(j.pivot);
  const double area = stress_area(thread("M12")).si(), tension = 25000.0 / (area * 640e6),
               shear = 20000.0 / (2.0 * area * 0.577 * 640e6);
  EXPECT_TRUE(j.pivot->slips);
  EXPECT_NEAR(j.pivot->friction.si(), 2.0 * 0.2 * j.preload->low.si(), 1e-9);
  EXPECT_NEAR(j.pivot->together, tension * tension + shear * shear * shear, 1e-9);
  // One plane is sheared harder, and a load that friction holds not at all.
  const auto one = judged("bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 20 kN; planes 1");
  EXPECT_NEAR(one.pivot->shear, 2.0 * j.pivot->shear, 1e-12);
  EXPECT_EQ(judged("bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 2 kN").pivot->shear, 0.0);
}

TEST(TorqueWrench, ItsScaleAndItsFirstFifth) {
  const TorqueWrench w{40.0 * units::Nm, 200.0 * units::Nm}, fine{5.0 * units::Nm, 60.0 * units::Nm};
  EXPECT_EQ(wrench_range(w, 30.0 * units::Nm), WrenchRange::below_scale);
  EXPECT_EQ(wrench_range(w, 40.0 * units::Nm), WrenchRange::fits);
  EXPECT_EQ(wrench_range(w, 201.0 * units::Nm), WrenchRange::above_scale);
  EXPECT_EQ(wrench_range(fine, 11.9 * units::Nm), WrenchRange::below_a_fifth);
  EXPECT_EQ(wrench_range(fine, 12.0 * units::Nm), WrenchRange::fits);
  // With an extension it is the setting that must lie on the scale: W17 of US Army TM 9-254.
  const auto j = judged("1/2-13 grade 5 40 lbf·ft; extension 4 in on 12 in; scale 35 to 150 lbf·ft");
  EXPECT_NEAR(j.setting->in(units::lbf_ft), 30.0, 1e-9);
  EXPECT_TRUE(j.has(Flag::wrench_off_scale));
}

TEST(WheelNuts, OneDiameterOfStud) {
  EXPECT_NEAR(least_turns(thread("M12x1.5")), 8.0, 1e-12);
  EXPECT_TRUE(passes_rise({30.0 * units::Nm, 60.0 * units::Nm, 85.0 * units::Nm}));
  EXPECT_FALSE(passes_rise({30.0 * units::Nm, 30.0 * units::Nm}));
  EXPECT_TRUE(passes_rise({}));
}

// A slip of 25.4 in either way is named, and the size that was meant.
TEST(Inches, AreNamed) {
  const auto head = judged("3/8-16 grade 5 30 lbf·ft AF 0.5625 mm");
  EXPECT_NEAR(head.likely_length->in(units::inch), 0.5625, 1e-9);
  const auto bolt = judged("bolt 3/8-16 x 1.5 mm grade 5, plate 1 in, nut; 30 lbf·ft");
  EXPECT_TRUE(bolt.has(Flag::looks_like_inch));
  EXPECT_NEAR(bolt.likely_length->in(units::inch), 1.5, 1e-9);
  EXPECT_TRUE(judged("bolt M10 x 40 in 8.8, arm 25 mm, nut 8; 50 N·m").has(Flag::looks_like_inch));
  EXPECT_FALSE(judged("bolt M10x40 8.8, arm 25 mm, nut 8; 50 N·m AF 16").has(Flag::looks_like_inch));
}

// A used locking nut: measured drag decides, W31 keeps it on top of the torque.
TEST(UsedNut, MeasuredDragDecides) {
  EXPECT_TRUE(judged("bolt M12x80 8.8, eye 60 mm, lock nut 8; 60 N·m; reused nut").has(Flag::single_use_nut_reused));
  const auto spent = judged("bolt M12x80 8.8, eye 60 mm, lock nut 8; 60 N·m; reused nut; running 1 N·m");
  EXPECT_TRUE(spent.has(Flag::running_torque_low));
  EXPECT_NEAR(spent.reuse->least.si(), 1.6, 1e-12);
  const auto good = judged("bolt M12x80 8.8, eye 60 mm, lock nut 8; 60 N·m; reused nut; running 2 N·m");
  EXPECT_FALSE(good.has(Flag::running_torque_low) || good.has(Flag::single_use_nut_reused));
}

TEST(Questions, RefuseWhatCannotBeMeant) {
  for (const char* text :
       {"M10 8.8 passes 30/x N·m", "M10 8.8 passes 0/60 N·m", "M10 8.8 scale 200 to 40 N·m", "M10 8.8 scale 40 N·m",
        "M10 8.8 extension 60 on 400", "M10 8.8 extension 60 mm on 400 mm at 120 deg", "M10 8.8 across 4 N·m",
        "M10 8.8 planes 3", "M10 8.8 studs 2", "M10 8.8 turns", "M10 8.8 limit",
        "stud M12x1.5 8.8, disc 6 mm seat round, wheel nut 10; 85 N·m", "bolt M10x40 8.8, arm 10 mm hole 0 mm, nut 8"})
    EXPECT_TRUE(std::holds_alternative<AskError>(read_ask(text))) << text;
}

}  // namespace
}  // namespace trammel::fastener
