#include <fmt/core.h>

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
Json turn(const AlignTurn& t) {
  Json watch = Json::object();
  if (t.square_gap_after) {
    watch["square_gap_m"] = abs(*t.square_gap_after).si();
    watch["square_gap_at"] = t.square_gap_after->si() >= 0.0 ? "top" : "bottom";
  }
  if (t.over) watch["square_over_m"] = t.over->si();
  if (t.toe_after) watch["total_toe_m"] = t.toe_after->si();
  return {{"side", t.side},   {"adjuster", t.adjuster},   {"turns", t.turns},
          {"flats", t.flats}, {"direction", t.direction}, {"watch", std::move(watch)}};
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
  j["notes"] = Json::array();
  for (const Message& m : a.notes) j["notes"].push_back(json_of(m));
  return j;
}

Number angle(const AlignValue& v) { return {Kind::angle, v.value, v.u}; }
Number length(const AlignValue& v) { return {Kind::length, v.value, v.u}; }

void print_state(const Terminal& t, const AlignResult& a, const AlignState& s, const PrintStyle& style) {
  std::vector<std::vector<std::string>> rows;
  const auto wanted = [&](const Number& low, const Number& high) {
    return say("align-wanted", {{"low", low}, {"high", high}}, style);
  };
  const auto camber = wanted(number(a.camber_wanted.low), number(a.camber_wanted.high));
  rows.push_back({say("align-left-camber"), print(angle(s.left_camber), style), camber});
  rows.push_back({say("align-right-camber"), print(angle(s.right_camber), style), camber});
  rows.push_back({say("align-total-toe", {{"diameter", number(a.toe_diameter)}}, style),
                  print(length(s.total_toe), style),
                  wanted(number(a.total_toe_wanted.low), number(a.total_toe_wanted.high))});
  rows.push_back({say("align-toe-difference"), print(length(s.toe_difference), style),
                  wanted(number(a.toe_difference_wanted.low), number(a.toe_difference_wanted.high))});
  rows.push_back({say("align-steering-wheel"), print(angle(s.steering_wheel_angle), style), ""});
  fmt::print("{}", table(t, rows, 2));
}

// The adjuster's key as a part of a code: "upper_arm" is "upper-arm" there.
std::string dashed(std::string key) {
  for (char& c : key)
    if (c == '_') c = '-';
  return key;
}

// 4.25 flats as the hands count them: "4 1/4".
std::string flats(double value) {
  const int quarters = static_cast<int>(std::lround(4.0 * std::abs(value)));
  static const char* part[] = {"", "1/4", "1/2", "3/4"};
  std::string text = quarters / 4 || quarters == 0 ? std::to_string(quarters / 4) : "";
  if (quarters % 4) text += (text.empty() ? "" : " ") + std::string(part[quarters % 4]);
  return say(quarters <= 4 ? "flats-one" : "flats-many", {{"count", text}});
}

void print_turn(const Terminal& t, const AlignTurn& turned, const PrintStyle& style) {
  const std::string code = "turn-" + dashed(turned.adjuster) + "-" + turned.direction;
  std::string sentence = say(code,
                             {{"side", say("side-" + turned.side)},
                              {"flats", flats(turned.flats)},
                              {"turns", Number{Kind::turns, std::abs(turned.turns), {}}}},
                             style);
  if (turned.square_gap_after && turned.over && turned.adjuster == "upper_arm") {
    const bool top = turned.square_gap_after->si() >= 0.0;
    sentence += ". " + say(top ? "turn-watch-square-top" : "turn-watch-square-bottom",
                           {{"gap", number(abs(*turned.square_gap_after))}, {"over", number(*turned.over)}}, style);
  }
  if (turned.toe_after && turned.adjuster == "tie_rod")
    sentence += ". " + say("turn-watch-toe", {{"toe", number(*turned.toe_after)}}, style);
  fmt::print("  {}.\n", t.wrapped(sentence, 2, 4));
}

}  // namespace

int align(const Asked& asked) {
  const OpenedJob opened = open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  if (!opened.assessment->align) {
    fmt::print(stderr, "{}\n", say("align-not-here"));
    return 2;
  }
  const AlignResult& a = *opened.assessment->align;
  const int status = a.verdict == "diagnose" ? 1 : 0;
  if (asked.json) {
    print_json(document(a));
    return status;
  }

  const Terminal t;
  const PrintStyle style{asked.systems};
  fmt::print("{}\n\n", t.strong(say("align-verdict-" + a.verdict)));
  for (std::size_t i = 0; i < a.passes.size(); ++i) {
    fmt::print("{}\n",
               say("align-pass", {{"pass", std::to_string(i + 1)}, {"chance", share(a.passes[i].probability)}}));
    if (i + 1 == a.passes.size()) print_state(t, a, a.state, style);
    for (const AlignTurn& made : a.passes[i].turned)
      fmt::print("  {}\n", say("align-turned", {{"side", say("side-" + made.side)},
                                                {"part", say("part-" + dashed(made.adjuster))},
                                                {"flats", flats(made.flats)},
                                                {"direction", say("direction-" + made.direction)}}));
  }
  if (!a.turns.empty()) {
    fmt::print("\n{}\n", t.strong(say("align-now")));
    fmt::print("  {}\n", t.wrapped(say("align-before-turning"), 2, 4));
    for (const AlignTurn& now : a.turns) print_turn(t, now, style);
    fmt::print("  {}\n\n{}\n", t.wrapped(say("align-after-turning"), 2, 4), say("align-expected"));
    print_state(t, a, a.expected, style);
  }
  fmt::print("\n");
  for (const Message& m : a.notes) fmt::print("  {}.\n", t.wrapped(word(m, style), 2, 4));
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return status;
}

}  // namespace trammel::cli
