#include "work/roster.h"

#include <algorithm>

namespace trammel::work {
namespace {

std::optional<std::size_t> look_up(const std::unordered_map<std::string, std::size_t>& map, std::string_view key) {
  const auto it = map.find(std::string(key));
  if (it == map.end()) return std::nullopt;
  return it->second;
}

std::vector<Instance> instances_or_one(const std::string& id, const std::vector<Instance>& given) {
  return given.empty() ? std::vector<Instance>{Instance{id}} : given;
}

Mask mask_of(Sides sides) {
  switch (sides) {
    case Sides::left:
      return left_bit;
    case Sides::right:
      return right_bit;
    case Sides::once:
    case Sides::each:
      break;
  }
  return both_sides;
}

void add_named(std::vector<NamedMask>& list, std::unordered_map<std::string, std::size_t>& at, const std::string& name,
               Mask reach) {
  const auto [it, fresh] = at.emplace(name, list.size());
  if (fresh) list.push_back({name, 0, {}});
  list[it->second].reach |= reach;
}

// Final where it holds a part of the cart, or where the first step that names it loosens it; else out.
FastenerState found_from_steps(const Roster& r, std::size_t entry) {
  for (std::size_t k : r.fasteners[entry].holds)
    if (r.procedure.parts[r.parts[k].part].source == PartSource::on_cart) return FastenerState::final;
  const Instance& instance = r.fasteners[entry].instance;
  const auto named = [&](const Selector& s) { return s.id == instance.group && picks(s, instance); };
  for (const ExpandedStep& e : r.order) {
    if (!agree(e.side, instance.side)) continue;
    const Step& step = r.procedure.steps[e.step];
    for (const Slacken& s : step.slacken)
      if (named(s.fastener)) return FastenerState::final;
    for (const Tighten& t : step.tighten)
      if (named(t.fastener))
        // A check by a second person of what no step made final speaks of one that was final already.
        return rung(t.to) > rung(FastenerState::final) ? FastenerState::final : FastenerState::out;
    for (const Selector& s : step.undoes_torque)
      if (named(s)) return FastenerState::final;
  }
  return FastenerState::out;
}

}  // namespace

std::optional<std::size_t> Roster::fastener(std::string_view n) const { return look_up(fastener_at, n); }
std::optional<std::size_t> Roster::part(std::string_view n) const { return look_up(part_at, n); }
std::optional<std::size_t> Roster::condition(std::string_view n) const { return look_up(condition_at, n); }
std::optional<std::size_t> Roster::proof(std::string_view n) const { return look_up(proof_at, n); }
std::optional<std::size_t> Roster::step(std::string_view n) const { return look_up(step_at, n); }

bool Roster::guarded(Load load, std::size_t proof) const {
  const std::string& id = proofs[proof].name;
  if (load == Load::driven_capped && guards_the_drive(id)) return true;
  for (const Proof& p : procedure.proofs)
    if (p.id == id)
      for (const std::string& g : p.guards)
        if (read_load(g) == load) return true;
  return false;
}

std::string Roster::group_of(const std::string& n) const {
  if (const auto i = fastener(n)) return fasteners[*i].instance.group;
  if (const auto i = part(n)) return parts[*i].instance.group;
  return n.substr(0, n.find(' '));
}

std::vector<std::size_t> Roster::fasteners_of(const Selector& s, Side side) const {
  std::vector<std::size_t> out;
  const auto group = fastener_group.find(s.id);
  if (group == fastener_group.end()) return out;
  for (std::size_t i : group->second)
    if (picks(s, fasteners[i].instance) && agree(side, fasteners[i].instance.side)) out.push_back(i);
  return out;
}

std::vector<std::size_t> Roster::parts_of(const Selector& s, Side side) const {
  std::vector<std::size_t> out;
  const auto group = part_group.find(s.id);
  if (group == part_group.end()) return out;
  for (std::size_t i : group->second)
    if (picks(s, parts[i].instance) && agree(side, parts[i].instance.side)) out.push_back(i);
  return out;
}

Roster make_roster(Procedure procedure) {
  Roster r;
  r.procedure = std::move(procedure);
  const Procedure& p = r.procedure;

  // Parts, and which replaces which in the same place.
  for (std::size_t g = 0; g < p.parts.size(); ++g)
    for (const Instance& i : instances_or_one(p.parts[g].id, p.parts[g].instances)) {
      PartEntry e{i, {}, g, {}};
      e.instance.group = p.parts[g].id;
      e.name = name(e.instance);
      r.part_at.emplace(e.name, r.parts.size());
      r.part_group[e.instance.group].push_back(r.parts.size());
      r.parts.push_back(std::move(e));
    }
  const auto in_place = [&](const std::string& part, const Instance& where) {
    std::vector<std::size_t> out;
    if (const auto group = r.part_group.find(part); group != r.part_group.end())
      for (std::size_t i : group->second)
        if (agree(r.parts[i].instance.side, where.side) && agree(r.parts[i].instance.end, where.end)) out.push_back(i);
    return out;
  };
  for (std::size_t i = 0; i < r.parts.size(); ++i)
    for (std::size_t old : in_place(p.parts[r.parts[i].part].replaces, r.parts[i].instance))
      r.parts[old].replaced_by.push_back(i);

  // The steps, each side written out.
  for (std::size_t s = 0; s < p.steps.size(); ++s) {
    r.step_at.emplace(p.steps[s].id, s);
    r.step_reach.push_back(mask_of(p.steps[s].sides));
    switch (p.steps[s].sides) {
      case Sides::once:
        r.order.push_back({s, Side::none, both_sides, true});
        break;
      case Sides::left:
        r.order.push_back({s, Side::left, left_bit, true});
        break;
      case Sides::right:
        r.order.push_back({s, Side::right, right_bit, true});
        break;
      case Sides::each:
        r.order.push_back({s, Side::left, left_bit, false});
        r.order.push_back({s, Side::right, right_bit, true});
        break;
    }
  }

  ReadTools known;
  for (const Step& s : p.steps) r.tools.push_back(step_tools(s, known));

  // Fastener instances with what they hold and how they are found.
  for (std::size_t g = 0; g < p.fasteners.size(); ++g) {
    const Fastener& f = p.fasteners[g];
    for (const Instance& i : instances_or_one(f.id, f.instances)) {
      FastenerEntry e;
      e.instance = i;
      e.instance.group = f.id;
      e.name = name(e.instance);
      e.fastener = g;
      e.least = resolve_least(f.duty, f.least);
      e.spec = f.id;
      for (const std::string& part : f.holds)
        for (std::size_t k : in_place(part, e.instance)) e.holds.push_back(k);
      for (const Share& share : f.shared)
        if (picks(share.instances, e.instance)) {
          e.spec = share.spec_from;
          for (const std::string& part : share.holds)
            for (std::size_t k : in_place(part, e.instance)) {
              e.holds.push_back(k);
              e.waits_for.push_back(k);
            }
          // Of the first kit's parts, those that are new: of an old part and its replacement only one is on.
          for (std::size_t k : e.holds)
            if (p.parts[r.parts[k].part].source == PartSource::in_pack &&
                std::find(e.waits_for.begin(), e.waits_for.end(), k) == e.waits_for.end())
              e.waits_for.push_back(k);
        }
      r.fastener_at.emplace(e.name, r.fasteners.size());
      r.fastener_group[f.id].push_back(r.fasteners.size());
      r.fasteners.push_back(std::move(e));
    }
  }
  for (std::size_t i = 0; i < r.fasteners.size(); ++i)
    r.fasteners[i].as_found = p.fasteners[r.fasteners[i].fastener].as_found.value_or(found_from_steps(r, i));

  // Conditions and proofs, in the order in which they are first named.
  for (const std::string& c : p.given) add_named(r.conditions, r.condition_at, c, both_sides);
  for (const Proof& proof : p.proofs) add_named(r.proofs, r.proof_at, proof.id, 0);
  for (std::size_t s = 0; s < p.steps.size(); ++s) {
    for (const std::string& c : p.steps[s].sets) add_named(r.conditions, r.condition_at, c, r.step_reach[s]);
    for (const Deed& d : p.steps[s].deeds) add_named(r.conditions, r.condition_at, condition_of(d), r.step_reach[s]);
    for (const std::string& q : p.steps[s].proves) add_named(r.proofs, r.proof_at, q, r.step_reach[s]);
    for (const std::string& q : p.steps[s].undoes) add_named(r.proofs, r.proof_at, q, 0);
  }
  for (NamedMask& c : r.conditions) c.meaning = meaning_of(c.name);
  return r;
}

}  // namespace trammel::work
