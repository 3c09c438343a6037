#include "assess/alignment_turn.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace trammel {
namespace {

using Arguments = std::vector<std::pair<std::string, Argument>>;

std::string dashed(std::string key) {
  std::replace(key.begin(), key.end(), '_', '-');
  return key;
}

const char* side_of(const FittedAdjuster& a) {
  return a.both_sides ? "both" : a.law.side == setup::Side::left ? "left" : "right";
}

const char* word(Stand s) {
  switch (s) {
    case Stand::in_front:
      return "in-front";
    case Stand::behind:
      return "behind";
    case Stand::left_side:
      return "left-side";
    case Stand::right_side:
      return "right-side";
  }
  return "in-front";
}
const char* word(setup::FaceMoves f) { return f == setup::FaceMoves::up ? "up" : "down"; }

// 4.25 as the hands count it: "4 1/4".
std::string counted(double value) {
  const long quarters = std::lround(4.0 * std::abs(value));
  static constexpr std::array<const char*, 4> part = {"", "1/4", "1/2", "3/4"};
  std::string text = quarters / 4 || quarters == 0 ? std::to_string(quarters / 4) : "";
  if (quarters % 4) text += (text.empty() ? "" : " ") + std::string(part[quarters % 4]);
  return text;
}

// "@unit-flat" up to one of them.
std::string unit_for(const std::string& one, double count) {
  return "@unit-" + one + (std::abs(count) > 1.01 ? "s" : "");
}

// What the wheel does: the effect that this adjuster is for.
std::string effect_of(const FittedAdjuster& a, bool longer) {
  const double sign = longer ? 1.0 : -1.0, toe = sign * a.law.own.toe.si(), camber = sign * a.law.own.camber.si();
  if (a.part == "drag_link") return (a.law.side == setup::Side::left) == (toe < 0.0) ? "@moves-left" : "@moves-right";
  if (a.both_sides) return toe > 0.0 ? "@moves-fronts-in" : "@moves-fronts-out";
  if (a.part == "tie_rod") return toe > 0.0 ? "@moves-front-in" : "@moves-front-out";
  return camber > 0.0 ? "@moves-top-out" : "@moves-top-in";
}

std::string length_of(const FittedAdjuster& a, bool longer) {
  const char* what = a.part == "tie_rod" ? "rod" : a.part == "drag_link" || a.link ? "link" : "arm";
  return std::string("@gets-") + (longer ? "longer-" : "shorter-") + what;
}

// The gap at the square counted positive at the top.
Length top_gap(const setup::SquareGap& g) { return g.at == setup::GapAt::top ? g.gap : -g.gap; }

Message square_message(const char* code, Length top, Length over) {
  const bool at_top = top.si() >= 0.0;
  return {std::string(code) + (at_top ? "-top" : "-bottom"), {{"gap", number(abs(top))}, {"over", number(over)}}};
}
Message tape_message(const char* code, Length toe) {
  return {std::string(code) + (toe.si() >= 0.0 ? "in" : "out"), {{"toe", number(abs(toe))}}};
}

}  // namespace

Message turn_sentence(const AlignTurn& t, const FittedAdjuster& a, Length change, Angle bolt, std::string part,
                      std::string effect) {
  const bool longer = change.si() > 0.0;
  Arguments words = {{"part", std::move(part)},
                     {"count", counted(t.flats)},
                     {"unit", unit_for("flat", t.flats)},
                     {"turns", Number{Kind::turns, std::abs(t.turns), {}}},
                     {"change", number(abs(change))},
                     {"way", std::string("@way-") + t.lettering},
                     {"stand", std::string("@stand-") + t.stand},
                     {"longer", length_of(a, longer)},
                     {"inout", longer ? "@outward" : "@inward"},
                     {"effect", std::move(effect)}};
  const auto set = [&](const char* name, const Argument& value) {
    for (auto& [n, v] : words)
      if (n == name) v = value;
  };
  if (a.kind == "rod end") return {"turn-rod-end", std::move(words)};
  if (a.kind == "both-hand sleeve" || a.kind == "sleeve and rod end") {
    const std::string what = a.kind == "both-hand sleeve" ? "turn-sleeve" : "turn-rod";
    return {t.lettering.empty() ? what + "-hand-unknown" : what, std::move(words)};
  }
  if (a.kind == "eccentric bolt") {
    words.emplace_back("from", number(abs(bolt)));
    const auto side = [&](double angle) {
      return a.link ? (angle < 0.0 ? "@towards-shorter" : "@towards-longer") : angle < 0.0 ? "@inward" : "@outward";
    };
    words.emplace_back("from_side", side(bolt.si()));
    words.emplace_back("to", Number{Kind::angle, std::abs(t.amount->si), {}});
    words.emplace_back("to_side", side(t.amount->si));
    const std::string from = abs(bolt) < 0.5 * units::degree ? "-middle" : "";
    return {(a.link ? "turn-eccentric-link" : "turn-eccentric") + from, std::move(words)};
  }
  if (a.kind == "slot" && a.link) return {"turn-slot-link", std::move(words)};
  if (a.kind == "slot") return {a.part == "strut_top" ? "turn-slot-top" : "turn-slot", std::move(words)};
  const double steps = std::round(std::abs(change.si()) / a.step->si());
  set("count", counted(steps));
  set("unit", unit_for(a.kind == "holes" ? "hole" : "shim", steps));
  if (a.link) return {"turn-steps-link", std::move(words)};
  return {a.kind == "holes" ? "turn-holes" : "turn-shims", std::move(words)};
}

std::string key_of(const FittedAdjuster& a) { return a.both_sides ? a.part : std::string(side_of(a)) + "_" + a.part; }

AlignTurn align_turn(const setup::PrescribedTurn& turn, const FittedAdjuster& a, Angle bolt,
                     const JobAlignment& given) {
  AlignTurn t;
  const double law_turns = turn.turns / units::turn;
  const Length change = law_turns * a.per_turn;
  const bool threaded = a.thread_diameter.si() > 0.0, longer = law_turns > 0.0;
  t.side = side_of(a);
  t.adjuster = a.part;
  t.kind = a.kind;
  t.turns = law_turns * a.part_turns;
  t.flats_per_turn = a.law.flats_per_turn;
  t.flats = threaded && a.kind != "rod end" ? turn.flats : 0.0;
  t.direction = longer ? "longer" : "shorter";
  t.stand = word(a.stand);
  if (a.face_when_longer) {
    const bool up = (*a.face_when_longer == setup::FaceMoves::up) == longer;
    t.lettering = word(up ? setup::FaceMoves::up : setup::FaceMoves::down);
  }
  if (a.throw_)
    t.amount = number(Angle::from_si(std::asin(std::clamp(sin(bolt) + change / *a.throw_, -1.0, 1.0))));
  else if (!threaded)
    t.amount = number(change);

  // What square and tape show after it, and while the wheels still stand on their plates.
  const setup::Watch& w = turn.watch;
  t.square_gap_after = top_gap(w.gap);
  t.over = w.gap.over;
  t.toe_after = w.total_toe.value;
  if (given.floor == setup::Floor::plates) {
    t.gap_at_stop = top_gap(w.gap_while_turning);
    t.toe_at_stop = w.total_toe_while_turning.value;
  }
  t.sentence = turn_sentence(t, a, change, bolt, "@part-" + std::string(side_of(a)) + "-" + dashed(a.part),
                             effect_of(a, longer));

  // One flat's worth, as a test of the hand: which way the lettering moves when the part gets longer is asked.
  const bool by_camber = a.part == "upper_arm" || a.part == "lower_arm" || a.part == "strut_top";
  const double flat = a.kind == "rod end" ? 0.5 / a.part_turns : 1.0 / a.law.flats_per_turn;
  t.gap_a_flat = -tan(a.law.own.camber * flat) * w.gap.over;
  t.toe_a_flat = setup::toe_length((a.law.own.toe + a.law.other.toe) * flat, given.task.toe_diameter);
  if (threaded && t.lettering.empty()) {
    const Length shown = by_camber ? *t.gap_a_flat : *t.toe_a_flat;
    const bool grows = shown.si() > 0.0;
    std::string code = by_camber ? (grows ? "turn-test-gap-opens" : "turn-test-gap-closes")
                                 : (grows ? "turn-test-toe-grows" : "turn-test-toe-falls");
    t.checks.push_back({std::move(code),
                        {{"stand", std::string("@stand-") + t.stand},
                         {"longer", length_of(a, true)},
                         {"size", number(abs(shown))},
                         {"if_longer_do", longer ? "@test-go-on" : "@test-turn-back"},
                         {"if_shorter_do", longer ? "@test-turn-back" : "@test-go-on"},
                         {"if_longer", a.right_hand_if_up_is_longer},
                         {"if_shorter", a.right_hand_if_up_is_shorter}}});
  }
  if (by_camber)
    t.checks.push_back(square_message("turn-watch-square", *t.square_gap_after, *t.over));
  else if (a.part == "tie_rod")
    t.checks.push_back(tape_message("turn-watch-toe-", *t.toe_after));
  if (t.gap_at_stop && by_camber) t.checks.push_back(square_message("turn-stop-square", *t.gap_at_stop, *t.over));
  if (t.toe_at_stop && a.part == "tie_rod") t.checks.push_back(tape_message("turn-stop-toe-", *t.toe_at_stop));
  if (turn.at_limit) t.checks.push_back({"turn-at-limit", {{"longer", length_of(a, longer)}}});
  return t;
}

AlignTurn made_turn(const setup::Turn& turn, const JobAlignment& given) {
  AlignTurn t;
  t.adjuster = turn.adjuster;
  t.side = turn.side == setup::Side::left ? "left" : "right";
  t.turns = turn.turns / units::turn;
  t.direction = t.turns > 0.0 ? "longer" : "shorter";
  for (const FittedAdjuster& a : given.adjusters)
    if (a.law.side == turn.side && a.law.name == turn.adjuster) {
      const bool threaded = a.thread_diameter.si() > 0.0;
      t.side = side_of(a);
      t.kind = a.kind;
      t.flats_per_turn = a.law.flats_per_turn;
      t.flats = threaded && a.kind != "rod end" ? t.turns * a.law.flats_per_turn : 0.0;
      const Length change = t.turns * a.per_turn;
      t.turns *= a.part_turns;
      if (!threaded) t.amount = number(change);
      Arguments words = {{"part", "@part-" + std::string(side_of(a)) + "-" + dashed(a.part)},
                         {"count", counted(t.flats)},
                         {"unit", unit_for("flat", t.flats)},
                         {"turns", Number{Kind::turns, std::abs(t.turns), {}}},
                         {"change", number(abs(change))},
                         {"direction", "@direction-" + t.direction}};
      t.sentence = {t.flats != 0.0 ? "turned-flats" : threaded ? "turned-turns" : "turned-change", std::move(words)};
    }
  return t;
}

}  // namespace trammel
