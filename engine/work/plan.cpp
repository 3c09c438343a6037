#include "work/plan.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "work/plan_problem.h"

namespace trammel::work {
namespace {

// Stretches that no order mixes: a new one begins wherever all tasks so far come before all tasks to come.
std::vector<std::vector<std::size_t>> stretches(const Problem& p) {
  const std::size_t n = p.size();
  std::vector<std::size_t> forerunners(n);
  std::vector<std::vector<std::size_t>> out;
  std::size_t open = 0;  // where the present stretch begins
  for (std::size_t end = 1; end <= n; ++end) {
    // Every task from `end` on waits for every one before it.
    bool cut = true;
    for (std::size_t t = end; t < n && cut; ++t) {
      for (std::size_t i = open; i < end && cut; ++i) cut = p.before[t][i];
    }
    if (!cut) continue;
    out.emplace_back();
    for (std::size_t i = open; i < end; ++i) out.back().push_back(i);
    open = end;
  }
  return out;
}

Problem problem(const PlanAsked& asked) {
  const std::size_t n = asked.tasks.size();
  Problem p{asked, {}, std::vector<Set>(n), std::vector<Set>(n), {}, {}};
  for (std::size_t i = 0; i < n; ++i) {
    const PlanTask& t = asked.tasks[i];
    p.time.push_back(std::llround(t.time.si()));
    p.everybody.push_back(asked.technicians > 1 && (t.alone || t.people > 1));
    for (int tool : t.tools) {
      assert(tool >= 0 && static_cast<std::size_t>(tool) < most_tasks);
      p.tools[i].set(static_cast<std::size_t>(tool));
    }
  }
  for (const Precedence& e : asked.before) {
    assert(e.first < e.then && e.then < n);
    p.before[e.then].set(e.first);
  }
  return p;
}

Changes changes_of(long long cost) {
  return {static_cast<int>(cost / end_weight), static_cast<int>(cost % end_weight)};
}

Time seconds(Seconds s) { return Time::from_si(static_cast<double>(s)); }

// Puts off what would begin before a lag has run out, and all that begins later; how long is waited in all.
Time keep_lags(const PlanAsked& asked, std::vector<PlannedTask>& by_start) {
  Time waited;
  std::vector<Time> end(asked.tasks.size());
  for (PlannedTask& t : by_start) {
    t.start += waited;
    Time ready = t.start;
    for (const Lag& lag : asked.lags)
      if (lag.then == t.task) ready = std::max(ready, end[lag.first] + lag.time);
    t.waited = ready - t.start;
    waited += t.waited;
    t.start = ready;
    t.end += waited;
    end[t.task] = t.end;
  }
  return waited;
}

}  // namespace

Changes changes_along(const std::vector<PlanTask>& tasks, const std::vector<std::size_t>& order) {
  PlanAsked asked;
  asked.tasks = tasks;
  const Problem p = problem(asked);
  Changes c;
  int place = 0;
  std::size_t last = none;
  for (std::size_t t : order) {
    c.tools += pickups(p, last, t);
    c.ends += end_change(place, tasks[t].place);
    place = place_after(p, place, t);
    last = t;
  }
  return c;
}

Plan plan(const PlanAsked& asked) {
  assert(asked.tasks.size() <= most_tasks);
  Problem p = problem(asked);
  const std::size_t n = p.size();
  const auto parts = stretches(p);

  // Longest chains, each within its stretch.
  p.tail = p.time;
  for (const auto& stretch : parts)
    for (auto i = stretch.rbegin(); i != stretch.rend(); ++i)
      for (std::size_t t : stretch)
        if (p.before[t][*i]) p.tail[*i] = std::max(p.tail[*i], p.time[*i] + p.tail[t]);

  Plan out;
  Seconds clock = 0, clock_bound = 0;
  if (asked.technicians < 2) {
    const Solved1 s = fewest_changes(p, parts);
    for (std::size_t t : s.order) {
      out.tasks.push_back({t, 0, false, seconds(clock), seconds(clock + p.time[t]), {}, {}});
      clock += p.time[t];
    }
    clock_bound = clock;
    out.changes = changes_of(s.cost);
    out.changes_bound = changes_of(s.bound);
    out.proven = s.cost == s.bound;
  } else {
    std::array<std::size_t, 2> last{none, none};
    for (const auto& stretch : parts) {
      const Solved2 s = least_time(p, stretch, last);
      for (const auto& b : s.starts)
        out.tasks.push_back({b.task,
                             b.technician,
                             p.everybody[b.task] != 0,
                             seconds(clock + b.start),
                             seconds(clock + b.start + p.time[b.task]),
                             {},
                             {}});
      clock += s.time;
      clock_bound += s.bound;
      out.changes.tools += s.changes;
      last = s.last;
    }
    out.proven = clock == clock_bound;
  }
  const Time waited = keep_lags(asked, out.tasks);
  out.total = seconds(clock) + waited;
  out.total_bound = seconds(clock_bound);
  if (asked.technicians > 1 && waited > Time{}) out.proven = false;

  // How long each may slip before what waits for it is late.
  std::vector<Time> start(n);
  for (const PlannedTask& t : out.tasks) start[t.task] = t.start;
  for (PlannedTask& t : out.tasks) {
    Time due = out.total;
    for (std::size_t k = 0; k < n; ++k)
      if (p.before[k][t.task]) due = std::min(due, start[k]);
    t.can_wait = due - t.end;
  }
  return out;
}

}  // namespace trammel::work
