// How well surveys of known truth come out: points and tape drawn, solved, compared.
//
// Each survey draws its points evenly in a box, with up to four datums held at corners of it no two of which share an
// edge. Each point is taped from every datum and a share of the other pairs at random; or a share of all pairs is.
// Readings are true distances with normal errors; a share of them is misread by an even size between two bounds, either
// sign. The truth is known to no solve; with `rough_places` each point has a place good to that sd (what `near` says in
// a file).
//   rms        of coordinate errors over all points that are no datum
//   clean      the same survey without its misreads;  plain: all readings alike;  robust: those named left out
//   found      misreads of truth that were named; `named_wrongly`: sound readings named
//   reread     robust, after every reading named or told as misread instead was read once more (with the same chance
//              of a misread), until nothing new is asked for, at most three times
// Deterministic for a given generator state.
#pragma once

#include <functional>

#include "setup/chance.h"
#include "setup/survey/misread.h"

namespace trammel::survey {

struct SurveyStudy {
  int surveys = 300;
  std::size_t points = 10, datums = 4;
  std::size_t least_distances = 4;  // at each point
  bool every_datum = true;          // each point from every datum; the share is then of the other pairs
  bool by_advice = false;           // least_distances at random, then those that next_distances asks for
  double share_of_pairs = 0.6, misread_share = 0.03;
  Length tape_sd = 1.5 * units::mm;
  Length least_misread = 10.0 * units::mm, most_misread = 50.0 * units::mm;
  Vector3<Length> box{1.0 * units::metre, 0.8 * units::metre, 0.6 * units::metre};
  std::optional<Length> rough_places = 100.0 * units::mm;
};

struct SurveyStudyResult {
  int surveys = 0, not_solved = 0;
  int distances = 0, redundancy = 0;  // sums over all surveys
  Length rms_clean, rms_plain, rms_robust, rms_reread;
  Length median_clean, median_robust, median_reread;  // of the surveys' own rms
  int asked = 0;                                      // readings asked for again
  Length rms_worst_clean, rms_worst_robust;           // root mean square over surveys of the worst coordinate error
  int small = 0, small_found = 0;                     // misreads up to 20 mm
  int large = 0, large_found = 0;                     // above
  int named_wrongly = 0, offered_instead = 0;         // large ones not named, but told as what may be misread instead
  double coverage = 0.0;                              // share of coordinates within 2 u, robust
};

struct SimulatedSurvey {
  Survey survey;
  std::vector<Vector3<Length>> truth;
  std::vector<Length> misread;  // of each distance; zero where sound
};
SimulatedSurvey draw_survey(const SurveyStudy& study, setup::Generator& g);

// `after_each` is told how many are done: for a face that shows progress.
SurveyStudyResult run_survey_study(const SurveyStudy& study, setup::Generator& g,
                                   const std::function<void(int done)>& after_each = {});

}  // namespace trammel::survey
