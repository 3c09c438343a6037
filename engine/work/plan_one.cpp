// One technician: the order of fewest changes, layer by layer over the sets of tasks done.
#include <algorithm>
#include <unordered_map>

#include "work/plan_problem.h"

namespace trammel::work {
namespace {

struct Step1 {
  Set done;
  std::size_t last = none;
  int place = 0;
  long long cost = 0, promise = 0;
  std::size_t parent = none;  // in the layer before
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

}  // namespace

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

}  // namespace trammel::work
