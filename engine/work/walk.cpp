#include "work/walk.h"

#include <algorithm>
#include <array>

#include "work/judge_step.h"

namespace trammel::work {
namespace {

constexpr std::array wheel_loads = {Load::on_wheels, Load::rolled, Load::driven_capped, Load::released};

bool is_on(const State& s, std::size_t part) { return s.parts[part] == PartState::on; }

}  // namespace

std::vector<LooseItem> loose_list(const Roster& r, const State& state) {
  std::vector<LooseItem> out;
  for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
    const FastenerState least = least_for(r.fasteners[i].least, Load::released);
    if (!counts(r, state, i) || !below(state.fasteners[i], least)) continue;
    LooseItem item{i, state.fasteners[i], std::nullopt};
    for (Load load : wheel_loads)
      if (!item.not_before && below(item.state, least_for(r.fasteners[i].least, load))) item.not_before = load;
    out.push_back(item);
  }
  return out;
}

Walk walk(const Procedure& procedure) { return walk(make_roster(procedure)); }

Walk walk(Roster roster) {
  Walk w;
  w.roster = std::move(roster);
  const Roster& r = w.roster;
  w.start = starting_state(r);
  // References first, then every step on every side in the order given.
  w.faults = check_structure(r);
  for (std::size_t at = 0; at < r.order.size(); ++at) {
    const ExpandedStep& x = r.order[at];
    const State& before = w.before(at);
    WalkedStep done{x, do_step(r, before, x), {}, {}};
    judge_step(r, at, before, done.after, w.faults);
    done.loose = loose_list(r, done.after);
    // Shared fasteners that this step would have finished, were the other kit's part on.
    for (const Tighten& t : r.procedure.steps[x.step].tighten)
      if (rung(t.to) > rung(FastenerState::snug))
        for (std::size_t i : r.fasteners_of(t.fastener, x.side)) {
          const auto& waits = r.fasteners[i].waits_for;
          if (!std::all_of(waits.begin(), waits.end(), [&](std::size_t p) { return is_on(done.after, p); }))
            done.held_back.push_back(i);
        }
    w.steps.push_back(std::move(done));
  }
  // Then what only the end shows.
  judge_end(r, w.end(), w.faults);
  w.release = release(r, w.end());
  return w;
}

}  // namespace trammel::work
