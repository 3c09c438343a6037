// How often the true cause is named first, or among the first two: carts with one seeded fault.
//
// An invented double wishbone (or a beam on leaf springs) without adjusters for camber, each point off by 5 mm from
// what the tool believes. The fault is drawn by the priors and sizes that diagnosis states and put into the cart's own
// linkage, solved exactly: a sagged corner is a pose at that rise, exchanged arms are lengths, a bent knuckle an angle.
// Healthy wheels scatter, rods are preset by chance, readings carry their tools' errors. Drawn again until something is
// out of tolerance (camber +-0.5 deg, total toe 3 to 6 mm, difference +-2 mm). Read: camber and toe twice; or heights
// as well; or, besides, the cart as it came in and a caster sweep. So the tool knows the true priors: a shop whose
// faults come in other shares will see other figures.
#pragma once

#include <array>
#include <functional>
#include <span>

#include "setup/chance.h"
#include "setup/diagnosis.h"

namespace trammel::setup {

enum class ReadAlso { nothing, heights, all };

constexpr std::size_t seeded_causes = 7;  // those that are faults: all but an adjuster that began far off

struct CauseStudy {
  bool beam = false;
  ReadAlso also = ReadAlso::nothing;
  int carts = 300;
};

struct CauseResult {
  std::array<int, seeded_causes> seeded{}, first{}, first_two{}, right_side{};
  std::array<std::array<int, seeded_causes + 1>, seeded_causes> named{};  // seeded, then what was named first
  double stated =
      0.0;  // mean share that was given to whatever was named first: to be held against how often it is right
};

CauseResult study_causes(const CauseStudy& study, Generator& g, const std::function<void()>& one_more = {});

}  // namespace trammel::setup
