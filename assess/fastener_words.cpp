#include "assess/fastener_words.h"

#include "assess/work_words.h"

#include <algorithm>
#include <cmath>

#include "fastener/wheel.h"

namespace trammel {
namespace {

namespace fs = fastener;

std::string fmt_whole(double x) { return std::to_string(static_cast<int>(std::ceil(x - 1e-9))); }

}  // namespace

std::string flag_code(fs::Flag flag) {
  std::string text(fs::name(flag));
  std::replace(text.begin(), text.end(), '_', '-');
  return text;
}

// What a flag means for the job. A torque that cannot be right holds the work until somebody decides.
Outcome outcome_of(fs::Flag flag) {
  using enum fs::Flag;
  switch (flag) {
    case torque_above_proof:
    case looks_like_factor_12:
    case looks_like_factor_1_356:
    case bolt_too_short:
    case engagement_short:
    case bolt_bottoms:
    case class_not_for_thread:
    case wrench_fits_no_head:
    case looks_like_inch:
    case thread_strips:
    case wall_gives_way:
    case sleeve_gives_way:
    case hole_too_small:
    case drill_wrong:
    case seat_differs:
    case stud_turns_short:
    case pivot_overloaded:
    case passes_end_elsewhere:
      return Outcome::stop;
    case torque_missing:
    case class_missing:
    case torque_too_low:
    case oiled_given_dry_torque:
    case single_use_nut_reused:
    case box_without_sleeve:
    case nut_weaker_than_bolt:
    case tapped_material_missing:
    case closing_part_missing:
    case running_torque_unknown:
    case running_torque_low:
    case face_crushed:
    case sleeve_length:
    case hole_too_large:
    case edge_short:
    case passes_do_not_rise:
    case u_bolt_above_chart:
    case castle_limit_missing:
    case castle_limit_low:
    case castle_slot_missed:
    case plain_nut_on_wheel:
    case taper_wet:
    case locker_on_lock_nut:
    case wrench_off_scale:
    case wrench_low_on_scale:
      return Outcome::condition;
    case high_end_above_proof:
    case surface_assumed:
    case running_torque_assumed:
    case wrench_ambiguous:
    case wrench_not_tabled:
    case bolt_too_long:
    case soft_member:
    case tapped_strength_assumed:
    case strength_single_source:
    case set_by_measure:
    case thin_nut_assumed:
    case long_form_differs:
    case seat_unknown:
    case locker_cures:
    case pivot_slips:
      return Outcome::note;
  }
  return Outcome::note;
}

std::string strength_standard(const fs::Question& q) {
  if (!q.joint.bolt || q.joint.bolt->bolt_class.empty()) return "ISO 898-2";
  return q.joint.bolt->bolt_class.starts_with("grade") ? "SAE J429" : "ISO 898-1";
}

std::string strength_source(const fs::Question& q, const fs::Judgement& j) {
  const auto copies = [](std::string_view rows) {
    return " (reference/fastener_sources.csv: " + std::string(rows) + ")";
  };
  return j.proof_load ? strength_standard(q) + copies(j.proof_load->source) : "nut factor" + copies(j.k.source);
}

Message stack_message(const std::string& subject, const std::string& stack, const fs::StackError& e) {
  if (e.fault == fs::StackFault::no_threaded_part) return {"stack-without-thread", {{"subject", subject}}};
  const std::string piece = e.at < stack.size() ? stack.substr(e.at, std::max<std::size_t>(e.length, 1)) : stack;
  return {"stack-unreadable",
          {{"subject", subject},
           {"piece", piece},
           {"why", "@stack-" + dashed(fs::name(e.fault))},
           {"nearest", meant(e.nearest)}}};
}

// Each flag stands on something of its own: what the kit says, a table, or practice.
std::string flag_source(fs::Flag flag, const fs::Question& q, const fs::Judgement& j) {
  using enum fs::Flag;
  switch (flag) {
    case torque_missing:
    case class_missing:
    case tapped_material_missing:
    case closing_part_missing:
    case set_by_measure:
    case castle_limit_missing:
    case castle_limit_low:
    case passes_end_elsewhere:
    case seat_differs:
    case seat_unknown:
      return "the kit's own words";
    case surface_assumed:
    case oiled_given_dry_torque:
      return "nut factors in reference/surface_states.csv: " + std::string(j.k.source);
    case long_form_differs:
      return "VDI 2230 long form with reference/surface_friction.csv: " + std::string(j.long_k.source);
    case running_torque_assumed:
    case running_torque_unknown:
    case single_use_nut_reused:
    case running_torque_low:
      return "reference/prevailing_torque.csv" + (j.reuse ? ": " + std::string(j.reuse->standard) : std::string());
    case wrench_fits_no_head:
    case wrench_ambiguous:
    case wrench_not_tabled:
    case looks_like_inch:
      return "heads in reference/across_flats.csv";
    case engagement_short:
    case tapped_strength_assumed:
    case thread_strips:
      return "FED-STD-H28/2 areas; Machinery's Handbook, 24th ed.; " +
             std::string(j.engagement ? j.engagement->source : "reference/member_materials.csv");
    case wall_gives_way:
    case box_without_sleeve:
    case sleeve_gives_way:
      return "plastic limit of a held plate (yield lines, from memory); reference/member_faces.csv";
    case face_crushed:
      return "face pressures in reference/member_faces.csv (from memory)";
    case hole_too_small:
    case hole_too_large:
      return "ISO 273, ASME B18.2.8 (from memory)";
    case drill_wrong:
      return "ISO 965-1 minor diameter (from memory)";
    case edge_short:
      return "NASA TM-106943 p. 19";
    case u_bolt_above_chart:
      return "two suppliers' U-bolt charts" +
             std::string(j.u_bolt && j.u_bolt->basis == reference::Basis::derived ? ", derived for this size" : "");
    case wrench_off_scale:
    case wrench_low_on_scale:
      return "ISO 6789-1 (from memory)";
    case pivot_slips:
    case pivot_overloaded:
      return "NASA TM-106943 eq. 56; load cases in reference/pivot_load_cases.csv";
    case bolt_too_short:
    case bolt_too_long:
    case bolt_bottoms:
    case sleeve_length:
    case stud_turns_short:
    case passes_do_not_rise:
    case plain_nut_on_wheel:
    case castle_slot_missed:
    case taper_wet:
    case locker_cures:
    case locker_on_lock_nut:
    case soft_member:
      return "common practice, no source";
    default:
      return strength_source(q, j);
  }
}

Message flag_message(fs::Flag flag, const std::string& subject, const fs::Question& q, const fs::Judgement& j,
                     const std::string& at) {
  std::string strength = q.joint.bolt ? q.joint.bolt->bolt_class : "";
  if (strength.empty())
    if (const fs::Nut* nut = fs::clamping_nut(q.joint); nut && !nut->nut_class.empty())
      strength = "nut " + nut->nut_class;
  Message m{flag_code(flag),
            {{"subject", subject},
             {"at", at.empty() ? fs::name(q.joint.thread) : at},
             {"thread", fs::name(q.joint.thread)},
             {"class", strength}}};
  auto& args = m.arguments;
  if (q.ask.torque) args.emplace_back("torque", number(*q.ask.torque));
  if (j.proof) {
    args.emplace_back("share", share(j.proof->nominal));
    args.emplace_back("high", share(j.proof->high));
  }
  if (j.likely_meant) args.emplace_back("meant", number(*j.likely_meant));
  if (j.suggested) args.emplace_back("computed", number(*j.suggested));
  if (q.ask.wrench) args.emplace_back("wrench", number(*q.ask.wrench));
  args.emplace_back("surface", std::string(fs::name(j.surface)));
  if (j.length && j.length->shortest) args.emplace_back("shortest", number(*j.length->shortest));
  if (j.length && j.length->longest) args.emplace_back("longest", number(*j.length->longest));
  if (j.engagement) args.emplace_back("needed", number(j.engagement->needed));
  if (j.strips) args.emplace_back("strips", number(*j.strips));
  if (j.wall) args.emplace_back("wall", number(*j.wall));
  if (j.sleeve) args.emplace_back("sleeve", number(*j.sleeve));
  if (j.preload) args.emplace_back("clamp", number(j.preload->nominal));
  if (j.long_form) args.emplace_back("long", number(j.long_form->nominal));
  if (j.likely_length) args.emplace_back("size", number(*j.likely_length));
  if (j.hole) args.emplace_back("hole", number(j.hole->medium));
  if (j.drill) args.emplace_back("drill", number(j.drill->usual));
  if (j.reuse) args.emplace_back("reuse", number(j.reuse->least));
  if (j.u_bolt) args.emplace_back("most", number(j.u_bolt->most));
  if (j.pivot) args.emplace_back("friction", number(j.pivot->friction));
  if (q.ask.load) args.emplace_back("across", number(q.ask.load->across));
  if (q.ask.limit) args.emplace_back("limit", number(*q.ask.limit));
  if (!q.ask.passes.empty()) args.emplace_back("last", number(q.ask.passes.back()));
  args.emplace_back("turns", fmt_whole(fs::least_turns(q.joint.thread)));
  return m;
}

bool two_ended(const KitFastener& f) {
  const auto read = fs::read_stack(f.stack.value);
  const auto* joint = std::get_if<fs::Joint>(&read);
  return joint && joint->bolt &&
         (joint->bolt->kind == fs::BoltKind::bolt || joint->bolt->kind == fs::BoltKind::screw) &&
         fs::clamping_nut(*joint) && !fs::tapped_part(*joint);
}

bool pinned(const KitFastener& f) {
  return f.stack.value.find("castle nut") != std::string::npos || f.stack.value.find("split pin") != std::string::npos;
}

}  // namespace trammel
