// Quantities as the trade writes them, read and printed.
//
// Reading: a number (decimal, `23 5/8`, `23-5/8`, `.875`, `5'3 1/2"`, `-1°15'`), its unit, and
// perhaps `± number unit`. Inches and feet stay exact fractions until they become metres. What could
// mean two things is refused with the choices: a bare number without a unit, `,` where the decimal
// sign is not set, `'` or `"` where both an angle and a length are possible, `52 lb` where a torque is
// wanted. Nothing is guessed and nothing is repaired.
//
// Law 1: read(print(x)) is x to the printed resolution, and print(read(print(x))) == print(x).
// Law 2: a text is read as one kind only; a unit of another kind is an error that names the accepted units.
// Error bound: correctly rounded decimal to double; one rounding more for the unit's factor.
// Source: NIST SP 811 (2008) for factors; ISO 80000-1:2009 7.2 for `±`.
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
  char decimal_sign = '.';            // ',' only where a file or shop sets it
  std::optional<std::string> bare;    // unit of a number written without one, where a form has set it
};

// What a person wrote, kept whole so that it can be echoed exactly.
struct Written {
  Number number;                      // SI
  std::string unit;                   // the table's spelling: "in", "mm", "lbf·ft"
  std::optional<Fraction> fraction;   // exact value in `unit` where it was written as a fraction
  int decimals = 0;                   // digits after the decimal sign as written
};

enum class TextFault {
  empty, not_a_number, unit_missing, unit_unknown, wrong_kind, ambiguous, decimal_sign, zero_denominator,
  out_of_range, trailing_text, negative_uncertainty
};

struct TextError {
  TextFault fault{};
  std::size_t at = 0;                 // offset of the first byte that cannot be read
  std::size_t length = 0;
  std::vector<std::string> choices;   // accepted units, or the possible meanings
  std::string nearest;                // nearest known unit, empty where none is near
};

using ReadResult = std::variant<Written, TextError>;

ReadResult read_quantity(std::string_view text, Kind kind, const TextRules& rules = {});

// `± u` of a text as a range, for tolerances: "0 deg ± 0.25 deg" or "3 mm to 6 mm".
struct Band { double low_si = 0.0, high_si = 0.0; };
std::variant<Band, TextError> read_band(std::string_view text, Kind kind, const TextRules& rules = {});

// Three lengths and one unit: "107.48 77.87 269.32 mm", perhaps "± 2 mm".
struct WrittenPoint { double x_si = 0, y_si = 0, z_si = 0; std::optional<double> u_si; };
std::variant<WrittenPoint, TextError> read_point(std::string_view text, const TextRules& rules = {});

// Units a kind accepts, in the order a person would expect them.
std::vector<std::string> accepted_units(Kind kind);

enum class Systems { both, metric, inch };  // which systems a printed value shows
struct PrintStyle {
  Systems systems = Systems::both;
  int tape_denominator = 16;          // smallest part of the inch on the tape in use
  bool uncertainty = true;
  char decimal_sign = '.';
};

// "595.3 mm (23 7/16 in)", "54 N·m (40 lbf·ft)", "0.35 deg ± 0.04 deg".
std::string print(const Number& number, const PrintStyle& style = {});

}  // namespace trammel
