// The tools of a step against what it turns, lifts, does and reads.
#include <algorithm>
#include <cmath>
#include <set>

#include "measure/text.h"
#include "work/judging.h"
#include "work/tool.h"

namespace trammel::work {
namespace {

struct Handling : Judging {
  const StepTools& tools;

  void judge() const {
    for (std::size_t i = 0; i < tools.slips.size(); ++i)
      if (const auto& slip = tools.slips[i])
        say(slip->kind == ToolSlip::Kind::misspelt ? FaultKind::tool_misspelt : FaultKind::tool_unread, step().tools[i])
            .other = slip->meant;
    if (!tools.only_forbids.empty()) say(FaultKind::check_only_forbids, tools.only_forbids);
    deeds();
    if (step().tools.empty()) return;
    if (const auto& size = tools.unreadable) {
      if (!size->finest)
        say(FaultKind::measure_without_tool, size->asked);
      else
        say(FaultKind::measure_too_fine, size->asked).other = millimetres(*size->finest);
    }
    props();
    turning();
    torques();
  }

  void deeds() const {
    for (const std::size_t i : tools.deeds_without) {
      const Deed& d = step().deeds[i];
      std::string wanted(verb_words[static_cast<std::size_t>(d.verb)]);
      if (d.verb == Verb::read)
        wanted += "-" + std::string(measured_words[static_cast<std::size_t>(*quantity_in(d.what))]);
      say(FaultKind::deed_without_tool, std::string(verb_words[static_cast<std::size_t>(d.verb)]) + " " + d.what)
          .other = wanted;
    }
  }

  // What lifts, lowers or holds the cart must be in hand.
  void props() const {
    const auto in_hand = [&](std::initializer_list<ToolKind> kinds) {
      return !tools.all_known || std::any_of(kinds.begin(), kinds.end(), [&](ToolKind k) { return has(tools.all, k); });
    };
    const bool moves = x.last_side && before.corners != after.corners;
    const bool stands = moves && std::any_of(step().loads.begin(), step().loads.end(),
                                             [](const ApplyLoad& l) { return l.load == Load::on_stands; });
    if (moves && !in_hand({ToolKind::jack, ToolKind::hoist})) say(FaultKind::prop_tool_missing, "jack");
    if (stands && !in_hand({ToolKind::stand})) say(FaultKind::prop_tool_missing, "stands");
    const bool chocks = std::any_of(step().sets.begin(), step().sets.end(),
                                    [](const std::string& c) { return meaning_of(c).known == Known::chocks; });
    if (chocks && !in_hand({ToolKind::chock})) say(FaultKind::prop_tool_missing, "chocks");
  }

  // Each fastener that is turned by more than a hand: a wrench for its head, one for its nut, pliers for its pin.
  void turning() const {
    for (const Slacken& s : step().slacken)
      for (const Fastener& f : r.procedure.fasteners) {
        FastenerState was = FastenerState::out;
        if (!touched(f, s.fastener, was) || rung(was) < rung(FastenerState::snug) || rung(s.to) >= rung(was)) continue;
        wrenches(f);
        if (f.pinned && rung(was) >= rung(FastenerState::final)) pin(f);
      }
    for (const Tighten& t : step().tighten)
      for (const Fastener& f : r.procedure.fasteners) {
        FastenerState was = FastenerState::out;
        if (!touched(f, t.fastener, was) || rung(t.to) < rung(FastenerState::snug) ||
            rung(t.to) > rung(FastenerState::final))
          continue;
        wrenches(f);
        if (f.pinned && t.to == FastenerState::final) pin(f);
      }
  }
  // Whether the step touches it here, and the tightest state in which it finds one.
  bool touched(const Fastener& f, const Selector& s, FastenerState& was) const {
    if (f.id != s.id) return false;
    const auto all = r.fasteners_of(s, x.side);
    for (const std::size_t i : all)
      if (rung(before.fasteners[i]) > rung(was)) was = before.fasteners[i];
    return !all.empty();
  }
  void wrenches(const Fastener& f) const {
    if (!f.head) return;
    const Length nut = f.nut.value_or(*f.head);
    if (none_fits(tools.all, *f.head) || (f.nut && none_fits(tools.all, nut))) {
      say(FaultKind::tool_fits_no_head, f.id).other = joined(step().tools);
      return;
    }
    if (!tools.all_known) return;
    const int on_head = gripping(tools.all, *f.head), on_nut = gripping(tools.all, nut);
    if (on_head == 0) {
      say(FaultKind::wrench_missing, f.id).other = size_of(*f.head);
    } else if (f.two_ended && (same_size(*f.head, nut) ? on_head < 2 : on_nut == 0)) {
      say(FaultKind::one_wrench_for_two, f.id).other = size_of(nut);
    }
  }
  void pin(const Fastener& f) const {
    if (tools.all_known && !has(tools.all, ToolKind::pliers)) say(FaultKind::pin_tool_missing, f.id);
  }

  // A torque is reached by a tool that shows it, and that it reaches so far is known from its scale.
  void torques() const {
    const bool shows = has(tools.all, ToolKind::torque_tool);
    const bool scaled =
        std::any_of(tools.all.begin(), tools.all.end(), [](const Tool& t) { return t.lowest.has_value(); });
    std::set<std::string> said;
    for (const Tighten& t : step().tighten)
      for (const Fastener& f : r.procedure.fasteners) {
        if (f.id != t.fastener.id || !f.torque) continue;
        if (rung(t.to) >= rung(FastenerState::final) && none_reaches(tools.all, *f.torque))
          say(FaultKind::tool_out_of_range, f.id).other = joined(step().tools);
        if (scaled || (!shows && !tools.all_known)) continue;
        if ((t.to == FastenerState::part_tight || t.to == FastenerState::final) && said.insert(f.id).second)
          say(shows ? FaultKind::torque_range_missing : FaultKind::torque_tool_missing, f.id).other =
              joined(step().tools);
      }
  }

  static bool same_size(Length a, Length b) { return abs(a - b) <= Length::from_si(0.15e-3); }
  // A size in the system that it is a round number of.
  static std::string size_of(Length l) {
    const double mm = l.si() * 1e3;
    return print(number(l),
                 PrintStyle{std::abs(mm - std::round(2.0 * mm) / 2.0) < 1e-6 ? Systems::metric : Systems::inch});
  }
  static std::string millimetres(Length l) { return print(number(l), PrintStyle{Systems::metric}); }
  static std::string joined(const std::vector<std::string>& list) {
    std::string s;
    for (const std::string& t : list) s += (s.empty() ? "" : ", ") + t;
    return s;
  }
};

}  // namespace

void judge_tools(const Judging& judging) {
  const Handling now{judging, judging.r.tools[judging.x.step]};
  now.judge();
}

}  // namespace trammel::work
