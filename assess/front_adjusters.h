// The front axle's adjusters as alignment reckons with them, each with its own law and its own unit.
//
// The alignment room knows one linear law: (camber, toe) += effect x turns, told to the quarter of a flat. What is no
// thread is put into it by choosing what one "turn" is there:
//   both-hand sleeve    a turn of the sleeve: two pitches        sleeve and rod end    a turn of the rod: one pitch
//   rod end             two turns, so that a quarter is the half turn in which a rod end can be put back
//   shims, holes        four steps, so that a quarter is one shim or one hole
//   slot                2 mm, so that a quarter is half a millimetre
//   eccentric bolt      0.4 mm of shift; shift = throw x sin(angle from its middle), told as the angle
// Effects: of a double wishbone or a strut (its top mount in a slot) by its geometry; of a beam by its steering arms:
// the tie rod turns the wheel that the drag link does not hold, the drag link both. Points that are not there: class
// averages (a steering arm of 115 +-20 mm). Ignores: curvature of the effects. Frame and signs: ISO 8855; positive
// where the part gets longer or moves outward.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "assess/finding.h"
#include "assess/models.h"
#include "setup/adjuster.h"
#include "setup/thread_hand.h"

namespace trammel {

enum class Stand { in_front, behind, left_side, right_side };

struct FittedAdjuster {
  setup::Adjuster law;
  std::string kind, part;                            // "shims"; "upper_arm"
  bool link = false;                                 // of a rear axle: its length is told, not which way its end goes
  bool both_sides = false;                           // of the axle, not of one wheel
  Length per_turn;                                   // change of length of one turn as the law counts it
  double part_turns = 1.0;                           // turns of the part itself in one of those
  std::optional<Length> throw_, step;                // eccentric bolt; shims and holes
  std::optional<setup::FaceMoves> face_when_longer;  // nothing where the hand is not known
  // Then: which end has the right-hand thread if the part gets longer, or shorter, while its face moves up.
  std::string right_hand_if_up_is_longer, right_hand_if_up_is_shorter;
  Stand stand = Stand::in_front;
  Length thread_diameter{};
};

// One adjuster as it is written for a part that lies from `near` to `far`: its unit, limits, and from where it is seen.
// Nothing where there is none on that side, or its thread cannot be read. Effects are left to the caller.
std::optional<FittedAdjuster> fitted_adjuster(const std::optional<Adjuster>& given, const char* part, setup::Side side,
                                              const Vector3<double>& near, const Vector3<double>& far);

std::vector<FittedAdjuster> front_adjusters(const Cart& cart, const CartModel& model, std::vector<Message>& notes);

// A move as it was written, in the law's turns; `angle` is where an eccentric bolt stood, and then stands.
Angle turns_of(const AdjusterMove& move, const FittedAdjuster& adjuster, Angle& bolt);

}  // namespace trammel
