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
}

TorqueEntry torque(const std::string& fastener, double newton_metres, const std::string& who = "A. Reed",
                   const std::string& wrench = "W2") {
  TorqueEntry t;
  t.fastener.value = fastener;
  t.torque = {newton_metres * units::Nm, {}, Basis::measured, {}};
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
  for (const LooseItem& l : a.loose_now)
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
