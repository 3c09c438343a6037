#include "work/ledger.h"

#include <algorithm>

#include "work/asked.h"

namespace trammel::work {
namespace {

constexpr std::size_t front_end = 0, rear_end = 1;
constexpr End end_of_corner(std::size_t c) { return c < 2 ? End::front : End::rear; }
constexpr Side side_of_corner(std::size_t c) { return c % 2 == 0 ? Side::left : Side::right; }

template <class Ask>
bool any_corner(const State& state, End end, Side side, Ask ask) {
  for (std::size_t c = 0; c < 4; ++c)
    if (agree(end, end_of_corner(c)) && agree(side, side_of_corner(c)) && ask(state.corners[c])) return true;
  return false;
}

// What stands under lifted wheels holds nothing.
void lose_chocks(State& state) {
  state.chocked[front_end] = state.chocked[front_end] && on_floor(state, End::front);
  state.chocked[rear_end] = state.chocked[rear_end] && on_floor(state, End::rear);
}

void touch(State& state, std::size_t i, FastenerState to) {
  state.touched[i] = 1;
  state.fasteners[i] = to;
}

void void_proof(State& state, std::size_t proof, Mask sides) {
  ProofLedger& p = state.proofs[proof];
  if (p.good & sides) p.voided = true;
  p.good = static_cast<Mask>(p.good & ~sides);
}

void void_by_work(State& state, std::size_t proof) {
  void_proof(state, proof, both_sides);
  state.proofs[proof].open = true;
}

// Proofs whose own rule says that slackening this fastener, or taking this part off, voids them.
void void_by_slackening(const Roster& r, State& state, std::size_t entry) {
  const Instance& i = r.fasteners[entry].instance;
  for (const Proof& proof : r.procedure.proofs)
    for (const Selector& s : proof.voided_by_slackening)
      if (s.id == i.group && picks(s, i)) void_by_work(state, *r.proof(proof.id));
}

void void_by_removing(const Roster& r, State& state, std::size_t entry) {
  const Instance& i = r.parts[entry].instance;
  for (const Proof& proof : r.procedure.proofs)
    for (const Selector& s : proof.voided_by_removing)
      if (s.id == i.group && picks(s, i)) void_by_work(state, *r.proof(proof.id));
}

// Clamped once, what serves once is spent as it is loosened.
void spend(const Roster& r, State& state, std::size_t entry) {
  if (r.procedure.fasteners[r.fasteners[entry].fastener].new_each_time &&
      rung(state.fasteners[entry]) >= rung(FastenerState::snug))
    state.spent[entry] = 1;
}

void loosen(const Roster& r, State& state, std::size_t entry, FastenerState to) {
  const FastenerState now = slackened(state.fasteners[entry], to);
  const bool fell = now != state.fasteners[entry];
  if (fell) spend(r, state, entry);
  touch(state, entry, now);
  if (fell) void_by_slackening(r, state, entry);
}

// The state that tightening reaches: a shared fastener waits at snug until every kit's part is on.
FastenerState reached(const Roster& r, const State& state, std::size_t entry, FastenerState to) {
  const auto& waits = r.fasteners[entry].waits_for;
  const bool all_on =
      std::all_of(waits.begin(), waits.end(), [&](std::size_t p) { return state.parts[p] == PartState::on; });
  if (!all_on && rung(to) > rung(FastenerState::snug)) to = FastenerState::snug;
  return tightened(state.fasteners[entry], to);
}

void bring_on(const Roster& r, State& state, const ApplyLoad& load) {
  const auto set = [&](Support support) {
    bool lifted = false;
    for (std::size_t c = 0; c < 4; ++c) {
      if (!agree(load.end, end_of_corner(c)) || !agree(load.side, side_of_corner(c))) continue;
      lifted |= state.corners[c] == Support::on_wheels && support != Support::on_wheels;
      if (support != Support::on_wheels) state.settled[c < 2 ? front_end : rear_end] = false;
      state.corners[c] = support;
    }
    lose_chocks(state);
    if (!lifted) return;
    for (const Proof& proof : r.procedure.proofs)
      if (proof.voided_by_lifting) void_proof(state, *r.proof(proof.id), both_sides);
  };
  if (load.load == Load::jacked) set(Support::jacked);
  if (load.load == Load::on_stands) set(Support::on_stands);
  if (load.load == Load::on_wheels) set(Support::on_wheels);
  if (load.load >= Load::rolled) {
    state.chocked = {false, false};
    for (const std::size_t end : {front_end, rear_end})
      state.settled[end] |= all_stand(state, Support::on_wheels, end == front_end ? End::front : End::rear);
    for (std::size_t c = 0; c < r.conditions.size(); ++c)
      if (r.conditions[c].meaning.known == Known::parking_brake) state.conditions[c] = 0;
  }
  state.last_load = load.load;
}

void set_condition(const Roster& r, State& state, std::size_t c, Mask mask, bool on) {
  if (const Meaning& m = r.conditions[c].meaning; m.known == Known::chocks) {
    if (m.end != End::rear) state.chocked[front_end] = on;
    if (m.end != End::front) state.chocked[rear_end] = on;
  }
  state.conditions[c] = static_cast<Mask>(on ? state.conditions[c] | mask : state.conditions[c] & ~mask);
}

// Which entries stand: walking back, a standing undo strikes its target, be it an undo or not.
std::vector<std::size_t> effective(const std::vector<Entry>& entries) {
  std::vector<unsigned char> struck(entries.size(), 0);
  for (std::size_t i = entries.size(); i-- > 0;) {
    const Entry& e = entries[i];
    const auto* undo = std::get_if<Undone>(&e.event.what);
    if (!undo || e.fault != EntryFault::none || struck[i]) continue;
    for (std::size_t k = 0; k < i; ++k)
      if (entries[k].fault == EntryFault::none && entries[k].event.sequence == undo->sequence) struck[k] = 1;
  }
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < entries.size(); ++i)
    if (!struck[i] && entries[i].fault == EntryFault::none && !std::holds_alternative<Undone>(entries[i].event.what))
      out.push_back(i);
  return out;
}

EntryFault fault_of(const Roster& r, const Ledger& ledger, const Event& event) {
  if (!ledger.entries.empty()) {
    std::uint64_t last = 0;
    for (const Entry& e : ledger.entries)
      if (e.fault != EntryFault::sequence) last = std::max(last, e.event.sequence);
    if (event.sequence <= last) return EntryFault::sequence;
  }
  struct Judge {
    const Roster& r;
    const Ledger& ledger;
    EntryFault instance(const std::string& n) const {
      return r.fastener(n) ? EntryFault::none : EntryFault::unknown_instance;
    }
    EntryFault operator()(const StepDone& e) const {
      const auto step = r.step(e.step);
      if (!step) return EntryFault::unknown_step;
      for (const ExpandedStep& x : r.order)
        if (x.step == *step && x.side == e.side) return EntryFault::none;
      return EntryFault::wrong_side;
    }
    EntryFault operator()(const TorqueReached& e) const { return instance(e.instance); }
    EntryFault operator()(const Found& e) const { return instance(e.instance); }
    EntryFault operator()(const Disputed& e) const { return instance(e.instance); }
    EntryFault operator()(const Decided& e) const { return instance(e.instance); }
    EntryFault operator()(const Substituted& e) const { return instance(e.instance); }
    EntryFault operator()(const TorqueDecided& e) const { return instance(e.instance); }
    EntryFault operator()(const ProofDisputed& e) const {
      return r.proof(e.proof) ? EntryFault::none : EntryFault::unknown_proof;
    }
    EntryFault operator()(const Undone& e) const {
      for (const Entry& x : ledger.entries)
        if (x.fault == EntryFault::none && x.event.sequence == e.sequence) return EntryFault::none;
      return EntryFault::no_such_entry;
    }
  };
  return std::visit(Judge{r, ledger}, event.what);
}

State do_event(const Roster& r, State state, const Event& event) {
  struct Doer {
    const Roster& r;
    State& s;
    void operator()(const StepDone& e) const {
      const std::size_t step = *r.step(e.step);
      for (const ExpandedStep& x : r.order)
        if (x.step == step && x.side == e.side) s = do_step(r, std::move(s), x);
    }
    void operator()(const TorqueReached& e) const {
      const std::size_t i = *r.fastener(e.instance);
      if (e.fresh) s.spent[i] = 0;
      const Asked asked = asked_of(r, s, i);
      const bool may = asked.valid && !asked.spent && stands_for_final(r, s, i);
      touch(s, i,
            reached(r, s, i, may || rung(e.state) < rung(FastenerState::final) ? e.state : FastenerState::part_tight));
    }
    void operator()(const Found& e) const {
      const std::size_t i = *r.fastener(e.instance);
      if (on_ladder(e.state) && rung(e.state) < rung(s.fasteners[i])) void_by_slackening(r, s, i);
      if (on_ladder(e.state) && rung(e.state) < rung(FastenerState::snug)) spend(r, s, i);
      touch(s, i, e.state);
    }
    void operator()(const Disputed& e) const { touch(s, *r.fastener(e.instance), FastenerState::disputed); }
    void operator()(const Decided& e) const {
      const std::size_t i = *r.fastener(e.instance);
      if (s.fasteners[i] == FastenerState::disputed) touch(s, i, e.state);
    }
    void operator()(const Substituted& e) const {
      const std::size_t i = *r.fastener(e.instance);
      void_by_slackening(r, s, i);
      touch(s, i, FastenerState::substituted);
    }
    void operator()(const TorqueDecided& e) const { s.instead.push_back({*r.fastener(e.instance), e.torque}); }
    void operator()(const ProofDisputed& e) const { s.proofs[*r.proof(e.proof)].disputed = true; }
    void operator()(const Undone&) const {}
  };
  std::visit(Doer{r, state}, event.what);
  return state;
}

}  // namespace

State starting_state(const Roster& r) {
  State s;
  for (const FastenerEntry& e : r.fasteners) s.fasteners.push_back(e.as_found);
  s.touched.assign(r.fasteners.size(), 0);
  s.spent.assign(r.fasteners.size(), 0);
  for (const PartEntry& e : r.parts)
    s.parts.push_back(r.procedure.parts[e.part].source == PartSource::on_cart ? PartState::on : PartState::in_pack);
  s.proofs.resize(r.proofs.size());
  s.conditions.assign(r.conditions.size(), 0);
  for (const std::string& c : r.procedure.given) set_condition(r, s, *r.condition(c), both_sides, true);
  s.done.assign(r.procedure.steps.size(), 0);
  return s;
}

State do_step(const Roster& r, State state, const ExpandedStep& x) {
  const Step& step = r.procedure.steps[x.step];
  // Off: fasteners, then parts.
  for (const Slacken& s : step.slacken)
    for (std::size_t i : r.fasteners_of(s.fastener, x.side)) loosen(r, state, i, s.to);
  for (const Remove& m : step.removes)
    for (std::size_t i : r.parts_of(m.part, x.side)) {
      if (state.parts[i] == PartState::on) void_by_removing(r, state, i);
      state.parts[i] = m.scrap ? PartState::scrap : PartState::off;
    }
  // On: parts, then fasteners.
  for (const Selector& f : step.fits)
    for (std::size_t i : r.parts_of(f, x.side)) state.parts[i] = PartState::on;
  for (const Tighten& t : step.tighten)
    for (std::size_t i : r.fasteners_of(t.fastener, x.side)) {
      touch(state, i, reached(r, state, i, t.to));
      if (t.fresh) state.spent[i] = 0;
    }
  for (const Deed& d : step.deeds) state.conditions[*r.condition(condition_of(d))] |= x.mask;
  // Proofs voided, then made.
  for (const Selector& u : step.undoes_torque)
    for (std::size_t i : r.fasteners_of(u, x.side))
      if (on_ladder(state.fasteners[i]) && rung(state.fasteners[i]) >= rung(FastenerState::final))
        touch(state, i, FastenerState::part_tight);
  for (const std::string& u : step.undoes) {
    void_proof(state, *r.proof(u), x.mask);
    state.proofs[*r.proof(u)].voided = state.proofs[*r.proof(u)].open = true;  // also one good as the cart came in
  }
  for (const std::string& c : step.clears)
    if (const auto i = r.condition(c)) set_condition(r, state, *i, x.mask, false);
  for (const std::string& c : step.sets) set_condition(r, state, *r.condition(c), x.mask, true);
  for (const std::string& p : step.proves) {
    ProofLedger& proof = state.proofs[*r.proof(p)];
    proof.good |= x.mask;
    if (proof.good == r.proofs[*r.proof(p)].reach) proof.voided = proof.disputed = proof.open = false;
  }
  state.done[x.step] |= x.mask;
  // The load comes on last, after the last side.
  if (x.last_side)
    for (const ApplyLoad& load : step.loads) bring_on(r, state, load);
  if (x.last_side) lose_chocks(state);
  return state;
}

ProofState proof_state(const Roster& r, const State& state, std::size_t i) {
  const ProofLedger& p = state.proofs[i];
  if (p.disputed) return ProofState::disputed;
  const Mask reach = r.proofs[i].reach;
  if (reach != 0 && p.good == reach) return ProofState::good;
  return p.voided ? ProofState::voided : ProofState::never;
}

bool holds_back(const Roster& r, const State& state, Load load, std::size_t i) {
  // One that no step makes is told by structure.cpp.
  if (r.proofs[i].reach == 0 || proof_state(r, state, i) == ProofState::good || !r.guarded(load, i)) return false;
  const auto asks = [&](const Proof& p) {
    return p.id == r.proofs[i].name &&
           std::any_of(p.guards.begin(), p.guards.end(), [&](const std::string& g) { return read_load(g) == load; });
  };
  return state.proofs[i].open || std::any_of(r.procedure.proofs.begin(), r.procedure.proofs.end(), asks);
}

bool condition_holds(const Roster& r, const State& state, std::size_t i, Side side) {
  if (const Meaning& m = r.conditions[i].meaning; m.known == Known::chocks)
    return (m.end == End::rear || state.chocked[front_end]) && (m.end == End::front || state.chocked[rear_end]);
  Mask asked = side == Side::left ? left_bit : side == Side::right ? right_bit : both_sides;
  const Mask reach = r.conditions[i].reach;
  asked = (asked & reach) != 0 ? static_cast<Mask>(asked & reach) : reach;
  return asked != 0 && (state.conditions[i] & asked) == asked;
}

Support support_of(const State& state, End end, Side side) {
  const auto any = [&](Support so) { return any_corner(state, end, side, [so](Support s) { return s == so; }); };
  return any(Support::jacked) ? Support::jacked : any(Support::on_stands) ? Support::on_stands : Support::on_wheels;
}
bool all_stand(const State& state, Support so, End end, Side side) {
  return !any_corner(state, end, side, [so](Support s) { return s != so; });
}
bool on_floor(const State& state, End end) {
  return any_corner(state, end, Side::none, [](Support s) { return s == Support::on_wheels; });
}

bool counts(const Roster& r, const State& state, std::size_t i) {
  const FastenerEntry& e = r.fasteners[i];
  if (e.holds.empty()) return state.touched[i] || state.fasteners[i] != FastenerState::out;
  return std::any_of(e.holds.begin(), e.holds.end(), [&](std::size_t p) { return state.parts[p] == PartState::on; });
}

bool scrapped(const Roster& r, const State& state, std::size_t i) {
  const auto& holds = r.fasteners[i].holds;
  return !holds.empty() &&
         std::all_of(holds.begin(), holds.end(), [&](std::size_t p) { return state.parts[p] == PartState::scrap; });
}

Ledger open_ledger(const Roster& r) { return {starting_state(r), {}}; }

Ledger apply(const Roster& r, Ledger ledger, const Event& event) {
  const EntryFault fault = fault_of(r, ledger, event);
  ledger.entries.push_back({event, fault});
  if (fault != EntryFault::none) return ledger;
  if (!std::holds_alternative<Undone>(event.what)) {
    ledger.state = do_event(r, std::move(ledger.state), event);
    return ledger;
  }
  // An undo: fold again what still stands.
  ledger.state = starting_state(r);
  for (std::size_t i : effective(ledger.entries))
    ledger.state = do_event(r, std::move(ledger.state), ledger.entries[i].event);
  return ledger;
}

Ledger fold(const Roster& r, std::span<const Event> events) {
  Ledger ledger = open_ledger(r);
  for (const Event& e : events) ledger = apply(r, std::move(ledger), e);
  return ledger;
}

std::vector<std::size_t> standing(const Ledger& ledger) { return effective(ledger.entries); }

}  // namespace trammel::work
