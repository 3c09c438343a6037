#include "work/free_steps.h"

#include <algorithm>
#include <deque>
#include <map>
#include <optional>
#include <set>

#include "work/conflict.h"
#include "work/judge_step.h"
#include "work/order.h"

namespace trammel::work {
namespace {

using Places = std::vector<std::size_t>;

bool is_free(const Roster& r, std::size_t place) { return r.procedure.steps[r.order[place].step].any_time; }

// Whether needs, and the list's own order of the steps that are not free, put one place before another.
std::vector<std::vector<unsigned char>> ordered_by_needs(const Roster& r, const std::vector<Precedence>& needed) {
  const std::size_t n = r.order.size();
  std::vector<std::vector<unsigned char>> before(n, std::vector<unsigned char>(n, 0));
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = 0; i < j; ++i)
      before[i][j] = (!is_free(r, i) && !is_free(r, j)) || r.order[i].step == r.order[j].step;
  for (const Precedence& e : needed)
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j)
        if (r.order[i].step == e.first && r.order[j].step == e.then) before[i][j] = 1;
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t i = 0; i < n; ++i)
      if (before[i][k])
        for (std::size_t j = 0; j < n; ++j) before[i][j] |= before[k][j];
  return before;
}

using Shared = std::vector<std::vector<unsigned char>>;

Places coupled_steps(const Roster& r, const std::vector<Precedence>& needed, const Shared& shared) {
  const auto before = ordered_by_needs(r, needed);
  Places out;
  for (std::size_t f = 0; f < r.order.size(); ++f) {
    if (!is_free(r, f)) continue;
    for (std::size_t s = 0; s < r.order.size(); ++s)
      if (s != f && shared[f][s] && !before[f][s] && !before[s][f]) {
        out.push_back(f);
        break;
      }
  }
  return out;
}

// Whether a rule may look at what this step does and at what another does in one: parts that stand in for each other,
// chocks at either end, isolation. Every other rule looks at one thing.
bool joins_in(const Roster& r, std::size_t place) {
  const Step& s = r.procedure.steps[r.order[place].step];
  const auto known = [](const std::string& c) { return meaning_of(c).known != Known::word; };
  return !s.removes.empty() || !s.fits.empty() || std::any_of(s.sets.begin(), s.sets.end(), known) ||
         std::any_of(s.clears.begin(), s.clears.end(), known);
}

// Those of which one may hide or bring about what another does: tried together, the groups one after another.
std::vector<Places> coupled_together(const Roster& r, const Places& loose, const Shared& shared) {
  std::vector<Places> groups;
  for (std::size_t f : loose) {
    Places mine{f};
    std::vector<Places> others;
    for (Places& g : groups) {
      const bool joined = std::any_of(
          g.begin(), g.end(), [&](std::size_t o) { return shared[f][o] || (joins_in(r, f) && joins_in(r, o)); });
      if (joined)
        mine.insert(mine.end(), g.begin(), g.end());
      else
        others.push_back(std::move(g));
    }
    std::sort(mine.begin(), mine.end());
    others.push_back(std::move(mine));
    groups = std::move(others);
  }
  return groups;
}

class Search {
 public:
  Search(const Walk& walk, FreeSteps& out) : r_(walk.roster), start_(walk.start), out_(out), shared_(conflicts(r_)) {
    for (const Fault& f : walk.faults) known_.insert(key(f));
  }

  // The loose places wherever they may come, all others in their order. False where it takes more than `most`.
  bool run(const Places& loose, const std::vector<Precedence>& needed, std::size_t most, Places* unreached) {
    loose_ = loose;
    needed_ = &needed;
    bound_.clear();
    for (std::size_t i = 0; i < r_.order.size(); ++i)
      if (std::find(loose.begin(), loose.end(), i) == loose.end()) bound_.push_back(i);
    groups();
    met_.clear();
    placed_.clear();
    todo_ = {{0, std::vector<unsigned char>(loose.size(), 0), start_, {}}};
    std::size_t states = 0;
    while (!todo_.empty()) {
      if (states > most) return false;
      const Node n = std::move(todo_.front());
      todo_.pop_front();
      for (std::size_t k = 0; k < loose_.size(); ++k)
        if (!n.done[k] && worth_now(n, k) && !waits(n, loose_[k])) states += go(n, loose_[k], k);
      if (n.next < bound_.size() && !waits(n, bound_[n.next])) states += go(n, bound_[n.next], std::nullopt);
    }
    out_.states += states;
    if (unreached)
      for (std::size_t at : loose_)
        if (!placed_.contains(at)) unreached->push_back(at);
    return true;
  }

 private:
  struct Node {
    std::size_t next = 0;             // of the bound places
    std::vector<unsigned char> done;  // of the loose ones
    State state;
    Places order;
  };

  // Loose places that share something, directly or by others: one that is moved may move them all.
  void groups() {
    group_.resize(loose_.size());
    for (std::size_t k = 0; k < loose_.size(); ++k) group_[k] = k;
    for (std::size_t k = 0; k < loose_.size(); ++k)
      for (std::size_t m = 0; m < k; ++m)
        if (shared_[loose_[k]][loose_[m]])
          for (std::size_t& g : group_)
            if (const std::size_t from = group_[k]; g == from && from != group_[m]) g = group_[m];
  }
  // A loose step comes as late as it can: only where its group shares something with the next step, or at the end.
  // Anywhere else it could as well come after that step, and meet the same state.
  bool worth_now(const Node& n, std::size_t k) const {
    if (n.next == bound_.size()) return true;
    for (std::size_t m = 0; m < loose_.size(); ++m)
      if (group_[m] == group_[k] && shared_[loose_[m]][bound_[n.next]]) return true;
    return false;
  }

  // A step waits for a loose one that it needs, and for its own left side.
  bool waits(const Node& n, std::size_t at) const {
    for (std::size_t k = 0; k < loose_.size(); ++k) {
      if (n.done[k]) continue;
      const std::size_t step = r_.order[loose_[k]].step;
      if (step == r_.order[at].step && loose_[k] < at) return true;
      for (const Precedence& e : *needed_)
        if (e.first == step && e.then == r_.order[at].step) return true;
    }
    return false;
  }

  // One step more; whether that gave a state not met before.
  bool go(const Node& n, std::size_t at, std::optional<std::size_t> loose) {
    State after = do_step(r_, n.state, r_.order[at]);
    std::vector<Fault> faults;
    judge_step(r_, at, n.state, after, faults);
    // Where its needs are not met a free step may not come.
    if (loose &&
        std::any_of(faults.begin(), faults.end(), [](const Fault& f) { return f.kind == FaultKind::need_not_met; }))
      return false;
    Node to{n.next + (loose ? 0U : 1U), n.done, std::move(after), n.order};
    to.order.push_back(at);
    if (loose) {
      placed_.insert(at);
      to.done[*loose] = 1;
    }
    if (to.order.size() == r_.order.size()) judge_end(r_, to.state, faults);
    for (const Fault& f : faults)
      if (known_.insert(key(f)).second) out_.found.push_back({f, to.order, moved(to)});
    const auto [from, past] = met_.equal_range({to.next, to.done});
    if (std::any_of(from, past, [&](const auto& m) { return m.second == to.state; })) return false;
    met_.emplace(std::pair{to.next, to.done}, to.state);
    todo_.push_back(std::move(to));
    return true;
  }

  // The last of the loose places that is not where the list has it.
  std::size_t moved(const Node& to) const {
    std::size_t out = to.order.back();
    for (std::size_t at : loose_) {
      const auto here = std::find(to.order.begin(), to.order.end(), at);
      const bool early =
          here != to.order.end() && std::any_of(to.order.begin(), here, [&](std::size_t o) { return o > at; });
      const bool late = here == to.order.end() && to.order.back() > at;
      const bool ahead = here != to.order.end() && static_cast<std::size_t>(here - to.order.begin()) < at;
      if (early || late || ahead) out = at;
    }
    return out;
  }

  const Roster& r_;
  const State& start_;
  FreeSteps& out_;
  Shared shared_;
  Places loose_, bound_, group_;
  const std::vector<Precedence>* needed_ = nullptr;
  std::deque<Node> todo_;
  std::multimap<std::pair<std::size_t, std::vector<unsigned char>>, State> met_;
  std::set<std::size_t> placed_;
  std::set<FaultKey> known_;
};

}  // namespace

FreeSteps try_free_steps(const Walk& walk, std::size_t most_states) {
  FreeSteps out;
  const Roster& r = walk.roster;
  for (std::size_t i = 0; i < r.order.size(); ++i) out.free += is_free(r, i);
  if (out.free == 0) return out;
  const std::vector<Precedence> needed = precedences(r.procedure);
  const auto shared = conflicts(r);
  const Places loose = coupled_steps(r, needed, shared);
  out.coupled = loose.size();
  if (loose.empty()) return out;

  Search search(walk, out);
  for (const Places& group : coupled_together(r, loose, shared)) {
    // Each alone, so that a fault is told of the step that brings it about; then all together, or in pairs.
    if (group.size() > 1)
      for (std::size_t a : group) search.run({a}, needed, most_states, nullptr);
    if (search.run(group, needed, most_states, &out.unreached)) continue;
    out.complete = false;
    for (std::size_t a = 0; a < group.size(); ++a)
      for (std::size_t b = a + 1; b < group.size() && out.states < 5 * most_states; ++b)
        search.run({group[a], group[b]}, needed, most_states, nullptr);
  }
  return out;
}

}  // namespace trammel::work
