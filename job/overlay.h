// A cart with changes laid over it, in order.
//
// A path names keys from the cart down, "front.left.lower_arm.ball_joint", and an item of a list by its
// name, "rear.link.track bar.axle". A wheel, or a table below it, is moved with all points given in it. Setting creates
// what was not given; moving needs something to move. The value that is left carries the change's basis and place; a
// moved value's variance is the sum of both. On an axle of which only the left side is given, a mirrored change is made
// there once; a change of one side alone first writes out the right side as the left's mirror image. Mirrored items of
// lists are those with `left` and `right` exchanged in their names.
//
// Law 1: no changes give the cart back unchanged.
// Law 2: apply(apply(c, a), b) equals apply(c, a then b).
// Law 3: a mirrored change on a symmetric cart leaves it symmetric.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "job/kit.h"
#include "job/shape.h"

namespace trammel {

enum class OverlayFault {
  no_such_path,
  nothing_there,  // no such item, or an optional value that is not given
  wrong_type,     // the value or the act does not fit what stands there
  name_taken,     // an item of this name is there already
  needed,         // a required key cannot be removed
  no_other_side   // mirror, but the path names no side
};

struct OverlayProblem {
  OverlayFault fault{};
  std::string path, nearest;  // the path asked for and the nearest known word at the break
  Place place;
  std::string word;                  // the part of the path at the break
  std::vector<std::string> choices;  // what could stand there
};

struct OverlayResult {
  Cart cart;
  std::vector<OverlayProblem> problems;  // a change with a problem is left out, the others are applied
};

// Call it trammel::apply, since std::apply is found by argument too.
OverlayResult apply(const Cart& cart, std::span<const Change> changes);

// What a path leads to: an empty value of the type it holds (of a list: of its items) and its key.
struct OverlayTarget {
  ChangeValue value;
  Key key;
  bool list = false;
};
enum class ListNames { of_the_cart, any };  // any: for a kit read without its cart
std::optional<OverlayTarget> find_target(const Cart& cart, const std::string& path, OverlayProblem* problem = nullptr,
                                         ListNames names = ListNames::of_the_cart, bool to_move = false);

// The kind of value a path holds, as an empty value of that type; nothing where there is no such path.
// The cart matters only for the names in its lists ("rear.link.track bar.axle").
ChangeValue value_type(const Cart& cart, const std::string& path, OverlayProblem* problem = nullptr);

// The right side of an axle: as given, or the mirror image of its left.
Corner right_corner(const Axle& axle);

}  // namespace trammel
