// The text of a tool or check as words that can be compared. Private to the room.
//
// Words are folded: capitals and small letters alike, ä as ae, ß as ss. A hyphen between letters parts two words.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "work/tool.h"

namespace trammel::work {

struct Token {
  std::string folded;
  std::size_t begin = 0, end = 0;  // in the text
  bool number = false;             // begins with a digit
};
std::vector<Token> tokens_of(std::string_view text);
std::string folded(std::string_view text);

// What a small word means (reference/plain_words.csv): "preposition", "negation"; empty where it is none.
std::string_view means(const std::string& folded_word);

// The tool that the words name; `last` says that nothing follows its name.
struct NamedTool {
  ToolKind kind = ToolKind::unknown;
  bool plural = false, last = false;
};
NamedTool named_tool(const std::vector<Token>& tokens);

// A word that some tool's name has.
bool in_a_tool_word(const std::string& folded_word);

}  // namespace trammel::work
