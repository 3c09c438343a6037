// What is not yet as it must be when the cart is given back, and the most that may come on the cart meanwhile.
//
// Loose: every fastener that was turned, or carries something, and is below what a release asks of it; those that came
// off with their part too, unless both are scrap. Places: parts of the cart that are off, or scrap with what replaces
// them not on yet. The most that may come on: the least of
//   on stands      while a wheel or suspension part is off its place, or a jack or stand is under a part
//   rolled         while the power is off, a second look is still owed, or a check that guards the drive is not good
//   before L       for each loose fastener below its least state for L (load.h)
//   driven         until a release would be granted (release.h)
// Law 1: never `released` while something refuses a release. Law 2: tightening never lowers it, slackening never raises
// it. Ignores: what no step says, as a brake that was not bled.
#pragma once

#include <optional>
#include <vector>

#include "work/ledger.h"

namespace trammel::work {

struct LooseItem {
  std::size_t fastener = 0;  // entry in Roster::fasteners
  FastenerState state{};
  std::optional<Load> not_before;  // first load, on wheels or later, that it may not see
};

struct Unfinished {
  std::vector<LooseItem> loose;
  std::vector<std::size_t> places;  // part entries whose place is empty
  Load most = Load::released;       // never less than on stands
  bool up = false;                  // a wheel is off the floor: `most` is for when it is down
};
Unfinished unfinished(const Roster& roster, const State& state);

}  // namespace trammel::work
