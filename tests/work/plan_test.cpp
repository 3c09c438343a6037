// Laws of the order of work and of the plan, against brute force, against Gecode and against the walk itself.
#include "work/plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <iostream>
#include <numeric>
#include <random>
#include <set>

#include <rapidcheck/gtest.h>

#include "work/conflict.h"
#include "work/hauler.h"
#include "work/plan_witness.h"
#include "work/random_procedure.h"
#include "work/random_tasks.h"
#include "work/walk.h"

namespace trammel::work {
namespace {

// Every order that keeps the pairs.
void each_order(const PlanAsked& asked, const std::function<void(const std::vector<std::size_t>&)>& take) {
  const std::size_t n = asked.tasks.size();
  std::vector<std::size_t> order;
  std::vector<char> used(n, 0);
  const std::function<void()> grow = [&] {
    if (order.size() == n) return take(order);
    for (std::size_t t = 0; t < n; ++t) {
      if (used[t]) continue;
      bool free = true;
      for (const Precedence& e : asked.before) free = free && (e.then != t || used[e.first]);
      if (!free) continue;
      used[t] = 1;
      order.push_back(t);
      grow();
      order.pop_back();
      used[t] = 0;
    }
  };
  grow();
}

bool at_once(const PlannedTask& a, const PlannedTask& b) { return a.start < b.end && b.start < a.end; }

// All that a plan must keep, looked at from outside.
void expect_kept(const PlanAsked& asked, const Plan& p) {
  ASSERT_EQ(p.tasks.size(), asked.tasks.size());
  std::vector<PlannedTask> by(p.tasks.size());
  std::set<std::size_t> seen;
  for (const PlannedTask& t : p.tasks) {
    by[t.task] = t;
    seen.insert(t.task);
    EXPECT_NEAR((t.end - t.start).si(), asked.tasks[t.task].time.si(), 0.5);
    EXPECT_LE(t.end.si(), p.total.si());
    EXPECT_GE(t.can_wait.si(), 0.0);
  }
  ASSERT_EQ(seen.size(), asked.tasks.size());
  for (const Precedence& e : asked.before) EXPECT_LE(by[e.first].end.si(), by[e.then].start.si());
  for (std::size_t a = 0; a < by.size(); ++a)
    for (std::size_t b = a + 1; b < by.size(); ++b) {
      if (!at_once(by[a], by[b])) continue;
      EXPECT_NE(by[a].technician, by[b].technician);
      for (const PlannedTask* t : {&by[a], &by[b]}) {
        EXPECT_FALSE(asked.tasks[t->task].alone);
        EXPECT_EQ(asked.tasks[t->task].people, 1);
      }
      for (int tool : asked.tasks[a].tools)
        EXPECT_EQ(std::count(asked.tasks[b].tools.begin(), asked.tasks[b].tools.end(), tool), 0);
    }
  EXPECT_LE(p.total_bound.si(), p.total.si());
  EXPECT_LE(p.changes_bound, p.changes);
}

TEST(PlanForOne, FewestChangesAsBruteForceFindsThem) {
  std::mt19937 draw(20261125);
  int orders = 0;
  for (int k = 0; k < 60; ++k) {
    const PlanAsked asked = random_tasks(draw, 7, 0.25, 1, false);
    const Plan p = plan(asked);
    expect_kept(asked, p);
    Changes least{1000, 1000};
    each_order(asked, [&](const std::vector<std::size_t>& order) {
      least = std::min(least, changes_along(asked.tasks, order));
      ++orders;
    });
    EXPECT_EQ(p.changes, least);
    EXPECT_TRUE(p.proven);
    std::vector<std::size_t> own;
    for (const PlannedTask& t : p.tasks) own.push_back(t.task);
    EXPECT_EQ(changes_along(asked.tasks, own), p.changes);
  }
  std::cout << "60 cases of 7 tasks, " << orders << " orders walked, worst difference 0\n";
}

TEST(PlanForOne, FewestChangesAsGecodeFindsThem) {
  std::mt19937 draw(4711);
  int proven = 0;
  for (int k = 0; k < 12; ++k) {
    const PlanAsked asked = random_tasks(draw, 11, 0.3, 1);
    const Plan p = plan(asked);
    expect_kept(asked, p);
    const auto least = least_weighted_changes(asked, 1000, 2.0);
    if (!least) continue;
    ++proven;
    EXPECT_EQ(1000LL * p.changes.ends + p.changes.tools, *least);
  }
  EXPECT_GE(proven, 8);
  std::cout << "Gecode proved " << proven << " of 12 cases of 11 tasks, worst difference 0\n";
}

TEST(PlanForTwo, LeastTimeAsGecodeFindsIt) {
  std::mt19937 draw(815);
  int proven = 0;
  for (int k = 0; k < 40; ++k) {
    const std::size_t n = 8 + static_cast<std::size_t>(k) % 4 * 4;
    const PlanAsked asked = random_tasks(draw, n, 0.25, 2);
    const Plan p = plan(asked);
    expect_kept(asked, p);
    const auto least = least_seconds_for_two(asked, 0.5);
    if (!least) continue;
    ++proven;
    EXPECT_LE(p.total_bound.si(), static_cast<double>(*least));
    if (p.proven)
      EXPECT_EQ(p.total.si(), static_cast<double>(*least)) << n << " tasks";
    else
      EXPECT_GE(p.total.si(), static_cast<double>(*least));
  }
  EXPECT_GE(proven, 25);
  std::cout << "Gecode proved " << proven << " of 40 cases of 8 to 20 tasks\n";
}

// With next to no room the plan is no longer the best, and says so.
TEST(PlanBound, HoldsWhereStatesAreThrownAway) {
  std::mt19937 draw(99);
  int gaps = 0;
  for (int k = 0; k < 30; ++k)
    for (int technicians : {1, 2}) {
      PlanAsked asked = random_tasks(draw, 14, 0.12, technicians);
      const Plan whole = plan(asked);
      ASSERT_TRUE(whole.proven);
      asked.most_states = 3;
      const Plan narrow = plan(asked);
      expect_kept(asked, narrow);
      gaps += !narrow.proven;
      EXPECT_LE(narrow.total_bound.si(), whole.total.si());
      EXPECT_LE(narrow.changes_bound, technicians == 1 ? whole.changes : narrow.changes);
      EXPECT_GE(narrow.total.si(), whole.total.si());
      if (technicians == 1) { EXPECT_GE(narrow.changes, whole.changes); }
    }
  EXPECT_GT(gaps, 0);
  std::cout << gaps << " of 60 narrow plans with a gap left\n";
}

// --- the order that steps must keep

std::multiset<std::string> faults_of(const Walk& w) {
  std::multiset<std::string> all;
  for (const Fault& f : w.faults)
    all.insert(std::string(word(f.kind)) + " " + f.step + " " + std::to_string(static_cast<int>(f.side)) + " " +
               f.subject + " " + std::to_string(f.load ? static_cast<int>(*f.load) : -1) + " " +
               std::to_string(static_cast<int>(f.state)));
  return all;
}

// One random order that keeps the pairs.
template <class Draw>
std::vector<std::size_t> random_order(const std::vector<Precedence>& before, std::size_t n, const Draw& draw) {
  std::vector<std::size_t> order;
  std::vector<char> used(n, 0);
  while (order.size() < n) {
    std::vector<std::size_t> ready;
    for (std::size_t t = 0; t < n; ++t) {
      bool free = !used[t];
      for (const Precedence& e : before) free = free && (e.then != t || used[e.first]);
      if (free) ready.push_back(t);
    }
    order.push_back(ready[draw(ready.size())]);
    used[order.back()] = 1;
  }
  return order;
}

RC_GTEST_PROP(OrderLaws, Law1AnAllowedOrderHasTheSameFaults, ()) {
  const Roster given = make_roster(random_procedure());
  const auto before = kept_order(given);
  const auto order =
      random_order(before, given.order.size(), [](std::size_t k) { return *rc::gen::inRange<std::size_t>(0, k); });
  RC_CLASSIFY(!std::is_sorted(order.begin(), order.end()));
  const Walk as_given = walk(given), other = walk(reordered(given, order));
  RC_ASSERT(faults_of(as_given) == faults_of(other));
  RC_ASSERT(as_given.end() == other.end());
}

TEST(OrderLaws, TheHaulerPlannedWalksWithoutAFault) {
  const Roster given = make_roster(hauler());
  ASSERT_TRUE(walk(given).faults.empty());
  std::vector<std::string> tools;
  for (int technicians : {1, 2}) {
    PlanAsked asked;
    asked.technicians = technicians;
    asked.before = kept_order(given);
    for (const ExpandedStep& x : given.order) {
      const Step& s = given.procedure.steps[x.step];
      PlanTask t{s.time.value_or(Time{}), s.people, false, {}, 0};
      for (const std::string& tool : s.tools) {
        auto at = std::find(tools.begin(), tools.end(), tool);
        if (at == tools.end()) at = tools.insert(at, tool);
        t.tools.push_back(static_cast<int>(at - tools.begin()));
      }
      asked.tasks.push_back(t);
    }
    const Plan p = plan(asked);
    expect_kept(asked, p);
    EXPECT_TRUE(p.proven);
    std::vector<std::size_t> order, as_given(asked.tasks.size());
    std::iota(as_given.begin(), as_given.end(), std::size_t{0});
    for (const PlannedTask& t : p.tasks) order.push_back(t.task);
    const Walk w = walk(reordered(given, order));
    EXPECT_TRUE(w.faults.empty());
    EXPECT_TRUE(w.release.granted());
    if (technicians == 1) { EXPECT_LE(p.changes, changes_along(asked.tasks, as_given)); }
  }
}

TEST(OrderLaws, DirectPairsImplyTheRest) {
  const Roster r = make_roster(hauler());
  const auto all = kept_order(r), direct = direct_only(all, r.order.size());
  EXPECT_LT(direct.size(), all.size());
  std::set<std::pair<std::size_t, std::size_t>> reach;
  for (std::size_t j = 0; j < r.order.size(); ++j)
    for (const Precedence& e : direct)
      if (e.then == j) {
        for (std::size_t i = 0; i < r.order.size(); ++i)
          if (reach.contains({i, e.first})) reach.insert({i, j});
        reach.insert({e.first, j});
      }
  EXPECT_EQ(reach.size(), all.size());
}

// Law 1 for lags: what waits for locker begins when it has cured, and all that begins later is put off with it.
TEST(Plan, ALagIsWaitedFor) {
  for (const int technicians : {1, 2}) {
    PlanAsked asked;
    asked.technicians = technicians;
    for (const double minutes : {10.0, 5.0, 20.0, 5.0}) {
      PlanTask t;
      t.time = minutes * units::minute;
      asked.tasks.push_back(t);
    }
    for (std::size_t b = 1; b < 4; ++b)
      for (std::size_t a = 0; a < b; ++a) asked.before.push_back({a, b});
    const Time plain = plan(asked).total;
    asked.lags = {{0, 2, 60.0 * units::minute}};
    const Plan p = plan(asked);
    EXPECT_NEAR((p.total - plain).in(units::minute), 55.0, 1e-9);  // 5 of the 60 are worked
    std::vector<PlannedTask> by(4);
    for (const PlannedTask& t : p.tasks) by[t.task] = t;
    EXPECT_GE((by[2].start - by[0].end).in(units::minute), 60.0 - 1e-9);
    EXPECT_NEAR(by[2].waited.in(units::minute), 55.0, 1e-9);
    EXPECT_NEAR((by[3].start - by[2].end).in(units::minute), 0.0, 1e-9);
    EXPECT_LE(p.total_bound, p.total);
    asked.lags = {{0, 2, 5.0 * units::minute}};
    EXPECT_EQ(plan(asked).total, plain);
  }
}

}  // namespace
}  // namespace trammel::work
