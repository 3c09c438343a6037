#include "work/tool_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <unordered_map>
#include <unordered_set>

#include "reference/plain_words.h"
#include "reference/tool_words.h"

namespace trammel::work {
namespace {

bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
// Letters outside ASCII are letters too.
bool letter(char c) {
  return static_cast<unsigned char>(c) >= 0x80 || std::isalpha(static_cast<unsigned char>(c)) != 0;
}

constexpr bool all_kinds_known() {
  for (const auto& row : reference::tool_words)
    if (tool_kind(row.kind) == ToolKind::unknown) return false;
  return true;
}
static_assert(all_kinds_known(), "reference/tool_words.csv names a kind that tool.h has not");

// One form of one word of the list, in its single words: "torque wrenches".
struct Entry {
  std::vector<std::string> words;
  std::size_t letters = 0;
  ToolKind kind{};
  bool plural = false;
};

struct Vocabulary {
  std::unordered_map<std::string, std::vector<Entry>> whole;  // by their last word
  std::vector<Entry> endings;                                 // of one word each
  std::unordered_set<std::string> singles;
  std::unordered_map<std::string, std::string_view> plain;

  void add(std::string_view text, ToolKind kind, bool plural) {
    const bool ending = text.starts_with('-');
    Entry e{{}, 0, kind, plural};
    for (const Token& t : tokens_of(text.substr(ending ? 1 : 0))) {
      e.words.push_back(t.folded);
      e.letters += t.folded.size();
      singles.insert(t.folded);
    }
    if (ending)
      endings.push_back(std::move(e));
    else
      whole[e.words.back()].push_back(std::move(e));
  }
  Vocabulary() {
    for (const auto& row : reference::tool_words) {
      const ToolKind kind = tool_kind(row.kind);
      add(row.word, kind, false);
      if (row.plural != row.word) add(row.plural, kind, true);
    }
    for (const auto& row : reference::plain_words) plain.emplace(folded(row.word), row.means);
  }
};
const Vocabulary& vocabulary() {
  static const Vocabulary one;
  return one;
}

}  // namespace

std::string folded(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 7> letters = {
      {{"ä", "ae"}, {"ö", "oe"}, {"ü", "ue"}, {"Ä", "ae"}, {"Ö", "oe"}, {"Ü", "ue"}, {"ß", "ss"}}};
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto it = std::find_if(letters.begin(), letters.end(),
                                 [&](const auto& pair) { return text.substr(i).starts_with(pair.first); });
    if (it == letters.end()) {
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(text[i])));
      continue;
    }
    out += it->second;
    i += it->first.size() - 1;
  }
  return out;
}

std::vector<Token> tokens_of(std::string_view text) {
  std::vector<Token> out;
  const auto parts = [&](std::size_t i) {
    if (std::string_view(" ,;:()").find(text[i]) != std::string_view::npos) return true;
    return text[i] == '-' && i > 0 && i + 1 < text.size() && letter(text[i - 1]) && letter(text[i + 1]);
  };
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    // A comma between digits is a decimal sign.
    while (end < text.size() && (!parts(end) || (text[end] == ',' && end > i && digit(text[end - 1]) &&
                                                 end + 1 < text.size() && digit(text[end + 1]))))
      ++end;
    if (end > i) out.push_back({folded(text.substr(i, end - i)), i, end, digit(text[i])});
    i = end + 1;
  }
  return out;
}

std::string_view means(const std::string& w) {
  const auto it = vocabulary().plain.find(w);
  return it == vocabulary().plain.end() ? std::string_view() : it->second;
}

NamedTool named_tool(const std::vector<Token>& tokens) {
  const Vocabulary& v = vocabulary();
  NamedTool found;
  std::size_t found_at = 0, end = 0;
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    const Token& t = tokens[i];
    // What follows a preposition says more of the tool; "in" and "to" behind a number do not.
    if (i > 0 && !tokens[i - 1].number && means(t.folded) == "preposition") break;
    end = i + 1;
    if (t.number) continue;
    std::size_t letters = 0;
    const auto take = [&](const Entry& e) {
      if (e.letters <= letters) return;
      letters = e.letters;
      found = {e.kind, e.plural, false};
      found_at = i;
    };
    if (const auto it = v.whole.find(t.folded); it != v.whole.end())
      for (const Entry& e : it->second) {
        if (e.words.size() > i + 1) continue;
        bool same = true;
        for (std::size_t k = 0; k < e.words.size(); ++k)
          same &= tokens[i + 1 - e.words.size() + k].folded == e.words[k];
        if (same) take(e);
      }
    for (const Entry& e : v.endings)
      if (t.folded.ends_with(e.words.front())) take(e);
  }
  found.last = found.kind != ToolKind::unknown && found_at + 1 == end;
  return found;
}

bool in_a_tool_word(const std::string& w) {
  const Vocabulary& v = vocabulary();
  return v.singles.contains(w) ||
         std::any_of(v.endings.begin(), v.endings.end(), [&](const Entry& e) { return w.ends_with(e.words.front()); });
}

}  // namespace trammel::work
