#include "measure/text.h"

#include <algorithm>
#include <cmath>

#include "measure/scanner.h"
#include "measure/unit_match.h"
#include "measure/unit_table.h"

namespace trammel {
namespace {

using namespace reading;

constexpr char32_t plus_minus = U'±';
constexpr double exact_below = 9007199254740992.0;  // 2^53

// A number with its unit, or several as in 5 ft 3 1/2 in.
struct Measure {
  Fraction value;  // in row's unit
  const UnitRow* row = nullptr;
  double si = 0.0;
  int decimals = 0;
  bool as_fraction = false, compound = false;
};

class Reader {
 public:
  Reader(std::string_view text, Kind kind, const TextRules& rules) : in_{text, 0}, kind_(kind), rules_(rules) {}

  const TextError& error() const { return error_; }
  bool quantity(Written& out);
  bool band(Band& out);
  bool point(WrittenPoint& out);

 private:
  bool fail(TextFault fault, std::size_t at, std::size_t end, std::vector<std::string> choices = {}) {
    error_ = {fault, at, end - at, std::move(choices), {}};
    return false;
  }
  bool number(NumberText& out);
  bool unit(const UnitRow*& out, const UnitRow* fallback = nullptr);
  bool no_such_unit();
  bool measure(Measure& out, const UnitRow* fallback = nullptr, bool is_signed = true);
  bool parts(Measure& m, std::size_t start);
  bool to_si(const Fraction& value, const UnitRow& row, bool difference, double& si, std::size_t start);
  bool uncertainty(const Measure& of, double& u);
  bool echo(const Measure& of);
  bool at_plus_minus();
  bool end();

  Scanner in_;
  Kind kind_;
  const TextRules& rules_;
  TextError error_;
};

bool Reader::number(NumberText& out) {
  const auto r = read_number(in_, rules_.decimal_sign);
  if (const auto* e = std::get_if<TextError>(&r)) {
    error_ = *e;
    return false;
  }
  out = std::get<NumberText>(r);
  return true;
}

// The longest unit that stands here, of any kind: "m/s" is no length in metres.
bool Reader::unit(const UnitRow*& out, const UnitRow* fallback) {
  in_.skip_spaces();
  const std::size_t at = in_.at;
  const UnitRow *wanted = nullptr, *nameless = nullptr;
  std::size_t wanted_end = at, other_end = at;
  for (const UnitRow& row : unit_table()) {
    if (row.kind == kind_ && row.spellings.empty()) nameless = &row;
    const std::size_t end = match_any(in_.text, at, row.spellings, row.any_case);
    if (end > wanted_end && row.kind == kind_) {
      wanted = &row;
      wanted_end = end;
    }
    other_end = std::max(other_end, end);
  }
  if (wanted && wanted_end == other_end) {
    in_.at = wanted_end;
    out = wanted;
    return true;
  }
  for (const AmbiguousUnit& a : ambiguous_units()) {
    const std::size_t end = a.kind == kind_ ? match_any(in_.text, at, a.spellings, true) : at;
    if (end > at && end >= other_end) return fail(TextFault::ambiguous, at, end, split_choices(a.choices));
  }
  if (other_end > at) return fail(TextFault::wrong_kind, at, other_end, accepted_units(kind_));

  // No unit at all.
  const bool ends = in_.done() || in_.peek() == U'(' || in_.peek() == U')' || at_plus_minus();
  if (!ends) return no_such_unit();
  if (fallback)
    out = fallback;
  else if (nameless)
    out = nameless;
  else if (rules_.bare)
    out = find_unit(kind_, *rules_.bare);
  else
    out = nullptr;
  return out ? true : fail(TextFault::unit_missing, at, at, accepted_units(kind_));
}

bool Reader::no_such_unit() {
  const std::size_t at = in_.at;
  if (in_.at_digit()) {
    // "1 234 mm": digits apart are one number only if someone says so.
    const std::size_t before = in_.text.find_last_not_of(' ', at == 0 ? 0 : at - 1);
    std::size_t end = at, first = before == std::string_view::npos ? at : before + 1;
    while (end < in_.text.size() && is_digit(in_.text[end])) ++end;
    while (first > 0 && is_digit(in_.text[first - 1])) --first;
    if (end - at == 3 && before != std::string_view::npos && before + 1 > first)
      return fail(TextFault::ambiguous, first, end,
                  {std::string(in_.text.substr(first, before + 1 - first)) + std::string(in_.text.substr(at, 3))});
    return fail(TextFault::not_a_number, at, end);
  }
  if (in_.peek() == U'-') {
    Scanner ahead = in_;
    ahead.take(U'-');
    ahead.skip_spaces();
    if (ahead.at_digit()) return fail(TextFault::ambiguous, at, ahead.at);
  }
  Scanner word = in_;
  while (!word.done() && !word.at_digit() && word.peek() != U'(' && word.peek() != plus_minus)
    word.at += glyph_at(word.text, word.at).bytes;
  std::size_t end = word.at;
  while (end > at + 1 && in_.text[end - 1] == ' ') --end;
  fail(TextFault::unit_unknown, at, end, accepted_units(kind_));
  error_.nearest = nearest_unit(in_.text.substr(at, end - at), kind_);
  return false;
}

bool Reader::to_si(const Fraction& value, const UnitRow& row, bool difference, double& si, std::size_t start) {
  double num = row.num, den = row.den;
  if (row.name == "flats") {
    if (rules_.flats_per_turn <= 0) return fail(TextFault::flats_per_turn_unknown, start, in_.at);
    den = rules_.flats_per_turn;
  }
  // One division of two exact numbers where they fit, so that 23 5/8 in is rounded once.
  const double a = static_cast<double>(value.numerator()) * num, b = static_cast<double>(value.denominator()) * den;
  const bool exact = std::abs(a) < exact_below && b < exact_below;
  si = exact ? a / b : value.value() * num / den;
  if (!difference) si += row.offset;
  if (kind_ == Kind::temperature && !difference && si < 0.0) {
    if (si < -1e-9) return fail(TextFault::out_of_range, start, in_.at);
    si = 0.0;
  }
  return true;
}

// The smaller units that may follow: 5'3 1/2", 5 ft 3 in, 1°15'30".
bool Reader::parts(Measure& m, std::size_t start) {
  while (!m.row->part.empty()) {
    Scanner ahead = in_;
    if (kind_ == Kind::length && ahead.peek() == U'-')
      ahead.take(U'-');
    else
      ahead.skip_spaces();
    const bool number_follows = ahead.at_digit() || (!ahead.done() && ahead.text[ahead.at] == rules_.decimal_sign);
    if (!number_follows) return true;
    if (!m.value.whole() || m.as_fraction || m.decimals > 0) return fail(TextFault::trailing_text, in_.at, ahead.at);
    in_ = ahead;
    NumberText n;
    if (!number(n)) return false;
    const UnitRow *part = find_unit(kind_, m.row->part), *found = nullptr;
    in_.skip_spaces();
    if (in_.done() || at_plus_minus()) return fail(TextFault::unit_missing, in_.at, in_.at, {std::string(part->name)});
    const std::size_t unit_at = in_.at;
    if (!unit(found)) return false;
    if (found != part) return fail(TextFault::ambiguous, unit_at, in_.at, {std::string(part->name)});
    if (n.value >= Fraction(m.row->parts)) return fail(TextFault::out_of_range, n.at, n.end);
    const auto whole = multiply(m.value, Fraction(m.row->parts));
    const auto sum = whole ? add(*whole, n.value) : std::nullopt;
    if (!sum) return fail(TextFault::out_of_range, start, in_.at);
    m.value = *sum;
    m.row = part;
    m.decimals = n.decimals;
    m.as_fraction = n.as_fraction;
    m.compound = true;
  }
  return true;
}

bool Reader::measure(Measure& out, const UnitRow* fallback, bool is_signed) {
  in_.skip_spaces();
  const std::size_t start = in_.at;
  if (in_.done()) return fail(TextFault::empty, start, start);
  const bool minus = in_.take(U'-');
  if (minus && !is_signed) return fail(TextFault::negative_uncertainty, start, in_.at);
  if (!minus) in_.take(U'+');
  NumberText n;
  if (!number(n)) return false;
  out.value = n.value;
  out.decimals = n.decimals;
  out.as_fraction = n.as_fraction;
  if (!unit(out.row, fallback) || !parts(out, start)) return false;
  if (minus) out.value = *negative(out.value);
  return to_si(out.value, *out.row, !is_signed, out.si, start);
}

bool Reader::at_plus_minus() {
  const std::string_view rest = in_.text.substr(std::min(in_.at, in_.text.size()));
  return in_.peek() == plus_minus || rest.starts_with("+/-") || rest.starts_with("+-");
}

bool Reader::uncertainty(const Measure& of, double& u) {
  if (!in_.take(plus_minus)) in_.at += in_.text.substr(in_.at).starts_with("+/-") ? 3 : 2;
  Measure m;
  // After 5'3" a bare number could be feet or inches.
  if (!measure(m, of.compound ? nullptr : of.row, false)) return false;
  u = m.si;
  return true;
}

// The same value in other units, in brackets: it must be the same within the last place of both.
bool Reader::echo(const Measure& of) {
  const std::size_t start = in_.at;
  in_.take(U'(');
  Measure other;
  if (!measure(other)) return false;
  in_.skip_spaces();
  if (!in_.take(U')')) return fail(TextFault::trailing_text, in_.at, in_.text.size());
  const auto half_place = [](const Measure& m) {
    double place = 1.0;
    if (m.as_fraction)
      place = 1.0 / static_cast<double>(m.value.denominator());
    else if (m.decimals > 0)
      place = std::pow(10.0, -m.decimals);
    else
      for (std::int64_t v = m.value.numerator(); v != 0 && v % 10 == 0; v /= 10) place *= 10.0;
    // A tape is read at least to an eighth of an inch.
    if (m.row->name == "in" && m.decimals == 0) place = std::min(place, 0.125);
    return 0.5 * place * m.row->num / m.row->den;
  };
  const double room = half_place(of) + half_place(other) + 1e-12 * std::abs(of.si);
  if (std::abs(other.si - of.si) <= room) return true;
  std::string_view before = in_.text.substr(0, start), inside = in_.text.substr(start + 1, in_.at - start - 2);
  before = before.substr(0, before.find_last_not_of(' ') + 1);
  return fail(TextFault::ambiguous, start, in_.at, {std::string(before), std::string(inside)});
}

bool Reader::end() {
  in_.skip_spaces();
  return in_.done() ? true : fail(TextFault::trailing_text, in_.at, in_.text.size());
}

bool Reader::quantity(Written& out) {
  Measure m;
  if (!measure(m)) return false;
  out.number = {kind_, m.si, std::nullopt};
  out.unit = m.row->name;
  out.decimals = m.decimals;
  if (m.as_fraction || (m.row->kind == Kind::length && m.row->any_case)) out.fraction = m.value;
  in_.skip_spaces();
  if (at_plus_minus()) {
    double u = 0.0;
    if (!uncertainty(m, u)) return false;
    out.number.u = u;
    in_.skip_spaces();
  }
  if (in_.peek() == U'(' && !echo(m)) return false;
  return end();
}

bool Reader::band(Band& out) {
  // "3 mm to 6 mm": the unit of the second serves both where the first has none.
  const std::string_view text = in_.text;
  const std::size_t to = text.find(" to ");
  if (to != std::string_view::npos) {
    Measure low, high;
    in_.at = to + 4;
    if (!measure(high) || !end()) return false;
    in_ = {text.substr(0, to), 0};
    if (!measure(low, high.row) || !end()) return false;
    out = {low.si, high.si};
    return out.low_si <= out.high_si ? true : fail(TextFault::out_of_range, 0, text.size());
  }
  Measure centre;
  double u = 0.0;
  if (!measure(centre)) return false;
  in_.skip_spaces();
  if (in_.done()) return fail(TextFault::band_missing, 0, text.size());
  if (!at_plus_minus()) return end();
  if (!uncertainty(centre, u) || !end()) return false;
  out = {centre.si - u, centre.si + u};
  return true;
}

bool Reader::point(WrittenPoint& out) {
  // Three numbers, then the unit that serves all.
  Fraction value[3];
  std::size_t start = 0;
  for (Fraction& v : value) {
    in_.skip_spaces();
    start = in_.at;
    if (in_.done()) return fail(start == 0 ? TextFault::empty : TextFault::not_a_number, start, start);
    const bool minus = in_.take(U'-');
    if (!minus) in_.take(U'+');
    NumberText n;
    if (!number(n)) return false;
    v = minus ? *negative(n.value) : n.value;
  }
  Measure m;
  if (!unit(m.row)) return false;
  double* const si[3] = {&out.x_si, &out.y_si, &out.z_si};
  for (int i = 0; i < 3; ++i)
    if (!to_si(value[i], *m.row, false, *si[i], 0)) return false;
  in_.skip_spaces();
  if (at_plus_minus()) {
    double u = 0.0;
    if (!uncertainty(m, u)) return false;
    out.u_si = u;
  }
  return end();
}

}  // namespace

ReadResult read_quantity(std::string_view text, Kind kind, const TextRules& rules) {
  Reader reader(text, kind, rules);
  Written written;
  if (!reader.quantity(written)) return reader.error();
  return written;
}

std::variant<Band, TextError> read_band(std::string_view text, Kind kind, const TextRules& rules) {
  Reader reader(text, kind, rules);
  Band band;
  if (!reader.band(band)) return reader.error();
  return band;
}

std::variant<WrittenPoint, TextError> read_point(std::string_view text, const TextRules& rules) {
  Reader reader(text, Kind::length, rules);
  WrittenPoint point;
  if (!reader.point(point)) return reader.error();
  return point;
}

std::vector<std::string> accepted_units(Kind kind) {
  std::vector<std::string> names;
  for (const UnitRow& row : unit_table())
    if (row.kind == kind && !row.name.empty()) names.emplace_back(row.name);
  return names;
}

}  // namespace trammel
