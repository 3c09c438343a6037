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
// A text that its file breaks into lines, as one.
inline std::string flowed(std::string text) {
  for (char& c : text)
    if (c == '\n') c = ' ';
  return text;
}
inline std::string help(const std::string& code) { return help_text(Message{code, {}}); }

}  // namespace trammel::cli
