// A cart with changes laid over it, in order.
//
// Law 1: no changes give the cart back unchanged.
// Law 2: apply(apply(c, a), b) equals apply(c, a then b).
// Law 3: a mirrored change on a symmetric cart leaves it symmetric.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "job/kit.h"

namespace trammel {

enum class OverlayFault { no_such_path, nothing_there, wrong_type, name_taken };

struct OverlayProblem {
  OverlayFault fault{};
  std::string path, nearest;           // the path asked for and the nearest known word at the break
  Place place;
};

struct OverlayResult {
  Cart cart;
  std::vector<OverlayProblem> problems;  // a change with a problem is left out, the others are applied
};

OverlayResult apply(const Cart& cart, std::span<const Change> changes);

// The kind of value a path holds, as an empty value of that type; nothing where there is no such path.
// The cart matters only for the names in its lists ("rear.link.track bar.axle").
ChangeValue value_type(const Cart& cart, const std::string& path, OverlayProblem* problem = nullptr);

// The right side of an axle: as given, or the mirror image of its left.
Corner right_corner(const Axle& axle);

}  // namespace trammel
