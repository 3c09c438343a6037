#include "measure/unit_match.h"

#include <algorithm>

#include "measure/nearest.h"
#include "measure/scanner.h"

namespace trammel::reading {
namespace {

bool same_letter(char32_t a, char32_t b, bool any_case) {
  const auto lower = [](char32_t c) { return c >= U'A' && c <= U'Z' ? c + 32 : c; };
  return a == b || (any_case && lower(a) == lower(b));
}

// Where `spelling` ends if it stands at `at`, else `at` itself.
std::size_t match(std::string_view text, std::size_t at, std::string_view spelling, bool any_case) {
  Scanner in{text, at}, want{spelling, 0};
  while (!want.done()) {
    const Glyph w = glyph_at(spelling, want.at);
    want.at += w.bytes;
    if (w.code == U'·') {
      const std::size_t before = in.at;
      in.skip_spaces();
      if (in.take(U'·') || in.take(U'-') || in.take(U'*') || in.take(U'.')) in.skip_spaces();
      if (in.at == before) return at;
    } else if (w.code == U' ') {
      const std::size_t before = in.at;
      in.skip_spaces();
      if (in.at == before) return at;
    } else {
      const Glyph g = glyph_at(text, in.at);
      if (g.bytes == 0 || !same_letter(g.code, w.code, any_case)) return at;
      in.at += g.bytes;
    }
  }
  // A unit ends where its word ends.
  const char32_t next = in.peek();
  const bool word = is_letter(glyph_at(spelling, spelling.size() - 1).code);
  if ((word && is_letter(next)) || next == U'/' || next == U'^' || next == U'·') return at;
  return in.at;
}

}  // namespace

std::size_t match_any(std::string_view text, std::size_t at, std::string_view spellings, bool any_case) {
  std::size_t longest = at;
  const char32_t first = glyph_at(text, at).code;
  while (!spellings.empty()) {
    const std::size_t bar = std::min(spellings.find('|'), spellings.size());
    if (bar > 0 && same_letter(first, glyph_at(spellings, 0).code, any_case))
      longest = std::max(longest, match(text, at, spellings.substr(0, bar), any_case));
    spellings.remove_prefix(std::min(bar + 1, spellings.size()));
  }
  return longest;
}

std::vector<std::string> split_choices(std::string_view choices) {
  std::vector<std::string> out;
  while (!choices.empty()) {
    const std::size_t bar = std::min(choices.find('|'), choices.size());
    out.emplace_back(choices.substr(0, bar));
    choices.remove_prefix(std::min(bar + 1, choices.size()));
  }
  return out;
}

std::string nearest_unit(std::string_view word, Kind kind) {
  std::vector<std::string_view> known;
  std::vector<const UnitRow*> owner;
  for (const UnitRow& row : unit_table()) {
    if (row.kind != kind) continue;
    std::string_view rest = row.spellings;
    while (!rest.empty()) {
      const std::size_t bar = std::min(rest.find('|'), rest.size());
      known.push_back(rest.substr(0, bar));
      owner.push_back(&row);
      rest.remove_prefix(std::min(bar + 1, rest.size()));
    }
  }
  std::string plain;
  for (char c : word.substr(0, 64)) plain += c == '-' || c == '*' || c == '.' ? std::string("·") : std::string(1, c);
  const std::string_view found = nearest(plain, known);
  for (std::size_t i = 0; i < known.size(); ++i)
    if (!found.empty() && known[i].data() == found.data()) return std::string(owner[i]->name);
  return {};
}

}  // namespace trammel::reading
