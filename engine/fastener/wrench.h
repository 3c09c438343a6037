// Which wrench fits which head, and what a longer wrench does to the reading.
//
// Across flats: reference/across_flats.csv by standard. One thread has several heads (M10: 13, 14, 15, 16, 17 mm) and
// one wrench several threads (17 mm: M10 or M12), so a wrench is a hint and never proof of a thread.
// A wrench and a head of another system fit where they differ by no more than 0.15 mm (common practice, no source).
//
// Extension in line with the handle: applied = setting (L + A)/L, L from drive to grip, A added length;
// at an angle q to the handle A cos q counts (US Army TM 9-254 fig. 4-5, 4-6): at 90 deg no correction.
//
// A torque wrench is true from a fifth of its greatest torque upward (ISO 6789-1, from memory); what lies below that,
// or outside its scale, needs another wrench.
#pragma once

#include <string_view>
#include <vector>

#include "fastener/thread.h"
#include "reference/basis.h"

namespace trammel::fastener {

struct Head {
  std::string_view standard, kind, thread;
  Length across_flats;
  std::string_view source;
  reference::Basis basis{};
};
// Every tabled head or nut of a thread's nominal size, from small to large.
std::vector<Head> heads_of(const Thread& thread);
// Every tabled head or nut that the wrench turns.
std::vector<Head> heads_for_wrench(Length across_flats);

enum class WrenchFit {
  fits,       // a head of this thread has this size
  ambiguous,  // so it has, and so have heads of other threads: measure the thread
  fits_none,  // no tabled head of this thread has it
  not_tabled  // no head of this thread is tabled
};
WrenchFit wrench_fit(const Thread& thread, Length across_flats);

struct Extension {
  Length wrench;  // drive to middle of grip
  Length added;   // drive to centre of the fastener
  Angle angle;    // between handle and extension: 0 straight ahead
};
Torque applied_torque(Torque setting, const Extension& extension);
Torque wrench_setting(Torque wanted, const Extension& extension);

struct TorqueWrench {
  Torque least, most;  // of its scale
};
enum class WrenchRange { fits, below_a_fifth, below_scale, above_scale };
WrenchRange wrench_range(const TorqueWrench& wrench, Torque setting);

}  // namespace trammel::fastener
