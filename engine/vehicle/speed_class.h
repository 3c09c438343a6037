// Top speed after bigger tyres, the class of vehicle that it falls in, and the limiter that keeps it there.
//
// Model: the motor turns as fast as before, so v2 = v1 r2 / r1 with r the loaded rolling radius (thrust permitting:
// a cart that could not reach v1 on the level will not reach v2). Limiter factor f = limit / v, at most 1.
// A class holds speeds above `above` and below `below`, or up to and at it where `inclusive`; the first that fits
// counts, and a cart may fit none: too fast, or too heavy for the class of its speed.
// Rules change and places differ: every rule carries its text's date, and the answer is where the speed falls
// in these texts, never that a cart may be driven anywhere.
//
// Law 1: equal radii change nothing. Law 2: f v2 is never above the limit.
// Source of the rules: see the table in speed_class.cpp. Of the model: kinematics of rolling.
#pragma once

#include <span>
#include <string_view>

#include "vehicle/uncertain.h"

namespace trammel::vehicle {

enum class SpeedClass { golf_car, personal_transport_vehicle, low_speed_vehicle, none };

struct SpeedRule {
  SpeedClass speed_class{};
  Speed above, below;
  bool inclusive = false;
  Mass gross_below;  // no limit where zero
  std::string_view citation;
  std::string_view date;  // of the text that gives the figures, ISO 8601
};

// Built-in rules of the United States, rising by speed.
std::span<const SpeedRule> speed_rules();

// The first rule that the speed and the gross mass rating fall under; nothing where they fall under none.
const SpeedRule* rule_for(Speed top_speed, Mass gross, std::span<const SpeedRule> rules = speed_rules());
SpeedClass speed_class(Speed top_speed, Mass gross, std::span<const SpeedRule> rules = speed_rules());

template <class R>
SpeedOf<R> speed_on_tyres(SpeedOf<R> before, LengthOf<R> radius_before, LengthOf<R> radius_after) {
  return before * (radius_after / radius_before);
}
template <class R>
R limiter_factor(SpeedOf<R> speed, SpeedOf<R> limit) {
  const R factor = limit / speed;
  return factor < R(1.0) ? factor : R(1.0);
}

struct SpeedChange {
  Speed before, after;
  SpeedClass class_before{}, class_after{};
  double back_to_before = 1.0;  // limiter factor for the speed of before
  double stay_in_class = 1.0;   // largest factor that stays in the class of before; for a strict limit, its bound
  bool crossed() const { return class_before != class_after; }
};
SpeedChange speed_change(Speed before, Length radius_before, Length radius_after, Mass gross,
                         std::span<const SpeedRule> rules = speed_rules());

}  // namespace trammel::vehicle
