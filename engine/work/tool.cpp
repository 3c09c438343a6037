#include "work/tool.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string>

#include "measure/nearest.h"
#include "measure/text.h"

namespace trammel::work {
namespace {

constexpr Length near = Length::from_si(0.15e-3);

bool fits(Length wrench, const std::optional<Length>& head) {
  return head && std::abs(wrench.si() - head->si()) <= near.si() + 1e-12;
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
  return text;
}

template <class Q>
std::optional<Q> read(std::string_view text, Kind kind) {
  const ReadResult r = read_quantity(text, kind);
  if (const auto* w = std::get_if<Written>(&r)) return Q::from_si(w->number.si);
  return std::nullopt;
}

}  // namespace

Tool read_tool(std::string_view given) {
  Tool tool;
  const std::string text = replaced(std::string(given), "–", "-");
  const bool torque = text.find("torque") != std::string::npos;
  tool.turns = torque;
  for (const char* word : {"wrench", "spanner", "socket"}) tool.turns |= text.find(word) != std::string::npos;
  if (!tool.turns) return tool;
  // The last number begins the size or the range: "2 wrenches 16 mm", "torque wrench 40-200 N·m".
  const auto digit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
  std::size_t at = std::string::npos;
  for (std::size_t i = 1; i < text.size(); ++i)
    if (digit(text[i]) && text[i - 1] == ' ') {
      at = i;
      break;
    }
  if (at == std::string::npos) return tool;
  const std::string size = text.substr(at);
  if (!torque) {
    // What stands behind the size is no part of it: "16 mm deep".
    for (std::size_t end = size.size(); !tool.size && end != std::string::npos && end > 0;
         end = size.rfind(' ', end - 1))
      tool.size = read<Length>(size.substr(0, end), Kind::length);
    return tool;
  }
  const std::size_t dash = size.find('-'), unit = size.find(' ');
  if (dash == std::string::npos || unit == std::string::npos || dash > unit) return tool;
  tool.lowest = read<Torque>(size.substr(0, dash) + size.substr(unit), Kind::torque);
  tool.highest = read<Torque>(size.substr(dash + 1), Kind::torque);
  return tool;
}

std::optional<ToolSlip> slip_in(std::string_view given) {
  static constexpr std::array<std::string_view, 8> known = {"wrench", "wrenches", "spanner", "spanners",
                                                            "socket", "sockets",  "torque",  "driver"};
  // Words that are near one of these and mean themselves.
  static constexpr std::array<std::string_view, 4> others = {"bracket", "trench", "drive", "pocket"};
  const std::string text(given);
  for (std::size_t from = 0; from < text.size();) {
    std::size_t to = text.find(' ', from);
    if (to == std::string::npos) to = text.size();
    const std::string word = text.substr(from, to - from);
    const bool is_word =
        word.size() > 3 && std::all_of(word.begin(), word.end(), [](unsigned char c) { return std::isalpha(c) != 0; });
    const auto is = [&](std::string_view k) { return k == word; };
    if (is_word && std::none_of(known.begin(), known.end(), is) && std::none_of(others.begin(), others.end(), is))
      for (const std::string_view k : known)
        if (edit_distance_quarters(word, k) <= (word.size() > 5 ? 8 : 4))
          return ToolSlip{ToolSlip::Kind::misspelt, text.substr(0, from) + std::string(k) + text.substr(to)};
    from = to + 1;
  }
  // A turning tool with a number that is neither a size nor a range.
  const Tool tool = read_tool(given);
  const bool numbered = std::any_of(text.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(1, text.size())),
                                    text.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  if (!tool.turns || !numbered || tool.size || (tool.lowest && tool.highest)) return std::nullopt;
  return ToolSlip{ToolSlip::Kind::unread,
                  text.find("torque") == std::string::npos ? "wrench 18 mm" : "torque wrench 40–200 N·m"};
}

bool no_wrench_fits(const std::vector<Tool>& tools, const Fastener& f) {
  const auto ungripped = [&](const std::optional<Length>& flats) {
    return flats &&
           std::none_of(tools.begin(), tools.end(), [&](const Tool& t) { return t.size && fits(*t.size, flats); });
  };
  const bool sized = std::any_of(tools.begin(), tools.end(), [](const Tool& t) { return t.size.has_value(); });
  return sized && (ungripped(f.head) || ungripped(f.nut));
}

bool no_wrench_reaches(const std::vector<Tool>& tools, Torque torque) {
  bool ranged = false, right = false;
  for (const Tool& t : tools) {
    if (!t.lowest || !t.highest) continue;
    ranged = true;
    right |= torque.si() >= t.lowest->si() - 1e-9 && torque.si() <= t.highest->si() + 1e-9;
  }
  return ranged && !right;
}

std::vector<std::size_t> idle_wrenches(const std::vector<Tool>& tools, const std::vector<const Fastener*>& turned) {
  std::vector<std::size_t> out;
  if (turned.empty() || std::any_of(turned.begin(), turned.end(), [](const Fastener* f) { return !f->head; }))
    return out;
  for (std::size_t i = 0; i < tools.size(); ++i)
    if (tools[i].size && std::none_of(turned.begin(), turned.end(), [&](const Fastener* f) {
          return fits(*tools[i].size, f->head) || fits(*tools[i].size, f->nut);
        }))
      out.push_back(i);
  return out;
}

}  // namespace trammel::work
