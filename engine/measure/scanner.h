// A walk over a text, one letter at a time, with the look-alikes made one: − to -, ′ to ', ″ to ",
// no-break spaces to a space, ⋅ to ·, º to °, ⁄ to /, ² to 2. Private to the reader.
#pragma once

#include <cstddef>
#include <string_view>
#include <variant>

#include "measure/fraction.h"
#include "measure/text.h"

namespace trammel::reading {

struct Glyph {
  char32_t code = 0;      // 0 at the end and for bytes that are no UTF-8
  std::size_t bytes = 0;  // 0 only at the end
};
Glyph glyph_at(std::string_view text, std::size_t at);

inline bool is_digit(char32_t c) { return c >= U'0' && c <= U'9'; }
inline bool is_letter(char32_t c) { return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || c > 0xFF; }

struct Scanner {
  std::string_view text;
  std::size_t at = 0;

  char32_t peek() const { return glyph_at(text, at).code; }
  bool done() const { return at >= text.size(); }
  bool take(char32_t c);
  // A digit as the byte it is: the exponent of mm² is not one.
  bool at_digit() const { return !done() && text[at] >= '0' && text[at] <= '9'; }
  void skip_spaces();
};

struct NumberText {
  Fraction value;
  int decimals = 0;
  bool as_fraction = false;
  std::size_t at = 0, end = 0;
};

// A number without its sign: `12`, `12.5`, `.875`, `5/8`, `23 5/8`, `23-5/8`, `23½`. The scanner is left behind it.
std::variant<NumberText, TextError> read_number(Scanner& in, char decimal_sign);

}  // namespace trammel::reading
