#include "fastener/scanner.h"

#include <cstdint>
#include <variant>

#include "measure/text.h"

namespace trammel::fastener {
namespace {

constexpr std::string_view times_sign = "\xC3\x97";  // ×

bool blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool digit(char c) { return c >= '0' && c <= '9'; }
char lowered(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

template <class Q>
std::optional<Q> read(std::string_view text, Kind kind) {
  const ReadResult r = read_quantity(text, kind);
  if (const auto* w = std::get_if<Written>(&r)) return Q::from_si(w->number.si);
  return std::nullopt;
}

}  // namespace

std::string lower(std::string_view text) {
  std::string s(text);
  for (char& c : s) c = lowered(c);
  return s;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

void Scanner::skip_blanks() {
  while (at_ < text_.size() && blank(text_[at_])) ++at_;
}

std::string_view Scanner::word() const {
  std::size_t end = at_;
  while (end < text_.size() && !blank(text_[end]) && text_[end] != ',' && text_[end] != ';') ++end;
  return text_.substr(at_, end - at_);
}

bool Scanner::take(std::string_view phrase) {
  if (text_.size() - at_ < phrase.size()) return false;
  for (std::size_t i = 0; i < phrase.size(); ++i)
    if (lowered(text_[at_ + i]) != phrase[i]) return false;
  const std::size_t end = at_ + phrase.size();
  if (end < text_.size() && !blank(text_[end]) && text_[end] != ',' && text_[end] != ';') return false;
  go_to(end);
  return true;
}

bool Scanner::take_times() {
  if (peek() == 'x' || peek() == 'X') return go_to(at_ + 1), true;
  if (text_.substr(at_, times_sign.size()) == times_sign) return go_to(at_ + times_sign.size()), true;
  return false;
}

std::optional<double> Scanner::number() {
  // Fifteen digits over a power of ten give the nearest double; more are no size of anything here.
  constexpr int most_digits = 15;
  std::int64_t digits = 0;
  double scale = 1.0;
  int count = 0;
  bool point = false;
  std::size_t end = at_;
  for (; end < text_.size() && (digit(text_[end]) || (text_[end] == '.' && !point)); ++end) {
    if (text_[end] == '.') {
      point = true;
    } else {
      digits = 10 * digits + (text_[end] - '0');
      scale *= point ? 10.0 : 1.0;
      if (++count > most_digits) return std::nullopt;
    }
  }
  if (count == 0) return std::nullopt;
  go_to(end);
  return static_cast<double>(digits) / scale;
}

std::size_t Scanner::number_end() const {
  std::size_t end = at_, i = at_;
  while (i < text_.size()) {
    while (i < text_.size() && (digit(text_[i]) || text_[i] == '.' || text_[i] == '/')) ++i;
    end = i;
    // A blank or a dash may stand before the fraction of a whole number: "1 1/2", "1-1/2".
    std::size_t j = i;
    while (j < text_.size() && blank(text_[j])) ++j;
    if (j == i && j < text_.size() && text_[j] == '-') ++j;
    std::size_t k = j;
    while (k < text_.size() && digit(text_[k])) ++k;
    if (j == i || k == j || k >= text_.size() || text_[k] != '/') break;
    i = k;
  }
  return end;
}

std::size_t Scanner::unit_end(std::size_t from) const {
  while (from < text_.size() && blank(text_[from])) ++from;
  while (from < text_.size() && !blank(text_[from]) && text_[from] != ',' && text_[from] != ';') ++from;
  return from;
}

std::optional<Length> Scanner::length(bool bare_mm) {
  if (!digit_next()) return std::nullopt;
  const std::size_t end = unit_end(number_end());
  if (const auto l = read<Length>(text_.substr(at_, end - at_), Kind::length)) return go_to(end), *l;
  // A whole or decimal number alone, where the trade means millimetres: "AF 16", "M10x40".
  Scanner trial = *this;
  const auto value = trial.number();
  if (bare_mm && value && trial.peek() != '/') {
    *this = trial;
    return *value * units::mm;
  }
  return std::nullopt;
}

std::optional<Angle> Scanner::angle() {
  const std::size_t end = unit_end(number_end());
  if (const auto a = read<Angle>(text_.substr(at_, end - at_), Kind::angle)) return go_to(end), *a;
  return std::nullopt;
}

std::optional<Force> Scanner::force() {
  const std::size_t end = unit_end(number_end());
  if (const auto f = read<Force>(text_.substr(at_, end - at_), Kind::force)) return go_to(end), *f;
  return std::nullopt;
}

std::optional<Torque> Scanner::torque() {
  // Units may be two words: "40 ft lb".
  const std::size_t one = unit_end(number_end());
  for (const std::size_t end : {one, unit_end(one)})
    if (const auto t = read<Torque>(text_.substr(at_, end - at_), Kind::torque)) return go_to(end), *t;
  return std::nullopt;
}

}  // namespace trammel::fastener
