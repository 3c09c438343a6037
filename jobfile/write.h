// Values and entries as the text that reads back to the same last bit.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"

namespace trammel {

// The shortest of the ways to write a value with its unit; nothing where no text gives it exactly.
std::optional<std::string> exact_text(double si, Kind kind, char decimal_sign);

// The list an event stands in: "reading", "adjustment", "rear_reading", "rear_adjustment", "signed", "torque",
// "decision", "found", "undo".
std::string_view list_of(const Event& event);

// `[[reading]]` and its lines, each ended by `end_of_line`; nothing where a value cannot be written.
std::optional<std::string> entry_text(const Event& event, char decimal_sign, std::string_view end_of_line);

}  // namespace trammel
