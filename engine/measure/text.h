// Quantities as the trade writes them, read and printed.
//
// Reading: a number (decimal, `23 5/8`, `23-5/8`, `.875`, `5'3 1/2"`, `-1°15'`), its unit, perhaps
// `± number unit`, perhaps the same value in brackets, `595.3 mm (23 7/16 in)`, which must agree.
// Every number is an exact fraction until it becomes SI. What could mean two things is refused with
// the choices: a number without a unit, the decimal sign that is not set, `3-4`, `52 lb` where a torque
// is wanted. Inch-pound units are read in either case, SI units only as written (mPa is not MPa).
// `'` and `"` are feet and inches of a length, minutes and seconds of an angle. Nothing is repaired.
//
// Law 1: read(print(x)) is x to the printed resolution, and print(read(print(x))) == print(x).
// Law 2: a text is read as the kind asked for; a unit of another kind is an error that names the accepted units.
// Law 3: the value in brackets is that of the printed one beside it.
// Range: 18 digits a number; printed values below 1e14 of their unit, temperatures from 100 K.
// Error bound: up to 15 digits and a rational factor one rounding in all, else one more for the factor.
// Source: NIST SP 811 (2008) for factors; ISO 80000-1:2009 7.2 for `±`; JCGM 100:2008 7.2.6 for printed digits.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "measure/fraction.h"
#include "measure/kind.h"

namespace trammel {

struct TextRules {
  char decimal_sign = '.';          // ',' only where a file or shop sets it
  std::optional<std::string> bare;  // unit of a number written without one, where a form has set it
  int flats_per_turn = 0;           // of the adjuster meant; flats are refused while it is not known
};

// What a person wrote, kept whole so that it can be echoed exactly.
struct Written {
  Number number;                     // SI
  std::string unit;                  // the table's spelling: "in", "mm", "lbf·ft"
  std::optional<Fraction> fraction;  // exact value in `unit`: where a fraction was written, always for inches and feet
  int decimals = 0;                  // digits after the decimal sign as written
};

enum class TextFault {
  empty,
  not_a_number,
  unit_missing,
  unit_unknown,
  wrong_kind,
  ambiguous,
  decimal_sign,
  zero_denominator,
  out_of_range,
  trailing_text,
  negative_uncertainty,
  flats_per_turn_unknown,  // "4 flats" without the number of flats in a turn
  band_missing             // a single value where a range is wanted
};

struct TextError {
  TextFault fault{};
  std::size_t at = 0;  // offset of the first byte that cannot be read
  std::size_t length = 0;
  std::vector<std::string> choices;  // accepted units, or the possible meanings
  std::string nearest;               // nearest known unit, empty where none is near
};

using ReadResult = std::variant<Written, TextError>;

ReadResult read_quantity(std::string_view text, Kind kind, const TextRules& rules = {});

// `± u` of a text as a range, for tolerances: "0 deg ± 0.25 deg" or "3 mm to 6 mm".
struct Band {
  double low_si = 0.0, high_si = 0.0;
};
std::variant<Band, TextError> read_band(std::string_view text, Kind kind, const TextRules& rules = {});

// Three lengths and one unit: "107.48 77.87 269.32 mm", perhaps "± 2 mm".
struct WrittenPoint {
  double x_si = 0, y_si = 0, z_si = 0;
  std::optional<double> u_si;
};
std::variant<WrittenPoint, TextError> read_point(std::string_view text, const TextRules& rules = {});

// Units a kind accepts, in the order a person would expect them.
std::vector<std::string> accepted_units(Kind kind);

enum class Systems { both, metric, inch };  // which systems a printed value shows
struct PrintStyle {
  Systems systems = Systems::both;
  int tape_denominator = 16;  // smallest part of the inch on the tape in use, 8 or finer
  bool uncertainty = true;
  char decimal_sign = '.';
};

// "595.3 mm (23 7/16 in)", "54 N·m (40 lbf·ft)", "0.35 deg ± 0.04 deg".
std::string print(const Number& number, const PrintStyle& style = {});

}  // namespace trammel
