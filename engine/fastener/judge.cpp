#include "fastener/judge.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace trammel::fastener {
namespace {

// Shares of proof load; their sources stand in the header.
constexpr double suggested_share = 0.75, too_low_share = 0.30;
constexpr double plausible_low = 0.40, plausible_high = 0.95;
constexpr double slip_12 = 12.0;                          // inches in a foot
constexpr double slip_1_356 = units::lbf_ft / units::Nm;  // N·m in a lbf·ft
constexpr double wetter = 0.9;

// Gathers flags; they are put into their fixed order at the end.
class Flags {
 public:
  void raise(Flag flag, bool when = true) { raised_[static_cast<std::size_t>(flag)] |= when; }
  std::vector<Flag> in_order() const {
    std::vector<Flag> flags;
    for (int i = 0; i < flag_count; ++i)
      if (raised_[static_cast<std::size_t>(i)]) flags.push_back(static_cast<Flag>(i));
    return flags;
  }

 private:
  std::array<bool, flag_count> raised_{};
};

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
  flags.raise(Flag::surface_assumed, !ask.surface && !ask.as_found && !ask.nut_factor);
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
  flags.raise(Flag::single_use_nut_reused, prevailing && ask.nut_reused);
  if (!prevailing) return;
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
  const bool classes =
      !bolt.bolt_class.starts_with("grade") && !nut.nut_class.empty() && whole(nut.nut_class) < whole(bolt.bolt_class);
  return classes || (nut_load && nut_load->value < bolt_load.value);
}

void judge_strength(const Joint& joint, Judgement& out, Flags& flags) {
  const std::string_view bolt_class = joint.bolt ? std::string_view(joint.bolt->bolt_class) : std::string_view{};
  flags.raise(Flag::class_missing, bolt_class.empty());
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
  flags.raise(Flag::torque_missing, !ask.torque);
  if (ask.torque) out.preload = window(joint, ask, out, *ask.torque);

  const bool soft = std::ranges::any_of(joint.pieces, [](const Piece& p) {
    const auto* m = std::get_if<Member>(&p);
    return m && (m->material == Material::plastic || m->material == Material::rubber);
  });
  flags.raise(Flag::soft_member, soft);
  if (!out.proof_load) return;

  const Force proof = out.proof_load->value;
  const Torque drag = out.running && !ask.on_top_of_running ? out.running->nominal : Torque{};
  out.suggested = torque_for(suggested_share * proof, joint.thread, out.k) + drag;
  out.suggested_preload = window(joint, ask, out, *out.suggested);
  if (!out.preload) return;

  const PreloadWindow& f = *out.preload;
  out.proof = ProofShare{f.low / proof, f.nominal / proof, f.high / proof};
  out.margin = proof - f.high;
  flags.raise(Flag::torque_above_proof, out.proof->nominal > 1.0);
  flags.raise(Flag::high_end_above_proof, out.proof->nominal <= 1.0 && out.proof->high > 1.0);
  if (soft) return;  // the soft part sets the torque, not the bolt
  flags.raise(Flag::torque_too_low, out.proof->nominal < too_low_share);
  judge_slip(joint, ask, out.proof->nominal, out, flags);
}

void judge_wrench(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  out.heads = heads_of(joint.thread);
  const Nut* nut = clamping_nut(joint);
  const auto known_head = joint.bolt ? joint.bolt->across_flats : std::nullopt;
  const auto known_nut = nut ? nut->across_flats : std::nullopt;

  const auto look = [&](const std::optional<Length>& wrench, const std::vector<Length>& known) {
    if (!wrench) return;
    // A head whose size the stack states is the one the wrench must fit.
    if (!known.empty()) {
      const bool fits = std::ranges::any_of(known, [&](Length k) { return abs(k - *wrench) <= 0.15 * units::mm; });
      flags.raise(Flag::wrench_fits_no_head, !fits);
      return;
    }
    const WrenchFit fit = wrench_fit(joint.thread, *wrench);
    flags.raise(Flag::wrench_fits_no_head, fit == WrenchFit::fits_none);
    flags.raise(Flag::wrench_ambiguous, fit == WrenchFit::ambiguous);
    flags.raise(Flag::wrench_not_tabled, fit == WrenchFit::not_tabled);
    for (const Head& h : heads_for_wrench(*wrench))
      if (std::ranges::none_of(out.heads, [&](const Head& own) { return own.thread == h.thread; }))
        out.wrench_also_fits.push_back(h);
  };
  const auto list = [](std::initializer_list<std::optional<Length>> lengths) {
    std::vector<Length> v;
    for (const auto& l : lengths)
      if (l) v.push_back(*l);
    return v;
  };
  // One wrench may be meant for either end, two are head and nut.
  look(ask.wrench, ask.nut_wrench ? list({known_head}) : list({known_head, known_nut}));
  look(ask.nut_wrench, list({known_nut}));
}

void judge_length(const Joint& joint, Judgement& out, Flags& flags) {
  out.length = stack_length(joint);
  const TappedPart* tapped = tapped_part(joint);
  if (out.length && out.length->protrusion) {
    const Length out_by = *out.length->protrusion, pitch = joint.thread.pitch;
    flags.raise(Flag::bolt_too_short, !tapped && out_by < pitch);
    flags.raise(Flag::bolt_bottoms, tapped && tapped->blind && out_by > Length{});
    flags.raise(Flag::bolt_too_long, out_by > 5.0 * pitch && !(tapped && tapped->blind));
  }

  // A tapped part must hold until the bolt breaks.
  if (tapped) {
    flags.raise(Flag::tapped_material_missing, !tapped->material);
    const auto s = joint.bolt ? strength(joint.bolt->bolt_class, joint.thread) : std::nullopt;
    if (s && tapped->material) out.engagement = needed_engagement(joint.thread, *s, *tapped->material);
    if (out.engagement) {
      flags.raise(Flag::tapped_strength_assumed);
      const auto has = out.length ? out.length->engagement : std::nullopt;
      flags.raise(Flag::engagement_short, has.value_or(tapped->depth) < out.engagement->needed);
    }
  }

  // A hollow section is crushed by its bolt unless something stands inside it.
  const auto any = [&](auto test) {
    return std::ranges::any_of(joint.pieces, [&](const Piece& p) {
      const auto* m = std::get_if<Member>(&p);
      return m && test(*m);
    });
  };
  flags.raise(Flag::box_without_sleeve, any([](const Member& m) { return m.wall.has_value(); }) &&
                                            !any([](const Member& m) { return m.sleeve; }));
}

}  // namespace

bool Judgement::has(Flag flag) const { return std::ranges::find(flags, flag) != flags.end(); }

Judgement judge(const Joint& joint, const Ask& ask) {
  Judgement out;
  Flags flags;
  judge_surface(joint, ask, out, flags);
  judge_nut(joint, ask, out, flags);
  judge_strength(joint, out, flags);
  judge_torque(joint, ask, out, flags);
  judge_wrench(joint, ask, out, flags);
  judge_length(joint, out, flags);
  out.flags = flags.in_order();
  return out;
}

}  // namespace trammel::fastener
