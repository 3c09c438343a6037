#include "work/measure_tool.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>

namespace trammel::work {
namespace {

enum class Sort : unsigned char { length, angle, voltage, pressure, mass, speed };

struct Unit {
  std::string_view word;
  Sort sort;
  double millimetres;  // of a length
};
constexpr std::array units_known = {
    Unit{"mm", Sort::length, 1.0},  Unit{"cm", Sort::length, 10.0},   Unit{"in", Sort::length, 25.4},
    Unit{"deg", Sort::angle, 0.0},  Unit{"°", Sort::angle, 0.0},      Unit{"V", Sort::voltage, 0.0},
    Unit{"kPa", Sort::pressure, 0}, Unit{"bar", Sort::pressure, 0.0}, Unit{"psi", Sort::pressure, 0},
    Unit{"kg", Sort::mass, 0.0},    Unit{"km/h", Sort::speed, 0.0},   Unit{"mph", Sort::speed, 0.0}};

// A word in a tool's name and what that tool reads; the first that fits counts.
struct Reads {
  std::string_view word;
  Sort sort;
  double millimetres;
};
constexpr std::array readers = {Reads{"micrometer", Sort::length, 0.01}, Reads{"dial", Sort::length, 0.01},
                                Reads{"calliper", Sort::length, 0.05},   Reads{"caliper", Sort::length, 0.05},
                                Reads{"feeler", Sort::length, 0.05},     Reads{"depth gauge", Sort::length, 0.05},
                                Reads{"rule", Sort::length, 0.5},        Reads{"square", Sort::length, 0.5},
                                Reads{"square", Sort::angle, 0.0},       Reads{"tape", Sort::length, 1.0},
                                Reads{"level", Sort::angle, 0.0},        Reads{"protractor", Sort::angle, 0.0},
                                Reads{"angle", Sort::angle, 0.0},        Reads{"meter", Sort::voltage, 0.0},
                                Reads{"scale", Sort::mass, 0.0},         Reads{"timer", Sort::speed, 0.0},
                                Reads{"stopwatch", Sort::speed, 0.0}};

// Tools that read nothing.
constexpr std::array<std::string_view, 30> others = {
    "wrench", "spanner", "socket", "torque", "driver", "jack",   "stand", "chock",  "pliers",  "hand",
    "chalk",  "snips",   "file",   "drift",  "puller", "spread", "strap", "drill",  "saw",     "hammer",
    "bar",    "sheet",   "tag",    "tablet", "camera", "brush",  "clamp", "grease", "ballast", "paint"};

struct Size {
  std::string text;
  Sort sort;
  double millimetres;
};

// "0.1 to 0.3 mm": the number before its unit, and the one that shares it.
std::vector<Size> sizes_in(std::string_view text) {
  std::vector<Size> out;
  const auto digit = [&](std::size_t i) {
    return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i]));
  };
  std::vector<std::pair<std::string, double>> waiting;
  for (std::size_t i = 0; i < text.size();) {
    if (!digit(i) || (i > 0 && std::isalnum(static_cast<unsigned char>(text[i - 1])) != 0)) {
      // Numbers joined by these share the unit that follows.
      if (!digit(i) && text.substr(i).starts_with(" to ")) {
        i += 4;
        continue;
      }
      if (text[i] != ' ') waiting.clear();
      ++i;
      continue;
    }
    std::size_t end = i;
    while (digit(end) || (end < text.size() && text[end] == '.' && digit(end + 1))) ++end;
    const std::string number(text.substr(i, end - i));
    waiting.emplace_back(number, std::strtod(number.c_str(), nullptr));
    i = end;
    if (i < text.size() && text[i] == ' ') {
      const std::string_view rest = text.substr(i + 1);
      for (const Unit& u : units_known) {
        if (!rest.starts_with(u.word)) continue;
        const std::size_t after = u.word.size();
        if (after < rest.size() && (std::isalnum(static_cast<unsigned char>(rest[after])) != 0 || rest[after] == '/'))
          continue;
        for (const auto& [said, value] : waiting)
          out.push_back({said + " " + std::string(u.word), u.sort, value * u.millimetres});
        waiting.clear();
        i += 1 + after;
        break;
      }
    }
  }
  return out;
}

bool names(std::string_view tool, std::string_view word) { return tool.find(word) != std::string_view::npos; }

}  // namespace

std::optional<Unreadable> unreadable(std::string_view evidence, const std::vector<std::string>& tools) {
  const auto reads = [](const std::string& tool, Sort sort) -> std::optional<double> {
    for (const Reads& r : readers)
      if (r.sort == sort && names(tool, r.word)) return r.millimetres;
    // A gauge without another word reads a pressure, and may read a length or an angle.
    if (names(tool, "gauge") &&
        (sort == Sort::pressure ||
         std::none_of(readers.begin(), readers.end(), [&](const Reads& r) { return names(tool, r.word); })))
      return 0.05;
    return std::nullopt;
  };
  const auto known = [&](const std::string& tool) {
    return names(tool, "gauge") ||
           std::any_of(readers.begin(), readers.end(), [&](const Reads& r) { return names(tool, r.word); }) ||
           std::any_of(others.begin(), others.end(), [&](std::string_view o) { return names(tool, o); });
  };
  if (tools.empty() || !std::all_of(tools.begin(), tools.end(), known)) return std::nullopt;
  for (const Size& s : sizes_in(evidence)) {
    std::optional<double> finest;
    for (const std::string& t : tools)
      if (const auto r = reads(t, s.sort)) finest = std::min(finest.value_or(*r), *r);
    if (!finest) return Unreadable{s.text, std::nullopt};
    if (s.sort == Sort::length && s.millimetres > 0.0 && s.millimetres < *finest - 1e-9)
      return Unreadable{s.text, Length::from_si(*finest * 1e-3)};
  }
  return std::nullopt;
}

}  // namespace trammel::work
