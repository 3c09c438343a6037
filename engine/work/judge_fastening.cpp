// Parts off and on, and fasteners made fast, in the state that the step meets.
#include <algorithm>

#include "work/asked.h"
#include "work/judging.h"

namespace trammel::work {
namespace {

struct Fastening : Judging {
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
        if (is_on(now, p)) say(FaultKind::part_already_on, r.parts[p].name);
        if (now.parts[p] == PartState::scrap) say(FaultKind::part_is_scrap, r.parts[p].name);
        for (std::size_t old = 0; old < r.parts.size(); ++old) {
          const auto& by = r.parts[old].replaced_by;
          if (is_on(now, old) && std::find(by.begin(), by.end(), p) != by.end())
            say(FaultKind::part_not_off, r.parts[p].name).other = r.parts[old].name;
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
        // To tighten to less than what it is at does nothing: it was to be loosened first. Final again is a re-torque.
        if (on_ladder(was) && rung(was) > rung(t.to) && rung(t.to) >= rung(FastenerState::snug) &&
            t.to != FastenerState::final)
          say_fastener(FaultKind::tighter_already, i, was, t.to);
        now.fasteners[i] =
            tightened(was, shared_all_on || rung(t.to) <= rung(FastenerState::snug) ? t.to : FastenerState::snug);
        // What serves once is clamped once.
        if (rung(t.to) >= rung(FastenerState::final) && below(was, FastenerState::final) &&
            asked_of(r, before, i).spent && after.spent[i])
          say_fastener(FaultKind::new_nut_missing, i, was, t.to);
        // A check needs a final torque to check.
        if (rung(t.to) > rung(FastenerState::final) && below(was, FastenerState::final))
          say_fastener(FaultKind::checked_before_final, i, was, FastenerState::final);
        // What it clamps must be there.
        if (rung(t.to) >= rung(FastenerState::finger_tight) && !e.holds.empty() && !any_on(now, e.holds))
          say_fastener(FaultKind::fastened_without_part, i, was, t.to);
        // Final only as its end must stand.
        if (rung(t.to) >= rung(FastenerState::final) && shared_all_on && !stands_for_final(r, before, i))
          say_fastener(FaultKind::torqued_in_wrong_state, i, was, FastenerState::final);
        // At ride height: what came down stands too high until it has rolled.
        if (const auto only = r.procedure.fasteners[e.fastener].only_final;
            t.to == FastenerState::final && only == Support::on_wheels && all_stand(before, *only, e.instance.end) &&
            !settled(before, e.instance.end))
          say(FaultKind::not_settled, e.name);
      }
    }
    if (wants_tool && step().tools.empty()) say(FaultKind::tool_not_named, step().id);
  }
};

}  // namespace

void judge_fastening(const Judging& judging) {
  const Fastening now{judging};
  now.removals();
  now.fittings();
  now.tightenings();
}

}  // namespace trammel::work
