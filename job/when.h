// A date and time as entries carry it, by ISO 8601-1:2019: "2026-04-20" or "2026-04-20T08:10", seconds and an offset
// ("Z", "+02:00") where they are given; a blank serves for the T (RFC 3339 5.6). Both standards from memory. The day
// must be one of the calendar. Local times are compared as they stand; two with offsets by the instant. A day alone is
// the whole of it.
#pragma once

#include <compare>
#include <optional>
#include <string_view>

namespace trammel {

struct When {
  long long day = 0;           // from 1970-01-01
  std::optional<int> seconds;  // of the day, as it stands
  std::optional<int> offset;   // of the clock from UTC, s
};

std::optional<When> read_when(std::string_view text);
// Whether `a` is over before `b` begins: certain only where both say as much.
bool before(const When& a, const When& b);

}  // namespace trammel
