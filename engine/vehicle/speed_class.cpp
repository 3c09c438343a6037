#include "vehicle/speed_class.h"

#include <array>

namespace trammel::vehicle {

// The texts print both units; the metric figure is used. Z130.1 and Z135 as quoted by their standards body's public
// summary (read there, secondary); 571.3(b) figures: 63 FR 33194 (speed) and 71 FR 20026 (3000 lb gross; from memory).
std::span<const SpeedRule> speed_rules() {
  using units::kg, units::km_per_h;
  static constexpr std::array<SpeedRule, 3> rules{{
      {SpeedClass::golf_car, 24.0 * km_per_h, false, Mass(), "ANSI/NGCMA Z130.1 (15 mph)", "2012"},
      {SpeedClass::personal_transport_vehicle, 32.0 * km_per_h, false, 1135.0 * kg, "ANSI/NGCMA Z135 (20 mph)", "2012"},
      {SpeedClass::low_speed_vehicle, 40.0 * km_per_h, true, 1361.0 * kg, "49 CFR 571.3(b) (20-25 mph)", "2006-04-19"},
  }};
  return rules;
}

const SpeedRule* rule_for(Speed v, Mass gross, std::span<const SpeedRule> rules) {
  for (const SpeedRule& r : rules)
    if ((v < r.below || (r.inclusive && v == r.below)) && (r.gross_below == Mass() || gross < r.gross_below)) return &r;
  return nullptr;
}

SpeedClass speed_class(Speed v, Mass gross, std::span<const SpeedRule> rules) {
  const SpeedRule* rule = rule_for(v, gross, rules);
  return rule ? rule->speed_class : SpeedClass::faster;
}

SpeedChange speed_change(Speed before, Length radius_before, Length radius_after, Mass gross,
                         std::span<const SpeedRule> rules) {
  SpeedChange c;
  c.before = before;
  c.after = speed_on_tyres(before, radius_before, radius_after);
  const SpeedRule* rule = rule_for(before, gross, rules);
  c.class_before = rule ? rule->speed_class : SpeedClass::faster;
  c.class_after = speed_class(c.after, gross, rules);
  c.back_to_before = limiter_factor(c.after, before);
  if (rule) c.stay_in_class = limiter_factor(c.after, rule->below);
  return c;
}

}  // namespace trammel::vehicle
