// What a torque does to a joint, and what cannot be right about it.
//
// Preload by preload.h for the joint's thread, surface and method; per cent of proof by strength.h (the weaker of bolt
// and nut); length by joint.h; stripping by engagement.h; wrench by wrench.h. What is not stated is either not
// computed or assumed and named in `Basis of the answer` below, never guessed in silence.
//
// Parts: hole.h, bearing.h (faces, box walls, sleeves), castle.h, u_bolt.h, wheel.h, pivot.h.
// Both ways from torque to preload are shown where a head or nut bears on a face: nut factor K, and the long form with
// the state's friction; their families of numbers are never mixed. More than a fifth apart is told (common practice, no
// source).
//
// Limits of the flags (share of proof load at nominal preload; W04 = Shigley, 9th ed., Eq. 8-31):
//   suggested torque 0.75 proof, a joint that is opened again (W04)
//   torque_above_proof above 1.0; high_end_above_proof where only the window's high end is above
//   torque_too_low below 0.30 (common practice, no source)
//   factor slips: torque outside 0.40 … 0.95, and torque x or / 12 (or 1.356) inside
//   oiled_given_dry_torque: K of the surface as found is below the stated state's by more than a tenth
// Ignores: outside loads, fatigue, temperature.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "fastener/bearing.h"
#include "fastener/castle.h"
#include "fastener/engagement.h"
#include "fastener/hole.h"
#include "fastener/joint.h"
#include "fastener/pivot.h"
#include "fastener/preload.h"
#include "fastener/strength.h"
#include "fastener/surface.h"
#include "fastener/u_bolt.h"
#include "fastener/wrench.h"

namespace trammel::fastener {

struct Ask {
  std::optional<Torque> torque;              // the final torque the sheet asks for
  std::optional<Surface> surface;            // the state that torque is stated for
  std::optional<Surface> as_found;           // the state on the bench, where it is another
  std::optional<Length> wrench, nut_wrench;  // across flats: head (or the only one) and nut
  std::optional<Method> method;
  std::optional<Torque> running;   // measured running torque of a prevailing-torque nut
  bool on_top_of_running = false;  // the torque is to be added to the running torque
  bool nut_reused = false;
  std::optional<NutFactor> nut_factor;  // a K the kit states itself
  std::optional<Torque> limit;          // greatest torque on the way to a castle nut's slot
  std::vector<Torque> passes;           // in order
  std::optional<TorqueWrench> scale;    // of the torque wrench in hand
  std::optional<Extension> extension;   // on that wrench
  std::optional<double> turns;          // of a wheel nut, first thread to seat
  bool set_by_measure = false;          // by end float or the like, not by torque
  std::optional<BoltLoad> load;         // of a pivot
  int planes = 2;                       // in which it is sheared
  std::optional<int> studs;             // of a wheel
  std::optional<Length> hole, drill;    // of this bolt; to be tapped for it
  bool wheel = false;                   // it holds a wheel
};

// In this order, each at most once.
enum class Flag {
  torque_missing,
  class_missing,
  class_not_for_thread,
  torque_above_proof,
  high_end_above_proof,
  torque_too_low,
  looks_like_factor_12,
  looks_like_factor_1_356,
  oiled_given_dry_torque,
  surface_assumed,
  running_torque_assumed,
  running_torque_unknown,  // a prevailing-torque nut of a size that is not tabled: measure it
  wrench_fits_no_head,
  wrench_ambiguous,
  wrench_not_tabled,
  bolt_too_short,
  bolt_too_long,
  bolt_bottoms,
  engagement_short,
  tapped_material_missing,
  tapped_strength_assumed,
  closing_part_missing,  // a stack with members but neither nut nor tapped part
  nut_weaker_than_bolt,
  single_use_nut_reused,
  box_without_sleeve,
  soft_member,
  strength_single_source,
  looks_like_inch,
  set_by_measure,
  running_torque_low,  // of a used nut: it is spent
  thread_strips,
  thin_nut_assumed,
  long_form_differs,
  face_crushed,
  wall_gives_way,
  sleeve_length,
  sleeve_gives_way,
  hole_too_small,
  hole_too_large,
  drill_wrong,
  edge_short,
  seat_differs,
  seat_unknown,
  stud_turns_short,
  plain_nut_on_wheel,
  passes_do_not_rise,
  passes_end_elsewhere,  // the last of them is not the torque
  u_bolt_above_chart,
  castle_limit_missing,
  castle_limit_low,
  castle_slot_missed,  // the window up to the limit is much less than one slot's turn
  taper_wet,
  locker_cures,
  locker_on_lock_nut,
  wrench_off_scale,
  wrench_low_on_scale,
  pivot_slips,
  pivot_overloaded
};
inline constexpr int flag_count = static_cast<int>(Flag::pivot_overloaded) + 1;
// The flag's spelling, used as a finding's code: "torque_above_proof".
std::string_view name(Flag flag);

// Preload as a share of the proof load, 1 = proof.
struct ProofShare {
  double low = 0.0, nominal = 0.0, high = 0.0;
};

struct Judgement {
  std::optional<PreloadWindow> preload;
  std::optional<ProofShare> proof;
  std::optional<Load> proof_load;   // of the weaker of bolt and nut
  std::optional<Force> margin;      // proof load less the window's high end; negative where above
  std::optional<Torque> suggested;  // for 0.75 proof at nominal K, running torque added; computed
  std::optional<PreloadWindow> suggested_preload;
  std::optional<Torque> likely_meant;  // where a factor slip is flagged
  std::optional<StackLength> length;
  std::optional<Engagement> engagement;  // needed in the tapped part
  std::optional<Force> strips;           // at which the engaged thread strips
  std::optional<PreloadWindow> long_form;
  NutFactor long_k;                   // T/(F d) by the long form
  Length bearing_diameter;            // mean, of the face that is turned
  std::optional<Force> wall, sleeve;  // clamp force at which a box's wall or its sleeve gives way
  std::optional<ReuseLimit> reuse;
  std::optional<UBoltLimit> u_bolt;
  std::optional<CastleStep> castle;
  std::optional<double>
      slot_met;  // share of a slot's turn that the window up to the limit has, of a stiff joint at least
  std::optional<PivotAnswer> pivot;
  std::optional<ClearanceHole> hole;
  std::optional<TapDrill> drill;
  std::optional<Torque> setting;        // of the wrench with its extension
  std::optional<Length> likely_length;  // where inches were written as millimetres, or the other way round
  // Basis of the answer
  Surface surface{};  // used, assumed where flagged
  NutFactor k;
  Method method = Method::torque_wrench;
  bool method_assumed = false;
  Scatter method_scatter;
  std::optional<RunningTorque> running;
  std::vector<Head> wrench_also_fits;  // other threads' heads that the asked wrench turns
  std::vector<Head> heads;             // tabled heads of this thread
  std::vector<Flag> flags;

  bool has(Flag flag) const;
};

Judgement judge(const Joint& joint, const Ask& ask);

}  // namespace trammel::fastener
