// When a survey is enough for a job: the uncertainty against drawn points, and what the next distance is said to give.
#include "assess/survey_decisions.h"

#include <gtest/gtest.h>

#include <iostream>
#include <string>

#include "messages/catalogue.h"
#include "shop/open.h"

namespace trammel::test {
namespace {

const std::string root = TRAMMEL_SOURCE_DIR;

TEST(SurveyForJob, SaysEnoughWhereTheDecisionsAreSettled) {
  const OpenedSurvey fine = open_survey(root + "/examples/shuttle/front-survey.toml"),
                     coarse = open_survey(root + "/tests/cases/align/coarse-survey.toml");
  const Loaded<Job> job = read_kit_or_job(root + "/examples/shuttle");
  ASSERT_TRUE(fine.report && coarse.report && job.value);
  const SurveyForJob sure = survey_for_job(*fine.report, *job.value),
                     unsure = survey_for_job(*coarse.report, *job.value);
  ASSERT_EQ(sure.decisions.size(), 3u);
  EXPECT_TRUE(sure.enough);
  EXPECT_FALSE(sure.next);
  EXPECT_FALSE(unsure.enough);
  ASSERT_TRUE(unsure.next);

  // A distance as asked for, read once more with the same tape, makes the least settled surer by what was said.
  const auto argument = [&](const char* name) {
    for (const auto& [n, v] : unsure.next->arguments)
      if (n == name) return std::get<std::string>(v);
    return std::string();
  };
  SurveyReport more = *coarse.report;
  std::size_t from = 0, to = 0;
  for (std::size_t p = 0; p < more.survey.points.size(); ++p) {
    if (more.survey.points[p].name == argument("from")) from = p;
    if (more.survey.points[p].name == argument("to")) to = p;
  }
  ASSERT_NE(from, to);
  const auto u_of = [](const SurveyForJob& s) {
    for (const auto& [n, v] : s.decisions[0].what.arguments)
      if (n == "value") return *std::get<Number>(v).u;
    return 0.0;
  };
  const auto& points = more.searched.points;
  more.survey.distances.push_back({from, to, norm(points[to].at - points[from].at), more.tape});
  std::vector<std::size_t> left_out;
  for (const survey::Misread& m : more.searched.misread) left_out.push_back(m.reading);
  // The new distance stands behind all others, so that numbers of coordinates move by one.
  const std::size_t distances = more.survey.distances.size() - 1;
  for (std::size_t& reading : left_out) reading += reading >= distances ? 1 : 0;
  more.searched.kept = survey::solve(more.survey, left_out);
  const double before = u_of(unsure), after = u_of(survey_for_job(more, *job.value));
  const double said = std::stod(argument("less")) / 100.0;
  std::cout << "bump steer said to be " << 100 * said << " % surer, is " << 100 * (1.0 - after / before) << " %\n";
  if (argument("what") == "@survey-bump-steer") { EXPECT_NEAR(1.0 - after / before, said, 0.03); }
}

// What this cart does not get moves none of its points.
TEST(SurveyForJob, KnowsNothingOfAnAccessoryLeftOut) {
  const OpenedSurvey survey = open_survey(root + "/examples/shuttle/front-survey.toml");
  const auto with_spare = [](Job job) {
    Change change;
    change.path = "front.left.tie_rod.rack_end";
    change.value = PointValue{{120.0 * units::mm, 90.0 * units::mm, 420.0 * units::mm}, {}, Basis::kit, {}};
    change.mirror = true;
    change.accessory = "spare rack";
    job.kits.front().kit.change.push_back(change);
    return job;
  };
  const Job job = *read_kit_or_job(root + "/examples/shuttle").value;
  const auto told = [&](const Job& j) {
    std::string all;
    for (const auto& d : survey_for_job(*survey.report, j).decisions) all += word(d.what, {}) + "\n";
    return all;
  };
  EXPECT_EQ(told(with_spare(job)), told(job));
  Job chosen = with_spare(job);
  chosen.accessories.push_back(Text{"spare rack", {}});
  EXPECT_NE(told(chosen), told(job));
}

}  // namespace
}  // namespace trammel::test
