#include "work/step_tools.h"

#include <algorithm>

#include "work/tool_text.h"

namespace trammel::work {
namespace {

// A tool that is used on a piece and put away; a prop or a gauge that is not there is a state of the cart.
constexpr bool works_on_a_piece(ToolKind k) {
  return (k >= ToolKind::wrench && k <= ToolKind::impact_tool) || (k >= ToolKind::pliers && k <= ToolKind::grease_gun);
}

bool forbids_a_tool(const std::vector<Token>& clause) {
  if (clause.size() < 2 || means(clause.front().folded) != "negation") return false;
  const NamedTool tool = named_tool({clause.begin() + 1, clause.end()});
  return tool.last && works_on_a_piece(tool.kind);
}

}  // namespace

bool only_forbids_tools(std::string_view evidence) {
  std::vector<std::vector<Token>> clauses(1);
  std::size_t end = 0;
  for (Token& t : tokens_of(evidence)) {
    // A mark between two words parts them, as "and" does.
    const bool parted = evidence.substr(end, t.begin - end).find_first_of(",;:") != std::string_view::npos;
    end = t.end;
    if (parted) clauses.emplace_back();
    if (means(t.folded) == "joint")
      clauses.emplace_back();
    else
      clauses.back().push_back(std::move(t));
  }
  std::erase_if(clauses, [](const auto& c) { return c.empty(); });
  return !clauses.empty() && std::all_of(clauses.begin(), clauses.end(), forbids_a_tool);
}

StepTools step_tools(const Step& step, ReadTools& known) {
  StepTools out;
  for (const std::string& t : step.tools) {
    auto it = known.find(t);
    if (it == known.end()) it = known.emplace(t, ReadTool{read_tool(t), slip_in(t)}).first;
    out.all.push_back(it->second.tool);
    out.slips.push_back(it->second.slip);
  }
  out.all_known = !has(out.all, ToolKind::unknown);
  out.unreadable = unreadable(step.evidence, out.all);
  for (std::size_t i = 0; i < step.deeds.size(); ++i) {
    const bool served =
        std::any_of(out.all.begin(), out.all.end(), [&](const Tool& t) { return serves(t.kind, step.deeds[i]); });
    if (out.all_known && !served && wants_tool(step.deeds[i])) out.deeds_without.push_back(i);
  }
  if (only_forbids_tools(step.evidence)) out.only_forbids = step.evidence;
  return out;
}

}  // namespace trammel::work
