#include <fmt/core.h>

#include <algorithm>
#include <fstream>
#include <map>

#include "assess/survey_decisions.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

using survey::PlacedPoint;
using survey::ReadingOf;

// A place in one unit: "6.3 396.2 150.9 mm". Inches to a hundredth, since points do not stand on a tape's marks.
std::string place(const Vector3<Length>& p, bool inch) {
  const Length unit = inch ? units::inch : units::mm;
  const auto shown = [&](Length l) {
    const std::string text = fmt::format("{:.{}f}", l.in(unit), inch ? 2 : 1);
    return text.find_first_not_of("-0.") == std::string::npos && text[0] == '-' ? text.substr(1) : text;
  };
  return fmt::format("{} {} {} {}", shown(p.x), shown(p.y), shown(p.z), inch ? "in" : "mm");
}
std::string sure(Length u, bool inch) {
  return fmt::format("± {:.{}f} {}", u.in(inch ? units::inch : units::mm), inch ? 2 : 1, inch ? "in" : "mm");
}

std::string place_moved(const PlacedPoint& a, const PlacedPoint& b, bool inch) {
  const Length by = norm(a.at - b.at);
  return by < 0.05 * units::mm
             ? ""
             : fmt::format("{:.{}f} {}", by.in(inch ? units::inch : units::mm), inch ? 2 : 1, inch ? "in" : "mm");
}

Json vector(const Vector3<Length>& v) { return {v.x.si(), v.y.si(), v.z.si()}; }

const char* state_of(survey::Outcome o) {
  return o == survey::Outcome::solved ? "solved" : o == survey::Outcome::loose ? "loose" : "not converged";
}

Json json_of_reading(const SurveyReport& r, const ReadingOf& reading) {
  const auto& points = r.survey.points;
  static const char* axes[] = {"x", "y", "z"};
  if (!reading.distance) return {{"point", points[reading.point].name}, {"axis", axes[reading.axis]}};
  const survey::Distance& d = r.survey.distances[*reading.distance];
  return {{"from", points[d.from].name}, {"to", points[d.to].name}};
}

Json document(const SurveyFile& file, const SurveyReport& r) {
  const auto readings = readings_of(r.survey);
  const survey::Solution &all = r.searched.all, &kept = r.searched.kept;
  Json j = {{"survey", file.name.value},   {"outcome", state_of(kept.outcome)},
            {"enough", r.enough},          {"redundancy", kept.redundancy},
            {"spread", kept.spread()},     {"misreads_can_be_told", r.searched.searched},
            {"wanted_u_m", r.wanted.si()}, {"tape_u_m", r.tape.si()},
            {"points", Json::array()}};
  for (std::size_t p = 0; p < r.survey.points.size(); ++p) {
    const PlacedPoint &now = r.searched.points[p], &full = all.points[p];
    Json one = {{"name", r.survey.points[p].name},
                {"at_m", vector(now.at)},
                {"u_m", vector(now.u)},
                {"worst_u_m", now.worst_u.si()},
                {"basis", p < r.datums ? "measured" : "computed"}};
    if (now.loose) one["loose"] = true;
    if (r.becomes[p]) one["becomes"] = *r.becomes[p];
    if (!r.searched.misread.empty()) {
      one["with_all_readings"] = {{"at_m", vector(full.at)}, {"worst_u_m", full.worst_u.si()}};
      one["unsettled_m"] = r.searched.unsettled[p].si();
    }
    if (now.mirror) one["mirror_m"] = vector(*now.mirror);
    j["points"].push_back(std::move(one));
  }
  j["readings"] = Json::array();
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const survey::ReadingCheck& check = kept.readings[i];
    Json one = json_of_reading(r, readings[i]);
    one.update({{"read_m", readings[i].read.si()},
                {"u_m", readings[i].u.si()},
                {"residual_m", check.residual.si()},
                {"standardised", check.standardised},
                {"redundancy", check.redundancy},
                {"least_seen_m", check.least_seen ? Json(check.least_seen->si()) : Json(nullptr)},
                {"left_out", check.left_out}});
    j["readings"].push_back(std::move(one));
  }
  j["misreads"] = Json::array();
  for (const survey::Misread& m : r.searched.misread) {
    Json one = json_of_reading(r, readings[m.reading]);
    one.update({{"read_m", readings[m.reading].read.si()},
                {"too_much_m", m.blunder.si()},
                {"u_m", m.u.si()},
                {"or_instead", Json::array()}});
    for (const std::size_t other : m.or_instead) one["or_instead"].push_back(json_of_reading(r, readings[other]));
    j["misreads"].push_back(std::move(one));
  }
  j["next"] = Json::array();
  for (const survey::NextDistance& n : r.next)
    j["next"].push_back({{"from", r.survey.points[n.from].name},
                         {"to", r.survey.points[n.to].name},
                         {"again", n.again},
                         {"helps", r.survey.points[n.helps].name},
                         {"before_m", n.before.si()},
                         {"after_m", n.after.si()},
                         {"worst_after_m", n.worst_after.si()}});
  j["says"] = Json::array();
  for (const SurveySaying& s : r.says) {
    Json one = json_of(s.message);
    one["outcome"] = word_of(s.outcome);
    j["says"].push_back(std::move(one));
  }
  return j;
}

void print_points(const Terminal& t, const SurveyReport& r, bool inch) {
  const bool two = !r.searched.misread.empty();
  const survey::Solution &all = r.searched.all, &kept = r.searched.kept;
  std::vector<std::vector<std::string>> rows;
  rows.push_back({say("survey-column-point"), say("survey-column-place"), say("survey-column-sure")});
  if (two) rows.back().insert(rows.back().end(), {say("survey-column-all"), "", say("survey-column-moves")});
  for (std::size_t p = 0; p < kept.points.size(); ++p) {
    const PlacedPoint &now = r.searched.points[p], &full = all.points[p];
    const bool held = now.worst_u.si() == 0.0 && !now.loose;
    rows.push_back({r.survey.points[p].name, now.loose ? say("survey-not-held") : place(now.at, inch),
                    now.loose ? ""
                    : held    ? say("survey-held")
                              : sure(now.worst_u, inch)});
    if (two)
      rows.back().insert(rows.back().end(),
                         {place(full.at, inch), held ? "" : sure(full.worst_u, inch), place_moved(now, full, inch)});
  }
  fmt::print("{}", table(t, rows, 2));
}

std::string comment_of(const SurveyFile& file, const SurveyReport& r) {
  std::string text = "# " + say("survey-as-cart-from", {{"name", file.name.value}}) + "\n";
  for (const survey::Misread& m : r.searched.misread) {
    const ReadingOf reading = readings_of(r.survey)[m.reading];
    const std::string what = reading.distance
                                 ? r.survey.points[r.survey.distances[*reading.distance].from].name + ", " +
                                       r.survey.points[r.survey.distances[*reading.distance].to].name
                                 : r.survey.points[reading.point].name;
    text += "# " + say("survey-as-cart-left-out", {{"what", what}}) + "\n";
  }
  return text;
}

// The points that become the cart's, as its file has them: tables by their path, items of lists with their name. Empty
// where there are none.
std::string as_cart(const SurveyFile& file, const SurveyReport& r) {
  std::map<std::string, std::vector<std::string>> tables;
  std::vector<std::string> order;
  for (std::size_t p = 0; p < r.survey.points.size(); ++p) {
    if (!r.becomes[p] || r.searched.points[p].loose) continue;
    const std::string& path = *r.becomes[p];
    const std::size_t dot = path.rfind('.');
    std::string head = path.substr(0, dot);
    // "rear.link.track bar" is an item of the list rear.link.
    std::string line;
    for (const char* list : {"rear.link.", "front.link.", "body_point.", "mass.", "seat."})
      if (head.rfind(list, 0) == 0) {
        const std::string in = std::string(list).substr(0, std::string(list).size() - 1);
        const std::string item = head.substr(in.size() + 1);
        line = fmt::format("name = \"{}\"", item);
        head = fmt::format("[{}]#{}", in, item);
      }
    auto& lines = tables[head];
    if (lines.empty()) {
      order.push_back(head);
      if (!line.empty()) lines.push_back(line);
    }
    const PlacedPoint& placed = r.searched.points[p];
    lines.push_back(fmt::format("{} = {{ value = \"{} {}\", basis = \"measured\" }}", path.substr(dot + 1),
                                place(placed.at, false), sure(placed.worst_u, false)));
  }
  if (order.empty()) return {};
  std::string text = comment_of(file, r);
  for (const std::string& head : order) {
    text += fmt::format("[{}]\n", head.substr(0, head.find('#')));
    for (const std::string& line : tables[head]) text += line + "\n";
  }
  return text;
}

// Printed, or into a file that is not there yet.
int give_as_cart(const SurveyFile& file, const SurveyReport& r, const std::string& into) {
  const std::string text = as_cart(file, r);
  if (text.empty()) {
    fmt::print(stderr, "{}\n", say("survey-becomes-nothing"));
    return 1;
  }
  if (into.empty()) {
    fmt::print("{}", text);
    return 0;
  }
  const bool there = std::ifstream(into).good();
  const std::string why = there ? say("survey-file-there") : write_file(into, text);
  if (!why.empty()) {
    fmt::print(stderr, "{}\n", say("survey-not-written", {{"file", into}, {"why", why}}));
    return 2;
  }
  fmt::print("{}\n", say("survey-written", {{"file", into}}));
  return 0;
}

void print_for_job(const Terminal& t, const SurveyForJob& job, const PrintStyle& style) {
  fmt::print("\n{}\n", t.strong(say("survey-for-head")));
  if (job.decisions.empty()) fmt::print("  {}.\n", t.wrapped(say("survey-for-nothing"), 2, 2));
  for (const SurveyDecision& d : job.decisions)
    fmt::print("  {}: {}.\n", t.wrapped(word(d.what, style), 2, 4),
               say(d.settled ? "survey-decides-settled" : "survey-decides-open"));
  if (job.enough) fmt::print("  {}.\n", t.wrapped(say("survey-for-enough"), 2, 2));
  if (job.next) fmt::print("  {}.\n", t.wrapped(word(*job.next, style), 2, 4));
}

}  // namespace

int survey_points(const Asked& asked) {
  const OpenedSurvey opened = open_survey(asked.path);
  if (!opened.file.value) {
    fmt::print(stderr, "{}", render(opened.file.diagnostics));
    return 2;
  }
  const SurveyFile& file = *opened.file.value;
  const SurveyReport& r = *opened.report;
  // What cannot be used stops: points not held, or that hang on which reading is the misread one.
  const bool stops =
      std::any_of(r.says.begin(), r.says.end(), [](const SurveySaying& s) { return s.outcome == Outcome::stop; });
  const int status = stops ? 1 : 0;
  std::optional<SurveyForJob> job;
  if (!asked.for_job.empty()) {
    const Loaded<Job> named = read_kit_or_job(asked.for_job);
    if (!named.value) {
      fmt::print(stderr, "{}", render(named.diagnostics));
      return 2;
    }
    job = survey_for_job(r, *named.value);
  }
  if (asked.json) {
    Json j = document(file, r);
    if (job) {
      j["for_job"] = {{"enough", job->enough},
                      {"decisions", Json::array()},
                      {"next", job->next ? json_of(*job->next) : Json(nullptr)}};
      for (const SurveyDecision& d : job->decisions)
        j["for_job"]["decisions"].push_back({{"what", json_of(d.what)}, {"settled", d.settled}});
    }
    print_json(j);
    return status;
  }
  if ((asked.as_cart || !asked.folder.empty()) && !stops) return give_as_cart(file, r, asked.folder);

  const Terminal t;
  const PrintStyle style{asked.systems};
  const bool inch = asked.systems == Systems::inch;
  fmt::print("{}\n\n", t.strong(file.name.value));
  fmt::print("{}\n\n", say("survey-counts", {{"points", std::to_string(r.survey.points.size() - r.datums)},
                                             {"datums", std::to_string(r.datums)},
                                             {"distances", std::to_string(r.survey.distances.size())},
                                             {"more", std::to_string(r.searched.all.redundancy)}}));
  if (r.searched.kept.outcome != survey::Outcome::not_converged) print_points(t, r, inch);
  fmt::print("\n");
  for (const SurveySaying& s : r.says)
    fmt::print("  {}{}. [{}]\n", t.mark(s.outcome), t.wrapped(word(s.message, style), 16, 16), s.message.code);
  // What the job needs goes before what makes every point surer.
  if (!r.next.empty() && !(job && !job->decisions.empty())) {
    fmt::print("\n{}\n", t.strong(say("survey-next-head")));
    for (const survey::NextDistance& n : r.next)
      fmt::print("  {}\n", t.wrapped(say(n.again ? "survey-next-again" : "survey-next",
                                         {{"from", r.survey.points[n.from].name},
                                          {"to", r.survey.points[n.to].name},
                                          {"point", r.survey.points[n.helps].name},
                                          {"before", number(n.before)},
                                          {"after", number(n.after)}},
                                         {inch ? Systems::inch : Systems::metric}),
                                     2, 4));
  }
  if (job) print_for_job(t, *job, style);
  if (asked.as_cart || !asked.folder.empty()) fmt::print(stderr, "{}\n", say("survey-no-cart-yet"));
  return status;
}

}  // namespace trammel::cli
