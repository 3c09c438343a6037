#include "fastener/castle.h"

#include <cassert>

namespace trammel::fastener {
namespace {

constexpr Pressure steel_modulus = 205000.0 * units::MPa;  // from memory; EN 1993-1-1 has 210000

}  // namespace

CastleStep castle_step(const Thread& thread, std::optional<Length> grip, int slots) {
  assert(slots > 0);
  const Length advance = thread.pitch / static_cast<double>(slots);
  CastleStep step{units::turn / static_cast<double>(slots), advance, 0.5 * advance, std::nullopt};
  if (grip && *grip > Length{}) step.rise = (advance / *grip) * (steel_modulus * stress_area(thread));
  return step;
}

CastleAnswer castle_answer(Torque at_slot, Torque least, Torque limit) {
  if (at_slot > limit) return CastleAnswer::change_shim;
  return at_slot < least ? CastleAnswer::forward : CastleAnswer::pin;
}

}  // namespace trammel::fastener
