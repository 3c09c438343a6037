#include "fastener/surface.h"

#include <array>
#include <cassert>

#include "fastener/spellings.h"
#include "reference/surface_states.h"

namespace trammel::fastener {
namespace {

// One row a state, in the order of the enumeration.
static_assert(reference::surface_states.size() == static_cast<std::size_t>(Surface::thread_locker) + 1);
static_assert(reference::surface_states.front().state == "dry steel");
static_assert(reference::surface_states.back().state == "thread locker");

const reference::SurfaceRow& row(Surface surface) {
  return reference::surface_states[static_cast<std::size_t>(surface)];
}

}  // namespace

NutFactor nut_factor(Surface surface) {
  const auto& r = row(surface);
  return {r.k_low, r.k_nominal, r.k_high, r.source, r.basis};
}

bool is_wet(Surface surface) { return surface >= Surface::light_oil; }

std::string_view name(Surface surface) { return row(surface).state; }

std::optional<Surface> read_surface(std::string_view text) {
  Scanner s(text);
  const auto found = take_spelling<Surface>(s, surface_spellings);
  return found && s.done() ? found : std::nullopt;
}

std::vector<std::string_view> surface_names() {
  std::vector<std::string_view> names;
  for (const auto& r : reference::surface_states) names.push_back(r.state);
  return names;
}

}  // namespace trammel::fastener
