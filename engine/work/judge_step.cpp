#include "work/judge_step.h"

#include <algorithm>
#include <utility>

#include "work/hold.h"
#include "work/release.h"
#include "work/tool.h"

namespace trammel::work {
namespace {

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
      case Need::Kind::support:
        return all_stand(before, n.support, n.subject.end, n.subject.side);
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
            support_of(before, entry.instance.end, entry.instance.side) != Support::on_stands)
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
        // What serves once is clamped once.
        if (rung(t.to) >= rung(FastenerState::final) && before.spent[i] && after.spent[i])
          say_fastener(FaultKind::new_nut_missing, i, was, t.to);
        // A check needs a final torque to check.
        if (rung(t.to) > rung(FastenerState::final) && below(was, FastenerState::final))
          say_fastener(FaultKind::checked_before_final, i, was, FastenerState::final);
        // What it clamps must be there.
        if (rung(t.to) >= rung(FastenerState::finger_tight) && !e.holds.empty() && !any_on(now, e.holds))
          say_fastener(FaultKind::fastened_without_part, i, was, t.to);
        // Final only as its end must stand.
        const auto only = r.procedure.fasteners[e.fastener].only_final;
        const bool stands_so = !only || all_stand(before, *only, e.instance.end);
        if (rung(t.to) >= rung(FastenerState::final) && shared_all_on && !stands_so)
          say_fastener(FaultKind::torqued_in_wrong_state, i, was, FastenerState::final);
      }
    }
    if (wants_tool && step().tools.empty()) say(FaultKind::tool_not_named, step().id);
  }

  // Wrenches and torque ranges against what the step turns.
  void tools() const {
    std::vector<Tool> all;
    for (const std::string& t : step().tools) {
      all.push_back(read_tool(t));
      if (const auto slip = slip_in(t))
        say(slip->kind == ToolSlip::Kind::misspelt ? FaultKind::tool_misspelt : FaultKind::tool_unread, t).other =
            slip->meant;
    }
    if (std::none_of(all.begin(), all.end(), [](const Tool& t) { return t.size || t.lowest; })) return;
    std::vector<const Fastener*> turned;
    const auto turn = [&](const Selector& s, bool by_wrench) {
      for (const Fastener& f : r.procedure.fasteners) {
        if (f.id != s.id || r.fasteners_of(s, x.side).empty()) continue;
        if (by_wrench && no_wrench_fits(all, f)) say(FaultKind::tool_fits_no_head, f.id).other = joined(step().tools);
        turned.push_back(&f);
      }
    };
    for (const Slacken& s : step().slacken) turn(s.fastener, true);
    for (const Tighten& t : step().tighten) {
      turn(t.fastener, rung(t.to) >= rung(FastenerState::snug) && rung(t.to) <= rung(FastenerState::final));
      for (const Fastener& f : r.procedure.fasteners)
        if (f.id == t.fastener.id && f.torque && rung(t.to) >= rung(FastenerState::final) &&
            no_wrench_reaches(all, *f.torque))
          say(FaultKind::tool_out_of_range, f.id).other = joined(step().tools);
    }
  }
  static std::string joined(const std::vector<std::string>& list) {
    std::string s;
    for (const std::string& t : list) s += (s.empty() ? "" : ", ") + t;
    return s;
  }

  // Drilled, cut or riveted twice, or with nothing looked at or measured first.
  void deeds() const {
    for (const Deed& d : step().deeds) {
      if (!irreversible(d.verb)) continue;
      const auto c = r.condition(condition_of(d));
      if (c && (before.conditions[*c] & x.mask) != 0) say(FaultKind::done_twice, condition_of(d));
      const bool looked = std::any_of(step().needs.begin(), step().needs.end(), [](const Need& n) {
        return n.kind == Need::Kind::condition || n.kind == Need::Kind::proof || n.kind == Need::Kind::step_done;
      });
      if (!looked && d.verb != Verb::rivet) say(FaultKind::cut_before_look, d.what);
    }
  }

  // A check proves something only where it says what is met, and in the state in which it can be made.
  void proofs() const {
    for (const std::string& id : step().proves) {
      if (step().evidence.empty()) say(FaultKind::check_proves_nothing, id);
      for (const Proof& p : r.procedure.proofs)
        if (p.id == id)
          for (const Need& n : p.only_while)
            if (!met(n)) say(FaultKind::check_proves_nothing, id).other = (n.absent ? "not " : "") + said(n);
    }
    for (const Proof& p : r.procedure.proofs)
      if (std::find(p.guards.begin(), p.guards.end(), step().id) != p.guards.end()) guarded(p.id, std::nullopt);
  }
  static std::string said(const Need& n) {
    std::string end = n.subject.end == End::front ? "front " : n.subject.end == End::rear ? "rear " : "";
    if (n.kind != Need::Kind::support) return n.subject.id;
    return end + (n.support == Support::on_wheels ? "on wheels"
                  : n.support == Support::jacked  ? "jacked"
                                                  : "on stands");
  }
  // A check that is made at all is made before what waits for it.
  void guarded(const std::string& proof, std::optional<Load> load) const {
    const auto i = r.proof(proof);
    const State& s = load ? after : before;
    if (!i || r.proofs[*i].reach == 0 || proof_state(r, s, *i) == ProofState::good) return;
    // One that the work never touches and never makes is not open.
    say(FaultKind::check_too_late, proof).load = load;
  }

  bool known_holds(const State& s, Known k) const { return work::known_holds(r, s, k); }
  bool knows(Known k) const {
    return std::any_of(r.conditions.begin(), r.conditions.end(),
                       [&](const NamedMask& c) { return c.meaning.known == k; });
  }

  // Chocks, props and isolation: the words of known.h that this step gives or ends.
  void words() const {
    for (const std::string& c : step().sets) {
      const auto i = r.condition(c);
      if (!i) continue;
      const Meaning& m = r.conditions[*i].meaning;
      for (const End e : {End::front, End::rear})
        if (m.known == Known::chocks && x.last_side && agree(m.end, e) && !on_floor(before, e) && !on_floor(after, e))
          say(FaultKind::chock_holds_nothing, c);
      const auto first = [&](Known wanted) {
        if (!known_holds(after, wanted))
          say(FaultKind::battery_out_of_order, c).other =
              std::string(isolation_words[static_cast<std::size_t>(wanted) - static_cast<std::size_t>(Known::key_out)]);
      };
      if (m.known == Known::switch_off && knows(Known::key_out)) first(Known::key_out);
      if (m.known == Known::negative_off) first(Known::switch_off);
      if (m.known == Known::zero_measured) first(Known::negative_off);
      if (m.known == Known::pack_isolated && knows(Known::negative_off)) first(Known::zero_measured);
    }
    bool power = false;
    for (const std::string& c : step().clears) {
      const auto i = r.condition(c);
      if (!i) continue;
      const Known k = r.conditions[*i].meaning.known;
      power |= k == Known::pack_isolated || k == Known::switch_off;
      // The switch last: the lead goes on while nothing can draw.
      if (k == Known::switch_off && known_holds(after, Known::negative_off))
        say(FaultKind::battery_out_of_order, c).other = "negative off";
      if (k == Known::negative_off && knows(Known::switch_off) && !known_holds(before, Known::switch_off))
        say(FaultKind::battery_out_of_order, c).other = "switch off";
    }
    // With the power back the wheels must not move the cart.
    if (power) {
      const bool lifted = r.procedure.driven != End::none && !on_floor(after, r.procedure.driven);
      if (!lifted && !hold_of(r, after, End::front).any() && !hold_of(r, after, End::rear).any())
        say(FaultKind::power_up_unheld, step().id);
    }
    live();
  }
  // Battery terminals, and whatever carries the battery caution, only with the pack off.
  void live() const {
    const auto off = [&](const State& s) {
      return known_holds(s, Known::negative_off) || known_holds(s, Known::pack_isolated);
    };
    if (off(before) || off(after)) return;
    const auto battery = [&](const Selector& f) {
      for (std::size_t i : r.fasteners_of(f, x.side))
        if (r.procedure.fasteners[r.fasteners[i].fastener].duty == Duty::battery) return true;
      return false;
    };
    for (const Slacken& s : step().slacken)
      if (battery(s.fastener)) return static_cast<void>(say(FaultKind::battery_live, s.fastener.id));
    for (const Tighten& t : step().tighten)
      if (battery(t.fastener)) return static_cast<void>(say(FaultKind::battery_live, t.fastener.id));
    if (std::find(step().hazards.begin(), step().hazards.end(), "battery") != step().hazards.end())
      say(FaultKind::battery_live, step().id);
  }

  // A wheel goes up: those that stay on the floor must not roll, once the step's own words hold.
  void rolling(const ApplyLoad& load, State& now) const {
    for (const End end : {End::front, End::rear}) {
      if (!agree(load.end, end)) continue;
      bool lifts = false;
      for (const Side side : {Side::left, Side::right}) {
        if (!agree(load.side, side)) continue;
        Support& corner = now.corners[(end == End::front ? 0U : 2U) + (side == Side::left ? 0U : 1U)];
        lifts = lifts || (corner == Support::on_wheels && load.load < Load::on_wheels);
        corner = load.load == Load::jacked      ? Support::jacked
                 : load.load == Load::on_stands ? Support::on_stands
                                                : Support::on_wheels;
      }
      if (!lifts || (!on_floor(now, End::front) && !on_floor(now, End::rear))) continue;
      if (hold_of(r, now, End::front).any() || hold_of(r, now, End::rear).any()) continue;
      const End other = end == End::front ? End::rear : End::front;
      say(brake_applied(r, now) ? FaultKind::brake_holds_nothing : FaultKind::nothing_holds,
          word_of(on_floor(now, other) ? other : end))
          .load = load.load;
    }
  }
  static const char* word_of(End e) { return e == End::front ? "front" : "rear"; }
  bool chocks_now(End e) const {
    for (const std::string& c : step().sets)
      if (const Meaning m = meaning_of(c); m.known == Known::chocks && agree(m.end, e)) return true;
    return false;
  }

  // A jack or stand under a part must be gone before the part moves or the cart stands and rolls.
  void props(const ApplyLoad& load) const {
    if (load.load < Load::on_wheels || !all_stand(after, Support::on_wheels, End::none)) return;
    for (std::size_t c = 0; c < r.conditions.size(); ++c)
      if (r.conditions[c].meaning.known == Known::prop && after.conditions[c] != 0)
        say(FaultKind::support_forgotten, r.conditions[c].name).load = load.load;
  }
  void props_under_removed() const {
    for (const Remove& m : step().removes)
      for (std::size_t c = 0; c < r.conditions.size(); ++c)
        if (r.conditions[c].meaning.known == Known::prop && r.conditions[c].meaning.prop == m.part.id &&
            after.conditions[c] != 0)
          say(FaultKind::support_under_moving_part, m.part.id).other = r.conditions[c].name;
  }

  // The second look and the checks that guard a drive come before it; power is back.
  void before_the_drive(const ApplyLoad& load) const {
    for (const Proof& p : r.procedure.proofs)
      for (const std::string& g : p.guards)
        if (const auto guarded_load = read_load(g); guarded_load == load.load) guarded(p.id, load.load);
    if (load.load < Load::driven_capped) return;
    if (known_holds(after, Known::pack_isolated) || known_holds(after, Known::negative_off) ||
        known_holds(after, Known::switch_off))
      say(FaultKind::driven_isolated, step().id).load = load.load;
    if (load.load != Load::driven_capped) return;
    for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
      const FastenerState wanted = least_for(r.fasteners[i].least, Load::released);
      if (rung(wanted) > rung(FastenerState::final) && !below(after.fasteners[i], FastenerState::final) &&
          below(after.fasteners[i], wanted) && counts(r, after, i))
        say_fastener(FaultKind::second_look_late, i, after.fasteners[i], wanted, load.load);
    }
  }

  // Taken to nut-off or out while its end stands on the wheels.
  void loosened_under_load() const {
    for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
      const FastenerState was = before.fasteners[i], is = after.fasteners[i];
      const FastenerState least = least_for(r.fasteners[i].least, Load::on_wheels);
      const Instance& at_place = r.fasteners[i].instance;
      if (!on_ladder(is) || rung(is) >= rung(was) || rung(is) > rung(FastenerState::nut_off)) continue;
      const bool on_ground = support_of(before, at_place.end, at_place.side) == Support::on_wheels;
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
      const Instance& at_place = r.parts[p].instance;
      if (r.procedure.parts[r.parts[p].part].kind != PartKind::wheel || !agree(load.end, at_place.end) ||
          !agree(load.side, at_place.side))
        continue;
      const bool off = after.parts[p] == PartState::off || after.parts[p] == PartState::scrap;
      if (off && !any_on(after, r.parts[p].replaced_by))
        say(FaultKind::wheel_on_ground_loose, r.parts[p].name).load = load.load;
    }
  }

  void loads() const {
    props_under_removed();
    if (!x.last_side) return;
    // As the step's loads come on one after another, with its own words in force.
    State now = after;
    now.corners = before.corners;
    for (const End e : {End::front, End::rear})
      now.chocked[e == End::front ? 0 : 1] = before.chocked[e == End::front ? 0 : 1] || chocks_now(e);
    for (const ApplyLoad& load : step().loads) {
      if (load.load <= Load::on_wheels) rolling(load, now);
      props(load);
      before_the_drive(load);
      if (load.load >= Load::rolled)
        for (const End e : {End::front, End::rear})
          if (support_of(after, e) != Support::on_wheels) say(FaultKind::not_on_wheels, word_of(e)).load = load.load;
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
      const Side side = load.load <= Load::on_wheels ? load.side : Side::none;
      for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
        const FastenerState least = least_for(r.fasteners[i].least, load.load);
        if (!agree(end, r.fasteners[i].instance.end) || !agree(side, r.fasteners[i].instance.side) ||
            !counts(r, after, i) || !below(after.fasteners[i], least))
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
    tools();
    deeds();
    proofs();
    words();
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

bool slackens(const Roster& r, std::size_t fastener) {
  for (const ExpandedStep& x : r.order)
    for (const Slacken& s : r.procedure.steps[x.step].slacken)
      for (std::size_t i : r.fasteners_of(s.fastener, x.side))
        if (i == fastener) return true;
  return false;
}

}  // namespace

void judge_step(const Roster& r, std::size_t at, const State& before, const State& after, std::vector<Fault>& out) {
  StepJudge{r, r.order[at], at, before, after, out}.judge();
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
        Fault& f = say(slackens(r, *r.fastener(why.subject)) ? FaultKind::slackened_never_finished
                                                             : FaultKind::fastener_never_final,
                       why.subject);
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

}  // namespace trammel::work
