// The state of thread and bearing face when the nut is turned, and the nut factor K that goes with it.
//
// K of T = K d F lumps thread and face friction. It is known from publications that do not agree (dry zinc
// 0.15, 0.20, 0.295), so a state carries the lowest, the usual and the highest K published for it.
// Source: reference/surface_states.csv, chosen from reference/torque_factor_K.csv; the choice is ours and
// its basis is `derived`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reference/basis.h"

namespace trammel::fastener {

enum class Surface {
  dry_steel,
  dry_black,
  dry_zinc,
  dry_cadmium,
  light_oil,
  greased,
  waxed,
  anti_seize,
  thread_locker
};

// A nut factor with its published spread; low <= nominal <= high.
struct NutFactor {
  double low = 0.0, nominal = 0.0, high = 0.0;  // pure numbers
  std::string_view source;
  reference::Basis basis{};
};

NutFactor nut_factor(Surface surface);
// True where a film of oil, grease, wax or locker lies on the thread.
bool is_wet(Surface surface);

// The state's name as written in files: "dry zinc".
std::string_view name(Surface surface);
// Reads a state or one of its everyday spellings ("dry", "oiled", "zinc"); nothing where unknown.
std::optional<Surface> read_surface(std::string_view text);
std::vector<std::string_view> surface_names();

}  // namespace trammel::fastener
