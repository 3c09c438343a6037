#include "work/cure.h"

#include <algorithm>

namespace trammel::work {
namespace {

bool bears(const Roster& r, const ExpandedStep& x, std::size_t fastener) {
  const FastenerEntry& f = r.fasteners[fastener];
  if (!x.last_side) return false;
  const auto& loads = r.procedure.steps[x.step].loads;
  return std::any_of(loads.begin(), loads.end(), [&](const ApplyLoad& l) {
    const bool here = l.load > Load::on_wheels || (agree(l.end, f.instance.end) && agree(l.side, f.instance.side));
    return here && least_for(f.least, l.load) != FastenerState::out;
  });
}

}  // namespace

std::vector<Cure> cures(const Roster& r) {
  std::vector<Cure> out;
  for (std::size_t at = 0; at < r.order.size(); ++at)
    for (const Tighten& t : r.procedure.steps[r.order[at].step].tighten) {
      if (t.to != FastenerState::final) continue;
      for (const std::size_t i : r.fasteners_of(t.fastener, r.order[at].side)) {
        const auto cure = r.procedure.fasteners[r.fasteners[i].fastener].cure;
        // The step's own load, or the first that comes after it.
        for (std::size_t then = at; cure && then < r.order.size(); ++then)
          if (bears(r, r.order[then], i)) {
            out.push_back({i, at, then, *cure});
            break;
          }
      }
    }
  return out;
}

}  // namespace trammel::work
