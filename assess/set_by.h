// A fastener that is set by a measure and not by torque: what the kit wants of it, and what was entered.
#pragma once

#include <optional>
#include <string>

#include "measure/text.h"

namespace trammel {

struct SetRange {
  Kind kind = Kind::length;
  double low_si = 0.0, high_si = 0.0;
};
// "end float 0.03 to 0.10 mm"; nothing where the words hold no such range.
std::optional<SetRange> set_range(const std::string& set_by, char decimal_sign = '.');

enum class SetRead { in_range, outside, unreadable };
// Where the kit gives no range, what a person writes is taken as it stands.
SetRead read_set(const std::string& set_by, const std::string& entered, char decimal_sign = '.');

}  // namespace trammel
