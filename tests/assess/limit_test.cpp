// Each limit fires where its input is made bad, and only there: the shuttle as shipped does not stop at any.
#include <gtest/gtest.h>

#include <functional>

#include "assess/shuttle.h"

namespace trammel::test {
namespace {

struct Spoilt {
  const char* code;
  Outcome expected;
  std::function<void(Job&)> spoil;
};

template <class Q>
Valued<Q> assumed_value(Q q) {
  return {q, std::nullopt, Basis::assumed, {}};
}

KitFastener& fastener(Job& job, const std::string& id) {
  for (KitUse& use : job.kits)
    for (KitFastener& f : use.kit.fastener)
      if (f.id.value == id) return f;
  throw std::logic_error("no fastener " + id);
}

const std::vector<Spoilt>& spoilt() {
  using namespace units;
  static const std::vector<Spoilt> all = {
      {"doorway", Outcome::stop, [](Job& j) { j.site->door_height = assumed_value(1850.0 * mm); }},
      {"site-speed", Outcome::condition, [](Job& j) { j.site->speed_limit = assumed_value(15.0 * km_per_h); }},
      {"speed-class", Outcome::condition, [](Job& j) { j.cart.drive->top_speed = assumed_value(23.0 * km_per_h); }},
      {"gross-mass", Outcome::stop, [](Job& j) { j.cart.ratings->gross = assumed_value(700.0 * kg); }},
      {"payload", Outcome::stop, [](Job& j) { j.cart.ratings->payload = assumed_value(300.0 * kg); }},
      {"axle-load", Outcome::stop, [](Job& j) { j.cart.rear->rating = assumed_value(400.0 * kg); }},
      {"tyre-load", Outcome::stop,
       [](Job& j) {
         for (KitUse& use : j.kits)
           for (Change& c : use.kit.change)
             if (c.path == "rear.tyre.load_index") c.value = Count{48, {}};
       }},
      {"tyre-speed", Outcome::stop,
       [](Job& j) {
         j.cart.rear->tyre->speed_symbol = Text{"A3", {}};
       }},
      {"side-slope", Outcome::stop, [](Job& j) { j.site->slope = assumed_value(0.45); }},
      {"tip-back", Outcome::stop,
       [](Job& j) {
         j.site->slope = assumed_value(0.5);
         j.load_case.back().cargo = assumed_value(400.0 * kg);
       }},
      {"steer-light", Outcome::condition,
       [](Job& j) {
         j.load_case.back().cargo = assumed_value(150.0 * kg);
         j.cart.seat.back().at.value.x = -2900.0 * mm;
       }},
      {"bend-speed", Outcome::condition, [](Job& j) { j.site->bend_radius = assumed_value(3.0 * metre); }},
      {"tyre-gap", Outcome::stop,
       [](Job& j) {
         j.cart.body_point[0].at.value = {-255.0 * mm, 440.0 * mm, 230.0 * mm};
       }},
      {"bump-steer", Outcome::stop, [](Job& j) { j = cheaper_shuttle(); }},
      {"axle-sideways", Outcome::condition,
       [](Job& j) {
         for (Change& c : j.kits[0].kit.change)
           if (c.path == "rear.axle_centre") std::get<PointValue>(c.value).value.y = 9.0 * mm;
       }},
      {"travel-out-of-reach", Outcome::stop, [](Job& j) { j.cart.front->droop = assumed_value(300.0 * mm); }},
      {"preload", Outcome::stop, [](Job& j) { fastener(j, "F9").torque = assumed_value(90.0 * Nm); }},
      {"looks-like-factor-12", Outcome::stop,
       [](Job& j) { fastener(j, "F2").torque = assumed_value(75.0 * 12.0 * Nm); }},
      {"looks-like-factor-1-356", Outcome::stop,
       [](Job& j) { fastener(j, "F9").torque = assumed_value(61.0 * lbf_ft); }},
      {"torque-missing", Outcome::condition, [](Job& j) { fastener(j, "F9").torque.reset(); }},
      {"wrench-fits-no-head", Outcome::stop, [](Job& j) { fastener(j, "F9").across_flats = assumed_value(21.0 * mm); }},
      {"kits-conflict", Outcome::stop,
       [](Job& j) {
         j.kits[0].kit.conflicts.push_back(Text{"Cover kit", {}});
       }},
      {"point-bushes-coincide", Outcome::stop,
       [](Job& j) { j.cart.front->left->upper_arm->rear_bush = j.cart.front->left->upper_arm->front_bush; }},
  };
  return all;
}

TEST(AssessLimits, the_shuttle_as_shipped_stops_nowhere) {
  const Assessment a = assess(shuttle());
  EXPECT_EQ(a.verdict, Verdict::go_with_conditions);
  for (const Spoilt& s : spoilt()) EXPECT_NE(worst(a, s.code), Outcome::stop) << s.code;
}

TEST(AssessLimits, each_fires_where_its_input_is_bad) {
  for (const Spoilt& s : spoilt()) {
    Job job = shuttle();
    s.spoil(job);
    const Assessment a = assess(job);
    EXPECT_EQ(worst(a, s.code), s.expected) << s.code << "\n" << text_of(a);
    if (s.expected == Outcome::stop) { EXPECT_EQ(a.verdict, Verdict::no_go) << s.code; }
  }
}

TEST(AssessLimits, margin_within_its_own_uncertainty_is_a_condition) {
  Job job = shuttle();
  job.site->door_height = Valued<Length>{1864.0 * units::mm, 3.0 * units::mm, Basis::measured, {}};
  const auto rows = of_code(assess(job), "doorway");
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_GT(rows[0].margin->si, 0.0);
  EXPECT_LT(rows[0].margin->si, 2.0 * *rows[0].margin->u);
  EXPECT_EQ(rows[0].outcome, Outcome::condition);
}

}  // namespace
}  // namespace trammel::test
