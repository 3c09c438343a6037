// What a measuring tool reads, and whether what a check asks for can be read with the tools of its step.
//
// A tool reads some quantities, a length down to a step of its own (reference/tool_readings.csv: tape 1 mm, rule 0.5
// mm, dial gauge 0.01 mm; common practice, no source). A check names sizes with their units ("height within 5 mm",
// "unter 1 V", "0,3 mm"): one below the finest step of the tools in hand cannot be read. Law 1: where the words of a
// tool of the step are not known, nothing is said. Law 2: a check that names no size asks for no tool.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "work/tool.h"

namespace trammel::work {

enum class Measured : unsigned char { length, angle, voltage, pressure, mass, speed, time, temperature };
inline constexpr std::array<std::string_view, 8> measured_words = {"length", "angle", "voltage", "pressure",
                                                                   "mass",   "speed", "time",    "temperature"};

bool reads(ToolKind kind, Measured what);
// What words speak of: "tyre pressure" of a pressure (reference/quantity_words.csv). Nothing where no word is known.
std::optional<Measured> quantity_in(std::string_view text);

struct Unreadable {
  std::string asked;             // as the check writes it: "0.3 mm"
  std::optional<Length> finest;  // what the finest tool in hand reads; none: no tool in hand measures it
};
std::optional<Unreadable> unreadable(std::string_view evidence, const std::vector<Tool>& tools);

}  // namespace trammel::work
