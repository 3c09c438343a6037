#include "work/plan.h"

#include <algorithm>
#include <array>
#include <bitset>
#include <cassert>
#include <cmath>
#include <limits>
#include <numeric>
#include <unordered_map>

namespace trammel::work {
namespace {

constexpr std::size_t most_tasks = 512;
using Set = std::bitset<most_tasks>;
using Seconds = long long;             // exact sums
constexpr int end_weight = 1'000'000;  // one change of end outweighs any number of tools
constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

struct Problem {
  const PlanAsked& asked;
  std::vector<Seconds> time;
  std::vector<Set> before, tools;
  std::vector<unsigned char> everybody;
  std::vector<Seconds> tail;  // longest chain from the start of the task to the end of its stretch

  std::size_t size() const { return asked.tasks.size(); }
};

int pickups(const Problem& p, std::size_t last, std::size_t next) {
  const Set held = last == none ? Set() : p.tools[last];
  return static_cast<int>((p.tools[next] & ~held).count());
}
// Tasks that belong to no end leave the technician where he is: the place is carried along.
int place_after(const Problem& p, int place, std::size_t task) {
  return p.asked.tasks[task].place != 0 ? p.asked.tasks[task].place : place;
}
int end_change(int place, int next) { return next != 0 && place != 0 && next != place ? 1 : 0; }

// --- one technician: the order of fewest changes

struct Step1 {
  Set done;
  std::size_t last = none;
  int place = 0;
  long long cost = 0, promise = 0;
  std::size_t parent = none;  // in the layer before
};

struct Solved1 {
  std::vector<std::size_t> order;
  long long cost = 0, bound = 0;
};

// Least pickups in each stretch and all after it, whatever is in hand as it begins.
std::vector<long long> least_pickups_from(const Problem& p, const std::vector<std::vector<std::size_t>>& stretches) {
  std::vector<long long> least(stretches.size() + 1, 0);
  for (std::size_t k = stretches.size(); k-- > 0;) {
    Set wanted;
    for (std::size_t t : stretches[k]) wanted |= p.tools[t];
    std::size_t in_hand = 0;
    if (k > 0)
      for (std::size_t t : stretches[k - 1]) in_hand = std::max(in_hand, (p.tools[t] & wanted).count());
    least[k] = least[k + 1] + static_cast<long long>(wanted.count() - in_hand);
  }
  return least;
}

Solved1 fewest_changes(const Problem& p, const std::vector<std::vector<std::size_t>>& stretches) {
  std::vector<std::vector<Step1>> layers(1);
  layers[0].emplace_back();
  long long thrown = std::numeric_limits<long long>::max();
  const std::vector<long long> least_from = least_pickups_from(p, stretches);

  for (std::size_t k = 0; k < stretches.size(); ++k)
    for (std::size_t depth = 0; depth < stretches[k].size(); ++depth) {
      const std::vector<Step1>& layer = layers.back();
      std::vector<Step1> next;
      std::unordered_map<Set, std::vector<std::size_t>> seen;
      for (std::size_t parent = 0; parent < layer.size(); ++parent) {
        const Step1& s = layer[parent];
        for (std::size_t t : stretches[k]) {
          if (s.done[t] || (p.before[t] & ~s.done).any()) continue;
          Step1 n{s.done, t, place_after(p, s.place, t), 0, 0, parent};
          n.done.set(t);
          n.cost = s.cost + pickups(p, s.last, t) +
                   end_weight * static_cast<long long>(end_change(s.place, p.asked.tasks[t].place));
          // Of those with the same tasks done, tools in hand and place, the cheapest is enough.
          auto& alike = seen[n.done];
          const auto same = std::find_if(alike.begin(), alike.end(), [&](std::size_t i) {
            return next[i].place == n.place && p.tools[next[i].last] == p.tools[n.last];
          });
          if (same == alike.end()) {
            alike.push_back(next.size());
            next.push_back(n);
          } else if (n.cost < next[*same].cost) {
            next[*same] = n;
          }
        }
      }
      if (next.size() > p.asked.most_states) {
        for (Step1& n : next) {
          Set wanted;
          for (std::size_t t : stretches[k])
            if (!n.done[t]) wanted |= p.tools[t];
          const auto here = static_cast<long long>((wanted & ~p.tools[n.last]).count());
          n.promise = n.cost + here + least_from[k + 1];
        }
        std::stable_sort(next.begin(), next.end(),
                         [](const Step1& x, const Step1& y) { return x.promise < y.promise; });
        thrown = std::min(thrown, next[p.asked.most_states].promise);
        next.resize(p.asked.most_states);
      }
      layers.push_back(std::move(next));
    }

  const auto best = std::min_element(layers.back().begin(), layers.back().end(),
                                     [](const Step1& x, const Step1& y) { return x.cost < y.cost; });
  Solved1 solved;
  solved.cost = best->cost;
  solved.bound = std::min(best->cost, thrown);
  auto at = static_cast<std::size_t>(best - layers.back().begin());
  for (std::size_t depth = layers.size() - 1; depth > 0; --depth) {
    solved.order.push_back(layers[depth][at].last);
    at = layers[depth][at].parent;
  }
  std::reverse(solved.order.begin(), solved.order.end());
  return solved;
}

// --- two technicians: a stretch in the least time

// Tasks done or going on; `running` ends at `later`, where another technician is free from `free` on.
struct Step2 {
  Set done;
  std::size_t running = none, started = none;
  Seconds free = 0, later = 0, promise = 0;
  int changes = 0, runner = 0, starter = 0;     // technician of the running and of the started task
  Seconds start = 0;                            // of the started task
  std::array<std::size_t, 2> last{none, none};  // each technician's last task
  std::size_t parent = none;
};

struct Solved2 {
  struct Start {
    std::size_t task = 0;
    int technician = 0;
    Seconds start = 0;
  };
  std::vector<Start> starts;
  Seconds time = 0, bound = 0;
  int changes = 0;
  std::array<std::size_t, 2> last{none, none};
};

// The task started as early as it can be by whoever is free.
Step2 start_task(const Problem& p, const Step2& s, std::size_t t, std::size_t parent) {
  const bool waits =
      s.running != none && (p.before[t][s.running] || p.everybody[t] || (p.tools[t] & p.tools[s.running]).any());
  Step2 n = s;
  n.parent = parent;
  n.started = t;
  n.done.set(t);
  n.start = waits ? s.later : s.free;
  const Seconds end = n.start + p.time[t];
  // Both free: the one who has its tools in hand takes it; else the one who is free.
  const bool both_free = s.running == none || waits || s.free == s.later;
  n.starter = s.running == none ? 0 : 1 - s.runner;
  if (both_free && pickups(p, s.last[static_cast<std::size_t>(1 - n.starter)], t) <
                       pickups(p, s.last[static_cast<std::size_t>(n.starter)], t))
    n.starter = 1 - n.starter;
  const auto who = static_cast<std::size_t>(n.starter);
  n.changes += pickups(p, s.last[who], t);
  n.last[who] = t;
  if (p.everybody[t]) {
    n.free = n.later = end;
    n.running = none;
  } else if (both_free || end >= s.later) {
    n.free = both_free ? n.start : s.later;
    n.later = end;
    n.running = t;
    n.runner = n.starter;
  } else {
    n.free = end;
  }
  if (n.free == n.later) n.running = none;
  return n;
}

Solved2 least_time(const Problem& p, const std::vector<std::size_t>& stretch, std::array<std::size_t, 2> last) {
  std::vector<std::vector<Step2>> layers(1);
  layers[0].emplace_back();
  layers[0][0].last = last;
  Seconds thrown = std::numeric_limits<Seconds>::max();
  Set within;
  for (std::size_t t : stretch) within.set(t);

  const auto promise = [&](const Step2& s) {
    Seconds work = s.free + s.later, chain = s.later;
    for (std::size_t t : stretch) {
      if (s.done[t]) continue;
      work += p.time[t] * (p.everybody[t] ? 2 : 1);
      const bool waits = s.running != none && p.before[t][s.running];
      chain = std::max(chain, (waits ? s.later : s.free) + p.tail[t]);
    }
    return std::max(chain, (work + 1) / 2);
  };
  for (std::size_t depth = 0; depth < stretch.size(); ++depth) {
    std::vector<Step2> next;
    std::unordered_map<Set, std::vector<std::size_t>> seen;
    for (std::size_t parent = 0; parent < layers[depth].size(); ++parent) {
      const Step2& s = layers[depth][parent];
      for (std::size_t t : stretch) {
        if (s.done[t] || (p.before[t] & within & ~s.done).any()) continue;
        const Step2 n = start_task(p, s, t, parent);
        // Among those with the same tasks done and the same one going on, none that is later in both free times.
        auto& alike = seen[n.done];
        const auto better = [&](const Step2& a, const Step2& b) {
          if (a.running != b.running || a.free > b.free || a.later > b.later) return false;
          return a.free < b.free || a.later < b.later || a.changes <= b.changes;
        };
        if (std::any_of(alike.begin(), alike.end(), [&](std::size_t i) { return better(next[i], n); })) continue;
        const auto worse = std::find_if(alike.begin(), alike.end(), [&](std::size_t i) { return better(n, next[i]); });
        if (worse == alike.end()) {
          alike.push_back(next.size());
          next.push_back(n);
        } else {
          next[*worse] = n;
        }
      }
    }
    for (Step2& n : next) n.promise = promise(n);
    if (next.size() > p.asked.most_states) {
      std::stable_sort(next.begin(), next.end(), [](const Step2& a, const Step2& b) { return a.promise < b.promise; });
      thrown = std::min(thrown, next[p.asked.most_states].promise);
      next.resize(p.asked.most_states);
    }
    layers.push_back(std::move(next));
  }

  const auto best = std::min_element(layers.back().begin(), layers.back().end(), [](const Step2& a, const Step2& b) {
    return std::pair(a.later, a.changes) < std::pair(b.later, b.changes);
  });
  Solved2 solved;
  solved.time = best->later;
  solved.bound = std::min(best->later, thrown);
  solved.changes = best->changes;
  solved.last = best->last;
  std::size_t at = static_cast<std::size_t>(best - layers.back().begin());
  for (std::size_t depth = stretch.size(); depth > 0; --depth) {
    const Step2& s = layers[depth][at];
    solved.starts.push_back({s.started, s.starter, s.start});
    at = s.parent;
  }
  std::reverse(solved.starts.begin(), solved.starts.end());
  return solved;
}

// --- both

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
      out.tasks.push_back({t, 0, false, seconds(clock), seconds(clock + p.time[t]), {}});
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
                             {}});
      clock += s.time;
      clock_bound += s.bound;
      out.changes.tools += s.changes;
      last = s.last;
    }
    out.proven = clock == clock_bound;
  }
  out.total = seconds(clock);
  out.total_bound = seconds(clock_bound);

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
