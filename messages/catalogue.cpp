#include "messages/catalogue.h"

#include <algorithm>
#include <array>

#include "messages/generated/table.h"
#include "messages/generated/table_de.h"

namespace trammel {

namespace {

const MessageEntry* find_in(std::span<const MessageEntry> table, std::string_view code) {
  const auto at = std::lower_bound(table.begin(), table.end(), code,
                                   [](const MessageEntry& entry, std::string_view c) { return entry.code < c; });
  return at != table.end() && at->code == code ? &*at : nullptr;
}

// The entry of a code in a language, else in English.
const MessageEntry* entry_in(std::string_view language, std::string_view code) {
  const MessageEntry* translated = language == "de" ? find_in(generated::table_de, code) : nullptr;
  return translated ? translated : find_message(code);
}

std::string text_of(std::string_view language, const Argument& argument, const PrintStyle& style) {
  if (const auto* text = std::get_if<std::string>(&argument)) {
    if (!text->starts_with('@')) return *text;
    // "@a" is the line of code a, "@a, @b" the lines of both.
    std::string out;
    for (std::size_t at = 0; at < text->size();) {
      const std::size_t end = std::min(text->find(", @", at), text->size());
      const std::string_view code = std::string_view(*text).substr(at + 1, end - at - 1);
      const MessageEntry* named = entry_in(language, code);
      out.append(out.empty() ? "" : ", ").append(named ? named->line : std::string_view(*text).substr(at, end - at));
      at = end + (end < text->size() ? 2 : 0);
    }
    return out;
  }
  return print(std::get<Number>(argument), style);
}

// Fills {name} from the arguments; the generator has checked the braces.
std::string fill(std::string_view language, std::string_view text, const Message& message, const PrintStyle& style) {
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
      out += text_of(language, found->second, style);
    i = end;
  }
  return out;
}

}  // namespace

std::span<const MessageEntry> all_messages() { return generated::table; }

const MessageEntry* find_message(std::string_view code) { return find_in(generated::table, code); }

std::string word(const Message& message, const PrintStyle& style) { return word_in("en", message, style); }

std::string word_in(std::string_view language, const Message& message, const PrintStyle& style) {
  const MessageEntry* entry = entry_in(language, message.code);
  return entry ? fill(language, entry->line, message, style) : message.code;
}

std::string help_in(std::string_view language, const Message& message, const PrintStyle& style) {
  const MessageEntry* entry = entry_in(language, message.code);
  if (entry && entry->help.empty()) entry = find_message(message.code);
  return entry ? fill(language, entry->help, message, style) : std::string();
}

std::string help_text(const Message& message, const PrintStyle& style) { return help_in("en", message, style); }

}  // namespace trammel
