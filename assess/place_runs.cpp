#include "assess/place_runs.h"

#include <charconv>
#include <optional>

namespace trammel {
namespace {

// "left rear 3": the words before the number, and it; nothing where none ends the place.
struct Numbered {
  std::string before;
  int number = 0;
};
std::optional<Numbered> numbered(const std::string& place) {
  const std::size_t space = place.rfind(' ');
  const std::size_t from = space == std::string::npos ? 0 : space + 1;
  Numbered out{place.substr(0, from), 0};
  const auto [end, trouble] = std::from_chars(place.data() + from, place.data() + place.size(), out.number);
  if (trouble != std::errc{} || end != place.data() + place.size()) return std::nullopt;
  return out;
}

}  // namespace

std::vector<std::string> place_runs(const std::vector<std::string>& places) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < places.size();) {
    const auto first = numbered(places[i]);
    std::size_t last = i;
    while (first && last + 1 < places.size()) {
      const auto next = numbered(places[last + 1]);
      if (!next || next->before != first->before || next->number != first->number + static_cast<int>(last + 1 - i))
        break;
      ++last;
    }
    out.push_back(last == i ? places[i] : places[i] + "–" + std::to_string(first->number + static_cast<int>(last - i)));
    i = last + 1;
  }
  return out;
}

}  // namespace trammel
