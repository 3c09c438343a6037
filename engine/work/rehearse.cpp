#include "work/rehearse.h"

#include <algorithm>
#include <set>

#include "work/conflict.h"
#include "work/free_steps.h"

namespace trammel::work {
namespace {

std::string called(const Roster& r, const ExpandedStep& x) {
  const char* side = x.side == Side::left ? " left" : x.side == Side::right ? " right" : "";
  return r.procedure.steps[x.step].id + side;
}

// Whether a step on one side touches what a fault is about, by its name.
bool touches(const Roster& r, const ExpandedStep& x, const Fault& f) {
  const Step& s = r.procedure.steps[x.step];
  const auto named = [&](const Instance& i, const std::string& name) {
    // A need says more than the name: "wheel off", "F3 left final".
    if (f.need) return f.subject.starts_with(i.group + " ");
    return f.subject == name || f.subject == i.group;
  };
  const auto fastener = [&](const Selector& sel) {
    for (std::size_t i : r.fasteners_of(sel, x.side))
      if (named(r.fasteners[i].instance, r.fasteners[i].name)) return true;
    return false;
  };
  const auto part = [&](const Selector& sel) {
    for (std::size_t i : r.parts_of(sel, x.side))
      if (named(r.parts[i].instance, r.parts[i].name)) return true;
    return false;
  };
  const auto word = [&](const std::string& w) {
    return w == f.subject || "not " + w == f.subject || (!f.other.empty() && w == f.other);
  };
  const auto any = [](const auto& list, auto is) { return std::any_of(list.begin(), list.end(), is); };
  if (any(s.slacken, [&](const Slacken& d) { return fastener(d.fastener); })) return true;
  if (any(s.tighten, [&](const Tighten& d) { return fastener(d.fastener); })) return true;
  if (any(s.undoes_torque, fastener)) return true;
  if (any(s.removes, [&](const Remove& d) { return part(d.part); }) || any(s.fits, part)) return true;
  if (any(s.sets, word) || any(s.clears, word) || any(s.proves, word) || any(s.undoes, word)) return true;
  if (any(s.deeds, [&](const Deed& d) { return word(condition_of(d)); })) return true;
  if (f.need == Need::Kind::support || f.kind == FaultKind::support_missing || f.kind == FaultKind::person_under_jack ||
      f.kind == FaultKind::not_on_wheels || f.kind == FaultKind::torqued_in_wrong_state)
    return !s.loads.empty();
  if (f.kind == FaultKind::nothing_holds || f.kind == FaultKind::chock_holds_nothing ||
      f.kind == FaultKind::person_under_unheld || f.kind == FaultKind::brake_holds_nothing)
    return any(s.sets, [](const std::string& c) { return meaning_of(c).known == Known::chocks; });
  return false;
}

struct Rehearser {
  const RehearsalLimits& limits;
  Rehearsal out{};
  std::set<FaultKey> known{};
  std::vector<Precedence> pairs{};

  // Like faults go into one line; what is known from the given order is not told again.
  void take(const Roster& r, const Fault& f, Branch branch, const std::string& branch_step) {
    if (!known.insert(key(f)).second) return;
    for (Uncovered& g : out.found) {
      const Fault& h = g.fault;
      if (h.kind != f.kind || h.step != f.step || h.load != f.load || h.state != f.state || h.least != f.least ||
          h.need != f.need || h.other != f.other || g.branch != branch || g.branch_step != branch_step)
        continue;
      // One second look, one parts mat, one wrench: what is forgotten there is told together.
      const bool together = f.kind == FaultKind::second_look_late || f.kind == FaultKind::part_never_fitted ||
                            f.kind == FaultKind::torque_tool_missing || f.kind == FaultKind::torque_range_missing ||
                            f.kind == FaultKind::wrench_missing || f.kind == FaultKind::one_wrench_for_two ||
                            f.kind == FaultKind::pin_tool_missing;
      if (!together && h.subject != f.subject && r.group_of(h.subject) != r.group_of(f.subject)) continue;
      if (std::find(g.subjects.begin(), g.subjects.end(), f.subject) == g.subjects.end())
        g.subjects.push_back(f.subject);
      return;
    }
    Uncovered g{f, {f.subject}, branch, branch_step, {}, 0, {}};
    if (f.at && *f.at < r.order.size()) {
      // The last step that touched it, the one before that, and where it shows.
      std::vector<std::size_t> matter;
      for (std::size_t i = *f.at; i-- > 0 && matter.size() < 2;)
        if (touches(r, r.order[i], f)) matter.push_back(i);
      for (auto it = matter.rbegin(); it != matter.rend(); ++it) g.trace.push_back(called(r, r.order[*it]));
      g.trace.push_back(called(r, r.order[*f.at]));
      if (branch == Branch::as_listed)
        g.least_steps = 1 + static_cast<std::size_t>(std::count_if(
                                pairs.begin(), pairs.end(), [&](const Precedence& e) { return e.then == *f.at; }));
    } else {
      std::vector<std::size_t> matter;
      for (std::size_t i = r.order.size(); i-- > 0 && matter.size() < 3;)
        if (touches(r, r.order[i], f)) matter.push_back(i);
      for (auto it = matter.rbegin(); it != matter.rend(); ++it) g.trace.push_back(called(r, r.order[*it]));
    }
    out.found.push_back(std::move(g));
  }
  void take(const Walk& w, Branch branch, const std::string& branch_step) {
    ++out.branches;
    for (const Fault& f : w.faults) take(w.roster, f, branch, branch_step);
  }

  void free_steps() {
    const Roster& r = out.walk.roster;
    const FreeSteps tried = try_free_steps(out.walk, limits.most_states);
    out.states = tried.states;
    out.free = tried.free;
    out.coupled = tried.coupled;
    out.complete = tried.complete;
    for (const OtherOrder& o : tried.found) not_ordered(r, o);
    for (std::size_t at : tried.unreached) {
      Fault f;
      f.kind = FaultKind::needs_never_met;
      f.step = f.subject = r.procedure.steps[r.order[at].step].id;
      take(r, f, Branch::as_listed, {});
    }
  }
  // A fault of another order only: the free step that is out of its listed place, the step that it should know of, and
  // what goes wrong there.
  void not_ordered(const Roster& r, const OtherOrder& o) {
    const std::string moved = called(r, r.order[o.moved]);
    Fault order = o.fault;
    order.kind = o.fault.step.empty() ? FaultKind::not_ordered_end : FaultKind::not_ordered;
    order.other = o.fault.step;
    order.subject = moved;
    known.insert(key(o.fault));
    for (Uncovered& g : out.found)
      if (g.fault.kind == order.kind && g.fault.subject == order.subject && g.fault.other == order.other)
        return g.beneath.push_back(o.fault);
    Uncovered g{order, {order.subject}, Branch::other_order, moved, {}, o.done.size(), {o.fault}};
    // The free step, where it is done by then, and where the fault shows.
    const bool done = std::find(o.done.begin(), o.done.end(), o.moved) != o.done.end();
    if (done && o.moved != o.done.back()) g.trace.push_back(moved);
    if (!o.fault.step.empty()) g.trace.push_back(called(r, r.order[o.done.back()]));
    out.found.push_back(std::move(g));
  }

  // The first to say it is the root; what says it again at a later load, or at the release, follows.
  void fold() {
    const auto within = [](const Uncovered& u, const Uncovered& root) {
      return std::all_of(u.subjects.begin(), u.subjects.end(), [&](const std::string& s) {
        return std::find(root.subjects.begin(), root.subjects.end(), s) != root.subjects.end();
      });
    };
    const auto repeats = [](FaultKind k) {
      return k == FaultKind::below_least_state || k == FaultKind::wheel_on_ground_loose ||
             k == FaultKind::wheel_missing || k == FaultKind::support_forgotten || k == FaultKind::not_on_wheels ||
             k == FaultKind::second_look_late || k == FaultKind::check_too_late;
    };
    for (std::size_t i = 0; i < out.found.size(); ++i) {
      Uncovered& u = out.found[i];
      if (u.branch != Branch::as_listed || !u.fault.load) continue;
      for (std::size_t k = 0; k < out.found.size() && !u.follows; ++k) {
        const Uncovered& root = out.found[k];
        if (k == i || root.branch != Branch::as_listed || root.follows || !within(u, root)) continue;
        const bool again = k < i && root.fault.kind == u.fault.kind && repeats(u.fault.kind) &&
                           root.fault.step != u.fault.step && root.fault.state == u.fault.state;
        const bool refused = u.fault.kind == FaultKind::release_refused && root.fault.step.empty();
        if (again || refused) u.follows = k;
      }
    }
  }

  void optional_steps(const Procedure& p) {
    std::vector<std::size_t> may;
    for (std::size_t i = 0; i < p.steps.size(); ++i)
      if (p.steps[i].optional) may.push_back(i);
    std::vector<std::set<std::size_t>> left_out;
    for (std::size_t a = 0; a < may.size(); ++a) {
      left_out.push_back({may[a]});
      for (std::size_t b = a + 1; b < may.size(); ++b) left_out.push_back({may[a], may[b]});
    }
    if (may.size() > 2) left_out.emplace_back(may.begin(), may.end());
    for (const auto& out_now : left_out) {
      Procedure q = p;
      std::string names;
      for (std::size_t i : out_now) names += (names.empty() ? "" : ", ") + p.steps[i].id;
      for (auto it = out_now.rbegin(); it != out_now.rend(); ++it)
        q.steps.erase(q.steps.begin() + static_cast<std::ptrdiff_t>(*it));
      take(trammel::work::walk(q), Branch::left_out, names);
    }
  }
  void repeated_steps() {
    for (std::size_t i = 0; i < out.walk.roster.procedure.steps.size(); ++i) {
      if (out.walk.roster.procedure.steps[i].repeat_until.empty()) continue;
      Roster r = out.walk.roster;
      std::vector<ExpandedStep> order;
      for (std::size_t at = 0; at < r.order.size(); ++at) {
        order.push_back(r.order[at]);
        if (r.order[at].step == i && r.order[at].last_side)
          for (const ExpandedStep& x : out.walk.roster.order)
            if (x.step == i) order.push_back(x);
      }
      r.order = std::move(order);
      take(trammel::work::walk(std::move(r)), Branch::repeated, out.walk.roster.procedure.steps[i].id);
    }
  }
};

}  // namespace

Rehearsal rehearse(const Procedure& procedure, const RehearsalLimits& limits) {
  Rehearser now{limits};
  now.out.walk = walk(procedure);
  const Walk& w = now.out.walk;
  // Counting the steps ahead of a fault is worth its time only where there is one.
  if (!w.faults.empty()) now.pairs = kept_order(w.roster);
  for (const Fault& f : w.faults) now.take(w.roster, f, Branch::as_listed, {});
  const bool sound = std::none_of(w.faults.begin(), w.faults.end(), [](const Fault& f) {
    return f.kind == FaultKind::duplicate_id || f.kind == FaultKind::no_steps;
  });
  if (sound) now.free_steps();
  now.optional_steps(procedure);
  now.repeated_steps();
  now.fold();
  return std::move(now.out);
}

}  // namespace trammel::work
