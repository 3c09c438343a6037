#include <map>
#include <set>

#include "job/survey_shape.h"
#include "jobfile/reader.h"
#include "jobfile/rules.h"

namespace trammel {

namespace {

int quoted(const Text& text) { return characters(text.value) + 2; }

// A datum has its place once: whole, or by the coordinates that are known.
void check_datum(const SurveyDatum& datum, ReadContext& context) {
  const bool some = datum.x || datum.y || datum.z;
  if (datum.at.has_value() == some && !datum.name.value.empty())
    context.report.add(some ? "datum-placed-twice" : "datum-without-place", {{"name", datum.name.value}},
                       datum.name.place, quoted(datum.name));
}

// What a point becomes is a point of the cart, and of no other one.
void check_becomes(const SurveyedPoint& point, std::map<std::string, Place>& taken, ReadContext& context) {
  const Text& path = *point.becomes;
  if (path.value.empty()) return;
  OverlayProblem problem;
  const auto target = find_target(Cart{}, path.value, &problem, ListNames::any);
  if (!target) {
    auto& fault = context.report.add("change-path-breaks", {{"path", path.value}, {"word", problem.word}}, path.place,
                                     quoted(path));
    fault.nearest = problem.nearest;
    if (problem.nearest.empty()) fault.choices = problem.choices;
  } else if (target->list || !std::holds_alternative<PointValue>(target->value)) {
    context.report.add("becomes-no-point", {{"path", path.value}}, path.place, quoted(path));
  } else if (const auto [first, is_new] = taken.emplace(path.value, path.place); !is_new) {
    context.report.add("becomes-twice", {{"path", path.value}}, path.place, quoted(path)).other = first->second;
  }
}

}  // namespace

void check_survey(const SurveyFile& survey, ReadContext& context) {
  // Datums and points share one set of names.
  std::vector<std::string> names;
  std::map<std::string, Place> datums, taken;
  for (const SurveyDatum& datum : survey.datum) {
    check_datum(datum, context);
    names.push_back(datum.name.value);
    datums.emplace(datum.name.value, datum.name.place);
  }
  for (const SurveyedPoint& point : survey.point) {
    if (!datums.count(point.name.value)) names.push_back(point.name.value);
    const auto twin = datums.find(point.name.value);
    if (twin != datums.end() && !point.name.value.empty())
      context.report.add("name-twice", {{"name", point.name.value}}, point.name.place, quoted(point.name)).other =
          twin->second;
    if (point.becomes) check_becomes(point, taken, context);
  }

  // Distances lie between two of them.
  const std::set<std::string> known(names.begin(), names.end());
  for (const TapedDistance& distance : survey.distance) {
    for (const Text* end : {&distance.from, &distance.to}) {
      if (end->value.empty() || known.count(end->value)) continue;
      auto& fault = context.report.add("unknown-point", {{"name", end->value}}, end->place, quoted(*end));
      fault.nearest = nearest(end->value, std::span<const std::string>(names));
      if (fault.nearest.empty()) fault.choices = names;
    }
    if (!distance.from.value.empty() && distance.from.value == distance.to.value)
      context.report.add("distance-to-itself", {{"name", distance.to.value}}, distance.to.place, quoted(distance.to));
  }
}

}  // namespace trammel
