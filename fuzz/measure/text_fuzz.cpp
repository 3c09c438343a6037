// Any bytes as a quantity of every kind, as a tolerance and as a point: an answer is a fault inside the text, or a
// value that prints, reads back and prints the same.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <iostream>

#include "measure/text.h"

namespace {

using namespace trammel;

void hold(bool law, const char* name, std::string_view text, const std::string& detail = {}) {
  if (law) return;
  std::cerr << "broken: " << name << "\ntext: " << text << "\n" << detail << "\n";
  std::abort();
}

void fault_is_inside(const TextError& e, std::string_view text) {
  hold(e.at <= text.size() && e.length <= text.size() - e.at, "the fault lies inside the text", text);
}

// The range that text.h states for its laws.
bool prints_exactly(const Number& n) {
  if (n.kind == Kind::temperature && n.si - n.u.value_or(0.0) < 100.0) return false;
  return std::abs(n.si) < 1e10 && n.u.value_or(0.0) < 1e10;
}

void quantity(std::string_view text, Kind kind, const TextRules& rules) {
  const ReadResult r = read_quantity(text, kind, rules);
  if (const auto* e = std::get_if<TextError>(&r)) return fault_is_inside(*e, text);
  const Number& n = std::get<Written>(r).number;
  hold(std::isfinite(n.si) && n.u.value_or(0.0) >= 0.0 && std::isfinite(n.u.value_or(0.0)), "finite", text);
  if (!prints_exactly(n)) return;
  for (Systems systems : {Systems::both, Systems::metric, Systems::inch}) {
    const PrintStyle style{.systems = systems, .decimal_sign = rules.decimal_sign};
    const std::string once = print(n, style);
    const ReadResult again = read_quantity(once, kind, {.decimal_sign = rules.decimal_sign});
    hold(std::holds_alternative<Written>(again), "what is printed is read", text, once);
    const std::string twice = print(std::get<Written>(again).number, style);
    hold(once == twice, "print, read, print", text, once + "\n" + twice);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  // The length picks the rules, so that a run stays short.
  const TextRules rules =
      size % 2 == 0 ? TextRules{} : TextRules{.decimal_sign = ',', .bare = "in", .flats_per_turn = 6};
  for (int k = 0; k <= static_cast<int>(Kind::pitch); ++k) quantity(text, static_cast<Kind>(k), rules);
  for (Kind kind : {Kind::length, Kind::angle}) {
    const auto band = read_band(text, kind, rules);
    if (const auto* e = std::get_if<TextError>(&band))
      fault_is_inside(*e, text);
    else
      hold(std::get<Band>(band).low_si <= std::get<Band>(band).high_si, "a band is upright", text);
  }
  const auto point = read_point(text, rules);
  if (const auto* e = std::get_if<TextError>(&point))
    fault_is_inside(*e, text);
  else
    hold(std::isfinite(std::get<WrittenPoint>(point).x_si), "a point is finite", text);
  return 0;
}
