// How the load cart (invented) stands, against statics worked by hand; what its record says of torques.
#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

#include "assess/order_of_work.h"
#include "assess/shuttle.h"

namespace trammel::test {
namespace {

const StepLine& step_of(const Assessment& a, const std::string& id, const std::string& side = "") {
  for (const StepLine& s : a.steps)
    if (s.id == id && s.side == side) return s;
  throw std::logic_error("no step " + id);
}
double load_of(const SupportView& v, const std::string& what) {
  for (const Foothold& f : v.points)
    if (f.what == what) return f.load.si;
  throw std::logic_error("no " + what);
}

// By hand: 612 kg, weight 1015 mm behind the front axle, stands at 1500 and 420 mm.
TEST(Support, stands_of_the_load_cart_by_hand) {
  const Assessment a = assess(load_cart());
  double worst = 0.0;
  const auto expect = [&](double computed, double by_hand, double digits, const char* what) {
    EXPECT_NEAR(computed, by_hand, digits) << what;
    worst = std::max(worst, std::abs(computed - by_hand) / digits);
  };
  const SupportView& up = *step_of(a, "rear-up").support;
  expect(load_of(up, "left stand"), 207, 0.6, "rear lifted");
  expect(load_of(up, "right stand"), 207, 0.6, "rear lifted");
  expect(up.tip.si(), 1608, 2, "whole cart on stands 560 high, 300 wide");
  expect(up.bar.si(), 400, 0.5, "200 N m on 0.5 m");
  const SupportView& held = *step_of(a, "axle-held").support;
  expect(load_of(held, "left stand"), 145, 0.6, "axle on the jack");
  expect(held.jack->si, 78, 0.6, "axle without its wheels");
  const SupportView& front = *step_of(a, "front-up").support;
  expect(load_of(front, "left stand"), 174, 4.5, "front lifted; the rear is on its bigger wheels by then");
  std::cout << "worst " << worst << " of the last digit stated\n";
}

// By hand, the outline's other rows: hubs and knuckles off in front, all four stands, both axles out.
TEST(Support, the_outlines_other_rows) {
  double worst = 0.0;
  const auto expect = [&](double computed, double by_hand, double digits, const char* what) {
    EXPECT_NEAR(computed, by_hand, digits) << what;
    worst = std::max(worst, std::abs(computed - by_hand) / digits);
  };
  // 46 kg out at the front axle, 1800 mm from the rear one, over stands 1380 mm from it: (348 - 46·1800/1380)/2.
  Job job = load_cart();
  for (KitUse& use : job.kits)
    for (Part& p : use.kit.part)
      if (p.id.value == "knuckle")
        p.mass->value = 5.0 * units::kg;  // with wheel and hub the whole of the front's 46 kg
  for (const StepLine& s : assess(job).steps)
    if (s.support && s.support->up == "front" && std::ranges::count(s.support->off, "knuckle") > 0 &&
        std::ranges::count(s.support->off, "hub") > 0 && s.side == "right" && s.fits.empty()) {
      expect(load_of(*s.support, "left stand"), 144, 0.6, "front lifted, hubs and knuckles off");
      EXPECT_TRUE(s.support->chocked) << s.id;
    }
  EXPECT_GT(worst, 0.0) << "no such step was met";

  // Never lowered behind, so that the front goes up beside it: 612 kg on four stands, and 462 kg with both axles out.
  job = load_cart();
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step) std::erase_if(s.loads, [](const Text& t) { return t.value == "rear on wheels"; });
  bool met = false;
  const auto four = [&](const Job& of, double front, double rear, const char* what) {
    for (const StepLine& s : assess(of).steps)
      if (s.id == "front-up" && s.support && s.support->up == "both") {
        expect(load_of(*s.support, "front left stand"), front, 0.6, what);
        expect(load_of(*s.support, "rear right stand"), rear, 0.6, what);
        if (rear == 111.0) expect(s.support->tip.si(), 1214, 1.0, "pull that tips it with both axles out");
        met = true;
      }
  };
  // As it came: parts without their masses.
  for (KitUse& use : job.kits)
    for (Part& p : use.kit.part) p.mass.reset();
  four(job, 137, 169, "all four stands");
  const auto out = [&](const char* axle) {
    std::erase_if(job.cart.mass, [&](const MassItem& m) { return m.name.value == axle; });
  };
  out("rear unsprung");
  four(job, 152, 102, "rear axle out");
  out("front unsprung");
  four(job, 120, 111, "both axles out");
  EXPECT_TRUE(met);
  std::cout << "worst " << worst << " of the last digit stated\n";
}

// By hand: what the rear wheels hold while the front stands at 348 kg, of 612: 264 kg at friction 0.5.
TEST(Support, chocks_and_brake_as_the_steps_have_them) {
  Job job = load_cart();
  const auto view = [&] { return *step_of(assess(job), "front-up").support; };
  const double held = 0.5 * 9.80665 * (load_of(view(), "rear left wheel") + load_of(view(), "rear right wheel"));
  EXPECT_NEAR(held, 0.5 * 9.80665 * 264, 60.0);
  EXPECT_NEAR(view().roll.si(), held, 1e-6);
  EXPECT_TRUE(view().chocked);
  EXPECT_FALSE(view().brake_holds);
  EXPECT_EQ(worst(assess(job), "support-roll"), Outcome::met);
  // Without the chocks nothing holds; the rehearsal and the statics both say so.
  const auto instead = [&](const char* word) {
    for (KitUse& use : job.kits)
      for (KitStep& s : use.kit.step)
        for (std::vector<Text>* list : {&s.gives, &s.needs})
          for (Text& t : *list)
            if (t.value == "rear chocked") t.value = word;
  };
  instead("rear looked at");
  EXPECT_EQ(view().roll.si(), 0.0);
  EXPECT_EQ(worst(assess(job), "support-roll"), Outcome::stop);
  EXPECT_EQ(worst(assess(job), "work-nothing-holds"), Outcome::stop);
  // The drums of the rear axle hold it as well as chocks; a brake on the front axle goes up with it.
  job = load_cart();
  instead("parking brake on");
  EXPECT_TRUE(view().brake_holds);
  EXPECT_NEAR(view().roll.si(), held, 1e-6);
  EXPECT_TRUE(of_code(assess(job), "work-nothing-holds").empty());
  job.cart.rear->brake->value = "none";
  job.cart.front->brake->value = "wheels";
  EXPECT_EQ(view().roll.si(), 0.0);
  EXPECT_EQ(worst(assess(job), "work-brake-holds-nothing"), Outcome::stop);
}

// By hand: 78 kg of axle and two wheels of 18 kg on the jack; the stands are bare once it takes the whole of that end,
// 345 kg with wheels 10 kg heavier.
TEST(Support, a_jack_that_holds_an_axle_does_not_bare_the_stands) {
  Job job = load_cart();
  const auto found = of_code(assess(job), "support-jack-unloads");
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].outcome, Outcome::met);
  EXPECT_NEAR(found[0].value->si, 78 + 36, 0.6);
  EXPECT_NEAR(found[0].limit->si, (345 + 10) / 1.5, 1.0);
  // A heavy axle on a light cart.
  for (MassItem& m : job.cart.mass)
    if (m.name.value == "rear unsprung") m.mass.value = 700.0 * units::kg;
  EXPECT_EQ(worst(assess(job), "support-jack-unloads"), Outcome::stop);
}

// One wheel up: three points by moments, by hand.
TEST(Support, one_lifted_wheel_by_hand) {
  Job job = load_cart();
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step)
      for (Text& t : s.loads)
        if (t.value.starts_with("rear on stands")) t.value = "rear left on stands";
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step) std::erase_if(s.loads, [](const Text& t) { return t.value == "rear jacked"; });
  const SupportView v = *step_of(assess(job), "rear-up").support;
  // Across: stand at 280 mm, wheel at 480 mm, weight in the middle. Along: stand at 1500 mm, wheel at 1800 mm.
  const double stand = 612.0 * 1015.0 / (1500.0 + 1800.0 * 280.0 / 480.0), wheel = stand * 280.0 / 480.0;
  EXPECT_NEAR(load_of(v, "left stand"), stand, 0.5);
  EXPECT_NEAR(load_of(v, "rear right wheel"), wheel, 0.5);
  EXPECT_NEAR(load_of(v, "front left wheel"), 0.5 * (612.0 - stand - wheel), 0.5);
}

// Three corners up: the cart stands on three stands and a wheel. By hand: each end of the range bares one stand, and
// the other three points are statics'.
TEST(Support, three_corners_up_are_told_as_a_range) {
  Job job = load_cart();
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step) {
      std::erase_if(s.loads, [](const Text& t) { return t.value == "rear jacked" || t.value == "rear on wheels"; });
      for (Text& t : s.loads)
        if (t.value.starts_with("rear on stands")) t.value = "rear left on stands";
    }
  for (KitUse& use : job.kits)
    for (Part& p : use.kit.part) p.mass.reset();
  const Assessment a = assess(job);
  const SupportView& v = *step_of(a, "front-up").support;
  ASSERT_EQ(v.points.size(), 4u);
  EXPECT_EQ(v.up, "both");
  const auto range = [&](const std::string& what) {
    for (const Foothold& f : v.points)
      if (f.what == what && f.range) return std::pair(f.range->least.si, f.range->most.si);
    throw std::logic_error("no range of " + what);
  };
  // Stands at x 420 and 1500 mm, y 280 mm; the wheel at 1800, 480; 612 kg at 1015.
  // Front left bare: across, 560 C - 200 D = 280 · 612; along, 1080 C + 1380 D = 612 · 595.
  const double least_wheel = (612.0 * 595.0 - 1080.0 * 306.0) / (1380.0 + 1080.0 * 200.0 / 560.0);
  EXPECT_NEAR(range("rear right wheel").first, least_wheel, 0.3);
  EXPECT_NEAR(range("rear left stand").second, 306.0 + 200.0 / 560.0 * least_wheel, 0.3);
  EXPECT_NEAR(range("front left stand").first, 0.0, 1e-9);
  // Front right bare: across, 280 (612 - D) = 480 D.
  EXPECT_NEAR(range("rear right wheel").second, 280.0 * 612.0 / 760.0, 0.3);
  EXPECT_NEAR(range("front right stand").first, 0.0, 1e-9);
  double sum = 0.0;
  for (const Foothold& f : v.points) {
    sum += f.load.si;
    EXPECT_LE(f.range->least.si, f.load.si);
    EXPECT_GE(f.range->most.si, f.load.si);
  }
  EXPECT_NEAR(sum, 612.0, 1e-6);
  // Stands too weak for the most, though not for the even share.
  double most = 0.0, even = 0.0;
  for (const Foothold& f : v.points)
    if (f.what.ends_with("stand")) {
      most = std::max(most, f.range->most.si);
      even = std::max(even, f.load.si);
    }
  ASSERT_GT(most, 1.1 * even);
  job.shop->stand_rating->value = (1.5 * 0.5 * (most + even)) * units::kg;
  EXPECT_EQ(worst(assess(job), "support-stand-load"), Outcome::stop);
}

TEST(Support, loads_sum_to_the_cart_and_its_parts) {
  Job job = load_cart();
  const Assessment a = assess(job);
  int seen = 0;
  for (const StepLine& s : a.steps) {
    if (!s.support) continue;
    double sum = s.support->jack ? s.support->jack->si : 0.0;
    for (const Foothold& f : s.support->points) sum += f.load.si;
    EXPECT_GT(sum, 540.0) << s.id;
    EXPECT_LT(sum, 650.0) << s.id;
    if (s.id == "rear-up") { EXPECT_NEAR(sum, 612.0, 1e-6); }
    if (s.id == "rear-wheels-off" && s.side == "right") { EXPECT_NEAR(sum, 612.0 - 2 * 13.0, 1e-6); }
    ++seen;
  }
  EXPECT_GT(seen, 20);
}

TEST(Support, a_weak_stand_stops_it_and_a_taller_one_tips_sooner) {
  Job job = load_cart();
  EXPECT_EQ(worst(assess(job), "support-stand-load"), Outcome::met);
  const Force low = step_of(assess(job), "rear-up").support->tip;
  job.shop->stand_height->value = 800.0 * units::mm;
  EXPECT_LT(step_of(assess(job), "rear-up").support->tip, low);
  job.shop->stand_rating->value = 200.0 * units::kg;
  EXPECT_EQ(worst(assess(job), "support-stand-load"), Outcome::stop);
}

TEST(Isolation, follows_the_drive_and_wants_the_driven_wheels_up) {
  Job job = load_cart();
  EXPECT_EQ(step_of(assess(job), "isolate").points.size(), 8u);
  job.cart.drive->power->value = "lithium";
  EXPECT_EQ(step_of(assess(job), "isolate").points.back().code, "isolate-lithium");
  job.cart.drive->power->value = "petrol";
  EXPECT_EQ(step_of(assess(job), "isolate").points.front().code, "isolate-petrol-1");
  job.cart.drive->power.reset();
  EXPECT_EQ(of_code(assess(job), "isolation-power-unknown").size(), 2u);
  job.cart.keep_out.clear();
  EXPECT_EQ(of_code(assess(job), "cut-without-keep-out").size(), 1u);
  // By what the step does, with or without the word of caution.
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step) std::erase_if(s.cautions, [](const Text& t) { return t.value == "cutting"; });
  EXPECT_EQ(of_code(assess(job), "cut-without-keep-out").size(), 1u);
}

TorqueEntry torque(const std::string& fastener, double newton_metres, const std::string& who = "A. Reed",
                   const std::string& wrench = "W2") {
  TorqueEntry t;
  t.fastener.value = fastener;
  t.torque = Valued<Torque>{newton_metres * units::Nm, {}, Basis::measured, {}};
  t.who = Text{who, {}};
  t.wrench = Text{wrench, {}};
  t.when = Text{"2026-05-11T10:00", {}};
  return t;
}
Signed signature(const std::string& step, const std::string& who = "A. Reed") {
  Signed s;
  s.step.value = step;
  s.who.value = who;
  return s;
}
std::string state_of(const Assessment& a, const std::string& id, const std::string& instance) {
  for (const LooseItem& l : a.unfinished.loose)
    if (l.id == id && l.instance == instance) return l.state;
  return "not loose";
}

TEST(Record, a_group_with_an_exception_outside_the_window) {
  Job job = load_cart();
  for (const char* s : {"rear-up", "rear-wheels-off", "rear-wheels-on"}) job.events.push_back(signature(s));
  job.events.push_back(torque("F8 rear", 85));
  job.events.push_back(torque("F8 left rear 2", 70));
  Assessment a = assess(job);
  EXPECT_EQ(worst(a, "record-below-window"), Outcome::condition);
  job.events.push_back(torque("F8 left rear 2", 120));
  a = assess(job);
  EXPECT_EQ(worst(a, "record-above-window"), Outcome::condition);
  EXPECT_EQ(state_of(a, "F8", "left rear 2"), "disputed");
  EXPECT_EQ(state_of(a, "F8", "left rear 3"), "not loose");
  // Struck, the entry before it stands again.
  Undo undo;
  const std::size_t last = job.events.size();  // entries are counted from 1
  undo.entry.value = static_cast<int>(last);
  undo.who.value = "A. Reed";
  job.events.push_back(undo);
  a = assess(job);
  EXPECT_TRUE(of_code(a, "record-above-window").empty());
  EXPECT_NE(state_of(a, "F8", "left rear 2"), "disputed");
  const auto struck = [&](const RecordLine& line) { return line.number == static_cast<int>(last) && line.struck; };
  EXPECT_TRUE(std::any_of(a.record.begin(), a.record.end(), struck));
}

TEST(Record, wrenches_second_looks_and_missing_torques) {
  Job job = load_cart();
  job.events.push_back(torque("R6", 25, "A. Reed", "W2"));
  EXPECT_EQ(of_code(assess(job), "record-wrench-range").size(), 1u);
  job.events.clear();
  TorqueEntry late = torque("F8", 85);
  late.when = Text{"2026-10-01", {}};
  job.events = {late};
  EXPECT_EQ(of_code(assess(job), "record-wrench-overdue").size(), 1u);
  job.events = {torque("F3", 50, "A. Reed", "W1"), signature("second-look", "A. Reed")};
  EXPECT_FALSE(of_code(assess(job), "record-same-person").empty());
  job.events.back() = signature("second-look", "B. Holt");
  EXPECT_TRUE(of_code(assess(job), "record-same-person").empty());
  job.events = {signature("stops")};
  EXPECT_EQ(of_code(assess(job), "record-no-torque").size(), 1u);
}

TEST(Record, an_undo_strikes_readings_turns_and_decisions) {
  Job job = load_cart();
  const auto undo = [](std::size_t entry) {
    Undo u;
    u.entry.value = static_cast<int>(entry);
    u.who.value = "A. Reed";
    return u;
  };
  // The last reading struck, the job stands where it stood before it was taken.
  const std::size_t all = job.events.size();
  Job before = job;
  before.events.resize(all - 1);
  job.events.push_back(undo(all));
  EXPECT_EQ(assess(job).align->verdict, assess(before).align->verdict);
  EXPECT_EQ(assess(job).align->passes.size(), assess(before).align->passes.size());
  EXPECT_TRUE(of_code(assess(job), "record-undo-of-nothing").empty());
  // The undo undone, it counts again.
  job.events.push_back(undo(all + 1));
  EXPECT_EQ(assess(job).align->passes.size(), assess(load_cart()).align->passes.size());
  // A turn struck was not made: the state after it is another one.
  job = load_cart();
  const auto turn = std::find_if(job.events.begin(), job.events.end(),
                                 [](const Event& e) { return std::holds_alternative<Adjustment>(e); });
  job.events.push_back(undo(static_cast<std::size_t>(turn - job.events.begin()) + 1));
  EXPECT_NE(assess(job).align->state.total_toe.u, assess(load_cart()).align->state.total_toe.u);
  // A decision struck leaves the bolt disputed.
  job = load_cart();
  for (KitUse& use : job.kits)
    for (KitFastener& f : use.kit.fastener)
      if (f.id.value == "F3") f.torque->value = 90.0 * units::Nm;
  EXPECT_EQ(of_code(assess(job), "dispute-held").size(), 1u);
  Decision d;
  d.about.value = "F3";
  d.decided.value = "50 N·m by the kit's maker";
  d.who.value = "B. Holt";
  job.events.push_back(d);
  EXPECT_EQ(of_code(assess(job), "dispute-decided-torque").size(), 1u);
  job.events.push_back(undo(job.events.size()));
  EXPECT_EQ(of_code(assess(job), "dispute-held").size(), 1u);
}

TEST(Record, what_is_found_seized_damaged_or_substituted_carries_nothing) {
  Job job = load_cart();
  FoundSo f;
  f.fastener.value = "R3 left";
  f.state.value = "seized";
  f.who.value = "A. Reed";
  job.events = {f};
  EXPECT_EQ(state_of(assess(job), "R3", "left rear"), "seized");
  EXPECT_EQ(of_code(assess(job), "record-seized").size(), 1u);
  // Freed and made final.
  f.state.value = "out";
  job.events.push_back(f);
  job.events.push_back(torque("R3 left", 60));
  EXPECT_EQ(state_of(assess(job), "R3", "left rear"), "not loose");
  f.state.value = "substituted";
  f.by = Text{"M12x100 8.8", {}};
  job.events = {f};
  EXPECT_EQ(state_of(assess(job), "R3", "left rear"), "substituted");
  EXPECT_EQ(of_code(assess(job), "record-substituted").size(), 1u);
  job.events.push_back(torque("R3 left", 60));
  EXPECT_EQ(state_of(assess(job), "R3", "left rear"), "not loose");
}

TEST(Record, hold_points_re_torques_and_steps_signed_too_early) {
  Job job = load_cart();
  std::string hold, drive;
  for (const KitUse& use : job.kits)
    for (const KitStep& s : use.kit.step) {
      if (s.hold && s.hold->value && hold.empty()) hold = s.id.value;
      if (!s.loads.empty() && s.loads[0].value == "driven" && drive.empty()) drive = s.id.value;
    }
  ASSERT_FALSE(hold.empty());
  job.events = {signature(hold)};
  EXPECT_EQ(of_code(assess(job), "record-hold").size(), 1u);
  Signed both = signature(hold);
  both.second = Text{"B. Holt", {}};
  job.events = {both};
  EXPECT_TRUE(of_code(assess(job), "record-hold").empty());
  // The first drive, signed with nothing done before it.
  job.events = {signature(drive)};
  EXPECT_FALSE(of_code(assess(job), "record-too-early").empty());
  job.events = {signature("receive"), signature("heights")};
  EXPECT_TRUE(of_code(assess(job), "record-too-early").empty());
  // Torqued again: it clicked, it moved, it moved once more.
  TorqueEntry again = torque("F8 rear", 85);
  again.turned = Valued<Angle>{2.0 * units::degree, {}, Basis::measured, {}};
  job.events = {again};
  EXPECT_TRUE(of_code(assess(job), "record-moved").empty());
  again.turned->value = 20.0 * units::degree;
  job.events = {again, again};
  EXPECT_EQ(of_code(assess(job), "record-moved").size(), 1u);
  EXPECT_EQ(of_code(assess(job), "record-moved-twice").size(), 1u);
  // Below the window it is not final, though the step was signed first.
  job.events = {signature("rear-wheels-on"), torque("F8 left rear 1", 60)};
  job.events.insert(job.events.begin(), signature("rear-wheels-off"));
  EXPECT_EQ(state_of(assess(job), "F8", "left rear 1"), "part-tight");
}

TEST(OrderOfWork, plans_anew_what_is_left_and_two_are_not_slower) {
  Job job = load_cart();
  const Assessment a = assess(job);
  const OrderOfWork one = order_of_work(job, a, 1), two = order_of_work(job, a, 2);
  ASSERT_EQ(one.steps.size(), a.steps.size());
  EXPECT_LE(one.tool_changes, one.tool_changes_as_given);
  EXPECT_TRUE(one.proven);
  EXPECT_LT(two.total, one.total);
  EXPECT_LE(two.bound, two.total);
  job.events = {signature("receive"), signature("heights")};
  const OrderOfWork rest = order_of_work(job, assess(job), 1);
  EXPECT_EQ(rest.steps.size(), one.steps.size() - 2);
  EXPECT_TRUE(rest.out_of_turn.empty());
  job.events = {signature("blocks")};
  EXPECT_FALSE(order_of_work(job, assess(job), 1).out_of_turn.empty());
  const auto price = quote(job, a);
  ASSERT_TRUE(price && price->total);
  EXPECT_NEAR(*price->labour, 54.0 * price->work.in(units::hour), 1e-9);
  EXPECT_NEAR(*price->total - *price->labour, 1.15 * (690 + 4 * 84), 1e-9);
}

}  // namespace
}  // namespace trammel::test
