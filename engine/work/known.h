// Conditions whose words the rehearsal understands. Every other condition is a word that one step gives and another
// needs.
//
//   chocked, front chocked, rear chocked   gone once that end is lifted or the cart rolls
//   parking brake on                       gone once the cart rolls; what it holds: hold.h
//   brake released                         a brake that is on while the power is off, let go by lever or tow switch;
//                                          given before the cart is rolled by hand, ended before it is driven
//   X on jack, X on stand, X on stands     a prop under X; it is taken away by a step that ends the condition
//   key out, switch off, negative off, zero measured   isolation, electric, in this order; undone in the other one
//   key out, fuel shut, plug lead off, negative off, start tried   isolation, petrol: key first, a try of the key last,
//                                          and on the way back the battery before the fuel
//   pack isolated, engine isolated         the whole of it in one word
//   floor level                            how level the floor is has been read; readings that are taken against it
//   want it
// Readings that the rehearsal knows by their names: `ride heights`, `camber`, `toe` (or `alignment`, both in one). They
// are taken against the floor, on the wheels, and lifting the cart voids them.
// Order of isolation: common practice, no source; 29 CFR 1910.147(d) has the same shape (shut down, isolate, verify).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "work/procedure.h"

namespace trammel::work {

enum class Known : unsigned char {
  word,
  chocks,
  parking_brake,
  brake_released,
  prop,
  key_out,
  switch_off,
  negative_off,
  zero_measured,
  fuel_shut,
  plug_off,
  start_tried,
  isolated
};

struct Meaning {
  Known known = Known::word;
  End end = End::none;  // of chocks; none: both
  std::string prop;     // what a prop is under
};
Meaning meaning_of(std::string_view condition);
// The word with rules that this one is a single slip away from: "front choked", "axle on jak"; empty for any other.
std::string nearly_known(std::string_view condition);

// The words of isolation, as Known has them from key_out on.
inline constexpr std::array<std::string_view, 7> isolation_words = {
    "key out", "switch off", "negative off", "zero measured", "fuel shut", "plug lead off", "start tried"};

inline constexpr std::string_view floor_level = "floor level";
// The rules of such a reading, which a kit's own proof of that name adds to; nothing for another proof.
std::optional<Proof> known_reading(std::string_view proof);
// Steering and brakes: camber, toe and alignment, and what has `brake` or `steering` in its name. Where work has voided
// one of them it is made again before the first drive, though lifting may have voided it since.
bool guards_the_drive(std::string_view proof);

}  // namespace trammel::work
