// Names of enumerations, as codes and as files spell them.
#include <array>

#include "fastener/judge.h"
#include "fastener/spellings.h"

namespace trammel::fastener {

std::string_view name(StackFault fault) {
  static constexpr std::array<std::string_view, 13> names{
      "empty",           "empty_piece",          "no_threaded_part",     "thread_unknown",
      "class_unknown",   "second_threaded_part", "word_unknown",         "thickness_missing",
      "bad_length",      "not_positive",         "nothing_after_thread", "behind_the_nut",
      "belongs_to_piece"};
  return names[static_cast<std::size_t>(fault)];
}

std::string_view name(Material material) {
  switch (material) {
    case Material::steel:
      return "steel";
    case Material::cast_iron:
      return "cast iron";
    case Material::ductile_iron:
      return "ductile iron";
    case Material::aluminium:
      return "aluminium";
    case Material::stainless:
      return "stainless";
    case Material::plastic:
      return "plastic";
    case Material::rubber:
      return "rubber";
  }
  return {};
}

std::optional<Material> read_material(std::string_view text) {
  Scanner s(text);
  const auto found = take_spelling<Material>(s, material_spellings);
  return found && s.done() ? found : std::nullopt;
}

std::string_view name(Flag flag) {
  static constexpr std::array<std::string_view, flag_count> names{"torque_missing",
                                                                  "class_missing",
                                                                  "class_not_for_thread",
                                                                  "torque_above_proof",
                                                                  "high_end_above_proof",
                                                                  "torque_too_low",
                                                                  "looks_like_factor_12",
                                                                  "looks_like_factor_1_356",
                                                                  "oiled_given_dry_torque",
                                                                  "surface_assumed",
                                                                  "running_torque_assumed",
                                                                  "running_torque_unknown",
                                                                  "wrench_fits_no_head",
                                                                  "wrench_ambiguous",
                                                                  "wrench_not_tabled",
                                                                  "bolt_too_short",
                                                                  "bolt_too_long",
                                                                  "bolt_bottoms",
                                                                  "engagement_short",
                                                                  "tapped_material_missing",
                                                                  "tapped_strength_assumed",
                                                                  "closing_part_missing",
                                                                  "nut_weaker_than_bolt",
                                                                  "single_use_nut_reused",
                                                                  "box_without_sleeve",
                                                                  "soft_member",
                                                                  "strength_single_source",
                                                                  "looks_like_inch",
                                                                  "set_by_measure",
                                                                  "running_torque_low",
                                                                  "thread_strips",
                                                                  "thin_nut_assumed",
                                                                  "long_form_differs",
                                                                  "face_crushed",
                                                                  "wall_gives_way",
                                                                  "sleeve_length",
                                                                  "sleeve_gives_way",
                                                                  "hole_too_small",
                                                                  "hole_too_large",
                                                                  "drill_wrong",
                                                                  "edge_short",
                                                                  "seat_differs",
                                                                  "seat_unknown",
                                                                  "stud_turns_short",
                                                                  "plain_nut_on_wheel",
                                                                  "passes_do_not_rise",
                                                                  "passes_end_elsewhere",
                                                                  "u_bolt_above_chart",
                                                                  "castle_limit_missing",
                                                                  "castle_limit_low",
                                                                  "castle_slot_missed",
                                                                  "taper_wet",
                                                                  "locker_cures",
                                                                  "locker_on_lock_nut",
                                                                  "wrench_off_scale",
                                                                  "wrench_low_on_scale",
                                                                  "pivot_slips",
                                                                  "pivot_overloaded"};
  return names[static_cast<std::size_t>(flag)];
}

}  // namespace trammel::fastener
