// Which steps may change places, and which must keep the order in which the kits give them.
//
// Model: a step reads and writes fasteners, parts, ends, conditions, proofs and steps done, as walk.h and ledger.h
// do. Two steps that touch nothing in common (nothing that either writes) can change places, and every step still
// meets the same state; so whatever the walk says of the one order it says of the other (Mazurkiewicz traces).
// To void a proof twice is the same in either order. Kept besides, since no list of what is touched can tell it:
//   the stages in their order (one end is finished before the next), the two sides of one step, a step that
//   declares nothing, a hold point, a check, a step with evidence against those before it, what is done at a corner
//   while its wheel is off, and whatever lifts, lowers or moves the cart: those stay where the kit puts them.
// Law 1: an order that keeps these pairs has the same faults as the given one. Law 2: pairs run forward in the given
// order, so the given order is always allowed. Law 3: pairs are complete: their reachability is themselves.
#pragma once

#include <vector>

#include "work/order.h"
#include "work/roster.h"

namespace trammel::work {

// By place in Roster::order: whether two steps touch something in common that either of them writes.
std::vector<std::vector<unsigned char>> conflicts(const Roster& roster);
// Pairs of places in Roster::order.
std::vector<Precedence> kept_order(const Roster& roster);
// The pairs that no chain of others implies: what waits for what, as people say it.
std::vector<Precedence> direct_only(const std::vector<Precedence>& complete, std::size_t count);

// The same procedure in another order; `order` holds places in Roster::order.
Roster reordered(Roster roster, const std::vector<std::size_t>& order);

}  // namespace trammel::work
