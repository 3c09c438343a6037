// How a rear axle stands under the cart, and what its links are turned to put it square.
//
// Unknowns: steer s of the axle (the way its wheels point, to the left positive: the thrust angle), its middle's shift
// y to the left and x forward, the toe t of its two wheels together (a bent housing), the strings' own skew a stop, and
// what each adjuster does a turn. One joint Gaussian, folded over readings and turns in their order.
//   strings   left: front - rear = D sin(t/2 - s + w),  right: D sin(t/2 + s - w)    D diameter, w skew of both strings
//             left mean - right mean = -2 y, the strings being equally far from the cart's middle
//   lengths   left end (x - a sin s, y + a cos s) to its mark (d, c m), right end (x + a sin s, y - a cos s) to its
//             own (d, -c m), each mark h higher than the end, h each side's own; a end from the axle's middle, d marks
//             ahead, m mark from the cart's middle, c 1 or -1 (crossed)
//   to frame  left - right = 2 y
//   turn      (s, y) += effect x turns
// Lengths of one side (m = a) tell s alone; crossed ones, or one mark in the middle (m = 0), need y as well.
// Frame and signs: ISO 8855, radians and metres. Ignores: the axle's own lean, the effects' curvature.
// Error: under 1e-4 rad and 1e-8 m for s under 2 deg (readings are taken in one after another). Sources: plane geometry
// (derived); acceptance JCGM 106:2012 8.3 (from memory). Law 1: mirrored readings give the mirrored answer. Law 2:
// accepted exactly where P >= the limit, read since the last turn. Law 3: no turn passes an adjuster's limit. Law 4:
// equal lengths say s = 0 where the marks are square.
#pragma once

#include "setup/alignment.h"

namespace trammel::setup {

struct RearReading {
  std::optional<StringReading> left_string, right_string;
  Length string_diameter{};
  std::optional<Length> left_length, right_length;
  Length marks_ahead{}, mark_out{}, end_out{};
  Length left_mark_above{}, right_mark_above{};  // than the axle's end
  bool crossed = false;
  std::optional<Length> left_to_frame, right_to_frame;
  int repeats = 1;
};

struct RearAdjuster {
  std::string name;
  Angle steer, steer_u;   // a turn, and its standard uncertainty
  Length shift, shift_u;  // likewise, to the left
  Angle most_shorter = -10.0 * units::turn, most_longer = 10.0 * units::turn;
  int flats_per_turn = 6;
};

struct RearTurn {
  std::size_t adjuster = 0;
  Angle turns;
};

using RearEvent = std::variant<RearReading, RearTurn>;

struct RearTask {
  Band<Angle> thrust;                  // wanted
  std::optional<Band<Length>> offset;  // of the middle; judged only where it was read
  std::vector<RearAdjuster> adjusters;
  Instruments instruments;
  Angle string_skew = 0.03 * units::degree;  // sd, of both strings against the cart, fixed within a stop
  Length string_place = 1.5 * units::mm;     // sd of each string's distance from the cart's middle
  Length frame = 1.5 * units::mm;            // sd of frame and marks against the cart's middle, the same at each stop
  Length settling = 0.3 * units::mm;         // sd of the axle's middle after a turn and roll
  Angle turn_error = units::turn / 24.0;
  double accept_probability = usual_acceptance;
  int most_readings = 16;
};

enum class RearVerdict { accept, adjust, measure, diagnose };
enum class RearReason {
  in_tolerance,
  turning_helps,
  reading_helps,
  never_read,
  turned_not_read,
  cannot_be_decided,
  no_adjuster,
  housing_bent,
};

struct RearAnswer {
  RearVerdict verdict = RearVerdict::measure;
  RearReason reason = RearReason::never_read;
  Estimate<Angle> thrust, toe;
  Estimate<Length> offset;
  bool offset_known = false;
  double probability = 0.0;
  std::vector<RearTurn> turns;  // a multiple of a quarter flat each
  Estimate<Angle> thrust_after;
  Estimate<Length> offset_after;
  double probability_after = 0.0;
  int more_readings = 0;
  std::optional<RearReading> expected;  // what the last reading's places show then, once turned and rolled
};

RearAnswer align_rear(const RearTask& task, const std::vector<RearEvent>& events);

}  // namespace trammel::setup
