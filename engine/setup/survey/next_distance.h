// What to measure next: the distances that make the points that matter surer.
//
// Model: one more distance of uncertainty u along the unit vector between two points takes C a a'C / (u^2 + a'C a) from
// the covariance C. The next distance is the one after which the sum of the fourth powers of the needed points' worst
// uncertainties is least (which weighs the worst point most); the following ones are chosen after it.
// Not measured pairs come first; one measured already may be asked for again.
// Range: a survey that is solved. Ignores: whether the tape can reach; so several are given.
#pragma once

#include "setup/survey/survey.h"

namespace trammel::survey {

struct NextDistance {
  std::size_t from = 0, to = 0;
  bool again = false;     // was measured already
  std::size_t helps = 0;  // the point it helps most
  Length before, after;   // that point's worst u
  Length worst_after;     // of all needed points, after this and those before it
};

std::vector<NextDistance> next_distances(const Survey& survey, const Solution& solution, std::size_t how_many, Length u,
                                         const std::vector<std::size_t>& left_out = {});

// The greatest worst u among the points that are needed.
Length worst_needed(const Survey& survey, const std::vector<PlacedPoint>& points);

}  // namespace trammel::survey
