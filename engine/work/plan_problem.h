// The problem of plan.h in whole seconds and sets, and what its two methods hand back. Private to the room.
#pragma once

#include <array>
#include <bitset>
#include <limits>
#include <vector>

#include "work/plan.h"

namespace trammel::work {

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

inline int pickups(const Problem& p, std::size_t last, std::size_t next) {
  const Set held = last == none ? Set() : p.tools[last];
  return static_cast<int>((p.tools[next] & ~held).count());
}
// Tasks that belong to no end leave the technician where he is: the place is carried along.
inline int place_after(const Problem& p, int place, std::size_t task) {
  return p.asked.tasks[task].place != 0 ? p.asked.tasks[task].place : place;
}
inline int end_change(int place, int next) { return next != 0 && place != 0 && next != place ? 1 : 0; }

// One technician: the order of fewest changes. Stretches are those that no order mixes.
struct Solved1 {
  std::vector<std::size_t> order;
  long long cost = 0, bound = 0;
};

Solved1 fewest_changes(const Problem& problem, const std::vector<std::vector<std::size_t>>& stretches);

// Two technicians: a stretch in the least time, from what each has in hand.
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

Solved2 least_time(const Problem& problem, const std::vector<std::size_t>& stretch, std::array<std::size_t, 2> last);

}  // namespace trammel::work
