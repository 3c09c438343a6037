#include "work/hold.h"

#include <algorithm>

namespace trammel::work {
namespace {

// A wheel of that end that is off, with no other in its place.
bool wheel_missing(const Roster& r, const State& s, End end) {
  for (std::size_t p = 0; p < r.parts.size(); ++p) {
    if (r.procedure.parts[r.parts[p].part].kind != PartKind::wheel || !agree(r.parts[p].instance.end, end)) continue;
    const bool off = s.parts[p] == PartState::off || s.parts[p] == PartState::scrap;
    const auto& by = r.parts[p].replaced_by;
    if (off && std::none_of(by.begin(), by.end(), [&](std::size_t k) { return s.parts[k] == PartState::on; }))
      return true;
  }
  return false;
}

bool applied(const Roster& r, const State& s, End end) {
  switch (r.procedure.brakes[end == End::front ? 0 : 1]) {
    case ParkingBrake::not_known:
    case ParkingBrake::none:
      return false;
    case ParkingBrake::wheels:
    case ParkingBrake::motor_shaft:
      return known_holds(r, s, Known::parking_brake);
    case ParkingBrake::power_off_shaft:
      return !known_holds(r, s, Known::brake_released);
  }
  return false;
}

}  // namespace

bool known_holds(const Roster& r, const State& s, Known known) {
  for (std::size_t c = 0; c < r.conditions.size(); ++c)
    if (r.conditions[c].meaning.known == known && condition_holds(r, s, c, Side::none)) return true;
  return false;
}

bool brake_applied(const Roster& r, const State& s) {
  return known_holds(r, s, Known::parking_brake) || applied(r, s, End::front) || applied(r, s, End::rear);
}

End power_off_end(const Roster& r) {
  for (const End e : {End::front, End::rear})
    if (r.procedure.brakes[e == End::front ? 0 : 1] == ParkingBrake::power_off_shaft) return e;
  return End::none;
}

Hold hold_of(const Roster& r, const State& s, End end) {
  if (!on_floor(s, end)) return {};
  const bool at_wheels = r.procedure.brakes[end == End::front ? 0 : 1] == ParkingBrake::wheels;
  const bool both_down = all_stand(s, Support::on_wheels, end) && !wheel_missing(r, s, end);
  return {s.chocked[end == End::front ? 0 : 1], applied(r, s, end) && (at_wheels || both_down)};
}

}  // namespace trammel::work
