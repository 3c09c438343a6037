// Whether a survey is good enough for one job: what the job decides by the points, and how sure that is by now.
//
// The surveyed points are put into the job's cart, its kits laid over it, and each decision worked out from that: the
// worst bump steer of the left front wheel (its limits as judge_bump_steer.cpp has them), and what a turn of each left
// adjuster does. u by JCGM 100:2008 5.1.2 with the survey's whole covariance, slopes by central differences over 0.2 mm
// through overlay and linkage, so that a point which a kit replaces counts for nothing.
//   bump steer   settled where value +- 2 u crosses no limit
//   a turn       settled where u is below 5 % of it (assumed: the first prescription then lands within the tolerance)
// The next distance is the one of all pairs that takes most from the variance of the decision that is furthest from
// being settled: (g' C a)^2 / (u^2 + a' C a), a the distance's slope. Ignores: curvature; the uncertainty of what the
// survey does not hold.
#pragma once

#include "assess/survey_report.h"
#include "job/job.h"

namespace trammel {

struct SurveyDecision {
  Message what;  // with value, uncertainty and limit
  bool settled = false;
};

struct SurveyForJob {
  std::vector<SurveyDecision> decisions;  // none: the job's front axle decides nothing by these points
  bool enough = false;
  std::optional<Message> next;  // the distance that helps most, and how sure the decision then is
};

SurveyForJob survey_for_job(const SurveyReport& report, const Job& job);

}  // namespace trammel
