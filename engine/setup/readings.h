// What is read on the cart and turned at it, in the order it happened.
//
// One Reading is what is read at once, each value the mean of `repeats`. Read while turning, before the cart is
// rolled, it carries the scrub of the gripped tyres (alignment.h); the steering wheel cannot be read then.
//   total toe    = toe_rear - toe_front = D (sin tl + sin tr)
//   own toe      = string_front - string_rear, string outboard of the wheel
//   camber       = -+atan(gap / over), or a gauge's angle
//   rolled straight: the steering wheel stands at ratio x (tl - tr)/2 when the cart rolls straight
//   held:            the wheel is held at that angle while strings are read: both wheels steered by angle/ratio
// Frame and sign: ISO 8855; steering wheel and its angle positive to the left. floor_slope is positive where
// the floor's left side is higher: a plumb square or a gauge then reads the left camber low by it, the right
// one high; a square stood on the same floor as the tyres is not touched by it.
// Source: ISO 8855:2011 (signs); JCGM 100:2008 4.3 (resolution as a rectangular distribution).
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "setup/adjuster.h"

namespace trammel::setup {

struct StringReading {
  Length front, rear;
};

enum class SteeringWheel { rolled_straight, held };
enum class SquareStands { on_the_floor, plumb };
enum class SquareTouches { lips, sidewall };  // a sidewall bulges under load: see Handling

struct Reading {
  std::optional<SquareGap> left_camber_gap, right_camber_gap;
  std::optional<Angle> left_camber_gauge, right_camber_gauge;
  std::optional<Length> toe_front, toe_rear;
  std::optional<Length> toe_diameter;  // the task's own where not given
  std::optional<StringReading> left_string, right_string;
  std::optional<Length> string_diameter;
  std::optional<Angle> steering_wheel_angle;
  std::optional<SteeringWheel> steering_wheel;  // not given: held where strings were read, else rolled straight
  SquareStands square_stands = SquareStands::on_the_floor;
  SquareTouches square_touches = SquareTouches::lips;
  bool while_turning = false;  // before the cart was jammed and rolled
  std::optional<Estimate<Angle>> floor_slope;
  int repeats = 1;
};

struct Turn {
  Side side = Side::left;
  std::string adjuster;
  Angle turns;
};

// Turns made one after another; then jam nuts tightened and the cart rolled, unless it is read where it stands.
struct Adjustment {
  std::vector<Turn> turns;
  bool rolled = true;
};

using Event = std::variant<Reading, Adjustment>;

enum class InstrumentBasis { assumed, measured };

template <class Q>
struct Instrument {
  Q sd{};
  InstrumentBasis basis = InstrumentBasis::assumed;
};

// Standard uncertainty of one reading. The figures are assumed until the shop measures its own.
struct Instruments {
  Instrument<Length> tape{1.0 * units::mm};               // one end of the toe, front or rear
  Instrument<Length> tape_step{units::inch / 16.0};       // smallest division read to
  Instrument<Length> square{0.5 * units::mm};             // gap against the rim's lips
  Instrument<Length> square_base{3.0 * units::mm};        // the base that the gap spans
  Instrument<Angle> square_true{0.03 * units::degree};    // the square itself, the same at both wheels
  Instrument<Angle> camber_gauge{0.1 * units::degree};    //
  Instrument<Angle> floor{0.1 * units::degree};           // slope of a floor called level
  Instrument<Length> string{0.7 * units::mm};             // one end of a string reading
  Instrument<Length> steering_centre{0.6 * units::mm};    // centring the wheel, as toe difference; fixed within a stop
  Instrument<Angle> steering_wheel{0.5 * units::degree};  // reading the steering wheel's angle
};

// What a reading is of, for flags and for asking again.
enum class Aspect { left_camber, right_camber, total_toe, toe_difference };
enum class ReadingItem { left_camber, right_camber, total_toe, left_string, right_string, steering_wheel_angle };

enum class Suspicion { unlikely, wrong_sign, front_and_rear_swapped, tape_misread, gap_at_wrong_edge, not_rolled };

// A reading that the state before it did not expect: kept, with less weight, and named.
struct ReadingFlag {
  std::size_t event = 0;  // index in the events
  ReadingItem item = ReadingItem::left_camber;
  Suspicion suspicion = Suspicion::unlikely;
  double z = 0.0;          // standardised surprise: (read - expected) / standard deviation of that difference
  bool is_length = false;  // which of the two pairs below holds
  Length read_length, expected_length;
  Angle read_angle, expected_angle;
};

}  // namespace trammel::setup
