// What keeps a cart from rolling while some of its wheels are off the floor.
//
// Model: a wheel holds at most mu N while it is chocked or braked. How a brake reaches the wheels decides:
//   at the wheels        each braked wheel holds mu N of its own
//   on the motor's shaft behind an open differential both wheels get the same torque, so the axle holds twice what
//                        its lighter wheel can: nothing at all with one wheel in the air
//   none                 (or released by the tow switch) nothing
// Symbols: N load on the wheel, mu friction of tyre or chock on the floor. A chock is taken to hold both ways.
// Ignores: slope of the floor, a chock that slides or is climbed, gear drag. Source: statics; open differential:
// Gillespie ch. 2 (from memory).
// Law: lifting a wheel never adds hold.
#pragma once

#include <algorithm>

#include "vehicle/axle_load.h"

namespace trammel::vehicle {

enum class BrakeReach { none, wheels, motor_shaft };
struct AxleHold {
  BrakeReach brake = BrakeReach::none;
  bool left_chocked = false, right_chocked = false;
};

// Level force that this axle resists, loads as they stand on the floor (zero in the air).
template <class R>
ForceOf<R> axle_hold(const AxleHold& hold, MassOf<R> left, MassOf<R> right, R mu) {
  const MassOf<R> none;
  MassOf<R> held;
  if (hold.brake == BrakeReach::wheels) {
    held = left + right;
  } else {
    if (hold.left_chocked) held += left;
    if (hold.right_chocked) held += right;
    const MassOf<R> by_shaft = hold.brake == BrakeReach::motor_shaft ? R(2.0) * std::min(left, right) : none;
    held = std::max(held, by_shaft);
  }
  return mu * held * as<R>(units::g);
}
template <class R>
ForceOf<R> rolling_hold(const AxleHold& front, const AxleHold& rear, const WheelLoads<R>& on_floor, R mu) {
  return axle_hold(front, on_floor.front_left, on_floor.front_right, mu) +
         axle_hold(rear, on_floor.rear_left, on_floor.rear_right, mu);
}

}  // namespace trammel::vehicle
