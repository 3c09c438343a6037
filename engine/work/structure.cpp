// What can be judged without walking: names that are given twice or name nothing.
#include <algorithm>
#include <set>

#include "work/order.h"
#include "work/walk.h"

namespace trammel::work {
namespace {

struct Judge {
  const Roster& r;
  std::vector<Fault>& out;

  void say(FaultKind kind, const std::string& step, std::string subject) const {
    Fault f;
    f.kind = kind;
    f.step = step;
    f.subject = std::move(subject);
    out.push_back(std::move(f));
  }

  template <class List>
  void duplicates(const List& list) const {
    std::set<std::string> seen;
    for (const auto& x : list)
      if (!seen.insert(x.id).second) say(FaultKind::duplicate_id, {}, x.id);
  }

  // The group must exist, and the step must reach at least one instance on some side.
  void fastener(const Selector& s, const std::string& step, Sides sides = Sides::once) const {
    if (!r.fastener_group.contains(s.id)) return say(FaultKind::unknown_fastener, step, s.id);
    if (nothing([&](Side side) { return r.fasteners_of(s, side).empty(); }, sides))
      say(other_side(s, sides) ? FaultKind::wrong_side : FaultKind::names_nothing, step, s.id);
  }
  void part(const Selector& s, const std::string& step, FaultKind unknown, Sides sides = Sides::once) const {
    if (!r.part_group.contains(s.id)) return say(unknown, step, s.id);
    if (nothing([&](Side side) { return r.parts_of(s, side).empty(); }, sides))
      say(other_side(s, sides) ? FaultKind::wrong_side : FaultKind::names_nothing, step, s.id);
  }
  // A left part or bolt in a step of the right side.
  static bool other_side(const Selector& s, Sides sides) {
    return (sides == Sides::left && s.side == Side::right) || (sides == Sides::right && s.side == Side::left);
  }
  template <class Empty>
  static bool nothing(Empty empty, Sides sides) {
    switch (sides) {
      case Sides::left:
        return empty(Side::left);
      case Sides::right:
        return empty(Side::right);
      case Sides::each:
        return empty(Side::left) && empty(Side::right);
      case Sides::once:
        break;
    }
    return empty(Side::none);
  }

  void need(const Need& n, const std::string& step) const {
    switch (n.kind) {
      case Need::Kind::condition:
        if (!n.absent && !r.condition(n.subject.id)) say(FaultKind::unknown_condition, step, n.subject.id);
        break;
      case Need::Kind::proof:
        if (!r.proof(n.subject.id)) say(FaultKind::unknown_condition, step, n.subject.id);
        break;
      case Need::Kind::step_done:
        if (!r.step(n.subject.id)) say(FaultKind::unknown_step, step, n.subject.id);
        break;
      case Need::Kind::part_on:
      case Need::Kind::part_off:
        part(n.subject, step, FaultKind::unknown_part);
        break;
      case Need::Kind::fastener_at_least:
        fastener(n.subject, step);
        break;
      case Need::Kind::support:
        break;
    }
  }
};

}  // namespace

std::vector<Fault> check_structure(const Roster& r) {
  std::vector<Fault> out;
  const Judge judge{r, out};
  const Procedure& p = r.procedure;
  if (p.steps.empty()) judge.say(FaultKind::no_steps, {}, p.name);
  judge.duplicates(p.fasteners);
  judge.duplicates(p.parts);
  judge.duplicates(p.proofs);
  judge.duplicates(p.steps);
  // What fasteners hold, parts replace, and proofs depend on.
  for (const Fastener& f : p.fasteners)
    for (const std::string& h : f.holds) judge.part({h}, {}, FaultKind::unknown_part);
  for (const Part& x : p.parts)
    if (!x.replaces.empty()) judge.part({x.replaces}, {}, FaultKind::unknown_part);
  for (const Proof& x : p.proofs) {
    for (const Selector& s : x.voided_by_slackening) judge.fastener(s, {});
    for (const Selector& s : x.voided_by_removing) judge.part(s, {}, FaultKind::unknown_part);
  }
  // The pack holds what the steps can fit, no fewer and no more.
  for (const Part& x : p.parts)
    if (x.count && x.source == PartSource::in_pack &&
        static_cast<std::size_t>(*x.count) != std::max<std::size_t>(x.instances.size(), 1)) {
      judge.say(FaultKind::pack_count, {}, x.id);
      out.back().other = std::to_string(*x.count) + " in the pack, " +
                         std::to_string(std::max<std::size_t>(x.instances.size(), 1)) + " to fit";
    }
  // What holds the cart up or steers it is fitted with fasteners that the kit counts, be they another kit's.
  const auto held = [&](const std::string& part) {
    const auto names = [&](const std::vector<std::string>& holds) {
      return std::find(holds.begin(), holds.end(), part) != holds.end();
    };
    return std::any_of(p.fasteners.begin(), p.fasteners.end(), [&](const Fastener& f) {
      return names(f.holds) ||
             std::any_of(f.shared.begin(), f.shared.end(), [&](const Share& share) { return names(share.holds); });
    });
  };
  for (const Step& s : p.steps)
    for (const Selector& fitted : s.fits)
      for (const Part& x : p.parts)
        if (x.id == fitted.id && x.kind != PartKind::body && !held(x.id))
          judge.say(FaultKind::part_held_by_nothing, s.id, x.id);
  // Steps that wait for one another can never be done.
  for (const auto& cycle : topological_order(p).cycles) {
    judge.say(FaultKind::never_reachable, p.steps[cycle.front()].id, p.steps[cycle.front()].id);
    for (std::size_t i : cycle) out.back().other += (out.back().other.empty() ? "" : ", ") + p.steps[i].id;
  }
  // What steps name.
  for (const Step& s : p.steps) {
    for (const Need& n : s.needs) judge.need(n, s.id);
    for (const Slacken& x : s.slacken) judge.fastener(x.fastener, s.id, s.sides);
    for (const Remove& x : s.removes) judge.part(x.part, s.id, FaultKind::unknown_part, s.sides);
    for (const Selector& x : s.fits) judge.part(x, s.id, FaultKind::part_fitted_never_supplied, s.sides);
    for (const Tighten& x : s.tighten) judge.fastener(x.fastener, s.id, s.sides);
    for (const Selector& x : s.undoes_torque) judge.fastener(x, s.id, s.sides);
  }
  return out;
}

}  // namespace trammel::work
