// A message to be worded: its code and the values it speaks of, by name.
//
// The words live in messages/en/*.toml, one file a room; see messages/catalogue.h.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "measure/kind.h"

namespace trammel {

// A text that begins with @ names another code, and stands for its line: "@part-tie-rod".
using Argument = std::variant<std::string, Number>;

struct Message {
  std::string code;
  std::vector<std::pair<std::string, Argument>> arguments;
};

}  // namespace trammel
