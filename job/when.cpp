#include "job/when.h"

namespace trammel {
namespace {

constexpr bool leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }
constexpr int days_of(int year, int month) {
  constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : days[month - 1];
}

// So many digits at the front of the text, taken off it.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
  if (text.size() < count) return std::nullopt;
  int number = 0;
  for (std::size_t i = 0; i < count; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    number = 10 * number + (text[i] - '0');
  }
  text.remove_prefix(count);
  return number;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

// "08:10" as seconds of a day.
std::optional<int> take_hours_minutes(std::string_view& text) {
  const auto hours = take_digits(text, 2);
  if (!hours || *hours > 23 || !take(text, ':')) return std::nullopt;
  const auto minutes = take_digits(text, 2);
  if (!minutes || *minutes > 59) return std::nullopt;
  return *hours * 3600 + *minutes * 60;
}

}  // namespace

std::optional<When> read_when(std::string_view text) {
  // The day.
  const auto year = take_digits(text, 4);
  if (!year || !take(text, '-')) return std::nullopt;
  const auto month = take_digits(text, 2);
  if (!month || !take(text, '-')) return std::nullopt;
  const auto day = take_digits(text, 2);
  if (!day) return std::nullopt;
  if (*year < 1970 || *month < 1 || *month > 12 || *day < 1 || *day > days_of(*year, *month)) return std::nullopt;
  When when;
  for (int y = 1970; y < *year; ++y) when.day += leap(y) ? 366 : 365;
  for (int m = 1; m < *month; ++m) when.day += days_of(*year, m);
  when.day += *day - 1;
  if (text.empty()) return when;

  // The time of day.
  if (!take(text, 'T') && !take(text, ' ')) return std::nullopt;
  when.seconds = take_hours_minutes(text);
  if (!when.seconds) return std::nullopt;
  if (take(text, ':')) {
    const auto seconds = take_digits(text, 2);
    if (!seconds || *seconds > 59) return std::nullopt;
    *when.seconds += *seconds;
  }
  if (text.empty()) return when;

  // How far its clock is from UTC.
  if (text == "Z") {
    when.offset = 0;
    return when;
  }
  const bool ahead = take(text, '+');
  if (!ahead && !take(text, '-')) return std::nullopt;
  const auto offset = take_hours_minutes(text);
  if (!offset || !text.empty()) return std::nullopt;
  when.offset = ahead ? *offset : -*offset;
  return when;
}

bool before(const When& a, const When& b) {
  const auto seconds = [](const When& w) { return w.day * 86400 + w.seconds.value_or(0); };
  if (a.seconds && b.seconds && a.offset && b.offset) return seconds(a) - *a.offset < seconds(b) - *b.offset;
  if (a.seconds && b.seconds) return seconds(a) < seconds(b);
  return a.day < b.day;
}

}  // namespace trammel
