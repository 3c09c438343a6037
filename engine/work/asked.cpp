#include "work/asked.h"

#include <algorithm>

namespace trammel::work {
namespace {

// What a reading may differ from what is asked, and a castle nut's way to its next slot where no limit is given:
// assumed.
constexpr double window = 0.10, castle_window = 0.30;

}  // namespace

Asked asked_of(const Roster& r, const State& s, std::size_t i) {
  const FastenerEntry& e = r.fasteners[i];
  const Fastener& own = r.procedure.fasteners[e.fastener];
  const Fastener* spec = &own;
  if (e.spec != own.id)
    for (const Fastener& f : r.procedure.fasteners)
      if (f.id == e.spec) spec = &f;
  Asked a;
  a.passes = spec->passes;
  if (a.passes.empty() && spec->torque) a.passes = {&*spec->torque, 1};
  a.limit = spec->torque_limit;
  a.castle = spec->castle;
  a.measured = spec->set_by_measure && a.passes.empty();
  a.stands = own.only_final;
  a.spent = s.spent[i] != 0;
  // The last that was decided, or found to be no longer valid.
  for (const TorqueInstead& d : s.instead) {
    if (d.fastener != i) continue;
    a.valid = d.torque.has_value();
    if (!d.torque) continue;
    a.passes = {&*d.torque, 1};
    if (a.limit && *a.limit < *d.torque) a.limit.reset();
    a.measured = false;
  }
  return a;
}

bool stands_for_final(const Roster& r, const State& s, std::size_t i) {
  const auto& only = r.procedure.fasteners[r.fasteners[i].fastener].only_final;
  return !only || all_stand(s, *only, r.fasteners[i].instance.end);
}

bool new_one_to_come(const Roster& r, const State& s, std::size_t i) {
  const Instance& instance = r.fasteners[i].instance;
  for (const ExpandedStep& x : r.order) {
    if ((s.done[x.step] & x.mask) == x.mask || !agree(x.side, instance.side)) continue;
    for (const Tighten& t : r.procedure.steps[x.step].tighten)
      if (t.fastener.id == instance.group && picks(t.fastener, instance) && rung(t.to) <= rung(FastenerState::final))
        return t.fresh;
  }
  return false;
}

Torque lowest(const Asked& a) { return (1.0 - window) * a.passes.back(); }
Torque highest(const Asked& a) {
  if (a.limit) return *a.limit;
  return (1.0 + (a.castle ? castle_window : window)) * a.passes.back();
}

TorqueRead read_against(const Asked& a, Torque reached) {
  if (a.passes.empty()) return TorqueRead::final;
  if (reached > highest(a)) return TorqueRead::above;
  if (reached >= lowest(a)) return TorqueRead::final;
  const bool pass = std::any_of(a.passes.begin(), a.passes.end() - 1, [&](Torque p) {
    return reached >= (1.0 - window) * p && reached <= (1.0 + window) * p;
  });
  return pass ? TorqueRead::pass : TorqueRead::below;
}

}  // namespace trammel::work
