// A tool of a step, read once from its words: what kind it is, how many there are, its size or range.
//
// "wrench 18 mm", "2 wrenches 16 mm", "both torque wrenches", "torque wrench 40–200 N·m", "jack with wide saddle",
// "Drehmomentschlüssel 40–200 N·m", "Rangierheber": words of every language of reference/tool_words.csv are understood,
// capitals and ä for ae alike. Of several words that are known the last before a preposition names the tool ("grease
// gun", "sheet of steel"), and the longest that ends there; a row that begins with a hyphen ends a longer word
// ("Ringschlüssel"). A size is the first length, unless it is a drive's ("1/2 in drive"); a range is two numbers and
// their unit. Law 1: every word of every language is read as its kind, with its count and size. Law 2: a tool whose
// words are not known is no fault, and where a step has one nothing is asked that it may be. Law 3: a tool without size
// or range is not held against one. Law 4: a word that is nearly that of a turning tool, and a number behind one that
// is no size and no range, is a slip: it would keep the tool from being judged at all. A wrench serves a head where the
// two differ by no more than 0.15 mm (common practice, no source; fastener/wrench.h).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"

namespace trammel::work {

enum class ToolKind : unsigned char {
  unknown,
  // what turns
  wrench,
  socket,
  ratchet,
  hex_key,
  screwdriver,
  torque_tool,
  impact_tool,
  // what lifts and holds
  jack,
  hoist,
  stand,
  chock,
  strap,
  rope,
  spreader,
  block,
  clamp,
  ballast,
  // what works on a piece
  pliers,
  puller,
  hammer,
  drift,
  pry_bar,
  drill,
  drill_bit,
  cutter,
  file,
  rivet_tool,
  grease_gun,
  hand,
  // what measures
  tape,
  rule,
  square,
  calliper,
  micrometer,
  dial_gauge,
  feeler_gauge,
  depth_gauge,
  gauge,
  pressure_gauge,
  pull_gauge,
  angle_gauge,
  level,
  meter,
  scales,
  timer,
  thermometer,
  // known, and none of these
  other
};
inline constexpr std::size_t tool_kinds = static_cast<std::size_t>(ToolKind::other) + 1;
// As the word lists name them.
inline constexpr std::array<std::string_view, tool_kinds> tool_kind_words = {
    "unknown",     "wrench",       "socket",      "ratchet",   "hex key",        "screwdriver", "torque tool",
    "impact tool", "jack",         "hoist",       "stand",     "chock",          "strap",       "rope",
    "spreader",    "block",        "clamp",       "ballast",   "pliers",         "puller",      "hammer",
    "drift",       "pry bar",      "drill",       "drill bit", "cutter",         "file",        "rivet tool",
    "grease gun",  "hand",         "tape",        "rule",      "square",         "calliper",    "micrometer",
    "dial gauge",  "feeler gauge", "depth gauge", "gauge",     "pressure gauge", "pull gauge",  "angle gauge",
    "level",       "meter",        "scales",      "timer",     "thermometer",    "other"};
constexpr ToolKind tool_kind(std::string_view name) {
  for (std::size_t i = 0; i < tool_kinds; ++i)
    if (tool_kind_words[i] == name) return static_cast<ToolKind>(i);
  return ToolKind::unknown;
}

struct Tool {
  ToolKind kind = ToolKind::unknown;
  int count = 1;
  std::optional<Length> size;             // of what turns, across flats
  std::optional<Torque> lowest, highest;  // of a torque tool
};
Tool read_tool(std::string_view text);

// What is wrong in a tool's own words, and the words that were meant.
struct ToolSlip {
  enum class Kind : unsigned char { misspelt, unread } kind = Kind::misspelt;
  std::string meant;
};
std::optional<ToolSlip> slip_in(std::string_view text);

bool grips(const Tool& tool, Length across_flats);  // a wrench, socket or key of that size, or of any
// How many of the tools grip that size.
int gripping(const std::vector<Tool>& tools, Length across_flats);
// Sizes are named, and none grips.
bool none_fits(const std::vector<Tool>& tools, Length across_flats);
// Ranges are named, and none covers it.
bool none_reaches(const std::vector<Tool>& tools, Torque torque);
bool has(const std::vector<Tool>& tools, ToolKind kind);

}  // namespace trammel::work
