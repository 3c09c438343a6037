#include "measure/scanner.h"

namespace trammel::reading {
namespace {

constexpr int most_digits = 18;  // of one number: 10^18 fits 64 bits

char32_t made_one(char32_t c) {
  switch (c) {
    case U'−':
      return U'-';
    case U'′':
    case U'’':
    case U'‘':
      return U'\'';
    case U'″':
    case U'”':
    case U'“':
      return U'"';
    case 0xA0:
    case 0x2009:
    case 0x202F:
    case U'\t':
      return U' ';
    case U'⋅':
    case U'∙':
      return U'·';
    case U'º':
      return U'°';
    case U'⁄':
      return U'/';
    case U'²':
      return U'2';
    default:
      return c;
  }
}

struct Vulgar {
  char32_t code;
  int num, den;
};
constexpr Vulgar vulgar[] = {{U'½', 1, 2}, {U'¼', 1, 4}, {U'¾', 3, 4}, {U'⅛', 1, 8}, {U'⅜', 3, 8},
                             {U'⅝', 5, 8}, {U'⅞', 7, 8}, {U'⅓', 1, 3}, {U'⅔', 2, 3}};

struct Digits {
  std::int64_t value = 0;
  int count = 0;
  bool too_many = false;
};

// Adds the digits ahead to what stands already.
void take_digits(Scanner& in, Digits& d) {
  for (; in.at_digit(); ++in.at) {
    ++d.count;
    if (d.value >= 100'000'000'000'000'000 || d.count > 4 * most_digits) d.too_many = true;
    if (!d.too_many) d.value = 10 * d.value + (in.text[in.at] - '0');
  }
}

std::int64_t power_of_ten(int n) {
  std::int64_t p = 1;
  while (n-- > 0) p *= 10;
  return p;
}

TextError fault(TextFault f, std::size_t at, std::size_t end) { return {f, at, end - at, {}, {}}; }

// The other decimal sign between digits: a decimal, or groups of thousands.
TextError decimal_sign_fault(const Scanner& in, std::size_t start, char set, char other) {
  std::string decimal, grouped;
  std::size_t end = start;
  int signs = 0, since = 0;
  bool groups = true;
  for (; end < in.text.size(); ++end) {
    const char c = in.text[end];
    if (c == other) {
      groups = groups && (signs == 0 ? since >= 1 && since <= 3 : since == 3);
      ++signs;
      since = 0;
      decimal += set;
    } else if (c >= '0' && c <= '9') {
      ++since;
      decimal += c;
      grouped += c;
    } else {
      break;
    }
  }
  groups = groups && since == 3;
  TextError e = fault(TextFault::decimal_sign, start, end);
  if (signs == 1) e.choices.push_back(decimal);
  if (groups) e.choices.push_back(grouped);
  return e;
}

// `5/8` with the numerator taken already.
std::variant<Fraction, TextError> over(Scanner& in, const Digits& num, std::size_t start) {
  Digits den;
  const std::size_t den_at = in.at;
  take_digits(in, den);
  if (den.count == 0) return fault(TextFault::not_a_number, den_at, den_at);
  if (num.too_many || den.too_many) return fault(TextFault::out_of_range, start, in.at);
  if (den.value == 0) return fault(TextFault::zero_denominator, den_at, in.at);
  return *Fraction::make(num.value, den.value);
}

const Vulgar* vulgar_at(const Scanner& in) {
  const char32_t c = in.peek();
  for (const Vulgar& v : vulgar)
    if (v.code == c) return &v;
  return nullptr;
}

}  // namespace

Glyph glyph_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {0, 0};
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const char32_t a = byte(at);
  if (a < 0x80) return {made_one(a), 1};
  if (a >= 0xC2 && a < 0xE0 && follows(at + 1)) return {made_one((a & 0x1F) << 6 | (byte(at + 1) & 0x3F)), 2};
  if (a >= 0xE0 && a < 0xF0 && follows(at + 1) && follows(at + 2))
    return {made_one((a & 0x0F) << 12 | (byte(at + 1) & 0x3F) << 6 | (byte(at + 2) & 0x3F)), 3};
  return {0, 1};
}

bool Scanner::take(char32_t c) {
  const Glyph g = glyph_at(text, at);
  if (g.bytes == 0 || g.code != c) return false;
  at += g.bytes;
  return true;
}

void Scanner::skip_spaces() {
  while (take(U' ')) {}
}

std::variant<NumberText, TextError> read_number(Scanner& in, char decimal_sign) {
  const char other = decimal_sign == '.' ? ',' : '.';
  NumberText n;
  n.at = in.at;
  const auto digit_after = [&](std::size_t i) { return i + 1 < in.text.size() && is_digit(in.text[i + 1]); };
  const auto next_is = [&](char c) { return !in.done() && in.text[in.at] == c; };
  const auto finish = [&](Fraction value) {
    n.value = value;
    n.end = in.at;
    return n;
  };

  // A fraction sign alone: ½
  if (const Vulgar* v = vulgar_at(in)) {
    in.at += glyph_at(in.text, in.at).bytes;
    n.as_fraction = true;
    return finish(*Fraction::make(v->num, v->den));
  }

  // Digits, and perhaps decimals.
  Digits d;
  take_digits(in, d);
  if (next_is(other) && digit_after(in.at)) return decimal_sign_fault(in, n.at, decimal_sign, other);
  if (next_is(decimal_sign)) {
    const std::size_t sign_at = in.at++;
    const int before = d.count;
    take_digits(in, d);
    n.decimals = d.count - before;
    if (n.decimals == 0) return fault(TextFault::not_a_number, sign_at, in.at);
    if (next_is(other) && digit_after(in.at)) return decimal_sign_fault(in, n.at, decimal_sign, other);
    if (next_is(decimal_sign)) return fault(TextFault::not_a_number, in.at, in.at + 1);
    if (d.too_many || n.decimals > most_digits) return fault(TextFault::out_of_range, n.at, in.at);
    return finish(*Fraction::make(d.value, power_of_ten(n.decimals)));
  }
  if (d.count == 0) return fault(TextFault::not_a_number, in.at, in.at);

  // A fraction alone: 5/8
  if (in.take(U'/')) {
    n.as_fraction = true;
    const auto f = over(in, d, n.at);
    if (const auto* e = std::get_if<TextError>(&f)) return *e;
    return finish(std::get<Fraction>(f));
  }
  if (d.too_many) return fault(TextFault::out_of_range, n.at, in.at);

  // A whole number and a fraction: 23 5/8, 23-5/8, 23½
  Scanner ahead = in;
  ahead.skip_spaces();
  const bool spaced = ahead.at != in.at, joined = !spaced && ahead.take(U'-');
  if (const Vulgar* v = vulgar_at(ahead)) {
    in.at = ahead.at + glyph_at(ahead.text, ahead.at).bytes;
    n.as_fraction = true;
    const auto sum = add(Fraction(d.value), *Fraction::make(v->num, v->den));
    return finish(*sum);
  }
  const std::size_t part_at = ahead.at;
  Digits num;
  if (spaced || joined) take_digits(ahead, num);
  if (num.count > 0 && ahead.take(U'/')) {
    const auto f = over(ahead, num, part_at);
    if (const auto* e = std::get_if<TextError>(&f)) return *e;
    const Fraction part = std::get<Fraction>(f);
    if (part >= Fraction(1)) return fault(TextFault::out_of_range, part_at, ahead.at);
    const auto sum = add(Fraction(d.value), part);
    if (!sum) return fault(TextFault::out_of_range, n.at, ahead.at);
    in.at = ahead.at;
    n.as_fraction = true;
    return finish(*sum);
  }

  // 3-4 is a range or a slip, never a number.
  if (joined && num.count > 0) {
    TextError e = fault(TextFault::ambiguous, n.at, ahead.at);
    const std::string_view first = in.text.substr(n.at, in.at - n.at);
    const std::string_view second = in.text.substr(part_at, ahead.at - part_at);
    e.choices.push_back(std::string(first) + " to " + std::string(second));
    return e;
  }
  return finish(Fraction(d.value));
}

}  // namespace trammel::reading
