// A tyre's size as it is written on its side, and what follows from it by arithmetic.
//
// Metric "205/50-10", "205/50R10 78M": section width mm / height as per cent of width - rim diameter inches.
//   overall diameter = rim + 2 width aspect / 100          ISO 4000-1:2021 nominal arithmetic (from memory)
// Inch "18x8.5-8": overall diameter x section width - rim diameter, all inches (as printed by the trade).
// A size without its overall diameter or aspect ("4.80-8") is refused: nothing is guessed.
// Error: nominal sizes; a real tyre in service may be 1 to 3 % other. Loaded radius is an estimate:
//   radius - share of the rated load * f * section height, f = 0.20 +- 0.05 (common practice, no source),
//   section height = (overall - rim) / 2.
#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "measure/quantity.h"

namespace trammel::suspension {

enum class TyreNotation { metric, inch };

struct TyreSize {
  TyreNotation notation{};
  Length overall_diameter{}, section_width{}, rim_diameter{};
  double aspect = 0;  // section height / section width
  bool radial = false;
  std::optional<int> load_index;  // as marked
  char speed_symbol = '\0';       // as marked
  std::optional<int> ply_rating;  // as marked
  Length section_height() const { return 0.5 * (overall_diameter - rim_diameter); }
};

enum class TyreFault { empty, not_a_size, no_overall_diameter, out_of_range, rim_not_smaller, trailing_text };
struct TyreError {
  TyreFault fault{};
  std::size_t at = 0;  // offset of the first byte that cannot be read
};

std::variant<TyreSize, TyreError> read_tyre(std::string_view text);

// Standard uncertainty beside the value; its basis is `assumed`.
struct LoadedRadius {
  Length value{}, u{};
};
// `load_share`: wheel load over the load the tyre is rated for. A light cart's wheels stand near 0.6 of it
// (common practice, no source).
LoadedRadius loaded_radius_estimate(const TyreSize& size, double load_share = 0.6);

}  // namespace trammel::suspension
