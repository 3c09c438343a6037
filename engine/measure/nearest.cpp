#include "measure/nearest.h"

#include <algorithm>
#include <array>

namespace trammel {
namespace {

constexpr std::size_t longest = 64;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

int change_cost(char a, char b) {
  if (a == b) return 0;
  return lower(a) == lower(b) ? 1 : 4;
}

template <class Word>
std::string_view nearest_of(std::string_view word, std::span<const Word> words) {
  std::string_view best;
  int best_distance = 0;
  if (word.empty() || word.size() > longest) return best;
  for (const Word& candidate : words) {
    const std::string_view known = candidate;
    if (known.empty() || known.size() > longest) continue;
    const std::size_t length = std::max(word.size(), known.size());
    const int cut_off = length < 2 ? 1 : std::max<int>(4, 4 * static_cast<int>(length) / 3);
    if (4 * static_cast<int>(length - std::min(word.size(), known.size())) > cut_off) continue;
    const int distance = edit_distance_quarters(word, known);
    // A word of which nothing is left is no neighbour.
    if (distance > cut_off || distance >= 4 * static_cast<int>(length)) continue;
    if (best.empty() || distance < best_distance) {
      best = known;
      best_distance = distance;
    }
  }
  return best;
}

}  // namespace

int edit_distance_quarters(std::string_view a, std::string_view b) {
  a = a.substr(0, longest);
  b = b.substr(0, longest);
  // Three rows of the table suffice: this one, the last, and the one before for a swap.
  std::array<int, longest + 1> before, last, row;
  for (std::size_t j = 0; j <= b.size(); ++j) before[j] = last[j] = row[j] = 4 * static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = 4 * static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 4, row[j - 1] + 4, last[j - 1] + change_cost(a[i - 1], b[j - 1])});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped && a[i - 1] != a[i - 2]) row[j] = std::min(row[j], before[j - 2] + 4);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::string_view nearest(std::string_view word, std::span<const std::string_view> words) {
  return nearest_of(word, words);
}
std::string_view nearest(std::string_view word, std::span<const std::string> words) { return nearest_of(word, words); }

bool one_slip_from(std::string_view word, std::string_view known) {
  if (word == known || std::min(word.size(), known.size()) < 4 || std::max(word.size(), known.size()) > longest)
    return false;
  return edit_distance_quarters(word, known) <= 4;
}

}  // namespace trammel
