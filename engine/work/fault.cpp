#include "work/fault.h"

#include <array>

namespace trammel::work {
namespace {

struct Row {
  std::string_view word, tells;
};
constexpr std::array<Row, fault_kinds> rows = {{
    {"duplicate_id", "subject"},
    {"unknown_fastener", "subject other"},
    {"unknown_part", "subject other"},
    {"unknown_step", "subject other"},
    {"unknown_condition", "subject other"},
    {"unknown_guard", "subject other"},
    {"shares_nothing", "subject other"},
    {"nearly_known", "subject other"},
    {"anchor_not_kept", "step subject other"},
    {"names_nothing", "subject other"},
    {"wrong_side", "step subject"},
    {"no_steps", ""},
    {"pack_count", "subject other"},
    {"part_held_by_nothing", "step subject"},
    {"least_lowered", "subject load state least"},
    {"released_lowered", "subject state"},
    {"undone_and_proved", "step subject"},
    {"never_driven", "step"},
    {"never_reachable", "step other"},
    {"needs_never_met", "step"},
    {"not_ordered", "subject other"},
    {"not_ordered_end", "subject"},
    {"need_not_met", "step subject"},
    {"support_missing", "step subject"},
    {"person_under_jack", "step subject"},
    {"person_under_unheld", "step"},
    {"part_still_fastened", "step subject state"},
    {"part_not_off", "step subject other"},
    {"part_already_on", "step subject"},
    {"part_is_scrap", "step subject"},
    {"part_fitted_never_supplied", "step subject"},
    {"part_not_on", "step subject"},
    {"torqued_in_wrong_state", "step subject"},
    {"not_settled", "step subject"},
    {"tighter_already", "step subject state least"},
    {"fastened_without_part", "step subject"},
    {"checked_before_final", "step subject"},
    {"new_nut_missing", "step subject least"},
    {"tool_not_named", "step"},
    {"tool_fits_no_head", "step subject other"},
    {"tool_out_of_range", "step subject other"},
    {"tool_misspelt", "step subject other"},
    {"tool_unread", "step subject other"},
    {"torque_tool_missing", "step subject other"},
    {"torque_range_missing", "step subject other"},
    {"prop_tool_missing", "step subject"},
    {"deed_without_tool", "step subject other"},
    {"wrench_missing", "step subject other"},
    {"one_wrench_for_two", "step subject other"},
    {"pin_tool_missing", "step subject"},
    {"measure_without_tool", "step subject"},
    {"measure_too_fine", "step subject other"},
    {"check_proves_nothing", "step subject"},
    {"check_in_wrong_state", "step subject other"},
    {"floor_unknown", "step subject"},
    {"check_only_forbids", "step subject"},
    {"done_twice", "step subject"},
    {"cut_before_look", "step subject"},
    {"battery_out_of_order", "step subject other"},
    {"battery_live", "step subject"},
    {"caution_live", "step"},
    {"power_up_unheld", "step"},
    {"power_up_on_the_floor", "step subject"},
    {"below_least_state", "step subject state load least"},
    {"wheel_on_ground_loose", "step subject state least"},
    {"wheel_missing", "step subject load"},
    {"not_on_wheels", "step subject load"},
    {"nothing_holds", "step subject"},
    {"brake_holds_nothing", "step subject"},
    {"chock_holds_nothing", "step subject"},
    {"brake_against_rolling", "step subject"},
    {"brake_left_released", "step load"},
    {"support_forgotten", "step subject load"},
    {"support_under_moving_part", "step subject other"},
    {"second_look_late", "step subject"},
    {"check_too_late", "step subject"},
    {"driven_isolated", "step load"},
    {"release_refused", "step subject state"},
    {"side_missed", "subject"},
    {"fastener_never_final", "subject state"},
    {"slackened_never_finished", "subject state"},
    {"never_checked", "subject state"},
    {"proof_voided_not_repeated", "subject"},
    {"proof_never_made", "subject"},
    {"part_off_never_refitted", "subject"},
    {"part_never_fitted", "subject"},
    {"end_off_wheels", "subject"},
}};

const Row& row(FaultKind kind) { return rows[static_cast<std::size_t>(kind)]; }

}  // namespace

std::string_view word(FaultKind kind) { return row(kind).word; }
std::string_view tells(FaultKind kind) { return row(kind).tells; }

FaultKey key(const Fault& f) {
  return {f.kind, f.step, f.side, f.subject, f.load ? static_cast<int>(*f.load) : -1, f.other};
}

bool whole(const Fault& f) {
  const std::string_view told = tells(f.kind);
  const auto missing = [&](std::string_view member, bool there) {
    return told.find(member) != std::string_view::npos && !there;
  };
  return !missing("step", !f.step.empty()) && !missing("subject", !f.subject.empty()) &&
         !missing("load", f.load.has_value()) && !missing("least", f.least != FastenerState::out) &&
         !missing("other", !f.other.empty());
}

}  // namespace trammel::work
