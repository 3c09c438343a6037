#include "setup/survey/study.h"

#include <algorithm>
#include <cmath>

#include "setup/survey/network.h"
#include "setup/survey/next_distance.h"

namespace trammel::survey {

namespace {

Length between(setup::Generator& g, Length low, Length high) { return low + setup::uniform(g) * (high - low); }

Length draw_misread(const SurveyStudy& study, setup::Generator& g) {
  const bool misread = setup::uniform(g) < study.misread_share;
  const Length size = between(g, study.least_misread, study.most_misread);
  const bool longer = g() & 1;
  return misread ? (longer ? size : -size) : Length{};
}

struct Errors {
  double sum = 0.0, worst = 0.0;
  int count = 0;
  std::vector<double> each;
  void add(const SimulatedSurvey& s, const std::vector<PlacedPoint>& points, std::size_t datums) {
    double most = 0.0;
    const double before = sum;
    for (std::size_t p = datums; p < s.truth.size(); ++p) {
      const Place e = bare(points[p].at - s.truth[p]);
      for (const double d : {e.x, e.y, e.z}) sum += d * d, ++count, most = std::max(most, d * d);
    }
    worst += most;
    each.push_back(std::sqrt((sum - before) / static_cast<double>(3 * (s.truth.size() - datums))));
  }
  Length median() {
    if (each.empty()) return {};
    std::nth_element(each.begin(), each.begin() + static_cast<long>(each.size() / 2), each.end());
    return Length::from_si(each[each.size() / 2]);
  }
  Length rms() const { return Length::from_si(count ? std::sqrt(sum / count) : 0.0); }
};

using Pair = std::pair<std::size_t, std::size_t>;

bool poor(const SurveyStudy& study, const std::vector<std::size_t>& of_point, const Pair& pair) {
  const auto has_few = [&](std::size_t p) { return p >= study.datums && of_point[p] < study.least_distances; };
  return has_few(pair.first) || has_few(pair.second);
}

std::vector<bool> at_random(const SurveyStudy& study, const std::vector<Pair>& pairs, std::size_t wanted) {
  std::vector<std::size_t> of_point(study.points + study.datums, 0);
  std::vector<bool> chosen(pairs.size(), false);
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (i >= wanted && !poor(study, of_point, pairs[i])) continue;
    chosen[i] = true;
    ++of_point[pairs[i].first];
    ++of_point[pairs[i].second];
  }
  return chosen;
}

// As one works with the tool: a few distances a point, then what it asks for, ten at a time.
std::vector<bool> by_advice(const SurveyStudy& study, const SimulatedSurvey& s, const std::vector<Pair>& pairs,
                            std::size_t wanted) {
  std::vector<bool> chosen = at_random(study, pairs, 0);
  Survey so_far = s.survey;
  std::vector<Vector3<Length>> near = s.truth;
  const auto take = [&](std::size_t i) {
    const auto [a, b] = pairs[i];
    so_far.distances.push_back({a, b, norm(s.truth[a] - s.truth[b]), study.tape_sd});
  };
  for (std::size_t i = 0; i < pairs.size(); ++i)
    if (chosen[i]) take(i);
  while (so_far.distances.size() < wanted) {
    const auto next = next_distances(so_far, solve_from(so_far, near),
                                     std::min<std::size_t>(10, wanted - so_far.distances.size()), study.tape_sd);
    bool added = false;
    for (const NextDistance& d : next)
      for (std::size_t i = 0; i < pairs.size(); ++i)
        if (!chosen[i] && pairs[i] == Pair{d.from, d.to}) chosen[i] = added = true, take(i);
    // While a point is still loose no advice can be given: any pair more.
    for (std::size_t i = 0; i < pairs.size() && !added; ++i)
      if (!chosen[i]) chosen[i] = added = true, take(i);
    if (!added) break;
  }
  return chosen;
}

// Reads again what is asked for; how many readings that were.
int read_again(const SurveyStudy& study, const Searched& searched, SimulatedSurvey& s, std::vector<bool>& read_twice,
               setup::Generator& g) {
  std::vector<std::size_t> asked;
  for (const Misread& m : searched.misread) {
    asked.push_back(m.reading);
    asked.insert(asked.end(), m.or_instead.begin(), m.or_instead.end());
  }
  int count = 0;
  for (const std::size_t k : asked) {
    if (read_twice[k]) continue;
    read_twice[k] = true;
    ++count;
    Distance& d = s.survey.distances[k];
    s.misread[k] = draw_misread(study, g);
    d.read = norm(s.truth[d.from] - s.truth[d.to]) + setup::normal(g, study.tape_sd) + s.misread[k];
  }
  return count;
}

}  // namespace

SimulatedSurvey draw_survey(const SurveyStudy& study, setup::Generator& g) {
  SimulatedSurvey s;
  const std::size_t n = study.points + study.datums;
  for (std::size_t p = 0; p < n; ++p) {
    // Datums stand at four corners no two of which share an edge, as one who knows the work would choose them.
    Vector3<Length> at{between(g, -0.5 * study.box.x, 0.5 * study.box.x), between(g, {}, study.box.y),
                       between(g, {}, study.box.z)};
    if (p < std::min<std::size_t>(study.datums, 4))
      at = {(p & 1 ? 0.5 : -0.5) * study.box.x, (p & 2 ? 1.0 : 0.0) * study.box.y,
            (p == 1 || p == 2 ? 1.0 : 0.0) * study.box.z};
    s.truth.push_back(at);
    Point& point = s.survey.points.emplace_back();
    point.needed = p >= study.datums;
    if (p < study.datums)
      point.read = {CoordinateReading{at.x, {}}, CoordinateReading{at.y, {}}, CoordinateReading{at.z, {}}};
    else if (study.rough_places)
      point.near = at + Vector3<Length>{setup::normal(g, *study.rough_places), setup::normal(g, *study.rough_places),
                                        setup::normal(g, *study.rough_places)};
  }

  // The pairs in a random order: the share asked for, and more where a point has too few.
  std::vector<Pair> pairs;
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = std::max(a + 1, study.datums); b < n; ++b) pairs.emplace_back(a, b);
  for (std::size_t i = pairs.size(); i > 1; --i) std::swap(pairs[i - 1], pairs[g() % i]);
  const auto from_datum = [&](const Pair& pair) { return study.every_datum && pair.first < study.datums; };
  const auto always = std::stable_partition(pairs.begin(), pairs.end(), from_datum) - pairs.begin();
  const auto wanted = static_cast<std::size_t>(
      always + std::lround(study.share_of_pairs * static_cast<double>(static_cast<long>(pairs.size()) - always)));
  const auto chosen = study.by_advice ? by_advice(study, s, pairs, wanted) : at_random(study, pairs, wanted);

  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (!chosen[i]) continue;
    const auto [a, b] = pairs[i];
    const Length error = setup::normal(g, study.tape_sd);
    s.misread.push_back(draw_misread(study, g));
    s.survey.distances.push_back({a, b, norm(s.truth[a] - s.truth[b]) + error + s.misread.back(), study.tape_sd});
  }
  return s;
}

SurveyStudyResult run_survey_study(const SurveyStudy& study, setup::Generator& g,
                                   const std::function<void(int)>& after_each) {
  SurveyStudyResult result;
  result.surveys = study.surveys;
  Errors clean, plain, robust, reread;
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
    clean.add(s, best.points, study.datums);
    plain.add(s, searched.all.points, study.datums);
    robust.add(s, searched.points, study.datums);
    for (std::size_t p = study.datums; p < s.truth.size(); ++p) {
      const PlacedPoint& placed = searched.points[p];
      const Place e = bare(placed.at - s.truth[p]), u = bare(placed.u);
      for (std::size_t axis = 0; axis < 3; ++axis) within += std::abs(part(e, axis)) <= 2.0 * part(u, axis);
    }

    // Which misreads were named.
    result.distances += static_cast<int>(s.survey.distances.size());
    result.redundancy += searched.all.redundancy;
    for (std::size_t k = 0; k < s.misread.size(); ++k) {
      const bool named = std::any_of(searched.misread.begin(), searched.misread.end(),
                                     [&](const Misread& m) { return m.reading == k; });
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

    // What is asked for is read again.
    SimulatedSurvey again = s;
    std::vector<bool> read_twice(s.misread.size(), false);
    Searched last = searched;
    for (int round = 0; round < 3; ++round) {
      const int asked = read_again(study, last, again, read_twice, g);
      if (asked == 0) break;
      result.asked += asked;
      last = find_misreads(again.survey);
    }
    reread.add(s, usable(last.kept.outcome) ? last.points : searched.points, study.datums);
  }
  result.rms_clean = clean.rms();
  result.rms_plain = plain.rms();
  result.rms_robust = robust.rms();
  result.rms_reread = reread.rms();
  result.median_clean = clean.median();
  result.median_robust = robust.median();
  result.median_reread = reread.median();
  const int solved = std::max(1, study.surveys - result.not_solved);
  result.rms_worst_clean = Length::from_si(std::sqrt(clean.worst / solved));
  result.rms_worst_robust = Length::from_si(std::sqrt(robust.worst / solved));
  result.coverage = robust.count ? static_cast<double>(within) / robust.count : 0.0;
  return result;
}

}  // namespace trammel::survey
