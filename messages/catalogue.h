// Every finding and diagnostic in plain words: one line and a longer help for each code.
//
// `line` and `help` hold {names} that the message's arguments fill; `{{` and `}}` are braces themselves.
// A number is printed with its unit by measure's print(). An argument that the message does not carry
// stays visible as {name}, so that a gap is seen and never guessed. The table is made from
// messages/en/*.toml; a duplicate code, a missing help or an unbalanced brace fails the build.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "measure/text.h"
#include "messages/message.h"

namespace trammel {

struct MessageEntry {
  std::string_view code;
  std::string_view line;  // one sentence or clause, no full stop at its end
  std::string_view help;  // what it means, why it matters and what to do
  std::string_view room;  // name of the file that the code stands in: "files"
};

// All codes, sorted.
std::span<const MessageEntry> all_messages();

// Null where the code is not known.
const MessageEntry* find_message(std::string_view code);

// The line of a message with its values; the bare code where the catalogue does not know it.
std::string word(const Message& message, const PrintStyle& style = {});
// The same in another language ("de"); in English where that language does not have the code.
std::string word_in(std::string_view language, const Message& message, const PrintStyle& style = {});
std::string help_in(std::string_view language, const Message& message, const PrintStyle& style = {});

// The help of a message, its values filled in likewise; empty where the catalogue does not know the code.
std::string help_text(const Message& message, const PrintStyle& style = {});

}  // namespace trammel
