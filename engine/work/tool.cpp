#include "work/tool.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string>

#include "measure/nearest.h"
#include "measure/text.h"
#include "reference/tool_words.h"
#include "work/tool_text.h"

namespace trammel::work {
namespace {

constexpr Length near = Length::from_si(0.15e-3);

bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

// The quantity that the text begins with; what stands behind it is no part of it: "16 mm deep".
template <class Q>
std::optional<Q> read_first(std::string text, Kind kind, std::size_t* length = nullptr) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    if (text[i] == ',' && digit(text[i - 1]) && digit(text[i + 1])) text[i] = '.';
  for (std::size_t end = text.size(); end != std::string::npos && end > 0; end = text.find_last_of(" ,)", end - 1)) {
    const ReadResult r = read_quantity(text.substr(0, end), kind);
    if (const auto* w = std::get_if<Written>(&r)) {
      if (length) *length = end;
      return Q::from_si(w->number.si);
    }
  }
  return std::nullopt;
}

bool is_count(const Token& t) {
  return t.number && t.folded.size() < 3 && std::all_of(t.folded.begin(), t.folded.end(), digit);
}

// "2 wrenches", "both": how many, and how many words say so; "16 mm wrench" begins with a size.
std::pair<int, std::size_t> count_in(std::string_view text, const std::vector<Token>& tokens) {
  if (tokens.size() < 2) return {0, 0};
  const std::string_view said = means(tokens[0].folded);
  if (said.size() == 1 && digit(said.front())) return {said.front() - '0', 1};
  if (!is_count(tokens[0]) || tokens[1].number) return {0, 0};
  if (in_a_tool_word(tokens[1].folded)) return {std::stoi(tokens[0].folded), 1};  // "3 meters"
  const std::string first(text.substr(tokens[0].begin, tokens[1].end - tokens[0].begin));
  for (const Kind k : {Kind::length, Kind::torque, Kind::mass}) {
    const ReadResult r = read_quantity(first, k);
    if (std::get_if<Written>(&r)) return {0, 0};
  }
  return {std::stoi(tokens[0].folded), 1};
}

// The first length that is no drive's.
std::optional<Length> size_in(std::string_view text, const std::vector<Token>& tokens, std::size_t from) {
  for (std::size_t i = from; i < tokens.size(); ++i) {
    if (!tokens[i].number) continue;
    std::size_t length = 0;
    const auto size = read_first<Length>(std::string(text.substr(tokens[i].begin)), Kind::length, &length);
    if (!size) continue;
    const std::size_t end = tokens[i].begin + length;
    const auto next = std::find_if(tokens.begin(), tokens.end(), [&](const Token& t) { return t.begin >= end; });
    if (next == tokens.end() || means(next->folded) != "drive") return size;
    i = static_cast<std::size_t>(next - tokens.begin());
  }
  return std::nullopt;
}

// "40–200 N·m", "40 to 200 N·m".
void read_range(std::string text, Tool& tool) {
  for (const std::string_view between : {"–", " to ", " bis "})
    if (const auto at = text.find(between); at != std::string::npos) text.replace(at, between.size(), "-");
  const std::size_t dash = text.find('-');
  if (dash == std::string::npos) return;
  std::size_t second = dash + 1;
  while (second < text.size() && text[second] == ' ') ++second;
  std::size_t unit = second;
  while (unit < text.size() && (digit(text[unit]) || text[unit] == '.' || text[unit] == ',')) ++unit;
  const auto highest = read_first<Torque>(text.substr(second), Kind::torque);
  const auto lowest = read_first<Torque>(text.substr(0, dash) + text.substr(unit), Kind::torque);
  if (!lowest || !highest || !(*lowest < *highest)) return;
  tool.lowest = lowest;
  tool.highest = highest;
}

bool sized(ToolKind k) { return k == ToolKind::wrench || k == ToolKind::socket || k == ToolKind::hex_key; }

// Two edits apart at the most.
bool near_in_length(std::string_view a, std::string_view b) {
  return a.size() <= b.size() + 2 && b.size() <= a.size() + 2;
}

// Words of what turns, as the list has them.
const std::vector<std::pair<std::string, std::string>>& turning_words() {
  static const std::vector<std::pair<std::string, std::string>> all = [] {
    std::vector<std::pair<std::string, std::string>> out;
    const auto add = [&](std::string_view text) {
      for (const Token& t : tokens_of(text.substr(text.starts_with('-') ? 1 : 0)))
        if (t.folded.size() > 5)
          out.emplace_back(t.folded,
                           std::string(text.substr(t.begin + (text.starts_with('-') ? 1 : 0), t.end - t.begin)));
    };
    for (const auto& row : reference::tool_words)
      if (row.kind == "wrench" || row.kind == "socket" || row.kind == "torque tool") {
        add(row.word);
        add(row.plural);
      }
    return out;
  }();
  return all;
}

}  // namespace

Tool read_tool(std::string_view text) {
  const std::vector<Token> tokens = tokens_of(text);
  const NamedTool named = named_tool(tokens);
  Tool tool;
  tool.kind = named.kind;
  const auto [count, words] = count_in(text, tokens);
  tool.count = count > 0 ? count : named.plural ? 2 : 1;
  if (sized(tool.kind)) tool.size = size_in(text, tokens, words);
  if (tool.kind == ToolKind::torque_tool) {
    const auto first = std::find_if(tokens.begin() + static_cast<std::ptrdiff_t>(words), tokens.end(),
                                    [](const Token& t) { return t.number; });
    if (first != tokens.end()) read_range(std::string(text.substr(first->begin)), tool);
  }
  return tool;
}

std::optional<ToolSlip> slip_in(std::string_view given) {
  const std::string text(given);
  const std::vector<Token> tokens = tokens_of(given);
  for (const Token& t : tokens) {
    const bool is_word = t.folded.size() > 3 && std::all_of(t.folded.begin(), t.folded.end(),
                                                            [](unsigned char c) { return std::isalpha(c) != 0; });
    if (!is_word || in_a_tool_word(t.folded) || !means(t.folded).empty()) continue;
    for (const auto& [known, written] : turning_words())
      if (near_in_length(t.folded, known) && edit_distance_quarters(t.folded, known) <= (t.folded.size() > 5 ? 8 : 4))
        return ToolSlip{ToolSlip::Kind::misspelt, text.substr(0, t.begin) + written + text.substr(t.end)};
  }
  // A turning tool with a number that is neither a size nor a range.
  const Tool tool = read_tool(given);
  const bool torque = tool.kind == ToolKind::torque_tool;
  const std::size_t counted = count_in(given, tokens).second;
  const bool numbered = std::any_of(tokens.begin() + static_cast<std::ptrdiff_t>(counted), tokens.end(),
                                    [](const Token& t) { return t.number; });
  if ((!torque && !sized(tool.kind)) || !numbered || tool.size || tool.lowest) return std::nullopt;
  return ToolSlip{ToolSlip::Kind::unread, torque ? "torque wrench 40–200 N·m" : "wrench 18 mm"};
}

bool grips(const Tool& t, Length flats) {
  return sized(t.kind) && (!t.size || std::abs(t.size->si() - flats.si()) <= near.si() + 1e-12);
}

int gripping(const std::vector<Tool>& tools, Length flats) {
  int n = 0;
  for (const Tool& t : tools)
    if (grips(t, flats)) n += t.size ? t.count : 2;  // without a size it is a set, or one that is set
  return n;
}

bool none_fits(const std::vector<Tool>& tools, Length flats) {
  const bool named = std::any_of(tools.begin(), tools.end(), [](const Tool& t) { return t.size.has_value(); });
  return named && gripping(tools, flats) == 0;
}

bool none_reaches(const std::vector<Tool>& tools, Torque torque) {
  bool ranged = false, right = false;
  for (const Tool& t : tools) {
    if (!t.lowest) continue;
    ranged = true;
    right |= torque.si() >= t.lowest->si() - 1e-9 && torque.si() <= t.highest->si() + 1e-9;
  }
  return ranged && !right;
}

bool has(const std::vector<Tool>& tools, ToolKind kind) {
  return std::any_of(tools.begin(), tools.end(), [&](const Tool& t) { return t.kind == kind; });
}

}  // namespace trammel::work
