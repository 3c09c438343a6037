#include "work/walk.h"

#include <algorithm>
#include <array>
#include <tuple>
#include <utility>

namespace trammel::work {
namespace {

constexpr std::array<std::string_view, 28> fault_words = {"duplicate_id",
                                                          "unknown_fastener",
                                                          "unknown_part",
                                                          "unknown_step",
                                                          "unknown_condition",
                                                          "names_nothing",
                                                          "no_steps",
                                                          "need_not_met",
                                                          "support_missing",
                                                          "person_under_jack",
                                                          "part_still_fastened",
                                                          "part_not_off",
                                                          "part_fitted_never_supplied",
                                                          "part_not_on",
                                                          "torqued_in_wrong_state",
                                                          "fastened_without_part",
                                                          "checked_before_final",
                                                          "below_least_state",
                                                          "wheel_on_ground_loose",
                                                          "not_on_wheels",
                                                          "tool_not_named",
                                                          "release_refused",
                                                          "side_missed",
                                                          "fastener_never_final",
                                                          "proof_voided_not_repeated",
                                                          "proof_never_made",
                                                          "part_off_never_refitted",
                                                          "part_never_fitted"};

constexpr std::array wheel_loads = {Load::on_wheels, Load::rolled, Load::driven_capped, Load::released};

bool is_on(const State& s, std::size_t part) { return s.parts[part] == PartState::on; }

bool any_on(const State& s, const std::vector<std::size_t>& parts) {
  return std::any_of(parts.begin(), parts.end(), [&](std::size_t p) { return is_on(s, p); });
}

// Judges one step on one side: `before` is the state it meets, `after` the one it leaves.
struct StepJudge {
  const Roster& r;
  const ExpandedStep& x;
  std::size_t at;
  const State& before;
  const State& after;
  std::vector<Fault>& out;

  const Step& step() const { return r.procedure.steps[x.step]; }

  Fault& say(FaultKind kind, std::string subject) const {
    Fault f;
    f.kind = kind;
    f.at = at;
    f.step = step().id;
    f.side = x.side;
    f.subject = std::move(subject);
    out.push_back(std::move(f));
    return out.back();
  }
  void say_fastener(FaultKind kind, std::size_t i, FastenerState state, FastenerState least,
                    std::optional<Load> load = std::nullopt) const {
    Fault& f = say(kind, r.fasteners[i].name);
    f.state = state;
    f.least = least;
    f.load = load;
  }

  bool met(const Need& n) const {
    const auto all = [](const std::vector<std::size_t>& list, auto ok) {
      return std::all_of(list.begin(), list.end(), ok);
    };
    switch (n.kind) {
      case Need::Kind::condition: {
        const auto i = r.condition(n.subject.id);
        return !i || condition_holds(r, before, *i, x.side) != n.absent;  // an unknown one is a fault of structure
      }
      case Need::Kind::proof: {
        const auto i = r.proof(n.subject.id);
        return !i || proof_state(r, before, *i) == ProofState::good;
      }
      case Need::Kind::support: {
        if (n.subject.end != End::none) return support_of(before, n.subject.end) == n.support;
        return before.ends[0] == n.support && before.ends[1] == n.support;
      }
      case Need::Kind::part_on:
        return all(r.parts_of(n.subject, x.side), [&](std::size_t i) { return is_on(before, i); });
      case Need::Kind::part_off:
        return all(r.parts_of(n.subject, x.side), [&](std::size_t i) { return !is_on(before, i); });
      case Need::Kind::step_done: {
        const auto i = r.step(n.subject.id);
        if (!i) return true;
        const Mask asked =
            (x.mask & r.step_reach[*i]) != 0 ? static_cast<Mask>(x.mask & r.step_reach[*i]) : r.step_reach[*i];
        return (before.done[*i] & asked) == asked;
      }
      case Need::Kind::fastener_at_least:
        return all(r.fasteners_of(n.subject, x.side),
                   [&](std::size_t i) { return !below(before.fasteners[i], n.least); });
    }
    return false;
  }

  void needs() const {
    for (const Need& n : step().needs)
      if (!met(n)) {
        Fault& f = say(FaultKind::need_not_met, n.subject.id);
        f.need = n.kind;
        f.least = n.least;
      }
  }

  void people() const {
    if (step().person_under && support_of(before, End::none) == Support::jacked)
      say(FaultKind::person_under_jack, step().id);
  }

  // Stands first; then every fastener that holds the part is out or a pivot without its nut.
  void removals() const {
    std::vector<FastenerState> loosened = before.fasteners;
    for (const Slacken& s : step().slacken)
      for (std::size_t i : r.fasteners_of(s.fastener, x.side)) loosened[i] = slackened(loosened[i], s.to);
    for (const Remove& m : step().removes)
      for (std::size_t p : r.parts_of(m.part, x.side)) {
        const PartEntry& entry = r.parts[p];
        if (!is_on(before, p)) say(FaultKind::part_not_on, entry.name);
        if (r.procedure.parts[entry.part].kind != PartKind::body &&
            support_of(before, entry.instance.end) != Support::on_stands)
          say(FaultKind::support_missing, entry.name);
        for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
          const auto& holds = r.fasteners[i].holds;
          if (std::find(holds.begin(), holds.end(), p) == holds.end()) continue;
          if (!on_ladder(loosened[i]) || rung(loosened[i]) > rung(FastenerState::nut_off))
            say_fastener(FaultKind::part_still_fastened, i, loosened[i], FastenerState::nut_off);
        }
      }
  }

  // A part goes on once, from the pack or the bench, where its forerunner is off.
  void fittings() const {
    State now = before;
    for (const Remove& m : step().removes)
      for (std::size_t p : r.parts_of(m.part, x.side)) now.parts[p] = m.scrap ? PartState::scrap : PartState::off;
    for (const Selector& f : step().fits)
      for (std::size_t p : r.parts_of(f, x.side)) {
        if (is_on(now, p)) say(FaultKind::part_not_off, r.parts[p].name);
        if (now.parts[p] == PartState::scrap) say(FaultKind::part_fitted_never_supplied, r.parts[p].name);
        for (std::size_t old = 0; old < r.parts.size(); ++old) {
          const auto& by = r.parts[old].replaced_by;
          if (is_on(now, old) && std::find(by.begin(), by.end(), p) != by.end())
            say(FaultKind::part_not_off, r.parts[old].name);
        }
      }
  }

  void tightenings() const {
    State now = before;
    now.parts = after.parts;
    for (const Slacken& s : step().slacken)
      for (std::size_t i : r.fasteners_of(s.fastener, x.side)) now.fasteners[i] = slackened(now.fasteners[i], s.to);
    bool wants_tool = false;
    for (const Tighten& t : step().tighten) {
      wants_tool |= rung(t.to) >= rung(FastenerState::snug);
      for (std::size_t i : r.fasteners_of(t.fastener, x.side)) {
        const FastenerEntry& e = r.fasteners[i];
        const bool shared_all_on =
            std::all_of(e.waits_for.begin(), e.waits_for.end(), [&](std::size_t p) { return is_on(now, p); });
        const FastenerState was = now.fasteners[i];
        now.fasteners[i] =
            tightened(was, shared_all_on || rung(t.to) <= rung(FastenerState::snug) ? t.to : FastenerState::snug);
        // A check needs a final torque to check.
        if (rung(t.to) > rung(FastenerState::final) && below(was, FastenerState::final))
          say_fastener(FaultKind::checked_before_final, i, was, FastenerState::final);
        // What it clamps must be there.
        if (rung(t.to) >= rung(FastenerState::finger_tight) && !e.holds.empty() && !any_on(now, e.holds))
          say_fastener(FaultKind::fastened_without_part, i, was, t.to);
        // Final only as its end must stand.
        const auto only = r.procedure.fasteners[e.fastener].only_final;
        const bool stands_so =
            !only || (e.instance.end != End::none ? support_of(before, e.instance.end) == *only
                                                  : before.ends[0] == *only && before.ends[1] == *only);
        if (rung(t.to) >= rung(FastenerState::final) && shared_all_on && !stands_so)
          say_fastener(FaultKind::torqued_in_wrong_state, i, was, FastenerState::final);
      }
    }
    if (wants_tool && step().tools.empty()) say(FaultKind::tool_not_named, step().id);
  }

  // Taken to nut-off or out while its end stands on the wheels.
  void loosened_under_load() const {
    for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
      const FastenerState was = before.fasteners[i], is = after.fasteners[i];
      const FastenerState least = least_for(r.fasteners[i].least, Load::on_wheels);
      const End end = r.fasteners[i].instance.end;
      if (!on_ladder(is) || rung(is) >= rung(was) || rung(is) > rung(FastenerState::nut_off)) continue;
      const bool on_ground = end != End::none ? support_of(before, end) == Support::on_wheels
                                              : support_of(before, End::none) == Support::on_wheels;
      if (on_ground && counts(r, after, i) && below(is, least))
        say_fastener(loose_kind(i, Load::on_wheels), i, is, least, Load::on_wheels);
    }
  }

  FaultKind loose_kind(std::size_t i, Load load) const {
    const bool wheel = r.procedure.fasteners[r.fasteners[i].fastener].duty == Duty::wheel;
    return wheel && load >= Load::on_wheels ? FaultKind::wheel_on_ground_loose : FaultKind::below_least_state;
  }

  // A wheel that is off, with no other in its place, at an end that goes down.
  void wheels_there(const ApplyLoad& load) const {
    for (std::size_t p = 0; p < r.parts.size(); ++p) {
      if (r.procedure.parts[r.parts[p].part].kind != PartKind::wheel || !agree(load.end, r.parts[p].instance.end))
        continue;
      const bool off = after.parts[p] == PartState::off || after.parts[p] == PartState::scrap;
      if (off && !any_on(after, r.parts[p].replaced_by))
        say(FaultKind::wheel_on_ground_loose, r.parts[p].name).load = load.load;
    }
  }

  void loads() const {
    if (!x.last_side) return;
    for (const ApplyLoad& load : step().loads) {
      if (load.load >= Load::rolled)
        for (std::size_t e : {0U, 1U})
          if (after.ends[e] != Support::on_wheels)
            say(FaultKind::not_on_wheels, e == 0 ? "front" : "rear").load = load.load;
      if (load.load == Load::released) {
        for (const RefusedBy& why : release(r, after).refused_by) {
          Fault& f = say(FaultKind::release_refused, why.subject);
          f.load = Load::released;
          f.state = why.state;
        }
        continue;
      }
      if (load.load >= Load::on_wheels) wheels_there(load);
      const End end = load.load <= Load::on_wheels ? load.end : End::none;
      for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
        const FastenerState least = least_for(r.fasteners[i].least, load.load);
        if (!agree(end, r.fasteners[i].instance.end) || !counts(r, after, i) || !below(after.fasteners[i], least))
          continue;
        say_fastener(loose_kind(i, load.load), i, after.fasteners[i], least, load.load);
      }
    }
  }

  void judge() const {
    needs();
    people();
    removals();
    fittings();
    tightenings();
    loosened_under_load();
    loads();
  }
};

// What every step does to each instance, to compare a left one with its mirror image.
using Deed = std::pair<int, int>;
std::vector<std::vector<Deed>> deeds_of_fasteners(const Roster& r) {
  std::vector<std::vector<Deed>> deeds(r.fasteners.size());
  for (const ExpandedStep& x : r.order) {
    const Step& s = r.procedure.steps[x.step];
    for (const Slacken& d : s.slacken)
      for (std::size_t i : r.fasteners_of(d.fastener, x.side)) deeds[i].push_back({0, static_cast<int>(d.to)});
    for (const Tighten& d : s.tighten)
      for (std::size_t i : r.fasteners_of(d.fastener, x.side)) deeds[i].push_back({1, static_cast<int>(d.to)});
    for (const Selector& d : s.undoes_torque)
      for (std::size_t i : r.fasteners_of(d, x.side)) deeds[i].push_back({2, 0});
  }
  return deeds;
}
std::vector<std::vector<Deed>> deeds_of_parts(const Roster& r) {
  std::vector<std::vector<Deed>> deeds(r.parts.size());
  for (const ExpandedStep& x : r.order) {
    const Step& s = r.procedure.steps[x.step];
    for (const Remove& d : s.removes)
      for (std::size_t i : r.parts_of(d.part, x.side)) deeds[i].push_back({0, d.scrap ? 1 : 0});
    for (const Selector& d : s.fits)
      for (std::size_t i : r.parts_of(d, x.side)) deeds[i].push_back({1, 0});
  }
  return deeds;
}

template <class Entries>
void compare_sides(const Entries& entries, std::vector<std::vector<Deed>> deeds, std::vector<Fault>& out) {
  for (auto& d : deeds) std::sort(d.begin(), d.end());
  for (std::size_t a = 0; a < entries.size(); ++a) {
    if (entries[a].instance.side != Side::left) continue;
    Instance mirror = entries[a].instance;
    mirror.side = Side::right;
    for (std::size_t b = 0; b < entries.size(); ++b)
      if (entries[b].instance == mirror && deeds[a] != deeds[b]) {
        Fault f;
        f.kind = FaultKind::side_missed;
        f.subject = entries[deeds[a].size() < deeds[b].size() ? a : b].name;
        f.side = deeds[a].size() < deeds[b].size() ? Side::left : Side::right;
        out.push_back(std::move(f));
      }
  }
}

// What only the end shows.
void judge_end(const Roster& r, const State& end, std::vector<Fault>& out) {
  const auto say = [&](FaultKind kind, std::string subject) -> Fault& {
    Fault f;
    f.kind = kind;
    f.subject = std::move(subject);
    out.push_back(std::move(f));
    return out.back();
  };
  compare_sides(r.fasteners, deeds_of_fasteners(r), out);
  compare_sides(r.parts, deeds_of_parts(r), out);
  for (const NamedMask& p : r.proofs)
    if (p.reach == left_bit || p.reach == right_bit)
      say(FaultKind::side_missed, p.name).side = p.reach == left_bit ? Side::right : Side::left;
  for (const RefusedBy& why : release(r, end).refused_by) switch (why.why) {
      case Refusal::fastener_below_final:
      case Refusal::fastener_not_checked:
      case Refusal::fastener_off_ladder: {
        Fault& f = say(FaultKind::fastener_never_final, why.subject);
        f.state = why.state;
        f.least = least_for(r.fasteners[*r.fastener(why.subject)].least, Load::released);
        break;
      }
      case Refusal::proof_voided:
      case Refusal::proof_disputed:
        say(FaultKind::proof_voided_not_repeated, why.subject);
        break;
      case Refusal::proof_never_made:
        say(FaultKind::proof_never_made, why.subject);
        break;
      case Refusal::part_off:
        say(FaultKind::part_off_never_refitted, why.subject);
        break;
      case Refusal::part_not_fitted:
        say(FaultKind::part_never_fitted, why.subject);
        break;
      case Refusal::end_not_on_wheels:
        say(FaultKind::not_on_wheels, why.subject);
        break;
      case Refusal::step_not_done:
        break;
    }
}

}  // namespace

std::string_view word(FaultKind kind) { return fault_words[static_cast<std::size_t>(kind)]; }

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
    StepJudge{r, x, at, before, done.after, w.faults}.judge();
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
