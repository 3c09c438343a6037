#include "fastener/hole.h"

#include "fastener/engagement.h"
#include "reference/clearance_holes.h"

namespace trammel::fastener {
namespace {

// A hole measured with a calliper.
constexpr Length reading = 0.05 * units::mm;

}  // namespace

std::optional<ClearanceHole> clearance_hole(const Thread& thread) {
  const std::string size = size_name(thread);
  for (const auto& row : reference::clearance_holes)
    if (row.thread == size)
      return ClearanceHole{row.fine_mm * units::mm, row.medium_mm * units::mm, row.coarse_mm * units::mm, row.source,
                           row.basis};
  return std::nullopt;
}

HoleFit hole_fit(const Thread& thread, Length hole) {
  if (hole <= thread.d) return HoleFit::too_small;
  const auto series = clearance_hole(thread);
  if (!series) return HoleFit::not_tabled;
  if (hole > series->coarse + reading) return HoleFit::too_large;
  return hole < series->fine - reading ? HoleFit::tight : HoleFit::fits;
}

std::optional<TapDrill> tap_drill(const Thread& thread) {
  const auto minor = tapped_minor_limits(thread);
  if (!minor) return std::nullopt;
  return TapDrill{minor->least, thread.d - thread.pitch, minor->most};
}

}  // namespace trammel::fastener
