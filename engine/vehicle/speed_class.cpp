#include "vehicle/speed_class.h"

#include <array>

namespace trammel::vehicle {

// The texts print both units; the metric figures are used. Z130.1 and Z135: figures read in the standards body's public
// summary (secondary), their year from memory. 571.3(b): speeds 63 FR 33194 (17 June 1998), gross mass 71 FR 20026
// (19 April 2006), both read in the Federal Register; "attainable in 1.6 km (1 mile) on a paved level surface".
// A top speed of 32 km/h to the last digit is in neither of the two classes it parts.
std::span<const SpeedRule> speed_rules() {
  using units::kg, units::km_per_h;
  static constexpr std::array<SpeedRule, 3> rules{{
      {SpeedClass::golf_car, Speed(), 24.0 * km_per_h, false, Mass(), "ANSI/NGCMA Z130.1", "2012"},
      {SpeedClass::personal_transport_vehicle, Speed(), 32.0 * km_per_h, false, 1135.0 * kg, "ANSI/NGCMA Z135", "2012"},
      {SpeedClass::low_speed_vehicle, 32.0 * km_per_h, 40.0 * km_per_h, true, 1361.0 * kg, "49 CFR 571.3(b)",
       "2006-04-19"},
  }};
  return rules;
}

const SpeedRule* rule_for(Speed v, Mass gross, std::span<const SpeedRule> rules) {
  for (const SpeedRule& r : rules) {
    const bool speed = (v > r.above || r.above == Speed()) && (v < r.below || (r.inclusive && v == r.below));
    if (speed && (r.gross_below == Mass() || gross < r.gross_below)) return &r;
  }
  return nullptr;
}

SpeedClass speed_class(Speed v, Mass gross, std::span<const SpeedRule> rules) {
  const SpeedRule* rule = rule_for(v, gross, rules);
  return rule ? rule->speed_class : SpeedClass::none;
}

SpeedChange speed_change(Speed before, Length radius_before, Length radius_after, Mass gross,
                         std::span<const SpeedRule> rules) {
  SpeedChange c;
  c.before = before;
  c.after = speed_on_tyres(before, radius_before, radius_after);
  const SpeedRule* rule = rule_for(before, gross, rules);
  c.class_before = rule ? rule->speed_class : SpeedClass::none;
  c.class_after = speed_class(c.after, gross, rules);
  c.back_to_before = limiter_factor(c.after, before);
  if (rule) c.stay_in_class = limiter_factor(c.after, rule->below);
  return c;
}

}  // namespace trammel::vehicle
