// What is known of a step's tools from its words alone, read once for all states that the step may meet.
//
// A check that only says which tool is not used ("no hammer on threads") shows nothing of what the step did: each of
// its clauses is a negation of a tool that works on a piece, and of nothing else. "No bare edge", "no file marks" and
// "no jack under the axle" are checks: an edge, marks and a prop can be looked at.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "work/measure_tool.h"
#include "work/step.h"
#include "work/tool.h"

namespace trammel::work {

struct StepTools {
  std::vector<Tool> all;
  std::vector<std::optional<ToolSlip>> slips;  // a tool each
  bool all_known = true;                       // else one of them may be what is asked for
  std::optional<Unreadable> unreadable;        // what the check asks for and no tool shows
  std::vector<std::size_t> deeds_without;      // deeds that no tool serves
  std::string only_forbids;                    // the check, where it says only which tool is not used
};

// Many steps name the same few tools: each text is read once.
struct ReadTool {
  Tool tool;
  std::optional<ToolSlip> slip;
};
using ReadTools = std::unordered_map<std::string, ReadTool>;
StepTools step_tools(const Step& step, ReadTools& known);

// "no hammer on threads": true; "no bare steel edge": false.
bool only_forbids_tools(std::string_view evidence);

}  // namespace trammel::work
