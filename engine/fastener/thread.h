// Threads by the names the trade uses, and the diameters and areas that strength hangs on.
//
// Metric (60 deg, ISO 68-1), d nominal diameter, P pitch:
//   d2 = d - 0.649519 P (pitch diameter), d3 = d - 1.226869 P (root of the bolt),
//   As = pi/4 ((d2 + d3)/2)^2, ISO 898-1:2013 9.1.6.
// Unified (UNC, UNF), n threads an inch, P = 1/n:
//   At = pi/4 (d - 0.9743 P)^2, ASME B1.1, as tabled in Shigley, 9th ed., Table 8-2.
//
// Range: the threads of reference/metric_pitches.csv (M3 to M24) and reference/unified_stress_areas.csv
// (1/4 to 3/4). Ignores: thread tolerance (nominal sizes), coating thickness, left hand.
// Error: As agrees with the published tables to their last printed digit.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "measure/quantity.h"

namespace trammel::fastener {

enum class Series { metric_coarse, metric_fine, unc, unf };

struct Thread {
  Series series = Series::metric_coarse;
  Length d;      // nominal
  Length pitch;  // advance of one turn
  friend bool operator==(const Thread&, const Thread&) = default;
};

constexpr bool is_metric(const Thread& t) {
  return t.series == Series::metric_coarse || t.series == Series::metric_fine;
}

// The trade's name: "M10", "M10x1.25", "3/8-16 UNC".
std::string name(const Thread& thread);
// The nominal size alone, which is how heads and nuts are tabled: "M10", "3/8".
std::string size_name(const Thread& thread);

enum class ThreadFault { not_a_thread, size_unknown, pitch_unknown };
struct ThreadError {
  ThreadFault fault{};
  std::string nearest;  // nearest known thread, empty where none is near
};
// Reads "M10", "M10x1.25", "3/8-16", "3/8-16 UNC", "1/2 UNF". The whole text must be the thread.
std::variant<Thread, ThreadError> read_thread(std::string_view text);

Length pitch_diameter(const Thread& thread);
Length root_diameter(const Thread& thread);
Area stress_area(const Thread& thread);

}  // namespace trammel::fastener
