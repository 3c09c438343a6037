#include <fmt/core.h>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/progress.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "setup/survey/study.h"

namespace trammel::cli {
namespace {

using survey::SurveyStudy;
using survey::SurveyStudyResult;

struct Fleet {
  const char* code;
  std::uint64_t seed;
  SurveyStudy study;
};

// Seeds are fixed, so that a table can be made again.
std::vector<Fleet> fleets(int count) {
  SurveyStudy stated;
  stated.surveys = count;
  std::vector<Fleet> all = {{"study-survey-stated", 1, stated}, {"study-survey-stated-again", 2, stated}};
  const auto add = [&](const char* code, auto change) {
    all.push_back({code, all.size() + 1, stated});
    change(all.back().study);
  };
  add("study-survey-no-rough-places", [](SurveyStudy& s) { s.rough_places.reset(); });
  add("study-survey-any-pairs", [](SurveyStudy& s) { s.every_datum = false; });
  add("study-survey-by-advice", [](SurveyStudy& s) { s.every_datum = false, s.by_advice = true; });
  add("study-survey-coarse-tape", [](SurveyStudy& s) { s.tape_sd = 3.0 * units::mm; });
  add("study-survey-few", [](SurveyStudy& s) { s.points = 4, s.share_of_pairs = 2.0 / 3.0; });
  return all;
}

std::string mm(Length l) { return fmt::format("{:.2f} mm", l.in(units::mm)); }
std::string per_cent(int part, int of) { return of ? fmt::format("{:.1f} %", 100.0 * part / of) : "-"; }

Json document(const Fleet& fleet, const SurveyStudyResult& r) {
  return {{"fleet", say(fleet.code)},
          {"seed", fleet.seed},
          {"surveys", r.surveys},
          {"not_solved", r.not_solved},
          {"distances", static_cast<double>(r.distances) / r.surveys},
          {"redundancy", static_cast<double>(r.redundancy) / r.surveys},
          {"rms_clean_m", r.rms_clean.si()},
          {"rms_all_alike_m", r.rms_plain.si()},
          {"rms_robust_m", r.rms_robust.si()},
          {"rms_reread_m", r.rms_reread.si()},
          {"median_robust_m", r.median_robust.si()},
          {"large", r.large},
          {"large_found", r.large_found},
          {"small", r.small},
          {"small_found", r.small_found},
          {"named_wrongly", r.named_wrongly},
          {"asked_again", static_cast<double>(r.asked) / r.surveys},
          {"within_two_u", r.coverage}};
}

int study_survey(const Asked& asked) {
  const auto all = fleets(asked.count);
  Progress progress(static_cast<int>(all.size()) * asked.count);
  Json j = {{"study", "survey"}, {"fleets", Json::array()}};
  std::vector<std::vector<std::string>> rows(1);
  for (const char* code : {"study-column-fleet", "study-column-distances", "study-column-clean", "study-column-alike",
                           "study-column-robust", "study-column-half", "study-column-reread", "study-column-large",
                           "study-column-small", "study-column-wrong", "study-column-asked", "study-column-within"})
    rows[0].push_back(say(code));
  for (const Fleet& fleet : all) {
    setup::Generator g(fleet.seed);
    const SurveyStudyResult r = run_survey_study(fleet.study, g, [&](int) { progress.one_more(); });
    const double n = r.surveys;
    j["fleets"].push_back(document(fleet, r));
    rows.push_back({say(fleet.code), fmt::format("{:.0f}, {:.0f}", r.distances / n, r.redundancy / n), mm(r.rms_clean),
                    mm(r.rms_plain), mm(r.rms_robust), mm(r.median_robust), mm(r.rms_reread),
                    per_cent(r.large_found, r.large), per_cent(r.small_found, r.small),
                    fmt::format("{:.1f}", 100.0 * r.named_wrongly / n), fmt::format("{:.1f}", r.asked / n),
                    fmt::format("{:.1f} %", 100.0 * r.coverage)});
  }
  if (asked.json)
    print_json(j);
  else
    print_page_table(std::move(rows));
  return 0;
}

}  // namespace

int study(const Asked& asked) {
  if (asked.path == "survey") return study_survey(asked);
  if (asked.path == "alignment") return study_alignment(asked);
  if (asked.path == "causes") return study_causes(asked);
  fmt::print(stderr, "{}\n", say("word-unknown", {{"text", asked.path}, {"choices", "alignment, causes, survey"}}));
  return 2;
}

}  // namespace trammel::cli
