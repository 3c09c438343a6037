#include "assess/alignment_coach.h"

#include <algorithm>
#include <cmath>

#include "assess/tyres.h"
#include "suspension/tyre/size.h"

namespace trammel {
namespace {

// From rim seat to rim lip, on the diameter: common practice, no source.
const Length lips_beyond_seat = 28.0 * units::mm;

std::string times(int n) { return "@times-" + std::to_string(std::min(n, 5)); }

// On a rolled stop the wheels are turned half round between; while turning the cart must not move.
void how_often(std::vector<Message>& told, const setup::NextStep& next, bool standing) {
  const auto read = [&](std::string code, int n) {
    if (n == 0) return;
    code += standing ? "-standing" : n == 1 ? "-once" : "";
    told.push_back({std::move(code), {{"times", times(n)}}});
  };
  read("coach-read-cambers", next.cambers);
  read("coach-read-toe", next.toe);
  if (next.strings > 0) told.push_back({"coach-read-strings", {{"times", times(next.strings)}}});
}

bool any_reading(const JobAlignment& given, bool (*is)(const setup::Reading&)) {
  return std::any_of(given.events.begin(), given.events.end(), [&](const setup::Event& e) {
    const auto* r = std::get_if<setup::Reading>(&e);
    return r && is(*r);
  });
}

}  // namespace

std::vector<Message> reading_coach(const Job& job, const Cart& cart, const JobAlignment& given,
                                   const setup::Answer& answer) {
  std::vector<Message> told;
  const bool first = given.events.empty();
  const auto say = [&](const char* code, std::vector<std::pair<std::string, Argument>> arguments = {}) {
    told.push_back({code, std::move(arguments)});
  };

  // Before the first reading: what would spoil every one after it.
  if (first) {
    say("coach-ballast", {{"mass", job.person ? number(job.person->value) : number(85.0 * units::kg)}});
    if (cart.front->tyre && cart.front->tyre->pressure)
      say("coach-pressure-known", {{"pressure", number(cart.front->tyre->pressure->value)}});
    else
      say("coach-pressures");
    say("coach-settle");
    const auto tyre = tyre_model(cart.front, "front");
    const auto size = suspension::read_tyre(cart.front->tyre ? cart.front->tyre->size.value : "");
    if (const auto* known = std::get_if<suspension::TyreSize>(&size))
      say("coach-lips-base", {{"base", number(known->rim_diameter + lips_beyond_seat)}});
    else
      say("coach-lips");
    const Length height = cart.front->loaded_radius ? cart.front->loaded_radius->value : Length{};
    if (height.si() > 0.0 && tyre)
      say("coach-tape-at", {{"height", number(height)}, {"diameter", number(2.0 * tyre->radius)}});
    else
      say("coach-tape");
    say("coach-steering-wheel");
    say("coach-run-out");
    say("coach-floor");
    if (given.beam) say("coach-beam");
    say("coach-write");
    if (given.floor == setup::Floor::bare && !given.adjusters.empty()) say("coach-slip-plates");
    return told;
  }

  // At a stop: how often each is read.
  if (answer.verdict == setup::Verdict::measure && answer.next.what == setup::Do::read)
    how_often(told, answer.next, false);
  if (any_reading(given, [](const setup::Reading& r) { return r.square_touches == setup::SquareTouches::sidewall; }))
    say("coach-lips");
  if (any_reading(given, [](const setup::Reading& r) {
        return (r.left_camber_gauge || r.right_camber_gauge) && !r.floor_slope;
      }))
    say("coach-floor");
  return told;
}

std::vector<Message> turning_coach(const JobAlignment& given, const setup::Answer& answer) {
  std::vector<Message> told;
  if (answer.turns.empty()) return told;
  const auto fitted = [&](const setup::PrescribedTurn& t) {
    return std::find_if(given.adjusters.begin(), given.adjusters.end(),
                        [&](const FittedAdjuster& a) { return a.law.side == t.side && a.law.name == t.adjuster; });
  };
  bool threaded = false, rods = false, hand_unknown = false, bolted = false;
  Length thickest{};
  for (const auto& t : answer.turns) {
    const auto a = fitted(t);
    if (a == given.adjusters.end()) continue;
    const bool thread = a->thread_diameter.si() > 0.0;
    threaded |= thread;
    bolted |= !thread;
    rods |= thread && (a->part == "tie_rod" || a->part == "drag_link");
    hand_unknown |= thread && !a->face_when_longer;
    thickest = std::max(thickest, a->thread_diameter);
  }
  const auto say = [&](const char* code, std::vector<std::pair<std::string, Argument>> arguments = {}) {
    told.push_back({code, std::move(arguments)});
  };
  say("handling-clamp");
  if (threaded) say(hand_unknown ? "handling-mark-test" : "handling-mark");
  if (bolted) say("handling-bolted");
  if (rods) say("handling-rods");
  if (threaded) say("handling-engagement", {{"least", number(thickest)}});
  if (given.floor == setup::Floor::plates) say("handling-plates");
  if (answer.next.what == setup::Do::read_while_turning) {
    say("handling-read-before-roll");
    how_often(told, answer.next, true);
  } else {
    say("handling-jam-and-roll");
  }
  return told;
}

bool comes_after(const Message& m) {
  return m.code == "handling-jam-and-roll" || m.code == "handling-rods" || m.code == "handling-read-before-roll" ||
         m.code.starts_with("coach-read");
}

}  // namespace trammel
