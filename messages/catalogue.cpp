#include "messages/catalogue.h"

#include <algorithm>
#include <array>

#include "messages/generated/table.h"
#include "messages/generated/table_de.h"

namespace trammel {

namespace {

std::string text_of(const Argument& argument, const PrintStyle& style) {
  if (const auto* text = std::get_if<std::string>(&argument)) {
    if (!text->starts_with('@')) return *text;
    // "@a" is the line of code a, "@a, @b" the lines of both.
    std::string out;
    for (std::size_t at = 0; at < text->size();) {
      const std::size_t end = std::min(text->find(", @", at), text->size());
      const std::string_view code = std::string_view(*text).substr(at + 1, end - at - 1);
      const MessageEntry* named = find_message(code);
      out.append(out.empty() ? "" : ", ").append(named ? named->line : std::string_view(*text).substr(at, end - at));
      at = end + (end < text->size() ? 2 : 0);
    }
    return out;
  }
  return print(std::get<Number>(argument), style);
}

// Fills {name} from the arguments; the generator has checked the braces.
std::string fill(std::string_view text, const Message& message, const PrintStyle& style) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if ((c == '{' || c == '}') && i + 1 < text.size() && text[i + 1] == c) {
      out += c;
      ++i;
      continue;
    }
    const std::size_t end = c == '{' ? text.find('}', i) : std::string_view::npos;
    if (end == std::string_view::npos) {
      out += c;
      continue;
    }
    const std::string_view name = text.substr(i + 1, end - i - 1);
    const auto found = std::find_if(message.arguments.begin(), message.arguments.end(),
                                    [&](const auto& argument) { return argument.first == name; });
    if (found == message.arguments.end())
      out.append("{").append(name).append("}");
    else
      out += text_of(found->second, style);
    i = end;
  }
  return out;
}

// The entry of a code in a language, else in English.
const MessageEntry* entry_in(std::string_view language, std::string_view code) {
  if (language == "de")
    for (const MessageEntry& entry : generated::table_de)
      if (entry.code == code) return &entry;
  return find_message(code);
}

}  // namespace

std::span<const MessageEntry> all_messages() { return generated::table; }

const MessageEntry* find_message(std::string_view code) {
  const auto at = std::lower_bound(generated::table.begin(), generated::table.end(), code,
                                   [](const MessageEntry& entry, std::string_view c) { return entry.code < c; });
  return at != generated::table.end() && at->code == code ? &*at : nullptr;
}

std::string word(const Message& message, const PrintStyle& style) {
  const MessageEntry* entry = find_message(message.code);
  return entry ? fill(entry->line, message, style) : message.code;
}

std::string word_in(std::string_view language, const Message& message, const PrintStyle& style) {
  const MessageEntry* entry = entry_in(language, message.code);
  return entry ? fill(entry->line, message, style) : message.code;
}

std::string help_in(std::string_view language, const Message& message, const PrintStyle& style) {
  const MessageEntry* entry = entry_in(language, message.code);
  return entry ? fill(entry->help, message, style) : std::string();
}

std::string help_text(const Message& message, const PrintStyle& style) {
  const MessageEntry* entry = find_message(message.code);
  return entry ? fill(entry->help, message, style) : std::string();
}

}  // namespace trammel
