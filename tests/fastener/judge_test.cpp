#include "fastener/judge.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "fastener/ask.h"
#include "reference/iso898_1_classes.h"
#include "reference/metric_pitches.h"
#include "reference/sae_j429_grades.h"
#include "reference/unified_stress_areas.h"

namespace trammel::fastener {
namespace {

Judgement judged(std::string_view text) {
  const auto r = read_ask(text);
  const auto* e = std::get_if<AskError>(&r);
  EXPECT_FALSE(e) << text << " at " << (e ? e->at : 0);
  if (e) return {};
  const auto& q = std::get<Question>(r);
  return judge(q.joint, q.ask);
}

struct Pair {
  Flag flag;
  const char *fires, *does_not;
};
constexpr Pair pairs[] = {
    {Flag::torque_missing, "M10 8.8", "M10 8.8 50 N·m"},
    {Flag::class_missing, "M10 50 N·m", "M10 8.8 50 N·m"},
    {Flag::class_not_for_thread, "M10 grade 5 50 N·m", "3/8-16 grade 5 30 lbf·ft"},
    {Flag::torque_above_proof, "M10 8.8 75 N·m dry zinc", "M10 8.8 60 N·m dry zinc"},
    {Flag::high_end_above_proof, "M10 8.8 50 N·m dry zinc", "M10 8.8 40 N·m dry zinc"},
    {Flag::torque_too_low, "M10 8.8 15 N·m dry zinc", "M10 8.8 25 N·m dry zinc"},
    {Flag::looks_like_factor_12, "M10 8.8 600 N·m dry zinc", "M10 8.8 50 N·m dry zinc"},
    {Flag::looks_like_factor_1_356, "M10 8.8 68 N·m dry zinc", "M10 8.8 100 N·m dry zinc"},
    {Flag::oiled_given_dry_torque, "M10 8.8 50 N·m dry zinc, found anti-seize",
     "M10 8.8 50 N·m dry zinc, found dry steel"},
    {Flag::surface_assumed, "M10 8.8 50 N·m", "M10 8.8 50 N·m greased"},
    {Flag::running_torque_assumed, "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m",
     "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m; running 4 N·m"},
    {Flag::running_torque_unknown, "bolt 3/8-16 grade 5, arm 20 mm, lock nut; 30 lbf·ft",
     "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m"},
    {Flag::wrench_fits_no_head, "M10 8.8 50 N·m AF 19", "M10 8.8 50 N·m AF 16"},
    {Flag::wrench_ambiguous, "M10 8.8 50 N·m AF 17", "M10 8.8 50 N·m AF 16"},
    {Flag::wrench_not_tabled, "M22 8.8 500 N·m AF 32", "M20 8.8 400 N·m AF 30"},
    {Flag::nut_weaker_than_bolt, "bolt 3/8-16 UNC x 1 1/2 in grade 8, arm 1 in, nut grade 5; 40 lbf·ft",
     "bolt 3/8-16 UNC x 1 1/2 in grade 8, arm 1 in, nut grade 8; 40 lbf·ft"},
    {Flag::bolt_too_short, "bolt M10x30 8.8, arm 22 mm, nut 8; 50 N·m", "bolt M10x35 8.8, arm 22 mm, nut 8; 50 N·m"},
    {Flag::bolt_too_long, "bolt M10x50 8.8, arm 22 mm, nut 8; 50 N·m", "bolt M10x35 8.8, arm 22 mm, nut 8; 50 N·m"},
    {Flag::bolt_bottoms, "bolt M10x40 8.8, arm 10 mm, knuckle thread 25 mm steel blind; 50 N·m",
     "bolt M10x30 8.8, arm 10 mm, knuckle thread 25 mm steel blind; 50 N·m"},
    {Flag::engagement_short, "bolt M10x20 8.8, arm 10 mm, knuckle thread 25 mm steel; 50 N·m",
     "bolt M10x25 8.8, arm 10 mm, knuckle thread 25 mm steel; 50 N·m"},
    {Flag::tapped_material_missing, "bolt M10x25 8.8, arm 10 mm, knuckle thread 25 mm; 50 N·m",
     "bolt M10x25 8.8, arm 10 mm, knuckle thread 25 mm steel; 50 N·m"},
    {Flag::tapped_strength_assumed, "bolt M10x25 8.8, arm 10 mm, knuckle thread 25 mm steel; 50 N·m",
     "bolt M10x35 8.8, arm 22 mm, nut 8; 50 N·m"},
    {Flag::closing_part_missing, "bolt M10x35 8.8, arm 22 mm; 50 N·m", "bolt M10x35 8.8, arm 22 mm, nut 8; 50 N·m"},
    {Flag::nut_weaker_than_bolt, "bolt M10x35 10.9, arm 22 mm, nut 8; 60 N·m",
     "bolt M10x35 10.9, arm 22 mm, nut 10; 60 N·m"},
    {Flag::single_use_nut_reused, "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m; reused nut",
     "bolt M10x40 8.8, arm 20 mm, nut 8; 50 N·m; reused nut"},
    {Flag::box_without_sleeve, "bolt M10x60 8.8, box rail 40 mm wall 3 mm, nut 8; 50 N·m",
     "bolt M10x60 8.8, box rail 40 mm wall 3 mm, sleeve 34 mm, nut 8; 50 N·m"},
    {Flag::soft_member, "bolt M6x20 8.8, lip 3 mm plastic, nut; 4 N·m", "bolt M6x20 8.8, lip 3 mm steel, nut; 9 N·m"},
    {Flag::strength_single_source, "M10 9.8 50 N·m", "M10 8.8 50 N·m"},
    {Flag::looks_like_inch, "3/8-16 grade 5 30 lbf·ft AF 0.5625 mm", "3/8-16 grade 5 30 lbf·ft AF 9/16 in"},
    {Flag::set_by_measure, "castle nut M20x1.5; 30 N·m; set by measure", "castle nut M20x1.5; 30 N·m"},
    {Flag::running_torque_low, "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m; reused nut; running 0.8 N·m",
     "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m; reused nut; running 1.2 N·m"},
    {Flag::thread_strips, "bolt M10x16 8.8, arm 10 mm, hub thread 20 mm aluminium; 50 N·m dry steel",
     "bolt M10x35 8.8, arm 10 mm, hub thread 25 mm aluminium; 50 N·m dry steel"},
    {Flag::thin_nut_assumed, "jam nut M14x1.5; 50 N·m dry", "jam nut M14x1.5 04; 50 N·m dry"},
    {Flag::long_form_differs, "M10 8.8 40 N·m greased K 0.25", "M10 8.8 40 N·m dry steel"},
    {Flag::face_crushed, "bolt M10x35 10.9, lug 20 mm aluminium, nut 10; 60 N·m dry zinc",
     "bolt M10x35 10.9, washer, lug 20 mm aluminium, nut 10; 60 N·m dry zinc"},
    {Flag::wall_gives_way, "bolt M10x60 8.8, box rail 40 mm wall 2 mm, nut 8; 30 N·m",
     "bolt M10x60 8.8, box rail 40 mm wall 6 mm, nut 8; 30 N·m"},
    {Flag::sleeve_length, "bolt M10x60 8.8, box rail 40 mm wall 3 mm, sleeve 32 mm, nut 8; 50 N·m",
     "bolt M10x60 8.8, box rail 40 mm wall 3 mm, sleeve 34 mm, nut 8; 50 N·m"},
    {Flag::sleeve_gives_way, "bolt M10x60 8.8, box rail 40 mm wall 3 mm, sleeve 34 mm outside 13 mm, nut 8; 50 N·m",
     "bolt M10x60 8.8, box rail 40 mm wall 3 mm, sleeve 34 mm outside 18 mm, nut 8; 50 N·m"},
    {Flag::hole_too_small, "bolt M10x35 8.8, arm 22 mm hole 9 mm, nut 8; 50 N·m",
     "bolt M10x35 8.8, arm 22 mm hole 11 mm, nut 8; 50 N·m"},
    {Flag::hole_too_large, "bolt M10x35 8.8, arm 22 mm hole 13 mm, nut 8; 50 N·m",
     "bolt M10x35 8.8, arm 22 mm hole 10.2 mm, nut 8; 50 N·m"},
    {Flag::drill_wrong, "bolt M10x25 8.8, arm 10 mm, knuckle thread 25 mm steel drill 9 mm; 50 N·m",
     "bolt M10x25 8.8, arm 10 mm, knuckle thread 25 mm steel drill 8.5 mm; 50 N·m"},
    {Flag::edge_short, "bolt M10x35 8.8, arm 22 mm hole 11 mm edge 15 mm, nut 8; 50 N·m",
     "bolt M10x35 8.8, arm 22 mm hole 11 mm edge 22 mm, nut 8; 50 N·m"},
    {Flag::seat_differs, "stud M12x1.5 8.8, disc 6 mm seat ball, wheel nut 10 cone 60 deg; 85 N·m",
     "stud M12x1.5 8.8, disc 6 mm seat cone 60 deg, wheel nut 10 cone 60 deg; 85 N·m"},
    {Flag::seat_unknown, "stud M12x1.5 8.8, disc 6 mm, wheel nut 10 cone 60 deg; 85 N·m",
     "stud M12x1.5 8.8, disc 6 mm seat flat, wheel nut 10 flat; 85 N·m"},
    {Flag::stud_turns_short, "stud M12x1.5 8.8, disc 6 mm, wheel nut 10; 85 N·m; turns 6",
     "stud M12x1.5 8.8, disc 6 mm, wheel nut 10; 85 N·m; turns 8"},
    {Flag::plain_nut_on_wheel, "wheel stud M12x1.5x38 8.8, disc 8 mm, nut 10; 85 N·m",
     "wheel stud M12x1.5x38 8.8, disc 8 mm, wheel nut 10; 85 N·m"},
    {Flag::plain_nut_on_wheel, "stud M12x1.5x38 8.8, disc 8 mm seat cone 60 deg, flange nut 10; 85 N·m",
     "stud M12x1.5x38 8.8, disc 8 mm, flange nut 10; 85 N·m"},
    {Flag::passes_end_elsewhere, "M12x1.5 8.8 85 N·m passes 30/60/80 N·m", "M12x1.5 8.8 85 N·m passes 30/60/85 N·m"},
    {Flag::hole_too_small, "M10x60, hole 10 mm", "M10x60, hole 11 mm"},
    {Flag::drill_wrong, "M10 8.8 drill 9 mm", "M10 8.8 drill 8.5 mm"},
    {Flag::passes_do_not_rise, "M12x1.5 8.8 passes 60/30/85 N·m", "M12x1.5 8.8 passes 30/60/85 N·m"},
    {Flag::u_bolt_above_chart, "u-bolt 1/2-20 grade 5 zinc, pad 1/2 in, nut; 70 lbf·ft",
     "u-bolt 1/2-20 grade 5 plain, pad 1/2 in, nut; 70 lbf·ft"},
    {Flag::castle_limit_missing, "castle nut M10; 35 N·m dry", "castle nut M10; 35 N·m dry; limit 45 N·m"},
    {Flag::castle_limit_low, "castle nut M10; 35 N·m dry; limit 35 N·m", "castle nut M10; 35 N·m dry; limit 45 N·m"},
    {Flag::castle_slot_missed, "castle nut M10, taper arm 14 mm; 60 N·m dry; limit 61 N·m",
     "castle nut M10, taper arm 14 mm; 60 N·m dry; limit 75 N·m"},
    {Flag::taper_wet, "castle nut M10, taper arm 14 mm; 35 N·m greased; limit 45 N·m",
     "castle nut M10, taper arm 14 mm; 35 N·m dry; limit 45 N·m"},
    {Flag::locker_cures, "M10 8.8 50 N·m thread locker", "M10 8.8 50 N·m light oil"},
    {Flag::locker_on_lock_nut, "bolt M10x40 8.8, arm 20 mm, lock nut 8; 50 N·m thread locker",
     "bolt M10x40 8.8, arm 20 mm, nut 8; 50 N·m thread locker"},
    {Flag::wrench_off_scale, "M10 8.8 50 N·m scale 60 to 300 N·m", "M10 8.8 50 N·m scale 40 to 200 N·m"},
    {Flag::wrench_low_on_scale, "M6 8.8 9 N·m scale 5 to 50 N·m", "M6 8.8 9 N·m scale 4 to 20 N·m"},
    {Flag::pivot_slips, "bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 9 kN",
     "bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 4 kN"},
    {Flag::pivot_overloaded, "bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 70 kN",
     "bolt M12x90 8.8, eye 60 mm, nut 8; 60 N·m dry zinc; across 30 kN"},
};

TEST(Flags, EachFiresWhereItShouldAndOnlyThere) {
  std::set<Flag> covered;
  for (const Pair& p : pairs) {
    EXPECT_TRUE(judged(p.fires).has(p.flag)) << name(p.flag) << ": " << p.fires;
    EXPECT_FALSE(judged(p.does_not).has(p.flag)) << name(p.flag) << ": " << p.does_not;
    covered.insert(p.flag);
  }
  EXPECT_EQ(covered.size(), static_cast<std::size_t>(flag_count));
}

TEST(Flags, StandInOneOrderEachOnceAndHaveOneNameEach) {
  for (const Pair& p : pairs) {
    const auto flags = judged(p.fires).flags;
    EXPECT_TRUE(std::ranges::is_sorted(flags));
    EXPECT_EQ(std::ranges::adjacent_find(flags), flags.end());
  }
  std::set<std::string_view> names;
  for (int i = 0; i < flag_count; ++i) names.insert(name(static_cast<Flag>(i)));
  EXPECT_EQ(names.size(), static_cast<std::size_t>(flag_count));
  EXPECT_EQ(names.count(""), 0u);
}

// Every thread with every class it can have.
template <class F>
int for_every_bolt(F f) {
  int n = 0;
  const auto visit = [&](std::string_view thread, std::string_view c) {
    Joint j;
    j.bolt = Bolt{};
    j.thread = j.bolt->thread = std::get<Thread>(read_thread(thread));
    j.bolt->bolt_class = c;
    if (!proof_load(c, j.thread)) return;
    f(j, std::string(thread) + " " + std::string(c));
    ++n;
  };
  for (const auto& row : reference::metric_pitches) {
    const Thread t{row.series == "coarse" ? Series::metric_coarse : Series::metric_fine, row.d_mm * units::mm,
                   row.pitch_mm * units::mm};
    for (const auto& c : reference::iso898_1_classes)
      if (!c.property_class.ends_with("d>16")) visit(name(t), c.property_class.substr(0, c.property_class.find(' ')));
  }
  for (const auto& row : reference::unified_stress_areas)
    for (std::string_view g : {"grade 1", "grade 2", "grade 5", "grade 8"}) visit(row.thread, g);
  return n;
}

// A torque meant in one unit and written in another is caught for every thread, class, surface and slip.
TEST(Slips, OfTwelveAreCaughtForEveryBolt) {
  int bolts = for_every_bolt([](const Joint& j, const std::string& where) {
    for (Surface s : {Surface::dry_zinc, Surface::dry_steel, Surface::light_oil, Surface::anti_seize}) {
      Ask ask;
      ask.surface = s;
      const auto plain = judge(j, ask);
      ASSERT_TRUE(plain.suggested) << where;
      for (double share : {0.55, 0.75, 0.9}) {
        const Torque meant = share / 0.75 * *plain.suggested;
        for (double slip : {12.0, 1.0 / 12.0}) {
          ask.torque = slip * meant;
          const auto wrong = judge(j, ask);
          EXPECT_TRUE(wrong.has(Flag::looks_like_factor_12)) << where;
          EXPECT_NEAR(*wrong.likely_meant / meant, 1.0, 1e-9) << where;
          EXPECT_TRUE(wrong.has(slip > 1.0 ? Flag::torque_above_proof : Flag::torque_too_low)) << where;
        }
        ask.torque = meant;
        const auto right = judge(j, ask);
        EXPECT_FALSE(right.has(Flag::looks_like_factor_12) || right.has(Flag::looks_like_factor_1_356)) << where;
        EXPECT_FALSE(right.has(Flag::torque_above_proof) || right.has(Flag::torque_too_low)) << where;
      }
      // lbf·ft numbers read as N·m and the other way: only where the torque leaves what is plausible.
      ask.torque = 1.3558179 * 0.75 / 0.75 * *plain.suggested;
      EXPECT_TRUE(judge(j, ask).has(Flag::looks_like_factor_1_356)) << where;
    }
  });
  std::cout << bolts << " bolts tried\n";
  EXPECT_GT(bolts, 300);
}

// W04, Shigley, 9th ed., Eq. 8-31: a joint opened again is set to 0.75 of proof.
TEST(Suggested, IsThreeQuartersOfProof) {
  const auto j = judged("M10 8.8 dry zinc");
  ASSERT_TRUE(j.suggested && j.suggested_preload && j.proof_load);
  EXPECT_NEAR(j.suggested_preload->nominal / j.proof_load->value, 0.75, 1e-12);
  EXPECT_NEAR(j.suggested->si(), 0.2 * 0.010 * 0.75 * 33700.0, 1e-9);
  // With a lock nut the drag is added, so that the clamp stays.
  const auto lock = judged("bolt M10x40 8.8, arm 20 mm, lock nut 8; dry zinc; running 4 N·m");
  EXPECT_NEAR((*lock.suggested - *j.suggested).si(), 4.0, 1e-9);
  EXPECT_NEAR(lock.suggested_preload->nominal / lock.proof_load->value, 0.75, 1e-12);
}

TEST(Judge, WeakerOfBoltAndNutDecides) {
  const auto j = judged("bolt M8x30 10.9, arm 12 mm, nut 8Z; 25 N·m dry zinc");
  EXPECT_EQ(j.proof_load->value.si(), 25500.0);  // ISO 10684 nut against 30400 N of the bolt
  EXPECT_NEAR(j.proof->nominal, 25.0 / (0.2 * 0.008) / 25500.0, 1e-12);
}

TEST(Judge, WindowMarginAndBasisAgree) {
  const auto j = judged("M10 8.8 50 N·m dry zinc");
  EXPECT_NEAR(j.preload->nominal.si(), 25000.0, 1e-9);
  EXPECT_NEAR(j.margin->si(), 33700.0 - j.preload->high.si(), 1e-9);
  EXPECT_TRUE(j.method_assumed);
  EXPECT_EQ(j.surface, Surface::dry_zinc);
  EXPECT_FALSE(j.k.source.empty() || j.method_scatter.source.empty());
  // Oil on a joint whose torque is for dry zinc: more clamp, by the ratio of the two K.
  const auto oiled = judged("M10 8.8 50 N·m dry zinc, found greased");
  EXPECT_NEAR(oiled.preload->nominal / j.preload->nominal, 0.20 / 0.15, 1e-12);
  EXPECT_TRUE(oiled.has(Flag::oiled_given_dry_torque));
}

TEST(Judge, TorqueOnTopOfTheNutsDragIsAllClamp) {
  const auto on_top = judged("bolt M12x80 8.8, eye 60 mm, lock nut 8; 60 N·m, plus running, dry zinc");
  EXPECT_NEAR(on_top.preload->nominal.si(), 60.0 / (0.2 * 0.012), 1e-9);
  const auto included = judged("bolt M12x80 8.8, eye 60 mm, lock nut 8; 60 N·m, dry zinc");
  EXPECT_LT(included.preload->nominal, on_top.preload->nominal);
  EXPECT_LT(included.preload->low, on_top.preload->low);
}

TEST(Judge, TwoWrenchesOfTwoSizes) {
  EXPECT_FALSE(
      judged("bolt M10x35 8.8 AF 17, arm 22 mm, nut 8 AF 16; 50 N·m; AF 17/16").has(Flag::wrench_fits_no_head));
  EXPECT_TRUE(judged("bolt M10x35 8.8 AF 17, arm 22 mm, nut 8 AF 16; 50 N·m; AF 16/17").has(Flag::wrench_fits_no_head));
  EXPECT_FALSE(judged("bolt M10x35 8.8 AF 17, arm 22 mm, nut 8 AF 16; 50 N·m; AF 16").has(Flag::wrench_fits_no_head));
  EXPECT_TRUE(judged("bolt M10x35 8.8 AF 17, arm 22 mm, nut 8 AF 16; 50 N·m; AF 15").has(Flag::wrench_fits_no_head));
}

TEST(Judge, WithoutAClassOnlyTheForceIsGiven) {
  const auto j = judged("castle nut M10; 35 N·m dry");
  EXPECT_TRUE(j.preload);
  EXPECT_FALSE(j.proof || j.proof_load || j.suggested || j.margin);
}

}  // namespace
}  // namespace trammel::fastener
