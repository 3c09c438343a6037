#include "work/measure_tool.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>

#include "reference/quantity_words.h"
#include "reference/tool_readings.h"
#include "work/tool_text.h"

namespace trammel::work {
namespace {

constexpr std::optional<Measured> measured(std::string_view name) {
  for (std::size_t i = 0; i < measured_words.size(); ++i)
    if (measured_words[i] == name) return static_cast<Measured>(i);
  return std::nullopt;
}
constexpr bool all_known() {
  for (const auto& row : reference::tool_readings)
    if (tool_kind(row.kind) == ToolKind::unknown || !measured(row.reads)) return false;
  for (const auto& row : reference::quantity_words)
    if (!measured(row.quantity)) return false;
  return true;
}
static_assert(all_known(), "reference/tool_readings.csv or quantity_words.csv names what is not known");

struct Unit {
  std::string_view word;
  Measured sort;
  double millimetres;  // of a length
};
constexpr std::array units_known = {
    Unit{"mm", Measured::length, 1.0},  Unit{"cm", Measured::length, 10.0},   Unit{"in", Measured::length, 25.4},
    Unit{"deg", Measured::angle, 0.0},  Unit{"°", Measured::angle, 0.0},      Unit{"V", Measured::voltage, 0.0},
    Unit{"kPa", Measured::pressure, 0}, Unit{"bar", Measured::pressure, 0.0}, Unit{"psi", Measured::pressure, 0},
    Unit{"kg", Measured::mass, 0.0},    Unit{"km/h", Measured::speed, 0.0},   Unit{"mph", Measured::speed, 0.0}};

struct Size {
  std::string text;
  Measured sort;
  double millimetres;
};

// "0.1 to 0.3 mm": the number before its unit, and the one that shares it.
std::vector<Size> sizes_in(std::string_view text) {
  std::vector<Size> out;
  const auto digit = [&](std::size_t i) {
    return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i]));
  };
  const auto sign = [&](std::size_t i) {
    return i < text.size() && (text[i] == '.' || text[i] == ',') && digit(i + 1);
  };
  std::vector<std::pair<std::string, double>> waiting;
  for (std::size_t i = 0; i < text.size();) {
    if (!digit(i) || (i > 0 && std::isalnum(static_cast<unsigned char>(text[i - 1])) != 0)) {
      // Numbers joined by these share the unit that follows.
      std::size_t joined = 0;
      for (const std::string_view between : {" to ", " bis "})
        if (!digit(i) && text.substr(i).starts_with(between)) joined = between.size();
      if (joined == 0 && text[i] != ' ') waiting.clear();
      i += joined == 0 ? 1 : joined;
      continue;
    }
    std::size_t end = i;
    while (digit(end) || sign(end)) ++end;
    std::string number(text.substr(i, end - i));
    const std::string said = number;
    std::replace(number.begin(), number.end(), ',', '.');
    waiting.emplace_back(said, std::strtod(number.c_str(), nullptr));
    i = end;
    if (i < text.size() && text[i] == ' ') {
      const std::string_view rest = text.substr(i + 1);
      for (const Unit& u : units_known) {
        if (!rest.starts_with(u.word)) continue;
        const std::size_t after = u.word.size();
        if (after < rest.size() && (std::isalnum(static_cast<unsigned char>(rest[after])) != 0 || rest[after] == '/'))
          continue;
        for (const auto& [shown, value] : waiting)
          out.push_back({shown + " " + std::string(u.word), u.sort, value * u.millimetres});
        waiting.clear();
        i += 1 + after;
        break;
      }
    }
  }
  return out;
}

// Down to what it reads: nought for what is no length.
std::optional<double> step_of(ToolKind kind, Measured what) {
  for (const auto& row : reference::tool_readings)
    if (tool_kind(row.kind) == kind && measured(row.reads) == what) return row.step_mm.value_or(0.0);
  return std::nullopt;
}

}  // namespace

bool reads(ToolKind kind, Measured what) { return step_of(kind, what).has_value(); }

std::optional<Measured> quantity_in(std::string_view text) {
  std::optional<Measured> found;
  for (const Token& t : tokens_of(text)) {
    std::size_t letters = 0;
    for (const auto& row : reference::quantity_words) {
      const bool ending = row.word.starts_with('-');
      const std::string word = folded(row.word.substr(ending ? 1 : 0));
      if (word.size() <= letters || !(ending ? t.folded.ends_with(word) : t.folded == word)) continue;
      letters = word.size();
      found = measured(row.quantity);
    }
  }
  return found;
}

std::optional<Unreadable> unreadable(std::string_view evidence, const std::vector<Tool>& tools) {
  if (tools.empty() || has(tools, ToolKind::unknown)) return std::nullopt;
  for (const Size& s : sizes_in(evidence)) {
    std::optional<double> finest;
    for (const Tool& t : tools)
      if (const auto r = step_of(t.kind, s.sort)) finest = std::min(finest.value_or(*r), *r);
    if (!finest) return Unreadable{s.text, std::nullopt};
    if (s.sort == Measured::length && s.millimetres > 0.0 && s.millimetres < *finest - 1e-9)
      return Unreadable{s.text, Length::from_si(*finest * 1e-3)};
  }
  return std::nullopt;
}

}  // namespace trammel::work
