// A procedure with every instance written out and every name turned into a place in a list.
//
// Built once; ledgers, walks and releases read it. Lists keep the order of the procedure.
// Masks: bit 0 left, bit 1 right. A step done once sets both; `reach` is the union of what any step can set.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "work/known.h"
#include "work/procedure.h"
#include "work/step_tools.h"

namespace trammel::work {

using Mask = unsigned char;
inline constexpr Mask left_bit = 1, right_bit = 2, both_sides = 3;

struct FastenerEntry {
  Instance instance;
  std::string name;
  std::size_t fastener = 0;  // index in Procedure::fasteners
  LeastStates least{};
  FastenerState as_found = FastenerState::out;
  std::vector<std::size_t> holds;      // part entries
  std::vector<std::size_t> waits_for;  // part entries, two kits', that must be on before it is finished
  std::string spec;                    // fastener id whose stack and torque apply
};

struct PartEntry {
  Instance instance;
  std::string name;
  std::size_t part = 0;                  // index in Procedure::parts
  std::vector<std::size_t> replaced_by;  // part entries
};

struct NamedMask {
  std::string name;
  Mask reach = 0;
  Meaning meaning;  // of a condition
};

// One step on one side.
struct ExpandedStep {
  std::size_t step = 0;  // index in Procedure::steps
  Side side = Side::none;
  Mask mask = both_sides;
  bool last_side = true;  // the loads of the step come on here
};

struct Roster {
  Procedure procedure;
  std::vector<FastenerEntry> fasteners;
  std::vector<PartEntry> parts;
  std::vector<NamedMask> conditions, proofs;
  std::vector<ExpandedStep> order;  // the steps in their order, sides written out
  std::vector<Mask> step_reach;     // a step index -> sides it is done on
  std::vector<StepTools> tools;     // a step index -> its tools, read

  std::optional<std::size_t> fastener(std::string_view name) const;  // by instance name
  std::optional<std::size_t> part(std::string_view name) const;      // by instance name
  std::optional<std::size_t> condition(std::string_view name) const;
  std::optional<std::size_t> proof(std::string_view name) const;
  std::optional<std::size_t> step(std::string_view id) const;

  // The group of a fastener or part by an instance's name; for anything else its first word.
  std::string group_of(const std::string& name) const;

  // Whether this load waits for that proof: as its kit says, and the first drive for steering and brakes (known.h).
  bool guarded(Load load, std::size_t proof) const;

  // Entries a selector names on one side of a step (none: all).
  std::vector<std::size_t> fasteners_of(const Selector& selector, Side side) const;
  std::vector<std::size_t> parts_of(const Selector& selector, Side side) const;

  // Look-ups, filled by make_roster.
  std::unordered_map<std::string, std::size_t> fastener_at, part_at, condition_at, proof_at, step_at;
  std::unordered_map<std::string, std::vector<std::size_t>> fastener_group, part_group;
};

Roster make_roster(Procedure procedure);

}  // namespace trammel::work
