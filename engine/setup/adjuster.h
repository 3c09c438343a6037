// What one turn of an adjuster does to the wheels, and how far it may go.
//
// Model, linear about the cart as it stands: (camber, toe) += effect x turns. `own` is the wheel on the
// adjuster's side; `other` the wheel across (nothing for an independent front; a drag link or a single
// tie rod moves both). The effects come from the geometry or from class averages and carry a standard
// uncertainty: alignment treats them as unknowns and learns them from what each turn did.
// Symbols: effects are angles per whole turn; turns are angles (2/3 turn = 0.667 * units::turn), positive
// where the part gets longer. Frame and sign: ISO 8855. Ignores: curvature over many turns.
#pragma once

#include <string>
#include <vector>

#include "setup/wheel_angles.h"

namespace trammel::setup {

// Change of a wheel's camber and own toe for one whole turn.
struct Effect {
  Angle camber, toe;
};

struct EffectSpread {
  Angle camber, toe;         // standard uncertainties
  double correlation = 0.0;  // between the two
};

struct Adjuster {
  Side side = Side::left;
  std::string name;  // the job's own key: upper_arm, tie_rod, ...
  Effect own, other;
  EffectSpread own_spread, other_spread;
  int flats_per_turn = 6;
  // Turns still free either way from where it stands before the first event: thread engagement.
  Angle most_shorter = -10.0 * units::turn, most_longer = 10.0 * units::turn;
};

enum class Direction { none, longer, shorter };

}  // namespace trammel::setup
