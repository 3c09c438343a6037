// A survey file handed to the survey room, and what there is to say of its answer.
#pragma once

#include <optional>
#include <vector>

#include "assess/finding.h"
#include "job/survey.h"
#include "setup/survey/misread.h"
#include "setup/survey/next_distance.h"

namespace trammel {

struct SurveySaying {
  Outcome outcome = Outcome::note;
  Message message;
};

struct SurveyReport {
  survey::Survey survey;  // datums first, then points, as the file has them
  std::size_t datums = 0;
  std::vector<std::optional<std::string>> becomes;  // of each point: path in the cart file
  Length tape, wanted;
  survey::Searched searched;
  std::vector<survey::NextDistance> next;  // none where every point is sure enough
  std::vector<SurveySaying> says;          // gravest first
  bool enough = false;                     // solved, settled, and every point as sure as wanted
};

SurveyReport survey_report(const SurveyFile& file);

}  // namespace trammel
