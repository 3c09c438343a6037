// Walks along a text in the trade's words: blanks skipped, case ignored, places kept. Private to the room.
#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "measure/quantity.h"

namespace trammel::fastener {

class Scanner {
 public:
  explicit Scanner(std::string_view text, std::size_t at = 0) : text_(text), at_(at) { skip_blanks(); }

  bool done() const { return at_ >= text_.size(); }
  std::size_t at() const { return at_; }
  char peek() const { return done() ? '\0' : text_[at_]; }
  bool digit_next() const { return (peek() >= '0' && peek() <= '9') || peek() == '.'; }
  std::string_view since(std::size_t begin) const { return text_.substr(begin, at_ - begin); }
  void go_to(std::size_t at) {
    at_ = at;
    skip_blanks();
  }

  // The next run of non-blank bytes, not taken.
  std::string_view word() const;
  // Takes that word; where a sign of its own stands next ("," or ";"), that sign.
  void skip_word() { go_to(at_ + std::max<std::size_t>(word().size(), done() ? 0 : 1)); }
  // Takes `phrase` where it stands next, whole and in any case.
  bool take(std::string_view phrase);
  // Takes one character of `any` (or the × sign where 'x' is among them).
  bool take_times();
  // Takes a bare decimal number, nothing else.
  std::optional<double> number();
  // Takes a length with its unit: "10 mm", "1 1/2 in", "3/8\"". `bare_mm`: a number alone is millimetres.
  std::optional<Length> length(bool bare_mm = false);
  // Takes an angle with its unit.
  std::optional<Angle> angle();
  // Takes a torque with its unit.
  std::optional<Torque> torque();
  // Takes a force with its unit.
  std::optional<Force> force();

 private:
  void skip_blanks();
  // Where a number (with fraction) ends and its unit ends, from here.
  std::size_t number_end() const;
  std::size_t unit_end(std::size_t from) const;

  std::string_view text_;
  std::size_t at_ = 0;
};

std::string lower(std::string_view text);
std::string_view trimmed(std::string_view text);

// One spelling of a known word and what it means.
template <class T>
struct Spelling {
  std::string_view text;
  T value;
};
// Takes the longest spelling that stands next; nothing taken where none does.
template <class T>
std::optional<T> take_spelling(Scanner& scanner, std::span<const Spelling<T>> spellings) {
  const Spelling<T>* best = nullptr;
  for (const auto& s : spellings) {
    Scanner trial = scanner;
    if ((!best || s.text.size() > best->text.size()) && trial.take(s.text)) best = &s;
  }
  if (!best) return std::nullopt;
  scanner.take(best->text);
  return best->value;
}

}  // namespace trammel::fastener
