// What a load may not come on: loose fasteners, missing wheels, forgotten props, wheels that nothing holds.
#include <algorithm>

#include "work/judging.h"
#include "work/release.h"

namespace trammel::work {
namespace {

struct Loading : Judging {
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

  // A brake that is on by itself while the power is off: let go to roll the cart by hand, on again to drive it.
  void power_off_brake(const ApplyLoad& load) const {
    const End end = power_off_end(r);
    if (end == End::none || load.load < Load::rolled) return;
    const bool let_go = known_holds(r, after, Known::brake_released);
    if (load.load == Load::rolled && !let_go) say(FaultKind::brake_against_rolling, word_of(end)).load = load.load;
    if (load.load > Load::rolled && let_go) say(FaultKind::brake_left_released, word_of(end)).load = load.load;
  }

  // The second look and the checks that guard a drive come before it; power is back.
  void before_the_drive(const ApplyLoad& load) const {
    for (std::size_t i = 0; i < r.proofs.size(); ++i)
      if (holds_back(r, after, load.load, i)) say(FaultKind::check_too_late, r.proofs[i].name).load = load.load;
    if (load.load < Load::driven_capped) return;
    for (const Known off : {Known::isolated, Known::negative_off, Known::switch_off, Known::fuel_shut, Known::plug_off})
      if (known_holds(r, after, off)) {
        say(FaultKind::driven_isolated, step().id).load = load.load;
        break;
      }
    if (load.load != Load::driven_capped) return;
    // What no step has come to yet is as it came.
    for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
      const FastenerState wanted = least_for(r.fasteners[i].least, Load::released);
      if (rung(wanted) > rung(FastenerState::final) && !below(after.fasteners[i], FastenerState::final) &&
          below(after.fasteners[i], wanted) && counts(r, after, i) && handled_by_now(i))
        say_fastener(FaultKind::second_look_late, i, after.fasteners[i], wanted, load.load);
    }
  }

  bool handled_by_now(std::size_t fastener) const {
    if (after.touched[fastener] != 0) return true;
    const auto handles = [&](const ExpandedStep& e, const Selector& s) {
      const auto named = r.fasteners_of(s, e.side);
      return std::find(named.begin(), named.end(), fastener) != named.end();
    };
    for (std::size_t k = 0; k < at; ++k) {
      const Step& s = r.procedure.steps[r.order[k].step];
      if (std::any_of(s.slacken.begin(), s.slacken.end(),
                      [&](const Slacken& d) { return handles(r.order[k], d.fastener); }) ||
          std::any_of(s.tighten.begin(), s.tighten.end(),
                      [&](const Tighten& d) { return handles(r.order[k], d.fastener); }))
        return true;
    }
    return false;
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
        say(FaultKind::wheel_missing, r.parts[p].name).load = load.load;
    }
  }

  void loads() const {
    props_under_removed();
    if (!x.last_side) return;
    // As the step's loads come on one after another, with its own words in force.
    State now = after;
    now.corners = before.corners;
    now.chocked = chocks_placed();
    for (const ApplyLoad& load : step().loads) {
      if (load.load <= Load::on_wheels) rolling(load, now);
      props(load);
      power_off_brake(load);
      before_the_drive(load);
      if (load.load >= Load::rolled)
        for (const End e : {End::front, End::rear})
          if (support_of(after, e) != Support::on_wheels) say(FaultKind::not_on_wheels, word_of(e)).load = load.load;
      if (load.load == Load::released) {
        for (const RefusedBy& why : release(r, after).refused_by) {
          Fault& f = say(FaultKind::release_refused, why.subject);
          f.load = Load::released;
          f.other = word(why.why);
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
};

}  // namespace

void judge_loads(const Judging& judging) {
  const Loading now{judging};
  now.loosened_under_load();
  now.loads();
}

}  // namespace trammel::work
