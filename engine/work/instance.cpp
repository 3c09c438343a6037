#include "work/instance.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string>

#include "measure/nearest.h"

namespace trammel::work {
namespace {

constexpr std::size_t most_instances = 256;

struct Choice {
  std::vector<std::string> words;
  std::size_t at = 0;
  bool braced = false;
};

bool number_text(std::string_view s) {
  return !s.empty() && s.size() <= 4 &&
         std::all_of(s.begin(), s.end(), [](unsigned char c) { return std::isdigit(c); });
}

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return s;
}

constexpr std::array<std::string_view, 4> places = {"left", "right", "front", "rear"};
bool place_word(std::string_view s) { return std::find(places.begin(), places.end(), s) != places.end(); }

// The place that a word is a slip of; empty for any other. Joined by a dot, or in braces, it stands for a place.
std::string_view place_meant(std::string_view s, bool stands_for_place) {
  constexpr std::array<std::string_view, 8> trade = {"gear", "lift", "light", "tight", "near", "wear", "loft", "bear"};
  if (!stands_for_place && std::find(trade.begin(), trade.end(), s) != trade.end()) return {};
  for (std::string_view p : places)
    if (one_slip_from(s, p)) return p;
  return {};
}

// "1..4" as its numbers; nothing where the text is no range; empty where the range is bad.
std::optional<std::vector<std::string>> read_range(std::string_view s) {
  const auto dots = s.find("..");
  if (dots == std::string_view::npos) return std::nullopt;
  const auto low = s.substr(0, dots), high = s.substr(dots + 2);
  std::vector<std::string> out;
  if (!number_text(low) || !number_text(high)) return out;
  const int a = std::stoi(std::string(low)), b = std::stoi(std::string(high));
  if (a < 1 || b < a || b - a >= static_cast<int>(most_instances)) return out;
  for (int n = a; n <= b; ++n) out.push_back(std::to_string(n));
  return out;
}

// Where the last part of the text begins, after its last comma outside braces.
std::size_t tail_start(std::string_view text) {
  std::size_t start = 0;
  int depth = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '{') ++depth;
    if (text[i] == '}') --depth;
    if (text[i] == ',' && depth == 0) start = i + 1;
  }
  return start;
}

Expansion fail(ExpandFault fault, std::size_t at) { return {{}, fault, at, {}}; }

}  // namespace

Expansion expand_braces(std::string_view group, std::string_view text) {
  // Every brace in the text multiplies; place words and bare ranges only in its tail.
  std::vector<Choice> choices;
  const std::size_t tail = tail_start(text);
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '}') return fail(ExpandFault::unbalanced_brace, i);
    if (text[i] == '{') {
      const auto close = text.find_first_of("{}", i + 1);
      if (close == std::string_view::npos || text[close] == '{') return fail(ExpandFault::unbalanced_brace, i);
      Choice c{{}, i, true};
      std::string_view inside = text.substr(i + 1, close - i - 1);
      for (;;) {
        const auto comma = inside.find(',');
        const auto item = trimmed(inside.substr(0, comma));
        if (item.empty()) return fail(ExpandFault::empty_choice, i);
        if (auto range = read_range(item)) {
          if (range->empty()) return fail(ExpandFault::bad_range, i);
          c.words.insert(c.words.end(), range->begin(), range->end());
        } else {
          if (const auto meant = place_meant(item, true); !meant.empty())
            return {{}, ExpandFault::misspelt_place, static_cast<std::size_t>(item.data() - text.data()), meant};
          c.words.emplace_back(item);
        }
        if (comma == std::string_view::npos) break;
        inside.remove_prefix(comma + 1);
      }
      choices.push_back(std::move(c));
      i = close + 1;
      continue;
    }
    // A bare word of the tail, up to a space, a brace or a single dot.
    if (i >= tail && text[i] != ' ' && text[i] != '.' && text[i] != ',') {
      std::size_t e = i;
      while (e < text.size() && text[e] != ' ' && text[e] != '{' && text[e] != '}' && text[e] != ',') {
        if (text[e] == '.') {
          if (e + 1 < text.size() && text[e + 1] == '.') {
            e += 2;
            continue;
          }
          break;
        }
        ++e;
      }
      e = std::min(e, text.size());
      const auto w = text.substr(i, e - i);
      if (auto range = read_range(w); range && std::isdigit(static_cast<unsigned char>(w.front()))) {
        if (range->empty()) return fail(ExpandFault::bad_range, i);
        choices.push_back({std::move(*range), i, false});
      } else if (place_word(w)) {
        choices.push_back({{std::string(w)}, i, false});
      } else {
        const bool joined = (e < text.size() && text[e] == '.') || (i > 0 && text[i - 1] == '.');
        if (const auto meant = place_meant(w, joined); !meant.empty())
          return {{}, ExpandFault::misspelt_place, i, meant};
      }
      i = std::max(e, i + 1);
      continue;
    }
    ++i;
  }

  // Multiply, the first choice varying slowest.
  std::vector<Instance> out{Instance{std::string(group)}};
  for (const Choice& c : choices) {
    std::vector<Instance> next;
    for (const Instance& base : out) {
      for (const std::string& w : c.words) {
        Instance i = base;
        if (w == "left" || w == "right") {
          if (i.side != Side::none) return fail(ExpandFault::twice_a_side, c.at);
          i.side = w == "left" ? Side::left : Side::right;
        } else if (w == "front" || w == "rear") {
          if (i.end != End::none) return fail(ExpandFault::twice_a_side, c.at);
          i.end = w == "front" ? End::front : End::rear;
        } else if (number_text(w)) {
          if (i.number != 0) return fail(ExpandFault::twice_a_side, c.at);
          i.number = std::stoi(w);
        } else {
          if (!i.word.empty()) i.word += ' ';
          i.word += w;
        }
        if (std::find(next.begin(), next.end(), i) != next.end()) return fail(ExpandFault::repeated, c.at);
        next.push_back(std::move(i));
        if (next.size() > most_instances) return fail(ExpandFault::too_many, c.at);
      }
    }
    out = std::move(next);
  }
  return {std::move(out), ExpandFault::none, 0, {}};
}

}  // namespace trammel::work
