#include "jobfile/splice.h"

#include "jobfile/parse.h"
#include "jobfile/rules.h"
#include "jobfile/write.h"

namespace trammel {

namespace {

char decimal_sign_of(const Node& root) {
  const Node* sign = root.find("decimal_sign");
  return sign && sign->text == "," ? ',' : '.';
}

std::vector<Event> events_of(const Node& root, Report& report) {
  ReadContext context{report, Basis::measured, {}};
  context.rules.decimal_sign = decimal_sign_of(root);
  return read_events(root, context);
}

// The entry behind the old text, a blank line between.
std::string joined(const std::string& text, const std::string& entry, std::string_view end_of_line) {
  std::string out = text;
  if (!text.empty() && text.back() != '\n') out += end_of_line;
  if (!text.empty()) out += end_of_line;
  return out + entry;
}

}  // namespace

Spliced append_event(const std::string& text, const Event& event, const std::string& file) {
  Report report;
  const std::string key(list_of(event));
  const auto refused = [&] { return Spliced{text, report.take()}; };

  // The old text must be readable, and its list open at the end.
  const auto root = parse(file, text, report);
  if (!root) return refused();
  if (const Member* list = root->member(key);
      list && (list->value.kind != Node::Kind::list || list->value.inline_list)) {
    report.at(*list, "splice-inline", {{"key", key}});
    return refused();
  }

  // Write it, read it back, and keep it only where it comes back the same.
  const std::string_view end_of_line = text.find("\r\n") == std::string::npos ? "\n" : "\r\n";
  const char sign = decimal_sign_of(*root);
  const auto entry = entry_text(event, sign, end_of_line);
  const std::string whole = entry ? joined(text, *entry, end_of_line) : std::string();
  if (entry) {
    Report earlier, trial;
    const std::size_t before = events_of(*root, earlier).size();
    const auto again = parse(file, whole, trial);
    const auto events = again ? events_of(*again, trial) : std::vector<Event>{};
    if (events.size() == before + 1 && entry_text(events.back(), sign, end_of_line) == entry) return {whole, {}};
  }
  report.add("splice-unreadable", {{"key", key}}, {file, 0, 0});
  return refused();
}

TypedEntry read_entry(const std::string& list, const std::vector<std::pair<std::string, std::string>>& keys,
                      const std::optional<Text>& decimal_sign) {
  std::string text = "[[" + list + "]]\n";
  for (const auto& [key, value] : keys) {
    const bool bare = value == "true" || value == "false" ||
                      (!value.empty() && value.find_first_not_of("0123456789") == std::string::npos);
    text += key + " = ";
    if (!bare) text += '"';
    for (const char c : value) {
      if (c == '"' || c == '\\') text += '\\';
      text += c;
    }
    text += bare ? "\n" : "\"\n";
  }
  Report report;
  std::vector<Event> events;
  if (const auto root = parse("as typed", text, report)) {
    ReadContext context{report, Basis::measured, {}};
    context.rules.decimal_sign = decimal_sign && decimal_sign->value == "," ? ',' : '.';
    events = read_events(*root, context);
  }
  TypedEntry typed;
  typed.diagnostics = report.take();
  if (typed.diagnostics.empty() && events.size() == 1) typed.event = std::move(events.front());
  return typed;
}

Spliced append_reading(const std::string& text, const Reading& reading) { return append_event(text, reading); }
Spliced append_adjustment(const std::string& text, const Adjustment& adjustment) {
  return append_event(text, adjustment);
}
Spliced append_signed(const std::string& text, const Signed& step) { return append_event(text, step); }
Spliced append_torque(const std::string& text, const TorqueEntry& torque) { return append_event(text, torque); }
Spliced append_decision(const std::string& text, const Decision& decision) { return append_event(text, decision); }

}  // namespace trammel
