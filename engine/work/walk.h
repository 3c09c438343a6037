// A procedure walked through its steps in their order before the first bolt turns.
//
// Each step on each side gives the state after it, every loose instance with the first load it may not see, and
// faults. Faults stand in the order in which the work would meet them, then those found only at the end.
// Structure is judged first; a reference to nothing is a fault and is otherwise skipped.
// Rules: nothing below its least state when a load comes on, nor taken to nut-off or out under its load; needs
// met; final only as the cart must stand for it; stands before a wheel or suspension part comes off; no person
// under a cart on the jack alone; a part free of its fasteners before it comes off and on before they are final;
// a check only of what is final; each side alike; at the end all final, proofs good, parts back, pack empty.
// Law 1: a procedure that ends with a granted release and no fault has no instance below final.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "work/release.h"

namespace trammel::work {

enum class FaultKind : unsigned char {
  // structure
  duplicate_id,
  unknown_fastener,
  unknown_part,
  unknown_step,
  unknown_condition,
  names_nothing,
  no_steps,
  // while walking
  need_not_met,
  support_missing,
  person_under_jack,
  part_still_fastened,
  part_not_off,
  part_fitted_never_supplied,
  part_not_on,
  torqued_in_wrong_state,
  fastened_without_part,
  checked_before_final,
  below_least_state,
  wheel_on_ground_loose,
  not_on_wheels,
  tool_not_named,
  release_refused,
  // at the end
  side_missed,
  fastener_never_final,
  proof_voided_not_repeated,
  proof_never_made,
  part_off_never_refitted,
  part_never_fitted
};
std::string_view word(FaultKind kind);

struct Fault {
  FaultKind kind{};
  std::optional<std::size_t> at;  // index in Roster::order; none: structure or the end
  std::string step;               // id, empty at the end
  Side side = Side::none;
  std::string subject;                                                   // instance, part, proof, condition, step
  std::optional<Load> load;                                              // below_least_state, wheel_on_ground_loose
  FastenerState state = FastenerState::out, least = FastenerState::out;  // of a fastener
  std::optional<Need::Kind> need;                                        // need_not_met
};

struct LooseItem {
  std::size_t fastener = 0;  // entry in Roster::fasteners
  FastenerState state{};
  std::optional<Load> not_before;  // first load, on wheels or later, that it may not see
};

struct WalkedStep {
  ExpandedStep step;
  State after;  // before: that of the previous step, or Walk::start
  std::vector<LooseItem> loose;
  std::vector<std::size_t> held_back;  // shared fasteners kept at snug: another kit's part is not on yet
};

struct Walk {
  Roster roster;
  State start;
  std::vector<WalkedStep> steps;
  std::vector<Fault> faults;
  Release release;  // asked of the last state

  const State& before(std::size_t i) const { return i == 0 ? start : steps[i - 1].after; }
  const State& end() const { return steps.empty() ? start : steps.back().after; }
};

std::vector<Fault> check_structure(const Roster& roster);
std::vector<LooseItem> loose_list(const Roster& roster, const State& state);
Walk walk(const Procedure& procedure);
Walk walk(Roster roster);  // in the roster's own order

}  // namespace trammel::work
