#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/scanner.h"
#include "measure/text.h"
#include "measure/unit_table.h"

namespace trammel {
namespace {

using namespace reading;

enum class Digits { decimals, significant, tape };

// How a kind is shown: the first row of its system whose rounded value is below `below` serves.
// Limits are such that the next row, rounded to two digits, never falls below them on reading again.
struct Face {
  Kind kind;
  bool inch;
  std::string_view unit;
  Digits digits;
  int count;
  double below;
};
constexpr double any = INFINITY;
constexpr Face faces[] = {
    {Kind::length, false, "mm", Digits::decimals, 1, 3000},
    {Kind::length, false, "m", Digits::decimals, 2, any},
    {Kind::length, true, "in", Digits::tape, 0, 120},
    {Kind::length, true, "ft", Digits::decimals, 1, any},
    {Kind::area, false, "mm²", Digits::decimals, 1, 100000},
    {Kind::area, false, "m²", Digits::decimals, 4, any},
    {Kind::area, true, "in²", Digits::significant, 3, any},
    {Kind::angle, false, "deg", Digits::decimals, 2, any},
    {Kind::turns, false, "turn", Digits::decimals, 2, any},
    {Kind::mass, false, "kg", Digits::decimals, 1, any},
    {Kind::mass, true, "lb", Digits::decimals, 1, 1000},
    {Kind::mass, true, "lb", Digits::decimals, 0, any},
    {Kind::force, false, "N", Digits::significant, 3, 10000},
    {Kind::force, false, "kN", Digits::significant, 3, any},
    {Kind::force, true, "lbf", Digits::significant, 3, any},
    {Kind::torque, false, "N·m", Digits::significant, 3, any},
    {Kind::torque, true, "lbf·in", Digits::significant, 3, 120},
    {Kind::torque, true, "lbf·ft", Digits::significant, 3, any},
    {Kind::speed, false, "km/h", Digits::decimals, 1, any},
    {Kind::speed, true, "mph", Digits::decimals, 1, any},
    {Kind::pressure, false, "kPa", Digits::significant, 3, 10000},
    {Kind::pressure, false, "MPa", Digits::significant, 3, any},
    {Kind::pressure, true, "psi", Digits::significant, 3, any},
    {Kind::power, false, "W", Digits::significant, 3, 1000},
    {Kind::power, false, "kW", Digits::significant, 3, any},
    {Kind::power, true, "hp", Digits::significant, 3, any},
    {Kind::temperature, false, "°C", Digits::decimals, 1, any},
    {Kind::temperature, true, "°F", Digits::decimals, 0, any},
    {Kind::time, false, "s", Digits::decimals, 1, 100},
    {Kind::time, false, "min", Digits::decimals, 1, 100},
    {Kind::time, false, "h", Digits::decimals, 2, any},
    {Kind::stiffness, false, "N/mm", Digits::significant, 3, any},
    {Kind::stiffness, true, "lbf/in", Digits::significant, 3, any},
    {Kind::ratio, false, "", Digits::decimals, 3, any},
    {Kind::share, false, "%", Digits::decimals, 0, any},
    {Kind::money, false, "", Digits::decimals, 2, any},
    {Kind::pitch, false, "mm/turn", Digits::decimals, 3, any},
};

// A double holds 15 digits for certain; below 1e-9 of its unit a value is shown as nothing.
constexpr int most_digits = 15, most_decimals = 9;

struct Shown {
  std::string text;
  double value = 0.0;  // of the text
};

// The value of a text that was printed with a point.
double value_of(std::string_view text, double fallback) {
  const bool minus = text.starts_with('-');
  Scanner in{text, minus ? std::size_t{1} : 0};
  const auto read = read_number(in, '.');
  const auto* n = std::get_if<NumberText>(&read);
  if (!n) return fallback;
  return minus ? -n->value.value() : n->value.value();
}

// Negative decimals round to tens, hundreds...; zero has no sign.
Shown to_decimals(double v, int decimals) {
  if (decimals < 0) {
    const double place = std::pow(10.0, -decimals);
    v = std::round(v / place) * place;
    decimals = 0;
  }
  Shown s{fmt::format("{:.{}f}", v, decimals), v};
  if (s.text.find_first_of("123456789") == std::string::npos && s.text.starts_with('-')) s.text.erase(0, 1);
  s.value = value_of(s.text, v);
  return s;
}

// The power of ten of the first digit, once rounded to `digits` digits.
int first_place(double v, int digits) {
  const std::string e = fmt::format("{:.{}e}", std::abs(v), digits - 1);
  const std::size_t at = e.find('e');
  int power = 0;
  for (std::size_t i = at + 2; i < e.size(); ++i) power = 10 * power + (e[i] - '0');
  return e[at + 1] == '-' ? -power : power;
}

// Decimals that leave `digits` significant ones, within what a double holds.
int decimals_for(double v, int digits) {
  if (v == 0.0) return 0;
  return std::min(digits - 1 - first_place(v, digits), most_decimals);
}
int held(double v, int decimals) {
  if (v == 0.0) return decimals;
  return std::min(decimals, most_digits - 1 - std::max(0, first_place(v, most_digits)));
}

void strip_zeros(std::string& text) {
  if (text.find('.') == std::string::npos) return;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
}

// Inches as a tape shows them: whole and a fraction in lowest terms.
Shown to_tape(double inches, int denominator) {
  if (std::abs(inches) >= 1e9) return to_decimals(inches, 0);
  const auto parts = static_cast<std::int64_t>(std::llround(inches * denominator));
  const Fraction f = *Fraction::make(parts, denominator);
  const std::int64_t num = std::abs(f.numerator()), den = f.denominator(), whole = num / den;
  Shown s{parts < 0 ? "-" : "", f.value()};
  if (whole != 0 || f.whole()) s.text += fmt::format("{}", whole);
  if (!f.whole()) s.text += fmt::format("{}{}/{}", whole != 0 ? " " : "", num % den, den);
  return s;
}

struct Line {
  const UnitRow* unit = nullptr;
  Shown value;
  std::string u;  // empty where there is none to show
  double u_value = 0.0;

  std::string text() const {
    const std::string_view gap = unit->name.empty() ? "" : " ";
    std::string t = fmt::format("{}{}{}", value.text, gap, unit->name);
    if (!u.empty()) t += fmt::format(" ± {}{}{}", u, gap, unit->name);
    return t;
  }
  double size() const { return std::max(std::abs(value.value), u_value); }
};

// JCGM 100:2008 7.2.6: the uncertainty to two digits, the value to the same place.
Line line(const Face& face, const Number& n, const PrintStyle& style) {
  Line out;
  out.unit = find_unit(n.kind, face.unit);
  const double scale = out.unit->den / out.unit->num, v = (n.si - out.unit->offset) * scale;
  std::optional<int> place;
  if (n.u && style.uncertainty && *n.u > 0.0) {
    const double u = *n.u * scale;
    const int decimals = held(v, decimals_for(u, 2));
    const Shown shown = to_decimals(u, decimals);
    if (shown.value > 0.0) {
      place = decimals;
      out.u = shown.text;
      out.u_value = shown.value;
    }
  }
  if (face.digits == Digits::tape) {
    out.value = to_tape(v, std::clamp(style.tape_denominator, 8, 1024));
  } else if (place) {
    out.value = to_decimals(v, *place);
  } else if (face.digits == Digits::significant) {
    out.value = to_decimals(v, held(v, decimals_for(v, face.count)));
    strip_zeros(out.value.text);
  } else {
    // With no uncertainty a nought behind the point says nothing.
    out.value = to_decimals(v, held(v, face.count));
    if (face.kind != Kind::money) strip_zeros(out.value.text);
  }
  return out;
}

std::optional<Line> line_in(bool inch, const Number& n, const PrintStyle& style) {
  for (const Face& face : faces) {
    if (face.kind != n.kind || face.inch != inch) continue;
    Line l = line(face, n, style);
    if (l.size() < face.below || face.below == any) return l;
  }
  return std::nullopt;
}

}  // namespace

std::string print(const Number& number, const PrintStyle& style) {
  if (!std::isfinite(number.si)) return "not computed";
  const auto inch = style.systems == Systems::inch ? line_in(true, number, style) : std::nullopt;
  const Line first = inch ? *inch : *line_in(false, number, style);
  std::string text = first.text();

  // The echo is that of the printed value, so that both say the same.
  if (style.systems == Systems::both) {
    const double si = first.value.value * first.unit->num / first.unit->den + first.unit->offset;
    const auto echo = line_in(true, {number.kind, si, std::nullopt}, style);
    // What is less than half a mark of the tape has no place on it.
    if (echo && (echo->value.value != 0.0 || first.value.value == 0.0)) text += fmt::format(" ({})", echo->text());
  }
  if (style.decimal_sign != '.') std::replace(text.begin(), text.end(), '.', style.decimal_sign);
  return text;
}

}  // namespace trammel
