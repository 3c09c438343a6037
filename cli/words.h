// The words of this face, from messages/.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "messages/catalogue.h"

namespace trammel::cli {

inline std::string say(const std::string& code, std::vector<std::pair<std::string, Argument>> arguments = {},
                       const PrintStyle& style = {}) {
  return word(Message{code, std::move(arguments)}, style);
}
inline std::string help(const std::string& code) { return help_text(Message{code, {}}); }

}  // namespace trammel::cli
