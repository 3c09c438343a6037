// The tools of a step, read far enough to hold them against the fasteners that it turns.
//
// "wrench 18 mm", "2 wrenches 16 mm", "spanner", "socket 3/4 in": a turning tool with its size across flats.
// "torque wrench 40–200 N·m", "torque driver 1–6 N·m": a range of torque. What names neither is not judged.
// Law 1: a tool without a size or range never makes a fault. Law 2: a word that is nearly that of a turning tool, and a
// number behind one that is no size and no range, is a slip: it would keep the tool from being judged at all.
// A wrench serves a head where the two differ by no more than 0.15 mm (common practice, no source; fastener/wrench.h).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "work/procedure.h"

namespace trammel::work {

struct Tool {
  std::optional<Length> size;             // across flats
  std::optional<Torque> lowest, highest;  // of a torque wrench
  bool turns = false;                     // a wrench, spanner, socket or torque tool
};
Tool read_tool(std::string_view text);

// What is wrong in a tool's own words, and the words that were meant.
struct ToolSlip {
  enum class Kind : unsigned char { misspelt, unread } kind = Kind::misspelt;
  std::string meant;
};
std::optional<ToolSlip> slip_in(std::string_view text);

struct ReadTool {
  Tool tool;
  std::optional<ToolSlip> slip;
};

// What the tools of a step cannot do to a fastener that it turns. `tools` are those of the step.
bool no_wrench_fits(const std::vector<Tool>& tools,
                    const Fastener& fastener);  // sizes are named, and none grips its head or none its nut
bool no_wrench_reaches(const std::vector<Tool>& tools, Torque torque);  // ranges are named, and none covers it
// Tools with a size that fits no head or nut of all that the step turns, by index; none where a head is not known.
std::vector<std::size_t> idle_wrenches(const std::vector<Tool>& tools, const std::vector<const Fastener*>& turned);

}  // namespace trammel::work
