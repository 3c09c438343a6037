// The loads that can come on while work goes on, and the least state a fastener must have for each.
//
// Loads in order: jacked (that end on the jack alone), on stands, on wheels, rolled (by hand), driven capped
// (first drive at reduced speed), released (given back). Each least state is asked when that load comes on.
// A least state given for a load on the wheels holds for the loads after it as well (on wheels <= rolled <=
// driven capped <= released), unless a higher one is given or stands in the defaults. Jacked and on stands
// stand alone. Released is at least final and cannot be lowered; verified there asks for
// a second person's check.
// Defaults (common practice, no source; a kit states its own where it differs):
//             jacked  on stands  on wheels     rolled  driven capped  released
//   wheel     out     out        snug          final   final          final
//   general   out     out        finger_tight  snug    final          final
//   body      out     out        out           out     final          final
//   battery   as body
// general: suspension, steering, brakes, electrical. `out` asks nothing.
// Law 1: the resolved least states never fall from on_wheels to released. Law 2: released is final.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "work/fastener_state.h"

namespace trammel::work {

enum class Load : unsigned char { jacked, on_stands, on_wheels, rolled, driven_capped, released };
inline constexpr std::size_t load_count = 6;

// What a fastener holds, as far as its defaults differ.
enum class Duty : unsigned char { general, wheel, body, battery };

using GivenLeast = std::array<std::optional<FastenerState>, load_count>;
using LeastStates = std::array<FastenerState, load_count>;

LeastStates default_least(Duty duty);
LeastStates resolve_least(Duty duty, const GivenLeast& given);

inline FastenerState least_for(const LeastStates& least, Load load) { return least[static_cast<std::size_t>(load)]; }

std::string_view word(Load load);
std::optional<Load> read_load(std::string_view text);

}  // namespace trammel::work
