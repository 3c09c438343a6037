#include "work/unfinished.h"

#include <algorithm>
#include <array>

#include "work/hold.h"
#include "work/release.h"

namespace trammel::work {
namespace {

constexpr std::array wheel_loads = {Load::on_wheels, Load::rolled, Load::driven_capped, Load::released};

Load before(Load load) { return static_cast<Load>(static_cast<int>(load) - 1); }

std::vector<LooseItem> loose(const Roster& r, const State& state) {
  std::vector<LooseItem> out;
  for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
    const bool in_use = state.touched[i] != 0 || counts(r, state, i);
    if (!in_use || scrapped(r, state, i)) continue;
    const LeastStates& least = r.fasteners[i].least;
    if (!below(state.fasteners[i], least_for(least, Load::released))) continue;
    LooseItem item{i, state.fasteners[i], std::nullopt};
    for (Load load : wheel_loads)
      if (!item.not_before && below(item.state, least_for(least, load))) item.not_before = load;
    out.push_back(item);
  }
  return out;
}

std::vector<std::size_t> places(const Roster& r, const State& state) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < r.parts.size(); ++i) {
    const std::vector<std::size_t>& instead = r.parts[i].replaced_by;
    const bool off = state.parts[i] == PartState::off || (state.parts[i] == PartState::scrap && !instead.empty());
    const bool taken =
        std::any_of(instead.begin(), instead.end(), [&](std::size_t k) { return state.parts[k] == PartState::on; });
    if (off && !taken) out.push_back(i);
  }
  return out;
}

// The second looks are made, the power is back.
bool may_drive(const Roster& r, const State& state, const std::vector<LooseItem>& loose) {
  for (const Known off : {Known::isolated, Known::negative_off, Known::switch_off, Known::fuel_shut, Known::plug_off})
    if (known_holds(r, state, off)) return false;
  for (const LooseItem& item : loose)
    if (state.touched[item.fastener] != 0) return false;  // final, and its second look is owed; or less
  return true;
}

}  // namespace

Unfinished unfinished(const Roster& r, const State& state) {
  Unfinished out{loose(r, state), places(r, state), Load::released, !all_stand(state, Support::on_wheels, End::none)};
  const auto at_most = [&](Load load) { out.most = std::max(Load::on_stands, std::min(out.most, load)); };
  if (!release(r, state).granted()) at_most(Load::driven_capped);
  for (const LooseItem& item : out.loose)
    if (item.not_before) at_most(before(*item.not_before));
  if (out.most >= Load::driven_capped && !may_drive(r, state, out.loose)) at_most(Load::rolled);
  for (const Load load : wheel_loads)
    for (std::size_t i = 0; i < r.proofs.size(); ++i)
      if (holds_back(r, state, load, i)) at_most(before(load));
  const auto carries = [&](std::size_t i) { return r.procedure.parts[r.parts[i].part].kind != PartKind::body; };
  if (std::any_of(out.places.begin(), out.places.end(), carries)) at_most(Load::on_stands);
  for (std::size_t c = 0; c < r.conditions.size(); ++c)
    if (r.conditions[c].meaning.known == Known::prop && state.conditions[c] != 0) at_most(Load::on_stands);
  return out;
}

}  // namespace trammel::work
