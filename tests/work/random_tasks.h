// Invented planning problems for tests and benchmarks, drawn by a seed.
#pragma once

#include <algorithm>
#include <random>

#include "work/plan.h"

namespace trammel::work {

// Random tasks: whole minutes, some of six tools, some places, forward pairs closed under following.
inline PlanAsked random_tasks(std::mt19937& draw, std::size_t n, double density, int technicians,
                              bool all_placed = true) {
  const auto below = [&](int k) { return static_cast<int>(draw() % static_cast<unsigned>(k)); };
  PlanAsked asked;
  asked.technicians = technicians;
  for (std::size_t i = 0; i < n; ++i) {
    PlanTask t;
    t.time = (1 + below(30)) * units::minute;
    t.alone = below(8) == 0;
    t.people = below(8) == 0 ? 2 : 1;
    t.place = all_placed ? 1 + below(2) : below(3);
    for (int k = below(3); k >= 0; --k)
      if (const int tool = below(6); std::find(t.tools.begin(), t.tools.end(), tool) == t.tools.end())
        t.tools.push_back(tool);
    asked.tasks.push_back(t);
  }
  std::vector<std::vector<char>> before(n, std::vector<char>(n, 0));
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = j; i-- > 0;)
      if (before[j][i] || draw() % 1000 < density * 1000) {
        before[j][i] = 1;
        for (std::size_t k = 0; k < i; ++k) before[j][k] |= before[i][k];
      }
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = 0; i < j; ++i)
      if (before[j][i]) asked.before.push_back({i, j});
  return asked;
}

}  // namespace trammel::work
