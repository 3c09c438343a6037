#include "work/fault.h"

#include <array>

namespace trammel::work {

std::string_view word(FaultKind kind) {
  constexpr std::array<std::string_view, fault_kinds> words = {"duplicate_id",
                                                               "unknown_fastener",
                                                               "unknown_part",
                                                               "unknown_step",
                                                               "unknown_condition",
                                                               "names_nothing",
                                                               "wrong_side",
                                                               "no_steps",
                                                               "pack_count",
                                                               "part_held_by_nothing",
                                                               "never_reachable",
                                                               "not_ordered",
                                                               "need_not_met",
                                                               "support_missing",
                                                               "person_under_jack",
                                                               "person_under_unheld",
                                                               "part_still_fastened",
                                                               "part_not_off",
                                                               "part_fitted_never_supplied",
                                                               "part_not_on",
                                                               "torqued_in_wrong_state",
                                                               "fastened_without_part",
                                                               "checked_before_final",
                                                               "new_nut_missing",
                                                               "tool_not_named",
                                                               "tool_fits_no_head",
                                                               "tool_out_of_range",
                                                               "tool_misspelt",
                                                               "tool_unread",
                                                               "torque_tool_missing",
                                                               "torque_range_missing",
                                                               "prop_tool_missing",
                                                               "deed_without_tool",
                                                               "wrench_missing",
                                                               "one_wrench_for_two",
                                                               "pin_tool_missing",
                                                               "measure_without_tool",
                                                               "measure_too_fine",
                                                               "check_proves_nothing",
                                                               "floor_unknown",
                                                               "check_only_forbids",
                                                               "done_twice",
                                                               "cut_before_look",
                                                               "battery_out_of_order",
                                                               "battery_live",
                                                               "power_up_unheld",
                                                               "power_up_on_the_floor",
                                                               "below_least_state",
                                                               "wheel_on_ground_loose",
                                                               "not_on_wheels",
                                                               "nothing_holds",
                                                               "brake_holds_nothing",
                                                               "chock_holds_nothing",
                                                               "brake_against_rolling",
                                                               "brake_left_released",
                                                               "support_forgotten",
                                                               "support_under_moving_part",
                                                               "second_look_late",
                                                               "check_too_late",
                                                               "driven_isolated",
                                                               "release_refused",
                                                               "side_missed",
                                                               "fastener_never_final",
                                                               "slackened_never_finished",
                                                               "proof_voided_not_repeated",
                                                               "proof_never_made",
                                                               "part_off_never_refitted",
                                                               "part_never_fitted"};
  return words[static_cast<std::size_t>(kind)];
}

FaultKey key(const Fault& f) {
  return {f.kind, f.step, f.side, f.subject, f.load ? static_cast<int>(*f.load) : -1, f.other};
}

}  // namespace trammel::work
