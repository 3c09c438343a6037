#include "work/every_order.h"

#include <algorithm>
#include <deque>

#include "work/conflict.h"
#include "work/judge_step.h"

namespace trammel::work {

EveryOrder every_order(const Roster& r) {
  const std::size_t n = r.order.size();
  std::vector<unsigned> before(n, 0);
  for (const Precedence& e : kept_order(r)) before[e.then] |= 1U << e.first;
  EveryOrder out;
  std::map<unsigned, std::vector<State>> met{{0U, {starting_state(r)}}};
  std::deque<std::pair<unsigned, State>> todo{{0U, starting_state(r)}};
  while (!todo.empty()) {
    const auto [done, state] = std::move(todo.front());
    todo.pop_front();
    for (std::size_t at = 0; at < n; ++at) {
      if ((done >> at & 1U) != 0 || (before[at] & ~done) != 0) continue;
      State after = do_step(r, state, r.order[at]);
      std::vector<Fault> faults;
      judge_step(r, at, state, after, faults);
      const unsigned now = done | 1U << at;
      for (const Fault& f : faults) out.depth.emplace(key(f), static_cast<std::size_t>(__builtin_popcount(now)));
      auto& alike = met[now];
      if (std::find(alike.begin(), alike.end(), after) != alike.end()) continue;
      alike.push_back(after);
      todo.emplace_back(now, std::move(after));
    }
  }
  out.sets = met.size();
  for (const auto& [set, states] : met) out.states += states.size();
  return out;
}

}  // namespace trammel::work
