// An axle as its parts lie in space at rest, for whoever draws it: lines, joints, wheels and what of the body is near.
//
// Frame: cart (docs/frames-and-signs.md), metres, the body held, so that the same axle before and after the kits lies
// in the same frame and its ground goes down where the body goes up. Every point is the file's own or the mechanism's
// fitted one; what shackles, blocks and wedges have moved is where the model has it. Nothing is judged here.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "job/cart.h"
#include "measure/vector3.h"
#include "suspension/clearance/tyre_gap.h"

namespace trammel {

struct OutlinePart {
  std::string what;  // code: "lower-arm", "tie-rod", "track-bar", "leaf", "axle" …
  std::string name;  // where the file names it, as a rear link
  int side = 0;      // 1 left, -1 right, 0 both or neither
  std::vector<Vector3<double>> line;
};

struct OutlineWheel {
  Vector3<double> hub, spin;  // spin: unit, outward
  bool steered = false;
  Vector3<double> axis_foot, axis;  // a point of the steering axis; unit, up
};

struct AxleOutline {
  std::string axle, layout;
  std::vector<OutlinePart> parts;
  std::vector<Vector3<double>> pivots;  // fast to the body
  std::vector<Vector3<double>> joints;  // that move with the wheels
  std::array<OutlineWheel, 2> wheels;   // left, right
  Length loaded_radius{}, ground{};     // ground: its height in the cart frame
  std::optional<suspension::TyreShape> tyre;
  std::vector<std::vector<Vector3<double>>> body;  // points, edges and parts that a tyre might touch
};

// Nothing where the axle is not there, or it is not known how it moves.
std::optional<AxleOutline> axle_outline(const Cart& cart, const std::string& axle);

}  // namespace trammel
