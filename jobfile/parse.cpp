#include "jobfile/parse.h"

#include <toml++/toml.h>

#include <algorithm>
#include <sstream>

namespace trammel {

namespace {

constexpr int deepest = 64;  // tables in tables; no file of ours comes near
constexpr int most_dots_in_a_line = 200;

Place place_of(const toml::source_region& source, const std::string& path) {
  return {path, static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}
int length_of(const toml::source_region& source) {
  if (source.end.line != source.begin.line || source.end.column <= source.begin.column) return 1;
  return static_cast<int>(source.end.column - source.begin.column);
}

// The first byte that is not UTF-8 (RFC 3629: no overlong forms, no surrogates, up to U+10FFFF) or is NUL.
std::size_t first_bad_byte(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
  const auto tail = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  for (std::size_t i = 0; i < text.size();) {
    const unsigned b = byte(i), c = byte(i + 1);
    if (b != 0 && b < 0x80)
      i += 1;
    else if (b >= 0xC2 && b <= 0xDF && tail(i + 1))
      i += 2;
    else if (b >= 0xE0 && b <= 0xEF && tail(i + 1) && tail(i + 2) && !(b == 0xE0 && c < 0xA0) &&
             !(b == 0xED && c > 0x9F))
      i += 3;
    else if (b >= 0xF0 && b <= 0xF4 && tail(i + 1) && tail(i + 2) && tail(i + 3) && !(b == 0xF0 && c < 0x90) &&
             !(b == 0xF4 && c > 0x8F))
      i += 4;
    else
      return i;
  }
  return text.size();
}

Place place_at(const std::string& path, std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, offset);
  const std::size_t start = before.rfind('\n') + 1;  // 0 where there is none
  const auto lines = std::count(before.begin(), before.end(), '\n');
  return {path, static_cast<int>(lines) + 1, characters(before.substr(start)) + 1};
}

// A line of very many dots would nest tables deeper than any reader should follow.
std::optional<std::size_t> dotted_line(std::string_view text) {
  int dots = 0;
  std::size_t start = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') {
      dots = 0;
      start = i + 1;
    } else if (text[i] == '.' && ++dots > most_dots_in_a_line)
      return start;
  }
  return std::nullopt;
}

struct TooDeep {
  Place place;
};

Node to_node(const toml::node& from, const std::string& path, int depth);

Node table_node(const toml::table& table, const std::string& path, int depth) {
  Node node;
  for (const auto& [key, value] : table)
    node.members.push_back({std::string(key.str()), place_of(key.source(), path), length_of(key.source()),
                            to_node(value, path, depth + 1)});
  std::stable_sort(node.members.begin(), node.members.end(), [](const Member& a, const Member& b) {
    return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
  });
  return node;
}

Node to_node(const toml::node& from, const std::string& path, int depth) {
  if (depth > deepest) throw TooDeep{place_of(from.source(), path)};
  Node node;
  if (const auto* table = from.as_table()) {
    node = table_node(*table, path, depth);
  } else if (const auto* list = from.as_array()) {
    node.kind = Node::Kind::list;
    node.inline_list = !list->is_array_of_tables() || (!list->empty() && list->get(0)->as_table()->is_inline());
    for (const auto& item : *list) node.items.push_back(to_node(item, path, depth + 1));
  } else if (const auto* text = from.as_string()) {
    node.kind = Node::Kind::text;
    node.text = text->get();
  } else if (const auto* integer = from.as_integer()) {
    node.kind = Node::Kind::integer;
    node.integer = integer->get();
    node.decimal = static_cast<double>(integer->get());
  } else if (const auto* decimal = from.as_floating_point()) {
    node.kind = Node::Kind::decimal;
    node.decimal = decimal->get();
  } else if (const auto* flag = from.as_boolean()) {
    node.kind = Node::Kind::flag;
    node.flag = flag->get();
  } else {
    node.kind = Node::Kind::date;
    std::ostringstream spelled;
    if (const auto* date = from.as_date())
      spelled << date->get();
    else if (const auto* time = from.as_time())
      spelled << time->get();
    else if (const auto* both = from.as_date_time())
      spelled << both->get();
    node.text = spelled.str();
  }
  node.place = place_of(from.source(), path);
  node.length = length_of(from.source());
  return node;
}

}  // namespace

const Member* Node::member(std::string_view key) const {
  const auto found = std::find_if(members.begin(), members.end(), [&](const Member& m) { return m.key == key; });
  return found == members.end() ? nullptr : &*found;
}

const Node* Node::find(std::string_view key) const {
  const Member* found = member(key);
  return found ? &found->value : nullptr;
}

std::string_view kind_name(const Node& node) {
  switch (node.kind) {
    case Node::Kind::text:
      return "text";
    case Node::Kind::integer:
    case Node::Kind::decimal:
      return "a number";
    case Node::Kind::flag:
      return "true or false";
    case Node::Kind::date:
      return "a date";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::table:
      break;
  }
  return "a table";
}

std::optional<Node> parse(const std::string& path, std::string text, Report& report) {
  // A byte order mark says only that this is UTF-8.
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  const std::size_t bad = first_bad_byte(text);
  report.open(path, bad < text.size() ? text.substr(0, bad) : text);
  if (bad < text.size()) {
    const bool nul = text[bad] == '\0';
    report.add(nul ? "nul-byte" : "not-utf8", {}, place_at(path, text, bad));
    return std::nullopt;
  }
  if (const auto start = dotted_line(text)) {
    report.add("too-deep", {}, place_at(path, text, *start));
    return std::nullopt;
  }
  try {
    const toml::table table = toml::parse(text, path);
    Node root = table_node(table, path, 0);
    root.place = {path, 1, 1};
    return root;
  } catch (const toml::parse_error& error) {
    std::string what(error.description());
    if (what.starts_with("Error ")) what.erase(0, 6);
    report.add("syntax", {{"what", std::move(what)}}, place_of(error.source(), path));
  } catch (const TooDeep& deep) { report.add("too-deep", {}, deep.place); }
  return std::nullopt;
}

}  // namespace trammel
