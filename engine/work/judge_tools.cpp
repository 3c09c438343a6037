// The tools of a step against the fasteners that it turns.
#include <algorithm>

#include "work/judging.h"
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
};

}  // namespace

void judge_tools(const Judging& judging) {
  const Handling now{judging};
  now.tools();
}

}  // namespace trammel::work
