#include "work/fastener_state.h"

#include <algorithm>
#include <array>
#include <string>

namespace trammel::work {
namespace {
constexpr std::array<std::string_view, 13> names = {"out",        "nut_off",  "slack",      "finger_tight", "snug",
                                                    "part_tight", "final",    "verified",   "locked",       "seized",
                                                    "damaged",    "disputed", "substituted"};
}

FastenerState tightened(FastenerState from, FastenerState to) {
  if (!on_ladder(to)) return from;
  if (from == FastenerState::substituted) from = FastenerState::out;
  if (!on_ladder(from)) return from;
  if (rung(to) > rung(FastenerState::final) && rung(from) < rung(FastenerState::final)) return from;
  return rung(to) > rung(from) ? to : from;
}

FastenerState slackened(FastenerState from, FastenerState to) {
  if (!on_ladder(to)) return from;
  if (!on_ladder(from)) return from;
  return rung(to) < rung(from) ? to : from;
}

std::string_view word(FastenerState s) { return names[static_cast<std::size_t>(s)]; }

std::optional<FastenerState> read_fastener_state(std::string_view text) {
  std::string plain(text);
  std::replace_if(
      plain.begin(), plain.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
  const auto it = std::find(names.begin(), names.end(), plain);
  if (it == names.end()) return std::nullopt;
  return static_cast<FastenerState>(it - names.begin());
}

}  // namespace trammel::work
