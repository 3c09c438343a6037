#include "assess/survey_report.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace trammel {

namespace {

using survey::CoordinateReading;
using Words = std::vector<std::pair<std::string, Argument>>;

constexpr Length usual_tape = 1.5 * units::mm, usual_wanted = 2.0 * units::mm;
constexpr double worth_a_look = 2.5;  // standardised residual
constexpr std::size_t most_shown = 5, most_asked = 3;

std::string one_decimal(double value) {
  const std::string tenths = std::to_string(std::lround(10.0 * value));
  return (tenths.size() < 2 ? "0" : tenths.substr(0, tenths.size() - 1)) + "." + tenths.back();
}

class Reporter {
 public:
  explicit Reporter(const SurveyFile& file) : file_(file) {}

  SurveyReport run() {
    tools();
    for (const SurveyDatum& datum : file_.datum) add_datum(datum);
    r_.datums = r_.survey.points.size();
    for (const SurveyedPoint& point : file_.point) add_point(point);
    for (const TapedDistance& d : file_.distance)
      r_.survey.distances.push_back(
          {number_.at(d.from.value), number_.at(d.to.value), d.length.value, d.length.u.value_or(r_.tape)});
    readings_ = readings_of(r_.survey);

    r_.searched = find_misreads(r_.survey);
    solved();
    misreads();
    doubtful();
    mirrors();
    what_next();
    std::stable_sort(r_.says.begin(), r_.says.end(),
                     [](const auto& a, const auto& b) { return a.outcome > b.outcome; });
    return std::move(r_);
  }

 private:
  void say(Outcome outcome, std::string code, Words words = {}) {
    r_.says.push_back({outcome, {std::move(code), std::move(words)}});
  }

  void tools() {
    r_.tape = file_.tools && file_.tools->tape ? file_.tools->tape->value : usual_tape;
    height_ = file_.tools && file_.tools->height ? file_.tools->height->value : r_.tape;
    r_.wanted = file_.wanted ? file_.wanted->value : usual_wanted;
    const bool all_stated = std::all_of(file_.distance.begin(), file_.distance.end(),
                                        [](const TapedDistance& d) { return d.length.u.has_value(); });
    if (!(file_.tools && file_.tools->tape) && !all_stated)
      say(Outcome::note, "survey-tape-assumed", {{"u", number(r_.tape)}});
    if (!file_.wanted) say(Outcome::note, "survey-wanted-assumed", {{"wanted", number(r_.wanted)}});
  }

  survey::Point& add(const Text& name) {
    number_.emplace(name.value, r_.survey.points.size());
    r_.becomes.emplace_back();
    auto& point = r_.survey.points.emplace_back();
    point.name = name.value;
    return point;
  }
  void read_coordinates(survey::Point& point, const std::optional<Valued<Length>>& x,
                        const std::optional<Valued<Length>>& y, const std::optional<Valued<Length>>& z) {
    const std::optional<Valued<Length>>* given[] = {&x, &y, &z};
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (*given[axis])
        point.read[axis] = CoordinateReading{(*given[axis])->value, (*given[axis])->u.value_or(height_)};
  }
  void add_datum(const SurveyDatum& datum) {
    survey::Point& point = add(datum.name);
    point.needed = false;
    if (datum.at) {
      const Length u = datum.at->u.value_or(height_);
      const auto& at = datum.at->value;
      point.read = {CoordinateReading{at.x, u}, CoordinateReading{at.y, u}, CoordinateReading{at.z, u}};
    }
    read_coordinates(point, datum.x, datum.y, datum.z);
  }
  void add_point(const SurveyedPoint& given) {
    survey::Point& point = add(given.name);
    read_coordinates(point, given.x, given.y, given.z);
    if (given.near) point.near = given.near->value;
    if (given.side) point.side = given.side->value == "left" ? survey::Side::left : survey::Side::right;
    if (given.becomes) r_.becomes.back() = given.becomes->value;
    // Where some points become the cart's, those are what the job needs.
    const bool some = std::any_of(file_.point.begin(), file_.point.end(),
                                  [](const SurveyedPoint& p) { return p.becomes.has_value(); });
    point.needed = !some || given.becomes;
  }

  const std::string& name(std::size_t point) const { return r_.survey.points[point].name; }
  // What a reading is called: its two ends, or a point and an axis.
  Words ends(std::size_t reading) const {
    const survey::ReadingOf& r = readings_[reading];
    static const char* axes[] = {"x", "y", "z"};
    if (!r.distance) return {{"axis", axes[r.axis]}, {"point", name(r.point)}, {"read", number(r.read)}};
    const survey::Distance& d = r_.survey.distances[*r.distance];
    return {{"from", name(d.from)}, {"to", name(d.to)}, {"read", number(r.read)}};
  }
  std::string of_kind(const std::string& code, std::size_t reading) const {
    return readings_[reading].distance ? code : code + "-coordinate";
  }
  static Words with(Words words, const Words& more) {
    words.insert(words.end(), more.begin(), more.end());
    return words;
  }

  void solved() {
    const survey::Solution& kept = r_.searched.kept;
    if (kept.outcome == survey::Outcome::not_converged) say(Outcome::stop, "survey-not-converged");
    for (std::size_t p = 0; p < kept.points.size(); ++p)
      if (kept.points[p].loose) say(Outcome::stop, "survey-loose", {{"point", name(p)}});
    if (!usable(kept.outcome)) return;
    if (!r_.searched.searched)
      say(Outcome::condition, "survey-cannot-tell",
          {{"redundancy", std::to_string(r_.searched.all.redundancy)},
           {"needed", std::to_string(survey::least_redundancy)}});
    // A spread that chance alone would give less than once in some hundred surveys.
    if (kept.redundancy > 0 && kept.sum_of_squares > kept.redundancy + 3.0 * std::sqrt(2.0 * kept.redundancy))
      say(Outcome::condition, "survey-spread", {{"times", one_decimal(kept.spread())}});
  }

  void misreads() {
    for (const survey::Misread& m : r_.searched.misread) {
      const bool longer = m.blunder.si() > 0.0;
      say(Outcome::condition, of_kind(longer ? "survey-misread-long" : "survey-misread-short", m.reading),
          with(ends(m.reading), {{"size", number(abs(m.blunder), m.u)}}));
      if (m.slip != survey::Slip::none) say(Outcome::condition, code_of(m.slip), ends(m.reading));
      for (std::size_t k = 0; k < std::min(most_asked, m.or_instead.size()); ++k)
        say(Outcome::condition, of_kind("survey-instead", m.or_instead[k]), ends(m.or_instead[k]));
    }
    for (std::size_t p = r_.datums; p < r_.searched.unsettled.size(); ++p)
      if (r_.searched.unsettled[p] > r_.wanted)
        say(Outcome::condition, "survey-unsettled", {{"point", name(p)}, {"move", number(r_.searched.unsettled[p])}}),
            settled_ = false;
  }

  static std::string code_of(survey::Slip slip) {
    switch (slip) {
      case survey::Slip::tape_hook:
        return "survey-slip-hook";
      case survey::Slip::half_inch:
        return "survey-slip-half-inch";
      case survey::Slip::inch:
        return "survey-slip-inch";
      case survey::Slip::two_inches:
        return "survey-slip-two-inches";
      case survey::Slip::ten_mm:
        return "survey-slip-10-mm";
      case survey::Slip::twenty_mm:
        return "survey-slip-20-mm";
      case survey::Slip::hundred_mm:
        return "survey-slip-100-mm";
      case survey::Slip::foot:
        return "survey-slip-foot";
      case survey::Slip::digits_exchanged:
        return "survey-slip-digits";
      case survey::Slip::none:
        break;
    }
    return "";
  }

  // Readings to look at again, and those that nothing checks.
  void doubtful() {
    const auto& checks = r_.searched.kept.readings;
    if (!usable(r_.searched.kept.outcome)) return;
    std::vector<std::size_t> off;
    std::vector<std::size_t> unchecked;
    for (std::size_t i = 0; i < checks.size(); ++i) {
      if (checks[i].left_out) continue;
      if (std::abs(checks[i].standardised) > worth_a_look) off.push_back(i);
      if (checks[i].redundancy < 0.1 && readings_[i].distance) unchecked.push_back(i);
    }
    std::sort(off.begin(), off.end(), [&](std::size_t a, std::size_t b) {
      return std::abs(checks[a].standardised) > std::abs(checks[b].standardised);
    });
    for (std::size_t k = 0; k < std::min(most_shown, off.size()); ++k)
      say(Outcome::note, of_kind("survey-off", off[k]),
          with(ends(off[k]), {{"size", number(abs(checks[off[k]].residual))},
                              {"times", one_decimal(std::abs(checks[off[k]].standardised))}}));
    std::sort(unchecked.begin(), unchecked.end(),
              [&](std::size_t a, std::size_t b) { return checks[a].redundancy < checks[b].redundancy; });
    for (std::size_t k = 0; k < std::min(most_shown, unchecked.size()); ++k) {
      const auto& seen = checks[unchecked[k]].least_seen;
      if (seen && *seen < 1.0 * units::metre)
        say(Outcome::note, "survey-hardly-checked", with(ends(unchecked[k]), {{"size", number(*seen)}}));
      else
        say(Outcome::note, "survey-not-checked", ends(unchecked[k]));
    }
    if (unchecked.size() > most_shown)
      say(Outcome::note, "survey-more-unchecked", {{"count", std::to_string(unchecked.size() - most_shown)}});
  }

  void mirrors() {
    for (std::size_t p = 0; p < r_.searched.points.size(); ++p) {
      const survey::PlacedPoint& placed = r_.searched.points[p];
      if (!placed.mirror) continue;
      const Words where = {{"point", name(p)},
                           {"x", number(placed.mirror->x)},
                           {"y", number(placed.mirror->y)},
                           {"z", number(placed.mirror->z)}};
      const bool told = placed.told_by != survey::MirrorToldBy::nothing;
      const char* code = placed.told_by == survey::MirrorToldBy::side    ? "survey-mirror-side"
                         : placed.told_by == survey::MirrorToldBy::near  ? "survey-mirror-near"
                         : placed.told_by == survey::MirrorToldBy::floor ? "survey-mirror-floor"
                                                                         : "survey-mirror";
      say(told ? Outcome::note : Outcome::condition, code, where);
      if (!told && r_.survey.points[p].needed) settled_ = false;
    }
  }

  void what_next() {
    if (!usable(r_.searched.kept.outcome)) return;
    const Length worst = worst_needed(r_.survey, r_.searched.points);
    const bool sure = worst <= r_.wanted;
    r_.enough = sure && settled_ && r_.searched.searched;
    if (r_.enough)
      return say(Outcome::note, "survey-enough", {{"wanted", number(r_.wanted)}, {"worst", number(worst)}});
    if (sure && r_.searched.searched) return;  // only what is in doubt is to be read again
    std::vector<std::size_t> left_out;
    for (const survey::Misread& m : r_.searched.misread) left_out.push_back(m.reading);
    r_.next = next_distances(r_.survey, r_.searched.kept, most_asked, r_.tape, left_out);
  }

  const SurveyFile& file_;
  SurveyReport r_;
  Length height_;
  std::map<std::string, std::size_t> number_;
  std::vector<survey::ReadingOf> readings_;
  bool settled_ = true;
};

}  // namespace

SurveyReport survey_report(const SurveyFile& file) { return Reporter(file).run(); }

}  // namespace trammel
