#include "work/load.h"

#include <algorithm>
#include <string>

namespace trammel::work {
namespace {
constexpr std::array<std::string_view, load_count> names = {"jacked", "on_stands",     "on_wheels",
                                                            "rolled", "driven_capped", "released"};
}

LeastStates default_least(Duty duty) {
  using S = FastenerState;
  switch (duty) {
    case Duty::wheel:
      return {S::out, S::out, S::snug, S::final, S::final, S::final};
    case Duty::body:
    case Duty::battery:
      return {S::out, S::out, S::out, S::out, S::final, S::final};
    case Duty::general:
      break;
  }
  return {S::out, S::out, S::finger_tight, S::snug, S::final, S::final};
}

LeastStates resolve_least(Duty duty, const GivenLeast& given) {
  LeastStates least = default_least(duty);
  // A given state replaces the default of its own load, lower or higher.
  for (std::size_t i = 0; i < load_count; ++i)
    if (given[i] && on_ladder(*given[i])) least[i] = *given[i];
  // Back on the wheels, what is asked never falls.
  for (std::size_t i = static_cast<std::size_t>(Load::rolled); i < load_count; ++i)
    if (rung(least[i]) < rung(least[i - 1])) least[i] = least[i - 1];
  if (below(least.back(), FastenerState::final)) least.back() = FastenerState::final;
  return least;
}

std::string_view word(Load load) { return names[static_cast<std::size_t>(load)]; }

std::optional<Load> read_load(std::string_view text) {
  std::string plain(text);
  std::replace_if(
      plain.begin(), plain.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
  if (plain == "driven") return Load::driven_capped;
  const auto it = std::find(names.begin(), names.end(), plain);
  if (it == names.end()) return std::nullopt;
  return static_cast<Load>(it - names.begin());
}

}  // namespace trammel::work
