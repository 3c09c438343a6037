// Caster by a steering sweep: from the camber read with the wheel steered out and in.
//
// The knuckle turns as one rigid body about its steering axis: with lower arm, upper arm and ride height held, the spin
// axis n goes round a cone. Its lean sin(camber) = -n.z is, exactly, for a turn phi about the axis s (Rodrigues):
//   n(phi).z = n.z cos phi + (s x n).z sin phi + s.z (s . n)(1 - cos phi)
// The wheel is steered by equal heading angles either way, read on the floor; heading is atan2(n.x, n.y). Given cambers
// at +-steer and straight ahead, caster c and inclination i of s = unit(-tan c, -tan i, 1) are solved by Newton.
// The trade's rule of thumb, caster = (camber out - camber in) / (2 sin steer), is the first guess and is told beside
// it. Frame and sign: ISO 8855, left wheel or a right one's mirror image; steer is toe-in positive, so `steered_in` has
// the wheel's front turned inward; caster positive leaning rearward, inclination positive leaning inward at the top.
// Range: 5 to 30 deg of steer. Ignores: rise of the cart while steering, flex, floor slope.
// Error: rounding of the closed relation; u by JCGM 100:2008 5.1.2 with independent cambers and one error of the steer.
// Source: Rodrigues' rotation formula; rule of thumb: common practice, no source.
// Law 1: a sweep simulated on a knuckle gives back its caster. Law 2: no caster, no inclination: all cambers alike.
// Law 3: for small angles the rule of thumb is the limit.
#pragma once

#include "setup/wheel_angles.h"

namespace trammel::setup {

struct CasterSweep {
  Angle steer;                                     // heading turned from straight ahead, each way
  Angle camber_straight, steered_in, steered_out;  // cambers
  Angle camber_u;                                  // of each
  Angle steer_u{};                                 // of the steer, the same error both ways
};

enum class CasterOutcome { found, not_found };
inline bool usable(CasterOutcome o) { return o == CasterOutcome::found; }

struct CasterReading {
  CasterOutcome outcome = CasterOutcome::not_found;
  Estimate<Angle> caster, inclination;
  Angle by_rule_of_thumb;
};

CasterReading caster_of(const CasterSweep& sweep);

// What a knuckle with this axis and straight-ahead camber shows when its heading is turned in by `steer`.
Angle camber_when_steered(Angle caster, Angle inclination, Angle camber, Angle steer);

}  // namespace trammel::setup
