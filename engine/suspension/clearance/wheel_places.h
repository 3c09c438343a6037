// Where a wheel stands over its travel, whatever layout carries it: all that clearance needs to know of an axle.
//
// Coordinates of a pose: rise of the wheel centre above its fitted height, the body held (m); steer as a share of
// the lock, -1 at the right-hand lock to +1 at the left-hand one; roll, positive with the left wheel up against the
// body. A layout hands over a function of the three; a pose that it cannot reach is nothing.
// Frame: cart. Steer angle of the wheel: its heading to the cart's x, positive to the left.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "suspension/clearance/tyre_gap.h"
#include "suspension/linkage/rigid_move.h"
#include "suspension/linkage/wheel_pose.h"

namespace trammel::suspension {

struct WheelStation {
  Length rise{};
  double steer = 0;
  Angle roll{};
  TyrePlace tyre;
  RigidMove carrier;  // of the arm or axle that rises with the wheel and does not steer
  RigidMove knuckle;  // of what steers with the wheel, on an independent axle; elsewhere as the carrier
};

using WheelPlaces = std::function<std::optional<WheelStation>(Length rise, double steer, Angle roll)>;

// Evenly spaced, both ends included; one value stands in the middle.
struct PoseGrid {
  Length lowest{}, highest{};
  double right_lock = -1, left_lock = 1;  // both 0: a wheel that does not steer
  Angle roll{};                           // to each side
  int rises = 9, steers = 9, rolls = 1;
  Length rise(int i) const;
  double steer(int j) const;
  Angle roll_of(int k) const;
  int size() const { return rises * steers * rolls; }
};

// Every pose of the grid, roll innermost, then steer, then rise; nothing where it cannot be reached.
struct Stations {
  PoseGrid grid;
  std::vector<std::optional<WheelStation>> at;
  int unreachable = 0;
};
Stations stations(const WheelPlaces& places, const PoseGrid& grid);

// Of the wheel: its heading to x, positive to the left.
Angle steer_angle(const TyrePlace& place, Side side);

// The other side's places from these: steer and roll change their sign, so does y.
WheelPlaces mirrored(WheelPlaces places);

}  // namespace trammel::suspension
