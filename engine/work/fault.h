// What can be wrong with a procedure: each kind is a finding with a code of its own (messages/en/work.toml).
//
// A need is named by its words as a kit writes them ("rear on stands"); a fastener or part by its instance; an end by
// its name. What a kit names and does not have stands with where it is named ("proof toe, guards") and the nearest that
// there is. Law: a fault fills what its kind tells (`tells`), and nothing of that is empty.
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
  unknown_guard,  // neither a load nor a step
  shares_nothing,
  nearly_known,  // one slip away from a word that has rules
  anchor_not_kept,
  names_nothing,
  wrong_side,
  no_steps,
  pack_count,
  part_held_by_nothing,
  least_lowered,
  released_lowered,
  undone_and_proved,
  never_driven,
  never_reachable,
  needs_never_met,
  not_ordered,
  not_ordered_end,  // what goes wrong shows at the end
  // in a step
  need_not_met,
  support_missing,
  person_under_jack,
  person_under_unheld,
  part_still_fastened,
  part_not_off,
  part_already_on,
  part_is_scrap,
  part_fitted_never_supplied,
  part_not_on,
  torqued_in_wrong_state,
  not_settled,
  tighter_already,
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
  check_in_wrong_state,
  floor_unknown,
  check_only_forbids,
  done_twice,
  cut_before_look,
  battery_out_of_order,
  battery_live,
  caution_live,
  power_up_unheld,
  power_up_on_the_floor,
  // when a load comes on
  below_least_state,
  wheel_on_ground_loose,
  wheel_missing,
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
  never_checked,
  proof_voided_not_repeated,
  proof_never_made,
  part_off_never_refitted,
  part_never_fitted,
  end_off_wheels
};
inline constexpr std::size_t fault_kinds = static_cast<std::size_t>(FaultKind::end_off_wheels) + 1;
std::string_view word(FaultKind kind);

// What the words of a kind are made of: the members of Fault that it fills, "step subject load".
std::string_view tells(FaultKind kind);

struct Fault {
  FaultKind kind{};
  std::optional<std::size_t> at;  // index in Roster::order; none: structure or the end
  std::string step;               // id, empty at the end
  Side side = Side::none;
  std::string subject;                                                   // instance, part, proof, condition, step
  std::optional<Load> load;                                              // the load that comes on
  FastenerState state = FastenerState::out, least = FastenerState::out;  // of a fastener
  std::optional<Need::Kind> need;                                        // need_not_met
  std::string other;    // a second thing: the tool that does not fit, where a kit names what it does not have
  std::string nearest;  // what was probably meant; empty where nothing is near
  friend bool operator==(const Fault&, const Fault&) = default;
};

// What makes two faults the same one, wherever in an order they show.
using FaultKey = std::tuple<FaultKind, std::string, Side, std::string, int, std::string>;
FaultKey key(const Fault& fault);
bool whole(const Fault& fault);  // all that its kind tells is there

}  // namespace trammel::work
