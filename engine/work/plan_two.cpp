// Two technicians: a stretch in the least time, layer by layer over the sets of tasks done and the one going on.
#include <algorithm>
#include <unordered_map>

#include "work/plan_problem.h"

namespace trammel::work {
namespace {

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

}  // namespace

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

}  // namespace trammel::work
