#include "vehicle/tyre_rating.h"

#include "reference/tyre_load_index.h"
#include "reference/tyre_speed_symbol.h"

namespace trammel::vehicle {

std::optional<TyreRating> tyre_rating(int load_index, std::string_view speed_symbol) {
  for (const auto& load : reference::tyre_load_index) {
    if (load.load_index != load_index) continue;
    for (const auto& speed : reference::tyre_speed_symbol)
      if (speed.symbol == speed_symbol)
        return TyreRating{load.load_kg * units::kg, speed.speed_kmh * units::km_per_h, load.source, load.basis};
  }
  return std::nullopt;
}

}  // namespace trammel::vehicle
