// A whole procedure as plain data: fastener groups, parts, proofs, conditions found and the steps in their order.
//
// As found: a fastener with no `as_found` begins final where the first step that names it slackens it or voids its
// torque, otherwise out (a new one from the pack). A part begins on the cart or in the pack.
// A fastener with `holds` counts for a load while any part it holds is on; without, from when it is first touched. One
// whose parts are all scrap is scrap with them.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "measure/quantity.h"
#include "work/instance.h"
#include "work/load.h"
#include "work/step.h"

namespace trammel::work {

// Instances of a group that another kit also clamps with: its parts must be on before they can be finished.
struct Share {
  Selector instances;
  std::vector<std::string> holds;  // the other kit's parts
  std::string spec_from;           // fastener id whose stack, length and torque now apply
  friend bool operator==(const Share&, const Share&) = default;
};

struct Fastener {
  std::string id;
  std::vector<Instance> instances;  // expand_braces(id, at); empty: one
  Duty duty = Duty::general;
  GivenLeast least{};
  std::optional<FastenerState> as_found;
  std::optional<Support> only_final;   // final only while its end stands so (bonded bush: on_wheels)
  std::vector<std::string> holds;      // parts that it clamps
  bool new_each_time = false;          // nut or bolt that serves once: loosened, it needs a new one
  std::optional<Length> head, nut;     // across flats, where the kit names them; the nut's where it differs
  bool two_ended = false;              // a bolt through to a nut: one is held while the other turns
  bool pinned = false;                 // a split pin keeps it
  std::optional<Torque> torque;        // final torque, where the kit gives one
  std::vector<Torque> passes;          // in order, the last is the final torque; empty: one
  std::optional<Torque> torque_limit;  // greatest on the way to a castle nut's slot
  std::optional<Time> cure;            // of its thread locker, before a load that it must bear
  bool castle = false;                 // closed by a castle nut
  bool set_by_measure = false;         // and not by torque
  Selector shares;                     // another kit's instances that are the same holes (merge.h)
  std::vector<Share> shared;           // filled by merge
  friend bool operator==(const Fastener&, const Fastener&) = default;
};

enum class PartKind : unsigned char { suspension, wheel, body };
enum class PartSource : unsigned char { on_cart, in_pack };

struct Part {
  std::string id;
  std::vector<Instance> instances;       // empty: one
  PartKind kind = PartKind::suspension;  // wheel and suspension come off only on stands
  PartSource source = PartSource::on_cart;
  std::string replaces;      // the part that stays off because this one is on
  std::optional<int> count;  // how many are in the pack, where the kit says
  friend bool operator==(const Part&, const Part&) = default;
};

// What voids a proof besides the steps that say so, when it can be made at all, and what may not come before it.
struct Proof {
  std::string id;
  bool voided_by_lifting = false;
  std::vector<Selector> voided_by_slackening;  // fasteners
  std::vector<Selector> voided_by_removing;    // parts
  std::vector<Need> only_while;                // made in any other state it proves nothing
  std::vector<std::string> guards;             // loads ("driven") and steps that wait for it
  friend bool operator==(const Proof&, const Proof&) = default;
};

// What the cart's own parking brake does at one end (hold.h). Not known, where a kit is rehearsed without its cart.
enum class ParkingBrake : unsigned char { not_known, none, wheels, motor_shaft, power_off_shaft };

struct Procedure {
  std::string name;
  std::vector<Fastener> fasteners;
  std::vector<Part> parts;
  std::vector<Proof> proofs;       // only those with rules of their own need standing here
  std::vector<std::string> given;  // conditions that hold before the first step
  std::vector<Step> steps;
  std::array<ParkingBrake, 2> brakes{};  // front, rear
  End driven = End::none;                // which wheels the motor turns; none: not known
  friend bool operator==(const Procedure&, const Procedure&) = default;
};

}  // namespace trammel::work
