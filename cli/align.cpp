#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

constexpr double degrees = 180.0 / std::numbers::pi;

Json in_degrees(const AlignValue& v) { return {{"value", v.value * degrees}, {"u", v.u * degrees}}; }
Json in_metres(const AlignValue& v) { return {{"value", v.value}, {"u", v.u}}; }
Json state(const AlignState& s) {
  return {{"left_camber_deg", in_degrees(s.left_camber)},
          {"right_camber_deg", in_degrees(s.right_camber)},
          {"total_toe_m", in_metres(s.total_toe)},
          {"toe_difference_m", in_metres(s.toe_difference)},
          {"steering_wheel_angle_deg", in_degrees(s.steering_wheel_angle)}};
}
Json texts(const std::vector<Message>& messages) {
  Json list = Json::array();
  for (const Message& m : messages) list.push_back(json_of(m));
  return list;
}
Json turn(const AlignTurn& t) {
  Json watch = Json::object();
  if (t.square_gap_after) {
    watch["square_gap_m"] = abs(*t.square_gap_after).si();
    watch["square_gap_at"] = t.square_gap_after->si() >= 0.0 ? "top" : "bottom";
  }
  if (t.over) watch["square_over_m"] = t.over->si();
  if (t.toe_after) watch["total_toe_m"] = t.toe_after->si();
  if (t.gap_at_stop) watch["square_gap_top_at_stop_m"] = t.gap_at_stop->si();
  if (t.toe_at_stop) watch["total_toe_at_stop_m"] = t.toe_at_stop->si();
  return {{"side", t.side},           {"adjuster", t.adjuster},   {"turns", t.turns},
          {"flats", t.flats},         {"direction", t.direction}, {"watch", std::move(watch)},
          {"kind", t.kind},           {"lettering", t.lettering}, {"seen_from", t.stand},
          {"text", word(t.sentence)}, {"checks", texts(t.checks)}};
}
Json document(const AlignResult& a) {
  Json j = {{"verdict", a.verdict},
            {"state", state(a.state)},
            {"probability_in_tolerance", a.probability},
            {"turns", Json::array()}};
  for (const AlignTurn& t : a.turns) j["turns"].push_back(turn(t));
  j["after"] = {{"expected", state(a.expected)}, {"probability_in_tolerance", a.probability_after}};
  j["more_readings"] = a.more_readings;
  j["toe_diameter_m"] = a.toe_diameter.si();
  j["why"] = json_of(a.why);
  j["coach"] = texts(a.coach);
  j["handling"] = texts(a.handling);
  j["notes"] = texts(a.notes);
  j["suspects"] = Json::array();
  for (const AlignSuspect& s : a.suspects)
    j["suspects"].push_back({{"cause", json_of(s.cause)},
                             {"share", s.share},
                             {"test", json_of(s.test)},
                             {"otherwise", s.otherwise.code.empty() ? Json(nullptr) : json_of(s.otherwise)}});
  j["caster"] = Json::array();
  for (const AlignCaster& c : a.caster) {
    Json one = {{"side", c.side}, {"found", c.found}};
    if (c.found)
      one.update({{"caster_deg", in_degrees(c.caster)},
                  {"inclination_deg", in_degrees(c.inclination)},
                  {"by_rule_of_thumb_deg", c.rule_of_thumb * degrees}});
    if (c.by_geometry) one["by_geometry_deg"] = *c.by_geometry * degrees;
    j["caster"].push_back(std::move(one));
  }
  return j;
}

Json document(const RearResult& r) {
  Json j = {{"verdict", r.verdict},
            {"thrust_deg", in_degrees(r.thrust)},
            {"offset_m", r.offset_known ? in_metres(r.offset) : Json(nullptr)},
            {"probability_in_tolerance", r.probability},
            {"turns", Json::array()},
            {"after",
             {{"thrust_deg", in_degrees(r.thrust_after)},
              {"offset_m", r.offset_known ? in_metres(r.offset_after) : Json(nullptr)},
              {"probability_in_tolerance", r.probability_after}}},
            {"why", json_of(r.why)},
            {"coach", texts(r.coach)},
            {"notes", texts(r.notes)}};
  for (const RearTurn& t : r.turns)
    j["turns"].push_back({{"link", t.link},
                          {"kind", t.kind},
                          {"turns", t.turns},
                          {"flats", t.flats},
                          {"change_m", t.change.si()},
                          {"text", word(t.sentence)}});
  return j;
}

Number angle(const AlignValue& v) { return {Kind::angle, v.value, v.u}; }
Number length(const AlignValue& v) { return {Kind::length, v.value, v.u}; }

void print_state(const Terminal& t, const AlignResult& a, const AlignState& s, const PrintStyle& style) {
  std::vector<std::vector<std::string>> rows;
  const auto wanted = [&](const Number& low, const Number& high) {
    return say("align-wanted", {{"low", low}, {"high", high}}, style);
  };
  const auto camber = a.wants_camber ? wanted(number(a.camber_wanted.low), number(a.camber_wanted.high)) : "";
  rows.push_back({say("align-left-camber"), print(angle(s.left_camber), style), camber});
  rows.push_back({say("align-right-camber"), print(angle(s.right_camber), style), camber});
  rows.push_back({say("align-total-toe", {{"diameter", number(a.toe_diameter)}}, style),
                  print(length(s.total_toe), style),
                  wanted(number(a.total_toe_wanted.low), number(a.total_toe_wanted.high))});
  if (a.wants_difference) {
    rows.push_back({say("align-toe-difference"), print(length(s.toe_difference), style),
                    wanted(number(a.toe_difference_wanted.low), number(a.toe_difference_wanted.high))});
    rows.push_back({say("align-steering-wheel"), print(angle(s.steering_wheel_angle), style), ""});
  }
  fmt::print("{}", table(t, rows, 2));
}

void print_list(const Terminal& t, const std::vector<Message>& messages, const PrintStyle& style) {
  for (const Message& m : messages) fmt::print("  {}.\n", t.wrapped(word(m, style), 2, 4));
}

void print_turns(const Terminal& t, const AlignResult& a, const PrintStyle& style) {
  std::vector<Message> before, after;
  for (const Message& m : a.handling) (comes_after(m) ? after : before).push_back(m);
  fmt::print("\n{}\n", t.strong(say("align-before")));
  print_list(t, before, style);
  fmt::print("\n{}\n", t.strong(say("align-now")));
  int number = 1;
  for (const AlignTurn& now : a.turns) {
    fmt::print("  {} {}.\n", number++, t.wrapped(word(now.sentence, style), 4, 4));
    for (const Message& check : now.checks) fmt::print("    {}.\n", t.wrapped(word(check, style), 4, 6));
  }
  fmt::print("\n{}\n", t.strong(say("align-then")));
  print_list(t, after, style);
  fmt::print("\n{}\n", say("align-expected"));
  print_state(t, a, a.expected, style);
}

void print_caster(const Terminal& t, const std::vector<AlignCaster>& all, const PrintStyle& style) {
  for (const AlignCaster& c : all) {
    if (!c.found) {
      fmt::print("  {}.\n", t.wrapped(say("caster-not-found", {{"side", say("side-" + c.side)}}), 2, 4));
      continue;
    }
    std::string line = say("caster-found",
                           {{"side", say("side-" + c.side)},
                            {"caster", angle(c.caster)},
                            {"inclination", angle(c.inclination)},
                            {"rule", Number{Kind::angle, c.rule_of_thumb, {}}}},
                           style);
    if (c.by_geometry) line += say("caster-by-geometry", {{"caster", Number{Kind::angle, *c.by_geometry, {}}}}, style);
    fmt::print("  {}.\n", t.wrapped(line, 2, 4));
  }
}

void print_rear(const Terminal& t, const RearResult& r, const PrintStyle& style) {
  fmt::print("\n{}\n", t.strong(say("align-rear")));
  const auto wanted = [&](const Number& low, const Number& high) {
    return say("align-wanted", {{"low", low}, {"high", high}}, style);
  };
  const auto state = [&](const AlignValue& thrust, const AlignValue& offset) {
    std::vector<std::vector<std::string>> rows = {{say("align-thrust"), print(angle(thrust), style),
                                                   wanted(number(r.thrust_wanted.low), number(r.thrust_wanted.high))}};
    if (r.offset_known)
      rows.push_back({say("align-rear-offset"), print(length(offset), style),
                      wanted(number(r.offset_wanted.low), number(r.offset_wanted.high))});
    fmt::print("{}", table(t, rows, 2));
  };
  if (r.why.code != "rear-never-read") state(r.thrust, r.offset);
  fmt::print("  {}.\n", t.wrapped(word(r.why, style), 2, 2));
  if (r.verdict == "diagnose") fmt::print("  {}\n", t.wrapped(help_text(r.why), 2, 2));
  int number = 1;
  for (const RearTurn& turn : r.turns) fmt::print("  {} {}.\n", number++, t.wrapped(word(turn.sentence, style), 4, 4));
  print_list(t, r.coach, style);
  if (!r.turns.empty()) {
    fmt::print("  {}\n", say("align-expected"));
    state(r.thrust_after, r.offset_after);
  }
  print_list(t, r.notes, style);
}

}  // namespace

int align(const Asked& asked) {
  const OpenedJob opened = open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  const auto& rear = opened.assessment->rear;
  const bool rear_stops = rear && rear->verdict == "diagnose";
  if (!opened.assessment->align && rear) {
    if (asked.json) {
      print_json({{"rear", document(*rear)}});
    } else {
      print_rear(Terminal(), *rear, PrintStyle{asked.systems});
      fmt::print("\n{}\n", Terminal().wrapped(say("sheet-standing"), 0, 0));
    }
    return rear_stops ? 1 : 0;
  }
  if (!opened.assessment->align) {
    fmt::print(stderr, "{}\n", say("align-not-here"));
    return 2;
  }
  const AlignResult& a = *opened.assessment->align;
  const int status = a.verdict == "diagnose" || rear_stops ? 1 : 0;
  if (asked.json) {
    Json j = document(a);
    if (rear) j["rear"] = document(*rear);
    print_json(j);
    return status;
  }

  const Terminal t;
  const PrintStyle style{asked.systems};
  fmt::print("{}\n\n", t.strong(say(a.passes.empty() && a.verdict == "measure" ? "align-verdict-first"
                                                                               : "align-verdict-" + a.verdict)));
  for (std::size_t i = 0; i < a.passes.size(); ++i) {
    const AlignPass& pass = a.passes[i];
    fmt::print("{}\n", say(pass.while_turning ? "align-stop-turning" : "align-stop",
                           {{"stop", std::to_string(i + 1)}, {"chance", share(pass.probability)}}));
    if (i + 1 == a.passes.size()) print_state(t, a, a.state, style);
    for (const AlignTurn& made : pass.turned) fmt::print("  {}\n", word(made.sentence, style));
  }
  fmt::print("{}{}.\n", a.passes.empty() ? "" : "\n", t.wrapped(word(a.why, style), 0, 0));
  if (!a.coach.empty()) fmt::print("\n{}\n", t.strong(say(a.passes.empty() ? "align-coach" : "align-at-this-stop")));
  print_list(t, a.coach, style);
  if (!a.turns.empty()) print_turns(t, a, style);
  if (!a.suspects.empty()) fmt::print("\n{}\n", t.strong(say("align-look-for")));
  for (std::size_t i = 0; i < std::min<std::size_t>(a.suspects.size(), 4); ++i) {
    const AlignSuspect& s = a.suspects[i];
    fmt::print("  {} {}.\n    {}.\n", i + 1, t.wrapped(word(s.cause, style), 4, 4),
               t.wrapped(word(s.test, style), 4, 4));
    if (!s.otherwise.code.empty()) fmt::print("    {}.\n", t.wrapped(word(s.otherwise, style), 4, 4));
  }
  if (!a.caster.empty()) fmt::print("\n{}\n", t.strong(say("align-caster")));
  print_caster(t, a.caster, style);
  if (!a.notes.empty()) fmt::print("\n{}\n", t.strong(say("align-notes")));
  print_list(t, a.notes, style);
  if (rear) print_rear(t, *rear, style);
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return status;
}

}  // namespace trammel::cli
