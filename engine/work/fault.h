// What can be wrong with a procedure: each kind is a finding with a code of its own (messages/en/work.toml).
//
// A support need, a part or a condition is named by its words; a fastener, part or proof by its instance.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>

#include "work/load.h"
#include "work/step.h"

namespace trammel::work {

enum class FaultKind : unsigned char {
  // structure
  duplicate_id,
  unknown_fastener,
  unknown_part,
  unknown_step,
  unknown_condition,
  names_nothing,
  wrong_side,
  no_steps,
  pack_count,
  part_held_by_nothing,
  never_reachable,
  not_ordered,
  // in a step
  need_not_met,
  support_missing,
  person_under_jack,
  person_under_unheld,
  part_still_fastened,
  part_not_off,
  part_fitted_never_supplied,
  part_not_on,
  torqued_in_wrong_state,
  fastened_without_part,
  checked_before_final,
  new_nut_missing,
  tool_not_named,
  tool_fits_no_head,
  tool_out_of_range,
  tool_misspelt,
  tool_unread,
  torque_tool_missing,
  torque_range_missing,
  prop_tool_missing,
  deed_without_tool,
  wrench_missing,
  one_wrench_for_two,
  pin_tool_missing,
  measure_without_tool,
  measure_too_fine,
  check_proves_nothing,
  floor_unknown,
  check_only_forbids,
  done_twice,
  cut_before_look,
  battery_out_of_order,
  battery_live,
  power_up_unheld,
  power_up_on_the_floor,
  // when a load comes on
  below_least_state,
  wheel_on_ground_loose,
  not_on_wheels,
  nothing_holds,
  brake_holds_nothing,
  chock_holds_nothing,
  brake_against_rolling,
  brake_left_released,
  support_forgotten,
  support_under_moving_part,
  second_look_late,
  check_too_late,
  driven_isolated,
  release_refused,
  // at the end
  side_missed,
  fastener_never_final,
  slackened_never_finished,
  proof_voided_not_repeated,
  proof_never_made,
  part_off_never_refitted,
  part_never_fitted
};
inline constexpr std::size_t fault_kinds = static_cast<std::size_t>(FaultKind::part_never_fitted) + 1;
std::string_view word(FaultKind kind);

struct Fault {
  FaultKind kind{};
  std::optional<std::size_t> at;  // index in Roster::order; none: structure or the end
  std::string step;               // id, empty at the end
  Side side = Side::none;
  std::string subject;                                                   // instance, part, proof, condition, step
  std::optional<Load> load;                                              // the load that comes on
  FastenerState state = FastenerState::out, least = FastenerState::out;  // of a fastener
  std::optional<Need::Kind> need;                                        // need_not_met
  std::string other;  // a second thing: the tool that does not fit, the step that it is not ordered with
  friend bool operator==(const Fault&, const Fault&) = default;
};

// What makes two faults the same one, wherever in an order they show.
using FaultKey = std::tuple<FaultKind, std::string, Side, std::string, int, std::string>;
FaultKey key(const Fault& fault);

}  // namespace trammel::work
