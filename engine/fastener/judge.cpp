#include "fastener/judge.h"

#include <algorithm>
#include <cstdlib>

#include "fastener/flags.h"

namespace trammel::fastener {
namespace {

// Shares of proof load; their sources stand in the header.
constexpr double suggested_share = 0.75, too_low_share = 0.30;
constexpr double plausible_low = 0.40, plausible_high = 0.95;
constexpr double slip_12 = 12.0;                          // inches in a foot
constexpr double slip_1_356 = units::lbf_ft / units::Nm;  // N·m in a lbf·ft
constexpr double wetter = 0.9;
constexpr double forms_apart = 0.2;

Surface surface_by_finish(Finish finish) {
  switch (finish) {
    case Finish::plain:
    case Finish::stainless:
      return Surface::dry_steel;
    case Finish::black:
      return Surface::dry_black;
    case Finish::cadmium:
      return Surface::dry_cadmium;
    case Finish::zinc:
      return Surface::dry_zinc;
    case Finish::not_stated:
      break;
  }
  return Surface::dry_zinc;  // the widest published spread
}

void judge_surface(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  const Finish finish = joint.bolt ? joint.bolt->finish : Finish::not_stated;
  const Surface stated = ask.surface.value_or(surface_by_finish(finish));
  out.surface = ask.as_found.value_or(stated);
  out.k = ask.nut_factor && !ask.as_found ? *ask.nut_factor : nut_factor(out.surface);
  const double stated_k = ask.nut_factor ? ask.nut_factor->nominal : nut_factor(stated).nominal;
  flags.raise(Flag::surface_assumed, !ask.surface && !ask.as_found && !ask.nut_factor && !ask.set_by_measure);
  flags.raise(Flag::oiled_given_dry_torque, ask.as_found && nut_factor(*ask.as_found).nominal < wetter * stated_k);

  out.method = ask.method.value_or(Method::torque_wrench);
  out.method_assumed = !ask.method;
  out.method_scatter = scatter(out.method);
}

// The drag of the nut, where it has any.
void judge_nut(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  const Nut* nut = clamping_nut(joint);
  const bool members =
      std::ranges::any_of(joint.pieces, [](const Piece& p) { return std::holds_alternative<Member>(p); });
  flags.raise(Flag::closing_part_missing, members && !nut && !tapped_part(joint));
  if (!nut) return;
  const bool prevailing = nut->kind == NutKind::prevailing;
  if (!prevailing) return;
  // A used nut may go on again only while it still drags enough, which takes a measurement.
  out.reuse = reuse_limit(joint.thread, nut->nut_class);
  flags.raise(Flag::single_use_nut_reused, ask.nut_reused && !(ask.running && out.reuse));
  flags.raise(Flag::running_torque_low, ask.nut_reused && ask.running && out.reuse && *ask.running < out.reuse->least);
  if (ask.running)
    out.running = RunningTorque{*ask.running, *ask.running, *ask.running, true, {}, {}};
  else
    out.running = running_torque(joint.thread, nut->nut_class);
  flags.raise(Flag::running_torque_unknown, !out.running);
  flags.raise(Flag::running_torque_assumed, out.running && !out.running->measured && !ask.on_top_of_running);
}

// ISO 898-2: a nut of class n goes with bolts up to class n.x; the proof loads must bear it out.
bool weaker(const Nut& nut, const std::optional<Load>& nut_load, const Bolt& bolt, const Load& bolt_load) {
  const auto whole = [](std::string_view s) { return std::atoi(std::string(s).c_str()); };
  constexpr std::string_view grade = "grade ";
  const bool inch = bolt.bolt_class.starts_with(grade);
  if (nut.nut_class.starts_with(grade))  // SAE J995: a nut of at least the bolt's grade (from memory)
    return inch && whole(nut.nut_class.substr(grade.size())) < whole(bolt.bolt_class.substr(grade.size()));
  const bool classes = !inch && !nut.nut_class.empty() && whole(nut.nut_class) < whole(bolt.bolt_class);
  return classes || (nut_load && nut_load->value < bolt_load.value);
}

void judge_strength(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  const std::string_view bolt_class = joint.bolt ? std::string_view(joint.bolt->bolt_class) : std::string_view{};
  // A jam nut alone is a thin nut, and the weaker of the two classes where none is stated.
  if (const Nut* nut = clamping_nut(joint); !joint.bolt && nut && nut->kind == NutKind::jam) {
    out.proof_load = nut_proof_load(nut->nut_class.empty() ? "04" : nut->nut_class, joint.thread);
    flags.raise(Flag::thin_nut_assumed, nut->nut_class.empty());
    return;
  }
  flags.raise(Flag::class_missing, bolt_class.empty() && !ask.set_by_measure);
  if (bolt_class.empty()) return;
  out.proof_load = proof_load(bolt_class, joint.thread);
  flags.raise(Flag::class_not_for_thread, !out.proof_load);
  if (!out.proof_load) return;
  flags.raise(Flag::strength_single_source, out.proof_load->single_source);
  if (const Nut* nut = clamping_nut(joint)) {
    const auto nut_load = nut_proof_load(nut->nut_class, joint.thread);
    flags.raise(Flag::nut_weaker_than_bolt, weaker(*nut, nut_load, *joint.bolt, *out.proof_load));
    if (nut_load && nut_load->value < out.proof_load->value) out.proof_load = nut_load;
  }
}

PreloadWindow window(const Joint& joint, const Ask& ask, const Judgement& out, Torque torque) {
  return preload(torque, joint.thread, out.k, out.method_scatter, ask.on_top_of_running ? std::nullopt : out.running);
}

// Where a slip of units would put the torque right, names it and the torque that was likely meant.
void judge_slip(const Joint& joint, const Ask& ask, double share, Judgement& out, Flags& flags) {
  const auto plausible = [](double s) { return s >= plausible_low && s <= plausible_high; };
  if (plausible(share)) return;
  const auto tried = [&](Torque t) { return window(joint, ask, out, t).nominal / out.proof_load->value; };
  struct Slip {
    double factor;
    Flag flag;
  };
  for (const Slip slip :
       {Slip{1.0 / slip_1_356, Flag::looks_like_factor_1_356}, Slip{slip_1_356, Flag::looks_like_factor_1_356},
        Slip{1.0 / slip_12, Flag::looks_like_factor_12}, Slip{slip_12, Flag::looks_like_factor_12}}) {
    if (!plausible(tried(slip.factor * *ask.torque))) continue;
    flags.raise(slip.flag);
    if (!out.likely_meant) out.likely_meant = slip.factor * *ask.torque;
  }
}

void judge_torque(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  flags.raise(Flag::torque_missing, !ask.torque && !ask.set_by_measure);
  flags.raise(Flag::set_by_measure, ask.set_by_measure);
  if (ask.torque) out.preload = window(joint, ask, out, *ask.torque);

  const bool soft = std::ranges::any_of(joint.pieces, [](const Piece& p) {
    const auto* m = std::get_if<Member>(&p);
    return m && (m->material == Material::plastic || m->material == Material::rubber);
  });
  flags.raise(Flag::soft_member, soft);
  if (!out.proof_load) return;

  const Force proof = out.proof_load->value;
  const Torque drag = out.running && !ask.on_top_of_running ? out.running->nominal : Torque{};
  // A hollow section without a sleeve bears less than its bolt: the window's high end stays below the wall.
  Force wanted = suggested_share * proof;
  if (out.wall) {
    const PreloadWindow of_one = preload(units::Nm, joint.thread, out.k, out.method_scatter);
    wanted = std::min(wanted, *out.wall / (of_one.high / of_one.nominal));
  }
  out.suggested = torque_for(wanted, joint.thread, out.k) + drag;
  if (joint.bolt && joint.bolt->kind == BoltKind::u_bolt) {
    const Finish finish = joint.bolt->finish;
    const bool plated = finish == Finish::zinc || finish == Finish::cadmium;
    out.u_bolt = u_bolt_limit(joint.thread, joint.bolt->bolt_class, plated);
    if (out.u_bolt) out.suggested = std::min(*out.suggested, out.u_bolt->most);
  }
  out.suggested_preload = window(joint, ask, out, *out.suggested);
  if (!out.preload) return;

  const PreloadWindow& f = *out.preload;
  out.proof = ProofShare{f.low / proof, f.nominal / proof, f.high / proof};
  out.margin = proof - f.high;
  flags.raise(Flag::torque_above_proof, out.proof->nominal > 1.0);
  flags.raise(Flag::high_end_above_proof, out.proof->nominal <= 1.0 && out.proof->high > 1.0);
  // A soft part, a hollow section or a bearing's float sets the torque, not the bolt.
  if (soft || ask.set_by_measure || (out.wall && f.high <= *out.wall)) return;
  // A jam nut only keeps what another thread holds.
  if (const Nut* nut = clamping_nut(joint); !joint.bolt && nut && nut->kind == NutKind::jam) return;
  flags.raise(Flag::torque_too_low, out.proof->nominal < too_low_share);
  judge_slip(joint, ask, out.proof->nominal, out, flags);
}

// The same torque by the long form, on the face of head or nut.
void judge_long_form(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  const Nut* nut = clamping_nut(joint);
  const bool other_face = nut && (nut->kind == NutKind::wheel || nut->kind == NutKind::flange);
  const bool taper = piece_where<Member>(joint, [](const Member& m) { return m.taper; });
  if (!ask.torque || other_face || taper) return;
  const auto hole = clearance_hole(joint.thread);
  out.bearing_diameter = mean_bearing_diameter(head_face(joint.thread), hole ? hole->medium : 1.1 * joint.thread.d);
  out.long_k = long_factor(joint.thread, out.surface, out.bearing_diameter);
  const auto drag = ask.on_top_of_running ? std::nullopt : out.running;
  out.long_form = preload(*ask.torque, joint.thread, out.long_k, out.method_scatter, drag);
  const double apart = out.long_form->nominal / std::max(out.preload->nominal, 1e-9 * units::newton);
  flags.raise(Flag::long_form_differs, apart > 1.0 + forms_apart || apart < 1.0 - forms_apart);
}

}  // namespace

bool Judgement::has(Flag flag) const { return std::ranges::find(flags, flag) != flags.end(); }

Judgement judge(const Joint& joint, const Ask& ask) {
  Judgement out;
  Flags flags;
  judge_surface(joint, ask, out, flags);
  judge_nut(joint, ask, out, flags);
  judge_strength(joint, ask, out, flags);
  judge_box(joint, out);
  judge_torque(joint, ask, out, flags);
  judge_long_form(joint, ask, out, flags);
  judge_wrench(joint, ask, out, flags);
  judge_length(joint, out, flags);
  judge_clamped(joint, out, flags);
  judge_holes(joint, ask, out, flags);
  judge_nut_kinds(joint, ask, out, flags);
  judge_pivot(joint, ask, out, flags);
  judge_inches(joint, ask, out, flags);
  out.flags = flags.in_order();
  return out;
}

}  // namespace trammel::fastener
