// Units found in a text by their spellings. Private to the reader.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/unit_table.h"

namespace trammel::reading {

// The end of the longest of `spellings`, parted by `|`, that stands at `at`; `at` where none does.
std::size_t match_any(std::string_view text, std::size_t at, std::string_view spellings, bool any_case);

// The printed name of the unit whose spelling comes nearest to a word that is none.
std::string nearest_unit(std::string_view word, Kind kind);

std::vector<std::string> split_choices(std::string_view choices);

}  // namespace trammel::reading
