// The units that texts may carry, as rows. Private to the reader and the printer.
//
// si = (value * num / den) + offset; num and den are whole where the factor is rational, so that an
// exact fraction reaches SI with one rounding.
#pragma once

#include <span>
#include <string_view>

#include "measure/kind.h"

namespace trammel::reading {

struct UnitRow {
  Kind kind;
  std::string_view name;  // the spelling that is printed
  double num, den, offset;
  bool any_case;               // inch-pound and angle units; SI units only as written
  std::string_view spellings;  // parted by `|`; `·` stands for any of · * - . or a space
  std::string_view part = {};  // the unit that may follow: feet and inches
  int parts = 0;               // how many of `part` make one
};

std::span<const UnitRow> unit_table();
const UnitRow* find_unit(Kind kind, std::string_view name);

// Words that could mean several units of a kind, with those.
struct AmbiguousUnit {
  Kind kind;
  std::string_view spellings;
  std::string_view choices;  // parted by `|`
};
std::span<const AmbiguousUnit> ambiguous_units();

}  // namespace trammel::reading
