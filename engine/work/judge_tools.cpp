// The tools of a step against the fasteners that it turns.
#include <algorithm>
#include <initializer_list>
#include <set>
#include <string_view>

#include "measure/text.h"
#include "work/judging.h"
#include "work/measure_tool.h"
#include "work/tool.h"

namespace trammel::work {
namespace {

struct Handling : Judging {
  // Wrenches and torque ranges against what the step turns.
  void tools() const {
    std::vector<Tool> all;
    const std::vector<ReadTool>& read = r.tools[x.step];
    for (std::size_t i = 0; i < read.size(); ++i) {
      all.push_back(read[i].tool);
      if (const auto& slip = read[i].slip)
        say(slip->kind == ToolSlip::Kind::misspelt ? FaultKind::tool_misspelt : FaultKind::tool_unread, step().tools[i])
            .other = slip->meant;
    }
    if (step().tools.empty()) return;
    torque_tools(all);
    props();
    if (const auto size = unreadable(step().evidence, step().tools)) {
      if (!size->finest)
        say(FaultKind::measure_without_tool, size->asked);
      else
        say(FaultKind::measure_too_fine, size->asked).other = millimetres(*size->finest);
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
  // A torque is reached by a tool that shows it, and that it reaches so far is known from its scale.
  void torque_tools(const std::vector<Tool>& all) const {
    const bool shows = std::any_of(step().tools.begin(), step().tools.end(),
                                   [](const std::string& t) { return t.find("torque") != std::string::npos; });
    const bool scaled = std::any_of(all.begin(), all.end(), [](const Tool& t) { return t.lowest.has_value(); });
    if (scaled) return;
    std::set<std::string> said;
    for (const Tighten& t : step().tighten)
      for (const Fastener& f : r.procedure.fasteners)
        if (f.id == t.fastener.id && f.torque && (t.to == FastenerState::part_tight || t.to == FastenerState::final) &&
            said.insert(f.id).second)
          say(shows ? FaultKind::torque_range_missing : FaultKind::torque_tool_missing, f.id).other =
              joined(step().tools);
  }

  // What lifts, lowers or holds the cart must be in hand.
  void props() const {
    const auto in_hand = [&](std::initializer_list<std::string_view> words) {
      return std::any_of(step().tools.begin(), step().tools.end(), [&](const std::string& t) {
        return std::any_of(words.begin(), words.end(),
                           [&](std::string_view w) { return t.find(w) != std::string::npos; });
      });
    };
    const bool moves = x.last_side && before.corners != after.corners;
    const bool stands = moves && std::any_of(step().loads.begin(), step().loads.end(),
                                             [](const ApplyLoad& l) { return l.load == Load::on_stands; });
    if (moves && !in_hand({"jack", "hoist", "lift", "crane"})) say(FaultKind::prop_tool_missing, "jack");
    if (stands && !in_hand({"stand"})) say(FaultKind::prop_tool_missing, "stands");
    const bool chocks = std::any_of(step().sets.begin(), step().sets.end(),
                                    [](const std::string& c) { return meaning_of(c).known == Known::chocks; });
    if (chocks && !in_hand({"chock"})) say(FaultKind::prop_tool_missing, "chocks");
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
  const Handling now{judging};
  now.tools();
}

}  // namespace trammel::work
