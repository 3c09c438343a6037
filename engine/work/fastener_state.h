// The state of one fastener, as a ladder with four states that stand off it.
//
// Ladder, lowest first: out, nut off (bolt left in as a pivot or pin), slack, finger-tight, snug,
// part-tight (a pass below the last), final, verified (checked by a second person) or locked (split pin, tab,
// locker cured). Verified and locked share the top rung.
// Off the ladder: seized, damaged, disputed (what is asked and what the bolt can take disagree: the work
// holds), substituted (another fastener stands in and has not been tightened yet).
//
// Law 1: an off-ladder state is below every least state but `out`, so it never carries a load nor a release.
// Law 2: tightening never lowers, slackening never raises; both leave seized, damaged and disputed as they are.
// Law 3: verified and locked are reached only from final: a check of what is not final proves nothing.
// Source: common practice, no source.
#pragma once

#include <optional>
#include <string_view>

namespace trammel::work {

enum class FastenerState : unsigned char {
  out,
  nut_off,
  slack,
  finger_tight,
  snug,
  part_tight,
  final,
  verified,
  locked,
  seized,
  damaged,
  disputed,
  substituted
};

constexpr bool on_ladder(FastenerState s) { return s <= FastenerState::locked; }
// The rung, 0 for out; -1 off the ladder.
constexpr int rung(FastenerState s) {
  if (!on_ladder(s)) return -1;
  return s == FastenerState::locked ? static_cast<int>(FastenerState::verified) : static_cast<int>(s);
}
constexpr bool below(FastenerState s, FastenerState least) {
  return least != FastenerState::out && rung(s) < rung(least);
}

FastenerState tightened(FastenerState from, FastenerState to);
FastenerState slackened(FastenerState from, FastenerState to);

// The words of files: "finger_tight"; spaces and hyphens serve for the underscore.
std::string_view word(FastenerState s);
std::optional<FastenerState> read_fastener_state(std::string_view text);

}  // namespace trammel::work
