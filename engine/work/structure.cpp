// What can be judged without walking: names that are given twice or name nothing, words that are nearly known ones.
#include <algorithm>
#include <set>

#include "measure/nearest.h"
#include "work/order.h"
#include "work/walk.h"
#include "work/words.h"

namespace trammel::work {
namespace {

using Words = std::vector<std::string>;

struct Judge {
  const Roster& r;
  std::vector<Fault>& out;
  std::set<std::string> said_nearly{};

  Fault& say(FaultKind kind, std::string subject) {
    Fault f;
    f.kind = kind;
    f.subject = std::move(subject);
    out.push_back(std::move(f));
    return out.back();
  }
  Fault& say_step(FaultKind kind, const Step& s, std::string subject) {
    Fault& f = say(kind, std::move(subject));
    f.step = s.id;
    return f;
  }

  // A name in one of a kit's lists. `where` is how the file has it: "step rear-up, fits".
  struct Named {
    const Step* step = nullptr;
    std::string where;
    Sides sides = Sides::once;
  };
  static Named in(const Step& s, const char* key, bool on_its_sides = false) {
    return {&s, "step " + s.id + ", " + key, on_its_sides ? s.sides : Sides::once};
  }
  static Named in(const Fastener& f, const char* key) { return {nullptr, "fastener " + f.id + ", " + key}; }
  static Named in(const Part& p, const char* key) { return {nullptr, "part " + p.id + ", " + key}; }
  static Named in(const Proof& p, const char* key) { return {nullptr, "proof " + p.id + ", " + key}; }
  void unknown(FaultKind kind, const Named& n, const std::string& subject, const Words& known) {
    Fault& f = say(kind, subject);
    if (n.step) f.step = n.step->id;
    f.other = n.where;
    f.nearest = nearest(subject, std::span<const std::string>(known));
  }

  template <class List>
  void duplicates(const List& list) {
    std::set<std::string> seen;
    for (const auto& x : list)
      if (!seen.insert(x.id).second) say(FaultKind::duplicate_id, x.id);
  }

  // The group must exist, and the step must reach at least one instance on some side.
  template <class Reached, class Entries>
  void reaches(const Selector& s, const Named& n, Reached reached, const Entries& entries) {
    const auto empty = [&](Side side) { return reached(s, side).empty(); };
    const bool nothing = n.sides == Sides::left    ? empty(Side::left)
                         : n.sides == Sides::right ? empty(Side::right)
                         : n.sides == Sides::each  ? empty(Side::left) && empty(Side::right)
                                                   : empty(Side::none);
    if (!nothing) return;
    const bool other_side =
        (n.sides == Sides::left && s.side == Side::right) || (n.sides == Sides::right && s.side == Side::left);
    if (other_side) return static_cast<void>(say_step(FaultKind::wrong_side, *n.step, s.id));
    Fault& f = say(FaultKind::names_nothing, words_of(s));
    if (n.step) f.step = n.step->id;
    f.other = n.where;
    Words known = {"left", "right", "front", "rear"};
    for (const auto& e : entries)
      if (e.instance.group == s.id && !e.instance.word.empty()) known.push_back(e.instance.word);
    f.nearest = nearest(s.word, std::span<const std::string>(known));
  }
  void fastener(const Selector& s, const Named& n) {
    if (!r.fastener_group.contains(s.id))
      return unknown(FaultKind::unknown_fastener, n, s.id, fastener_ids(r.procedure));
    reaches(
        s, n, [&](const Selector& x, Side side) { return r.fasteners_of(x, side); }, r.fasteners);
  }
  void part(const Selector& s, const Named& n) {
    if (!r.part_group.contains(s.id)) return unknown(FaultKind::unknown_part, n, s.id, part_ids(r.procedure));
    reaches(
        s, n, [&](const Selector& x, Side side) { return r.parts_of(x, side); }, r.parts);
  }
  void fitted(const Selector& s, const Named& n) {
    if (r.part_group.contains(s.id)) return part(s, n);
    Fault& f = say_step(FaultKind::part_fitted_never_supplied, *n.step, s.id);
    f.nearest = nearest(s.id, std::span<const std::string>(part_ids(r.procedure)));
  }
  void step(const std::string& id, const Named& n) {
    if (!r.step(id)) unknown(FaultKind::unknown_step, n, id, step_ids());
  }

  Words step_ids() const {
    Words all;
    for (const Step& s : r.procedure.steps) all.push_back(s.id);
    return all;
  }
  // Whatever a need could say in this procedure.
  Words sayable() const {
    Words all;
    for (const Step& s : r.procedure.steps) all.push_back(s.id + " done");
    for (const Step& s : r.procedure.steps) all.push_back(s.id);
    for (const NamedMask& c : r.conditions) all.push_back(c.name);
    for (const NamedMask& p : r.proofs) all.push_back(p.name);
    for (const char* end : {"", "front ", "rear "})
      for (const char* how : {"jacked", "on stands", "on wheels"}) all.push_back(std::string(end) + how);
    for (const Part& x : r.procedure.parts)
      for (const char* how : {" on", " off"}) all.push_back(x.id + how);
    Need state;
    state.kind = Need::Kind::fastener_at_least;
    for (const Fastener& f : r.procedure.fasteners)
      for (int s = 1; s <= static_cast<int>(FastenerState::locked); ++s) {
        state.subject.id = f.id;
        state.least = static_cast<FastenerState>(s);
        all.push_back(words_of(state));
      }
    return all;
  }

  // A condition that nothing makes true, or that is one slip away from a word with rules.
  void condition(const std::string& c, const Named& n, const std::string& as_written) {
    const bool there = r.condition(c).has_value();
    const std::string known = nearly_known(c);
    if (!known.empty() && (!there || said_nearly.insert(c).second)) {
      Fault& f = say(FaultKind::nearly_known, as_written);
      if (n.step) f.step = n.step->id;
      f.other = n.where;
      f.nearest = known;
    } else if (!there && known.empty() && c != floor_level) {  // the floor: judge_proofs.cpp
      unknown(FaultKind::unknown_condition, n, as_written, sayable());
    }
  }
  void condition(const std::string& c, const Named& n) { condition(c, n, c); }

  void need(const Need& x, const Named& n) {
    switch (x.kind) {
      case Need::Kind::condition:
        return condition(x.subject.id, n, words_of(x));
      case Need::Kind::proof:
        if (!r.proof(x.subject.id)) unknown(FaultKind::unknown_condition, n, x.subject.id, sayable());
        return;
      case Need::Kind::step_done:
        return step(x.subject.id, n);
      case Need::Kind::part_on:
      case Need::Kind::part_off:
        return part(x.subject, n);
      case Need::Kind::fastener_at_least:
        return fastener(x.subject, n);
      case Need::Kind::support:
        return;
    }
  }

  void fasteners() {
    for (const Fastener& f : r.procedure.fasteners) {
      for (const std::string& h : f.holds) part({h}, in(f, "holds"));
      // What shares an earlier kit's holes has gone into that kit's fastener (merge.h).
      if (!f.shares.id.empty())
        unknown(FaultKind::shares_nothing, in(f, "shares"), words_of(f.shares), fastener_ids(r.procedure));
      // A state below the default is the kit's to give, and said.
      const LeastStates usual = default_least(f.duty);
      for (std::size_t i = 0; i < load_count; ++i) {
        if (!f.least[i] || rung(*f.least[i]) >= rung(usual[i])) continue;
        const Load load = static_cast<Load>(i);
        Fault& lower = say(load == Load::released ? FaultKind::released_lowered : FaultKind::least_lowered, f.id);
        lower.load = load;
        lower.state = *f.least[i];
        lower.least = usual[i];
      }
    }
  }

  void parts() {
    for (const Part& x : r.procedure.parts) {
      if (!x.replaces.empty()) part({x.replaces}, in(x, "replaces"));
      // The pack holds what the steps can fit, no fewer and no more.
      const std::size_t places = std::max<std::size_t>(x.instances.size(), 1);
      if (x.count && x.source == PartSource::in_pack && static_cast<std::size_t>(*x.count) != places)
        say(FaultKind::pack_count, x.id).other =
            std::to_string(*x.count) + " in the pack, " + std::to_string(places) + " to fit";
      // What holds the cart up or steers it is fitted with fasteners that the kit counts, be they another kit's.
      if (x.kind == PartKind::body) continue;
      const auto names = [&](const std::vector<std::string>& holds) {
        return std::find(holds.begin(), holds.end(), x.id) != holds.end();
      };
      const bool held = std::any_of(r.procedure.fasteners.begin(), r.procedure.fasteners.end(), [&](const Fastener& f) {
        return names(f.holds) ||
               std::any_of(f.shared.begin(), f.shared.end(), [&](const Share& share) { return names(share.holds); });
      });
      for (const Step& s : r.procedure.steps)
        for (const Selector& fits : s.fits)
          if (fits.id == x.id && !held) say_step(FaultKind::part_held_by_nothing, s, x.id);
    }
  }

  void proofs() {
    Words guards = {"jacked", "on stands", "on wheels", "rolled", "driven", "released"};
    for (const std::string& id : step_ids()) guards.push_back(id);
    for (const Proof& x : r.procedure.proofs) {
      for (const Selector& s : x.voided_by_slackening) fastener(s, in(x, "voided_by_slackening"));
      for (const Selector& s : x.voided_by_removing) part(s, in(x, "voided_by_removing"));
      for (const Need& n : x.only_while) need(n, in(x, "only_while"));
      for (const std::string& g : x.guards)
        if (!read_load(g) && !r.step(g)) unknown(FaultKind::unknown_guard, in(x, "guards"), g, guards);
    }
    // One that no step makes.
    Words made;
    for (const NamedMask& p : r.proofs)
      if (p.reach != 0) made.push_back(p.name);
    for (const NamedMask& p : r.proofs)
      if (p.reach == 0)
        say(FaultKind::proof_never_made, p.name).nearest = nearest(p.name, std::span<const std::string>(made));
  }

  void steps() {
    for (std::size_t i = 0; i < r.procedure.steps.size(); ++i) {
      const Step& s = r.procedure.steps[i];
      for (const Need& x : s.needs) need(x, in(s, "needs"));
      for (const Slacken& x : s.slacken) fastener(x.fastener, in(s, "slacken", true));
      for (const Remove& x : s.removes) part(x.part, in(s, "removes", true));
      for (const Selector& x : s.fits) fitted(x, in(s, "fits", true));
      for (const Tighten& x : s.tighten) fastener(x.fastener, in(s, "tighten", true));
      for (const Selector& x : s.undoes_torque) fastener(x, in(s, "undoes", true));
      for (const std::string& c : s.sets) condition(c, in(s, "gives"));
      for (const std::string& c : s.clears) condition(c, in(s, "ends"));
      for (const std::string& p : s.proves)
        if (std::find(s.undoes.begin(), s.undoes.end(), p) != s.undoes.end())
          say_step(FaultKind::undone_and_proved, s, p);
      // An anchor names a step, and the order keeps it.
      for (const auto& [key, anchor] : {std::pair{"after", s.after}, std::pair{"before", s.before}}) {
        if (anchor.empty()) continue;
        step(anchor, in(s, key));
        const auto at = r.step(anchor);
        if (at && (*key == 'a' ? *at > i : *at < i)) say_step(FaultKind::anchor_not_kept, s, anchor).other = key;
      }
    }
    for (const std::string& c : r.procedure.given) condition(c, {nullptr, "given"});
  }

  // What was opened on chassis or wheels is driven slowly once before the cart is handed over.
  void first_drive() {
    const auto loads = [](const Step& s, Load load) {
      return std::any_of(s.loads.begin(), s.loads.end(), [&](const ApplyLoad& l) { return l.load == load; });
    };
    bool opened = false;
    for (const Step& s : r.procedure.steps) {
      for (const Slacken& x : s.slacken)
        for (const Fastener& f : r.procedure.fasteners)
          opened |= f.id == x.fastener.id && (f.duty == Duty::general || f.duty == Duty::wheel);
      if (loads(s, Load::driven_capped)) opened = false;
      if (opened && loads(s, Load::released)) say_step(FaultKind::never_driven, s, s.id);
    }
  }

  // Steps that wait for one another can never be done.
  void cycles() {
    const std::vector<Step>& all = r.procedure.steps;
    for (const auto& cycle : topological_order(r.procedure).cycles) {
      Fault& f = say_step(FaultKind::never_reachable, all[cycle.front()], all[cycle.front()].id);
      for (std::size_t i : cycle) f.other += (f.other.empty() ? "" : ", ") + all[i].id;
    }
  }
};

}  // namespace

std::vector<Fault> check_structure(const Roster& r) {
  std::vector<Fault> out;
  Judge judge{r, out};
  const Procedure& p = r.procedure;
  if (p.steps.empty()) judge.say(FaultKind::no_steps, p.name);
  judge.duplicates(p.fasteners);
  judge.duplicates(p.parts);
  judge.duplicates(p.proofs);
  judge.duplicates(p.steps);
  judge.fasteners();
  judge.parts();
  judge.proofs();
  judge.first_drive();
  judge.cycles();
  judge.steps();
  return out;
}

}  // namespace trammel::work
