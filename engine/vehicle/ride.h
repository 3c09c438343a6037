// Ride height and ride frequency from springs and load.
//
// Model: wheel rate k_w = k n^2, n the motion ratio (spring compression per wheel-centre rise, taken constant; its
// change with travel is left to suspension). In series with the tyre k = k_w k_t / (k_w + k_t). Sprung load m per
// wheel: sag = m g / k; undamped frequency f = sqrt(k / m) / (2 pi).
// Range: small travel about ride height, off the bump stops. Ignores: friction, damping, anti-roll bars (no part in
// even bounce), coupling of bounce and pitch. Source: mechanics; Gillespie ch. 5 (from memory).
//
// Law: n = 1 and no tyre gives the spring itself. Sag of two loads is the sum of their sags.
#pragma once

#include <optional>

#include "vehicle/uncertain.h"

namespace trammel::vehicle {

template <class R>
StiffnessOf<R> wheel_rate(StiffnessOf<R> spring, R motion_ratio) {
  return spring * motion_ratio * motion_ratio;
}

template <class R>
StiffnessOf<R> in_series(StiffnessOf<R> wheel, StiffnessOf<R> tyre) {
  return wheel * tyre / (wheel + tyre);
}

// Change of ride height when the sprung load on this wheel grows: downward, so negative for more load.
template <class R>
LengthOf<R> ride_height_change(MassOf<R> added, StiffnessOf<R> rate) {
  return -(added * as<R>(units::g) / rate);
}

template <class R>
using FrequencyOf = Quantity<Dimension<0, 0, -1, 0, 0>, R>;
template <class R>
FrequencyOf<R> ride_frequency(MassOf<R> sprung, StiffnessOf<R> rate) {
  using std::sqrt;
  return FrequencyOf<R>::from_si(sqrt((rate / sprung).si()) / R(2.0 * std::numbers::pi));
}

}  // namespace trammel::vehicle
