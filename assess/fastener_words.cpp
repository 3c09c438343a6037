#include "assess/fastener_words.h"

#include <algorithm>

namespace trammel {
namespace {

namespace fs = fastener;

std::string code(fs::Flag flag) {
  std::string text(fs::name(flag));
  std::replace(text.begin(), text.end(), '_', '-');
  return text;
}

}  // namespace

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
      return Outcome::note;
  }
  return Outcome::note;
}

std::string strength_source(const fs::Question& q, const fs::Judgement& j) {
  const std::string rows(j.proof_load ? j.proof_load->source : j.k.source);
  const std::string copies = " (reference/fastener_sources.csv: " + rows + ")";
  if (!j.proof_load) return "nut factor" + copies;
  if (!q.joint.bolt || q.joint.bolt->bolt_class.empty()) return "ISO 898-2" + copies;
  return (q.joint.bolt->bolt_class.starts_with("grade") ? "SAE J429" : "ISO 898-1") + copies;
}

Message flag_message(fs::Flag flag, const std::string& subject, const fs::Question& q, const fs::Judgement& j,
                     const std::string& at) {
  std::string strength = q.joint.bolt ? q.joint.bolt->bolt_class : "";
  if (strength.empty())
    if (const fs::Nut* nut = fs::clamping_nut(q.joint); nut && !nut->nut_class.empty())
      strength = "nut " + nut->nut_class;
  Message m{code(flag),
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
  return m;
}

}  // namespace trammel
