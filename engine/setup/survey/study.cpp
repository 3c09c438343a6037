#include "setup/survey/study.h"

#include <algorithm>
#include <cmath>

#include "setup/survey/network.h"

namespace trammel::survey {

namespace {

constexpr std::size_t least_distances = 4;  // a point

Length between(setup::Generator& g, Length low, Length high) { return low + setup::uniform(g) * (high - low); }

struct Errors {
  double sum = 0.0, worst = 0.0;
  int count = 0;
  void add(const SimulatedSurvey& s, const Solution& solution, std::size_t datums) {
    double most = 0.0;
    for (std::size_t p = datums; p < s.truth.size(); ++p) {
      const Place e = bare(solution.points[p].at - s.truth[p]);
      for (const double d : {e.x, e.y, e.z}) sum += d * d, ++count, most = std::max(most, d * d);
    }
    worst += most;
  }
  Length rms() const { return Length::from_si(count ? std::sqrt(sum / count) : 0.0); }
};

}  // namespace

SimulatedSurvey draw_survey(const SurveyStudy& study, setup::Generator& g) {
  SimulatedSurvey s;
  const std::size_t n = study.points + study.datums;
  for (std::size_t p = 0; p < n; ++p) {
    const Vector3<Length> at{between(g, -0.5 * study.box.x, 0.5 * study.box.x), between(g, {}, study.box.y),
                             between(g, 0.05 * units::metre, study.box.z)};
    s.truth.push_back(at);
    Point& point = s.survey.points.emplace_back();
    point.needed = p >= study.datums;
    if (p < study.datums) point.read = {CoordinateReading{at.x, {}}, CoordinateReading{at.y, {}}, CoordinateReading{at.z, {}}};
    else if (study.rough_places)
      point.near = at + Vector3<Length>{setup::normal(g, *study.rough_places), setup::normal(g, *study.rough_places), setup::normal(g, *study.rough_places)};
  }

  // The pairs in a random order: the share asked for, and more where a point has too few.
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = std::max(a + 1, study.datums); b < n; ++b) pairs.emplace_back(a, b);
  for (std::size_t i = pairs.size(); i > 1; --i) std::swap(pairs[i - 1], pairs[g() % i]);
  const auto wanted = static_cast<std::size_t>(std::lround(study.share_of_pairs * static_cast<double>(pairs.size())));
  std::vector<std::size_t> of_point(n, 0);
  std::vector<bool> chosen(pairs.size(), false);
  const auto choose = [&](std::size_t i) { chosen[i] = true, ++of_point[pairs[i].first], ++of_point[pairs[i].second]; };
  for (std::size_t i = 0; i < wanted; ++i) choose(i);
  for (std::size_t i = wanted; i < pairs.size(); ++i) {
    const auto poor = [&](std::size_t p) { return p >= study.datums && of_point[p] < least_distances; };
    if (poor(pairs[i].first) || poor(pairs[i].second)) choose(i);
  }

  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (!chosen[i]) continue;
    const auto [a, b] = pairs[i];
    const Length error = setup::normal(g, study.tape_sd);
    const bool misread = setup::uniform(g) < study.misread_share;
    Length slip = between(g, study.least_misread, study.most_misread);
    if (g() & 1) slip = -slip;
    s.misread.push_back(misread ? slip : Length{});
    s.survey.distances.push_back({a, b, norm(s.truth[a] - s.truth[b]) + error + s.misread.back(), study.tape_sd});
  }
  return s;
}

SurveyStudyResult run_survey_study(const SurveyStudy& study, setup::Generator& g, const std::function<void(int)>& after_each) {
  SurveyStudyResult result;
  result.surveys = study.surveys;
  Errors clean, plain, robust;
  int within = 0;
  for (int i = 0; i < study.surveys; ++i) {
    const SimulatedSurvey s = draw_survey(study, g);
    Survey sound = s.survey;
    for (std::size_t k = 0; k < s.misread.size(); ++k) sound.distances[k].read -= s.misread[k];
    const Solution best = solve(sound);
    const Searched searched = find_misreads(s.survey);
    if (after_each) after_each(i + 1);
    if (!usable(best.outcome) || !usable(searched.kept.outcome)) {
      ++result.not_solved;
      continue;
    }

    // How far off, and how honest the stated u is.
    clean.add(s, best, study.datums);
    plain.add(s, searched.all, study.datums);
    robust.add(s, searched.kept, study.datums);
    for (std::size_t p = study.datums; p < s.truth.size(); ++p) {
      const PlacedPoint& placed = searched.kept.points[p];
      const Place e = bare(placed.at - s.truth[p]), u = bare(placed.u);
      for (std::size_t axis = 0; axis < 3; ++axis) within += std::abs(part(e, axis)) <= 2.0 * part(u, axis);
    }

    // Which misreads were named.
    result.distances += static_cast<int>(s.survey.distances.size());
    result.redundancy += searched.all.redundancy;
    for (std::size_t k = 0; k < s.misread.size(); ++k) {
      const bool named = std::any_of(searched.misread.begin(), searched.misread.end(), [&](const Misread& m) { return m.reading == k; });
      const bool instead = std::any_of(searched.misread.begin(), searched.misread.end(), [&](const Misread& m) {
        return std::find(m.or_instead.begin(), m.or_instead.end(), k) != m.or_instead.end();
      });
      if (s.misread[k] == Length{}) {
        result.named_wrongly += named;
        continue;
      }
      const bool large = abs(s.misread[k]) > 20.0 * units::mm;
      ++(large ? result.large : result.small);
      if (named) ++(large ? result.large_found : result.small_found);
      result.offered_instead += large && !named && instead;
    }
  }
  result.rms_clean = clean.rms();
  result.rms_plain = plain.rms();
  result.rms_robust = robust.rms();
  const int solved = std::max(1, study.surveys - result.not_solved);
  result.rms_worst_clean = Length::from_si(std::sqrt(clean.worst / solved));
  result.rms_worst_robust = Length::from_si(std::sqrt(robust.worst / solved));
  result.coverage = robust.count ? static_cast<double>(within) / robust.count : 0.0;
  return result;
}

}  // namespace trammel::survey
