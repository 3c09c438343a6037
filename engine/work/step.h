// One step of a procedure: what it needs, what it does to fasteners, parts and supports, what it proves and undoes.
//
// Order inside a step: slacken, remove, fit, tighten, deeds, undo proofs, set conditions, prove, and last the load.
// Between steps, those that touch the same thing keep the order of the list; others may change places (conflict.h). A
// step with `any_time` is not held by its place in the list, only by what it needs. `sides`: once touches every
// instance it names; each is done on the left and then on the right; left and right touch one side only. What is not
// told apart by side is touched by every copy. A load of an `each` step comes on after its last side. Texts (title,
// evidence, tools, hazards) are opaque here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/quantity.h"
#include "work/deed.h"
#include "work/load.h"
#include "work/place.h"

namespace trammel::work {

enum class Sides : unsigned char { once, each, left, right };

// How one corner of the cart is held up.
enum class Support : unsigned char { on_wheels, jacked, on_stands };

// What must be so before a step begins.
struct Need {
  enum class Kind : unsigned char { condition, support, part_on, part_off, step_done, fastener_at_least, proof };
  Kind kind = Kind::condition;
  Selector subject;                            // condition, part, step, fastener or proof; its end for a support
  Support support = Support::on_stands;        // kind support
  FastenerState least = FastenerState::final;  // kind fastener_at_least
  bool absent = false;                         // kind condition: must not hold ("not axle on jack")
  friend bool operator==(const Need&, const Need&) = default;
};

// A need that names a side asks that side, whichever the step works on.
constexpr Side side_asked(const Need& need, Side step) { return need.subject.side == Side::none ? step : Side::none; }

struct Tighten {
  Selector fastener;
  FastenerState to = FastenerState::final;
  std::optional<Torque> pass;  // torque of this pass, where the kit gives one
  bool fresh = false;          // with a new nut or bolt ("R3 snug new")
  friend bool operator==(const Tighten&, const Tighten&) = default;
};

struct Slacken {
  Selector fastener;
  FastenerState to = FastenerState::slack;
  friend bool operator==(const Slacken&, const Slacken&) = default;
};

struct Remove {
  Selector part;
  bool scrap = false;   // never goes back on
  std::string kept_at;  // opaque: "bag 1"
  friend bool operator==(const Remove&, const Remove&) = default;
};

// A load that comes on at the end of a step. `end` and `side` matter for jacked, on stands and on wheels: none is both,
// so that "rear left jacked" lifts one wheel.
struct ApplyLoad {
  Load load = Load::on_wheels;
  End end = End::none;
  Side side = Side::none;
  friend bool operator==(const ApplyLoad&, const ApplyLoad&) = default;
};

struct Step {
  std::string id, title, stage;
  Sides sides = Sides::once;
  std::vector<Need> needs;
  std::vector<Slacken> slacken;
  std::vector<Remove> removes;
  std::vector<Selector> fits;
  std::vector<Tighten> tighten;
  std::vector<Deed> deeds;
  std::vector<std::string> sets;        // conditions that hold from here on
  std::vector<std::string> clears;      // conditions that no longer hold
  std::vector<std::string> proves;      // readings and checks made good here
  std::vector<std::string> undoes;      // proofs that this work voids
  std::vector<Selector> undoes_torque;  // fasteners whose final torque this work voids
  std::vector<ApplyLoad> loads;
  std::vector<std::string> tools, hazards;
  std::string evidence;
  bool person_under = false;  // someone works under the cart
  bool hold_point = false;    // a second person looks before the work goes on
  bool optional = false;      // may be left out
  bool any_time = false;      // not held by its place in the list
  std::string repeat_until;   // repeated until this is met; empty: done once
  std::optional<Time> time;
  int people = 1;
  std::string after, before;  // anchor in another kit's steps (merge.h)
  friend bool operator==(const Step&, const Step&) = default;
};

}  // namespace trammel::work
