// Whether what a check asks for can be read with the tools of its step.
//
// The check's words name sizes with their units ("height within 5 mm", "below 1 V"); a tool reads one kind of size down
// to a step of its own: tape 1 mm, rule and square 0.5 mm, calliper and feeler 0.05 mm, micrometer and dial gauge
// 0.01 mm; level, protractor, square and angle gauge an angle; meter a voltage; gauge a pressure; scales a mass; timer
// or stopwatch a speed (common practice, no source). A size below the finest step of the tools in hand cannot be read.
// Law 1: where any tool of the step is none of those known here, nothing is said. Law 2: a check that names no size
// asks for no tool.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"

namespace trammel::work {

struct Unreadable {
  std::string asked;             // as the check writes it: "0.3 mm"
  std::optional<Length> finest;  // what the finest tool in hand reads; none: no tool in hand measures it
};
std::optional<Unreadable> unreadable(std::string_view evidence, const std::vector<std::string>& tools);

}  // namespace trammel::work
