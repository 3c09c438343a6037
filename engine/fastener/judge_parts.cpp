// What the parts of a joint say to it: wrench, length, holes, hollow sections, seats, slots and the loads of a pivot.
#include <algorithm>

#include "fastener/flags.h"
#include "fastener/wheel.h"

namespace trammel::fastener {
namespace {

constexpr Length sleeve_slack = 0.3 * units::mm;
constexpr double least_edge = 1.5;  // hole's middle to edge over hole diameter, NASA TM-106943 p. 19
constexpr Angle cone_slack = 1.0 * units::degree;
constexpr double mm_an_inch = 25.4;
constexpr double narrow_window = 0.10;  // of the torque, up to a castle nut's limit; assumed

bool is_box(const Member& m) { return m.wall.has_value(); }

Pressure yield_of(const Member& m) {
  const auto s = face_strength(m.material.value_or(Material::steel));
  return s && s->yield ? *s->yield : Pressure{};
}

Length hole_of(const Member& m, const Thread& thread) {
  const auto series = clearance_hole(thread);
  return m.hole.value_or(series ? series->medium : 1.1 * thread.d);
}

// Whether washers lie next to a part, so that it is pressed over their face.
Length face_on(const Joint& joint, std::size_t part) {
  const auto washer = [&](std::size_t i) {
    return i < joint.pieces.size() && std::holds_alternative<Washer>(joint.pieces[i]);
  };
  const bool before = part > 0 && washer(part - 1);
  return before ? washer_face(joint.thread) : head_face(joint.thread);
}

}  // namespace

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

  // The torque wrench itself: what it is set to with an extension, and whether it is true there.
  if (!ask.torque) return;
  if (ask.extension) out.setting = wrench_setting(*ask.torque, *ask.extension);
  if (!ask.scale) return;
  const WrenchRange range = wrench_range(*ask.scale, out.setting.value_or(*ask.torque));
  flags.raise(Flag::wrench_low_on_scale, range == WrenchRange::below_a_fifth);
  flags.raise(Flag::wrench_off_scale, range == WrenchRange::below_scale || range == WrenchRange::above_scale);
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
      out.strips = strip_force(joint.thread, has.value_or(tapped->depth), *s, *tapped->material);
      flags.raise(Flag::thread_strips, out.strips && out.preload && out.preload->high > *out.strips);
    }
  }
}

void judge_box(const Joint& joint, Judgement& out) {
  const Member* box = piece_where<Member>(joint, is_box);
  const Member* sleeve = piece_where<Member>(joint, [](const Member& m) { return m.sleeve; });
  if (box && !sleeve && yield_of(*box) > Pressure{}) {
    for (std::size_t i = 0; i < joint.pieces.size(); ++i)
      if (std::get_if<Member>(&joint.pieces[i]) == box)
        out.wall = wall_limit(*box->wall, box->width.value_or(box->thickness), face_on(joint, i), yield_of(*box));
  }
  if (sleeve && sleeve->outside && yield_of(*sleeve) > Pressure{})
    out.sleeve = sleeve_limit(*sleeve->outside, hole_of(*sleeve, joint.thread), yield_of(*sleeve));
}

void judge_clamped(const Joint& joint, Judgement& out, Flags& flags) {
  const Member* box = piece_where<Member>(joint, is_box);
  const Member* sleeve = piece_where<Member>(joint, [](const Member& m) { return m.sleeve; });

  // A hollow section is crushed by its bolt unless the wall bears it or a sleeve stands inside.
  if (box && !sleeve) {
    flags.raise(Flag::box_without_sleeve, !out.wall || !out.preload || out.preload->high > *out.wall);
    flags.raise(Flag::wall_gives_way, out.wall && out.preload && out.preload->nominal > *out.wall);
  }
  if (box && sleeve) {
    const Length inside = box->thickness - 2.0 * *box->wall;
    flags.raise(Flag::sleeve_length, abs(sleeve->thickness - inside) > sleeve_slack);
  }
  flags.raise(Flag::sleeve_gives_way, out.sleeve && out.preload && out.preload->nominal > *out.sleeve);

  // The face under the head: the first part that is neither box nor taper.
  if (!out.preload || !joint.bolt) return;
  for (std::size_t i = 0; i < joint.pieces.size(); ++i) {
    const auto* m = std::get_if<Member>(&joint.pieces[i]);
    if (!m || m->sleeve || m->taper || is_box(*m)) continue;
    const auto s = face_strength(m->material.value_or(Material::steel));
    if (s) {
      const Pressure p = face_pressure(out.preload->nominal, face_on(joint, i), hole_of(*m, joint.thread));
      flags.raise(Flag::face_crushed, p > s->pressure);
    }
    break;
  }
}

void judge_holes(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  out.hole = clearance_hole(joint.thread);
  if (ask.hole) {
    flags.raise(Flag::hole_too_small, hole_fit(joint.thread, *ask.hole) == HoleFit::too_small);
    flags.raise(Flag::hole_too_large, hole_fit(joint.thread, *ask.hole) == HoleFit::too_large);
  }
  if (ask.drill) {
    out.drill = tap_drill(joint.thread);
    flags.raise(Flag::drill_wrong, out.drill && (*ask.drill < out.drill->least || *ask.drill > out.drill->most));
  }
  for (const Piece& piece : joint.pieces) {
    if (const auto* m = std::get_if<Member>(&piece)) {
      if (m->hole) {
        const HoleFit fit = hole_fit(joint.thread, *m->hole);
        flags.raise(Flag::hole_too_small, fit == HoleFit::too_small);
        flags.raise(Flag::hole_too_large, fit == HoleFit::too_large);
      }
      if (m->edge) flags.raise(Flag::edge_short, *m->edge < least_edge * hole_of(*m, joint.thread));
    } else if (const auto* part = std::get_if<TappedPart>(&piece)) {
      out.drill = tap_drill(joint.thread);
      if (part->drill && out.drill)
        flags.raise(Flag::drill_wrong, *part->drill < out.drill->least || *part->drill > out.drill->most);
    }
  }
}

// What each kind of nut asks: seat and turns of a wheel nut, slot and limit of a castle nut, passes, U-bolt charts.
void judge_nut_kinds(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  const Nut* nut = clamping_nut(joint);
  if (nut && nut->kind == NutKind::wheel) {
    const Member* disc = piece_where<Member>(joint, [](const Member& m) { return m.seat.has_value(); });
    flags.raise(Flag::seat_unknown, !nut->seat || !disc);
    if (nut->seat && disc) {
      const bool shape = nut->seat->shape == disc->seat->shape;
      const bool angle =
          !nut->seat->cone || !disc->seat->cone || abs(*nut->seat->cone - *disc->seat->cone) <= cone_slack;
      flags.raise(Flag::seat_differs, !shape || !angle);
    }
    flags.raise(Flag::stud_turns_short, ask.turns && *ask.turns < least_turns(joint.thread));
  }
  const Member* seated = piece_where<Member>(joint, [](const Member& m) { return m.seat.has_value(); });
  const bool wheel = ask.wheel || seated || (joint.bolt && joint.bolt->of_wheel);
  flags.raise(Flag::plain_nut_on_wheel, wheel && nut && nut->kind != NutKind::wheel);
  flags.raise(Flag::passes_do_not_rise, !passes_rise(ask.passes));
  flags.raise(Flag::passes_end_elsewhere,
              ask.torque && !ask.passes.empty() && abs(ask.passes.back() - *ask.torque) > 0.005 * *ask.torque);

  if (nut && nut->kind == NutKind::castle) {
    const auto length = stack_length(joint);
    const bool stiff = joint.bolt && length && length->grip > Length{};
    out.castle = castle_step(joint.thread, stiff ? std::optional(length->grip) : std::nullopt);
    flags.raise(Flag::castle_limit_missing, ask.torque && !ask.limit && !ask.set_by_measure);
    flags.raise(Flag::castle_limit_low, ask.torque && ask.limit && *ask.limit <= *ask.torque);
    if (ask.torque && ask.limit && *ask.limit > *ask.torque) {
      // A stiff joint's torque over a whole slot; a taper's or a lone nut's is only known by the wrench.
      const double room = (*ask.limit - *ask.torque) / *ask.torque;
      if (out.castle->rise && out.k.nominal > 0.0)
        out.slot_met =
            std::min(1.0, (*ask.limit - *ask.torque) / (out.k.nominal * (*out.castle->rise * joint.thread.d)));
      flags.raise(Flag::castle_slot_missed, room < narrow_window);
    }
  }

  flags.raise(Flag::u_bolt_above_chart, out.u_bolt && ask.torque && *ask.torque > out.u_bolt->most);

  const bool taper = piece_where<Member>(joint, [](const Member& m) { return m.taper; });
  flags.raise(Flag::taper_wet, taper && is_wet(out.surface));
  const bool locker = out.surface == Surface::thread_locker;
  flags.raise(Flag::locker_cures, locker);
  flags.raise(Flag::locker_on_lock_nut, locker && nut && nut->kind == NutKind::prevailing);
}

void judge_pivot(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  if (!ask.load || !out.preload || !joint.bolt) return;
  const auto s = strength(joint.bolt->bolt_class, joint.thread);
  if (!s) return;
  out.pivot = pivot_answer(*ask.load, ask.planes, joint.thread, *s, *out.preload);
  flags.raise(Flag::pivot_slips, out.pivot->slips);
  bool overloaded = out.pivot->slips && out.pivot->together > 1.0;

  // The parts: bearing in the hole and tearing out at the edge, each of them with its part of the load.
  if (out.pivot->slips)
    for (const Piece& piece : joint.pieces) {
      const auto* m = std::get_if<Member>(&piece);
      if (!m || m->sleeve || yield_of(*m) <= Pressure{}) continue;
      const Length bearing = is_box(*m) ? 2.0 * *m->wall : m->thickness;
      overloaded |= ask.load->across > yield_of(*m) * (bearing * joint.thread.d);
      if (m->edge)
        overloaded |= ask.load->across > tear_out(bearing, *m->edge, hole_of(*m, joint.thread), yield_of(*m));
    }
  flags.raise(Flag::pivot_overloaded, overloaded);
}

// Inches written as millimetres or the other way round, where the factor puts the size right.
void judge_inches(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags) {
  const auto try_both = [&](Length written, auto right) {
    if (right(written)) return;
    for (const double factor : {mm_an_inch, 1.0 / mm_an_inch})
      if (right(factor * written)) {
        flags.raise(Flag::looks_like_inch);
        if (!out.likely_length) out.likely_length = factor * written;
      }
  };
  if (joint.bolt && joint.bolt->length) {
    const auto l = stack_length(joint);
    if (l && l->shortest && l->longest)
      try_both(*joint.bolt->length,
               [&](Length x) { return x >= *l->shortest - joint.thread.pitch && x <= *l->longest; });
    else
      try_both(*joint.bolt->length, [&](Length x) { return x >= 0.5 * joint.thread.d && x <= 20.0 * joint.thread.d; });
  }
  for (const auto& wrench : {ask.wrench, ask.nut_wrench})
    if (wrench && !heads_of(joint.thread).empty())
      try_both(*wrench, [&](Length x) {
        const WrenchFit fit = wrench_fit(joint.thread, x);
        return fit == WrenchFit::fits || fit == WrenchFit::ambiguous;
      });
}

}  // namespace trammel::fastener
