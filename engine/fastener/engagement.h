// How much thread must be engaged before the bolt breaks rather than the thread strips.
//
// Shear areas at engagement Le, FED-STD-H28/2 with the limits of ISO 965-1 6H/6g (metric, from memory) or
// ASME B1.1 2A/2B (inch, formulas from memory):
//   ASs = (pi/P) Le D1max [P/2 + (d2min - D1max)/sqrt 3]   bolt thread
//   ASn = (pi/P) Le dmin  [P/2 + (dmin - D2max)/sqrt 3]    nut or tapped thread
// A thread strips at half its tensile strength times its area; the bolt breaks at As Rm. The needed engagement is the
// greater of the two at equality (Machinery's Handbook, 24th ed., length of engagement, formulas 1 to 5).
//
// Ignores: nut dilation, thread bending, chamfers (add a pitch for a chamfered end), repeated assembly.
// Error: strip areas of coarse M5 to M16 equal the published table (reference/thread_strip_areas.csv) to its last
// digit.
#pragma once

#include <optional>
#include <string_view>

#include "fastener/joint.h"
#include "fastener/strength.h"

namespace trammel::fastener {

struct StripAreas {
  Area bolt_thread, tapped_thread;
};
// Nothing for threads whose limits are not tabled.
std::optional<StripAreas> strip_areas(const Thread& thread, Length engagement);

// Minor diameter of a tapped thread, 6H or 2B: between these a tapping drill's hole must lie.
struct MinorLimits {
  Length least, most;
};
std::optional<MinorLimits> tapped_minor_limits(const Thread& thread);

struct TappedStrength {
  Pressure tensile;
  std::string_view source;
  Basis basis{};
};
// The least tensile strength of a material's common grades: an assumption where the grade is not known.
// Nothing for plastic and rubber.
std::optional<TappedStrength> tapped_strength(Material material);

struct Engagement {
  Length needed;
  Pressure assumed_tensile;  // of the tapped part
  std::string_view source;
  Basis basis{};
};
std::optional<Engagement> needed_engagement(const Thread& thread, const Strength& bolt, Material tapped);
// The force at which bolt thread or tapped thread strips at this engagement, whichever is less.
std::optional<Force> strip_force(const Thread& thread, Length engagement, const Strength& bolt, Material tapped);

}  // namespace trammel::fastener
