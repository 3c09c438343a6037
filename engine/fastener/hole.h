// The hole a bolt goes through, and the drill for it.
//
// Clearance: ISO 273 fine, medium and coarse series; ASME B18.2.8 close, normal and loose (both from memory). A hole
// below the thread's diameter lets nothing through; above the coarse series the head may sink in and the parts shift.
// Tapping drill: d - P; the hole must lie within the minor diameter of a 6H thread, D1 to D1 + TD1 (ISO 965-1, from
// memory). Smaller breaks taps, larger leaves less thread than the strip areas of engagement.h count on.
// Ignores: slots, countersinks, drill wander (a hand drill makes a hole some tenths larger).
#pragma once

#include <optional>
#include <string_view>

#include "fastener/thread.h"
#include "reference/basis.h"

namespace trammel::fastener {

struct ClearanceHole {
  Length fine, medium, coarse;
  std::string_view source;
  reference::Basis basis{};
};
// Nothing for sizes that are not tabled.
std::optional<ClearanceHole> clearance_hole(const Thread& thread);

enum class HoleFit { too_small, tight, fits, too_large, not_tabled };
// tight: the bolt goes through and the hole is below the fine series, as a fitted bolt's is.
HoleFit hole_fit(const Thread& thread, Length hole);

struct TapDrill {
  Length least, usual, most;
};
// Nothing for threads whose limits are not tabled.
std::optional<TapDrill> tap_drill(const Thread& thread);

}  // namespace trammel::fastener
