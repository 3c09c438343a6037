#include <fmt/core.h>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "measure/nearest.h"

namespace trammel::cli {
namespace {

// A message without its values: what would stand there is put in pointed brackets.
std::string unfilled(std::string_view line) {
  std::string text;
  for (const char c : line) text += c == '{' ? "‹" : c == '}' ? "›" : std::string(1, c);
  return text;
}

}  // namespace

int explain(const Asked& asked) {
  const Terminal t;
  // Without a code: all findings and diagnostics, a line each. Words of the faces and sheets are not among them.
  const auto explained = [](const MessageEntry& e) { return e.room != "cli" && e.room != "sheets"; };
  if (asked.path.empty()) {
    if (asked.json) {
      Json all = Json::array();
      for (const MessageEntry& e : all_messages())
        if (explained(e)) all.push_back({{"code", std::string(e.code)}, {"line", std::string(e.line)}});
      print_json(all);
      return 0;
    }
    std::vector<std::vector<std::string>> rows;
    for (const MessageEntry& e : all_messages())
      if (explained(e)) rows.push_back({std::string(e.code), unfilled(e.line)});
    fmt::print("{}", table(t, rows, 0));
    return 0;
  }
  const MessageEntry* entry = find_message(asked.path);
  if (!entry) {
    std::vector<std::string_view> codes;
    for (const MessageEntry& e : all_messages())
      if (explained(e)) codes.push_back(e.code);
    const std::string near(nearest(asked.path, codes));
    fmt::print(stderr, "{}\n",
               say(near.empty() ? "code-unknown" : "code-near", {{"text", asked.path}, {"nearest", near}}));
    return 2;
  }
  if (asked.json)
    print_json(Json{{"code", std::string(entry->code)},
                    {"line", std::string(entry->line)},
                    {"help", help_text(Message{std::string(entry->code), {}})}});
  else
    fmt::print("{}\n\n{}\n", t.strong(t.wrapped(unfilled(entry->line), 0, 0)),
               t.wrapped(flowed(help_text(Message{std::string(entry->code), {}})), 0, 0));
  return 0;
}

}  // namespace trammel::cli
