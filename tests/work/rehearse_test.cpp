// The rehearsal against walkers that try every order by hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <iostream>
#include <random>
#include <set>

#include "work/builder.h"
#include "work/conflict.h"
#include "work/hauler.h"
#include "work/judge.h"
#include "work/rehearse.h"

namespace trammel::work {
namespace {

// A small job with one step that may come at any time.
Procedure with_a_free_step(const Texts& needs) {
  Procedure p;
  p.name = "lamp";
  p.fasteners = {fastener("L", "lamp screw, {left,right}", {}, Duty::body), fastener("A", "arm bolt")};
  write_steps(p, {{.id = "chock", .sets = {"chocked"}},
                  {.id = "loosen", .slacken = {"A slack"}},
                  {.id = "tighten", .tighten = {"A final"}},
                  {.id = "lamp", .needs = needs, .tighten = {"L final"}, .any_time = true},
                  {.id = "drive", .loads = {"driven"}},
                  {.id = "release", .loads = {"released"}}});
  return p;
}

// Every place of the free step, by moving it in the list: what the independent judge says of each.
std::size_t wrong_places(const Procedure& p) {
  const auto at = std::find_if(p.steps.begin(), p.steps.end(), [](const Step& s) { return s.any_time; });
  std::size_t wrong = 0;
  for (std::size_t to = 0; to < p.steps.size(); ++to) {
    Procedure q = p;
    const Step s = *at;
    q.steps.erase(q.steps.begin() + (at - p.steps.begin()));
    q.steps.insert(q.steps.begin() + static_cast<std::ptrdiff_t>(to), s);
    const auto said = judge(q);
    wrong += said && !said->starts_with("need ");  // where its needs are not met it may not stand
  }
  return wrong;
}

TEST(Rehearse, AFreeStepThatConflictsIsAFinding) {
  // The lamp may come after the drive, where its screw is not final.
  const Procedure p = with_a_free_step({});
  EXPECT_GT(wrong_places(p), 0u);
  const Rehearsal r = rehearse(p);
  EXPECT_TRUE(r.walk.faults.empty()) << list(r.walk);
  ASSERT_FALSE(r.found.empty());
  EXPECT_EQ(r.found[0].fault.kind, FaultKind::not_ordered);
  EXPECT_EQ(r.found[0].fault.subject, "lamp");
}

TEST(Rehearse, ANeedThatOrdersItIsClean) {
  Procedure p = with_a_free_step({});
  Need n;
  n.kind = Need::Kind::step_done;
  n.subject.id = "lamp";
  step(p, "drive").needs.push_back(n);
  EXPECT_EQ(wrong_places(p), 0u);
  const Rehearsal r = rehearse(p);
  EXPECT_TRUE(r.found.empty()) << word(r.found[0].fault.kind) << " " << r.found[0].fault.subject;
  EXPECT_EQ(r.free, 1u);
  EXPECT_EQ(r.coupled, 0u);  // its needs order it against all that it shares anything with
}

TEST(Rehearse, AgreesWithEveryPlaceOfEveryFreeStepOfTheHauler) {
  // Law: a step made free is told exactly where some place of it that its needs allow is wrong.
  int told = 0, free = 0;
  const std::size_t n = hauler().steps.size();
  for (std::size_t i = 0; i < n; ++i) {
    Procedure p = hauler();
    if (p.steps[i].sides == Sides::each) continue;
    p.steps[i].any_time = true;
    ++free;
    const Rehearsal r = rehearse(p);
    EXPECT_TRUE(r.complete);
    bool wrong = false;
    for (std::size_t to = 0; to < n && !wrong; ++to) {
      Procedure q = hauler();
      const Step s = q.steps[i];
      q.steps.erase(q.steps.begin() + static_cast<std::ptrdiff_t>(i));
      q.steps.insert(q.steps.begin() + static_cast<std::ptrdiff_t>(to), s);
      // Others wait for a free step that they need, so such a place is not allowed.
      if (!broken_precedences(q).empty()) continue;
      const Walk w = walk(q);
      const bool allowed = std::none_of(w.faults.begin(), w.faults.end(), [&](const Fault& f) {
        return f.kind == FaultKind::need_not_met && f.step == s.id;
      });
      if (allowed && judge(q)) wrong = true;
    }
    EXPECT_EQ(!r.found.empty(), wrong) << p.steps[i].id;
    told += !r.found.empty();
  }
  std::cout << "free steps tried: " << free << ", told: " << told << "\n";
  EXPECT_GT(told, 10);
}

TEST(Rehearse, Law2AllowedOrdersHaveTheSameFaults) {
  // Random orders that keep the pairs, of haulers with a mistake: the judge speaks in all or in none.
  std::mt19937 random(11);
  int orders = 0, faulty = 0;
  for (int n = 0; n < 30; ++n) {
    Procedure p = hauler();
    p.steps.erase(p.steps.begin() + static_cast<std::ptrdiff_t>(random() % p.steps.size()));
    const Roster r = make_roster(p);
    const bool wrong = !walk(p).faults.empty();
    faulty += wrong;
    const std::vector<Precedence> pairs = kept_order(r);
    for (int k = 0; k < 5; ++k) {
      std::vector<std::size_t> order, left(r.order.size());
      for (std::size_t i = 0; i < left.size(); ++i) left[i] = i;
      while (!left.empty()) {
        std::vector<std::size_t> ready;
        for (std::size_t i : left)
          if (std::none_of(pairs.begin(), pairs.end(), [&](const Precedence& e) {
                return e.then == i && std::find(left.begin(), left.end(), e.first) != left.end();
              }))
            ready.push_back(i);
        const std::size_t next = ready[random() % ready.size()];
        order.push_back(next);
        std::erase(left, next);
      }
      ++orders;
      EXPECT_EQ(!walk(reordered(r, order)).faults.empty(), wrong);
    }
  }
  std::cout << "orders tried: " << orders << ", haulers with a fault: " << faulty << " of 30\n";
}

TEST(Rehearse, LikeFaultsStandInOneLineWithTheirTrace) {
  Procedure p = hauler();
  step(p, "rear-wheels-on").tighten.clear();
  const Rehearsal r = rehearse(p);
  const auto at = std::find_if(r.found.begin(), r.found.end(),
                               [](const Uncovered& u) { return u.fault.kind == FaultKind::wheel_on_ground_loose; });
  ASSERT_NE(at, r.found.end());
  EXPECT_EQ(at->subjects.size(), 8u);
  ASSERT_GE(at->trace.size(), 2u);
  EXPECT_EQ(at->trace.back(), "lower-rear");
  EXPECT_EQ(at->trace[at->trace.size() - 2], "rear-wheels-off left");
  EXPECT_GT(at->least_steps, 5u);
}

TEST(Rehearse, OptionalAndRepeatedStepsAreTried) {
  Procedure p = with_a_free_step({});
  step(p, "lamp").any_time = false;
  EXPECT_TRUE(rehearse(p).found.empty());
  step(p, "tighten").optional = true;
  const Rehearsal left_out = rehearse(p);
  ASSERT_FALSE(left_out.found.empty());
  EXPECT_EQ(left_out.found[0].branch, Branch::left_out);
  EXPECT_EQ(left_out.found[0].branch_step, "tighten");
  step(p, "tighten").optional = false;
  step(p, "loosen").deeds = {{Verb::drill, "hole", ""}};
  // Chocks are no look at what lies behind.
  step(p, "loosen").needs = {Need{Need::Kind::condition, {"chocked"}}};
  EXPECT_EQ(rehearse(p).found.at(0).fault.kind, FaultKind::cut_before_look);
  p.given.push_back("hole looked at");
  step(p, "loosen").needs = {Need{Need::Kind::condition, {"hole looked at"}}};
  EXPECT_TRUE(rehearse(p).found.empty());
  step(p, "loosen").repeat_until = "it turns";
  const Rehearsal again = rehearse(p);
  ASSERT_FALSE(again.found.empty());
  EXPECT_EQ(again.found[0].fault.kind, FaultKind::done_twice);
  EXPECT_EQ(again.found[0].branch, Branch::repeated);
}

}  // namespace
}  // namespace trammel::work
