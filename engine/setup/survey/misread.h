// Which readings of a survey are misread, by solving again without them.
//
// Model: a misread distance lowers chi-square by about the square of its standardised residual when it is left out.
// For one reading, for two anywhere and for up to three of one point that drop is v'(R)^-1 v (v: residuals in u; R:
// their redundancy matrix, I - A C A'). The best sets of readings are left out in truth and solved again; a set is
// taken where chi-square drops by more than 3.29^2 a reading (one false alarm in 1000 a reading). Afterwards each
// reading left out is taken back where it fits after all, and exchanged for others where those explain more.
// Range: from redundancy 6 up, and down to redundancy 3 left; below that `searched` is false and nothing is named.
// A reading that is hardly checked by others (redundancy below 0.1) is never named: see ReadingCheck::least_seen.
// Nothing is lost: `all` holds the solution with every reading, `kept` the one without those named.
// Ignores: two misreads that agree with each other and with everything else.
// Source: Baarda 1968 (data snooping); Cook and Weisberg 1982 for sets of readings (both from memory).
#pragma once

#include "setup/survey/survey.h"

namespace trammel::survey {

inline constexpr int least_redundancy = 6;

// What a misread of this size looks like; nothing where no usual slip fits within what is known of it.
enum class Slip {
  none,
  tape_hook,   // 1 to 2 mm: the hook's own thickness
  half_inch,   // 12.7 mm
  inch,        // 25.4 mm
  two_inches,  // 50.8 mm
  ten_mm,      // one number on a metric tape
  twenty_mm,
  hundred_mm,       // begun at the tape's 100 mm mark
  foot,             // 304.8 mm
  digits_exchanged  // 364 for 346
};

struct Misread {
  std::size_t reading = 0;
  Length blunder, u;  // read less what it should have been
  Slip slip = Slip::none;
  std::vector<std::size_t> or_instead;  // readings that would explain it nearly as well
};

struct Searched {
  Solution all, kept;
  bool searched = false;         // enough readings to tell
  std::vector<Misread> misread;  // greatest first
  // The answer: kept's places; where others could be misread in place of those named, the mean over all these
  // explanations, each by its weight exp(-chi-square / 2), with the uncertainty that this leaves.
  std::vector<PlacedPoint> points;
  std::vector<Length> unsettled;  // of each point: how far it moves from one explanation to another
};

Searched find_misreads(const Survey& survey);

Slip slip_of(Length read, Length blunder, Length u);

}  // namespace trammel::survey
