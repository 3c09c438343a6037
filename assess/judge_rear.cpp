#include <algorithm>
#include <cmath>

#include "assess/alignment_turn.h"
#include "assess/context.h"
#include "assess/rear_alignment.h"

namespace trammel {
namespace {

template <class Q>
AlignValue value(const setup::Estimate<Q>& e) {
  return {e.value.si(), e.u.si()};
}
const char* word(setup::RearVerdict v) {
  using enum setup::RearVerdict;
  return v == accept ? "accept" : v == adjust ? "adjust" : v == measure ? "measure" : "diagnose";
}
std::string word(setup::RearReason r, bool leaf_springs) {
  using enum setup::RearReason;
  switch (r) {
    case in_tolerance:
      return "rear-in-tolerance";
    case turning_helps:
      return "rear-turn";
    case reading_helps:
      return "rear-read-again";
    case never_read:
      return "rear-never-read";
    case turned_not_read:
      return "rear-turned-not-read";
    case cannot_be_decided:
      return "rear-cannot-be-decided";
    case no_adjuster:
      return leaf_springs ? "rear-no-adjuster-leaf" : "rear-no-adjuster";
    case housing_bent:
      return "rear-housing-bent";
  }
  return "rear-never-read";
}

// The effect of a turn that a person can see: whichever of the two it moves more, in its tolerance.
std::string effect_of(const setup::RearAdjuster& a, const setup::RearTask& task, double turns) {
  const double steer = turns * a.steer.si() / std::max(1e-6, task.thrust.half().si());
  const double shift = task.offset ? turns * a.shift.si() / std::max(1e-6, task.offset->half().si()) : 0.0;
  if (std::abs(steer) >= std::abs(shift)) return steer > 0.0 ? "@rear-points-left" : "@rear-points-right";
  return shift > 0.0 ? "@rear-moves-left" : "@rear-moves-right";
}

RearTurn told(const setup::RearTurn& turn, const JobRear& given) {
  const FittedAdjuster& a = given.adjusters[turn.adjuster];
  const double turns = turn.turns / units::turn;
  const bool threaded = a.thread_diameter.si() > 0.0, longer = turns > 0.0;
  AlignTurn t;
  t.turns = turns * a.part_turns;
  t.flats = threaded && a.kind != "rod end" ? turns * a.law.flats_per_turn : 0.0;
  t.stand = a.stand == Stand::in_front ? "in-front" : a.stand == Stand::left_side ? "left-side" : "right-side";
  if (a.face_when_longer) t.lettering = (*a.face_when_longer == setup::FaceMoves::up) == longer ? "up" : "down";
  const Length change = turns * a.per_turn;
  const Angle bolt = given.bolts[turn.adjuster];
  if (a.throw_) t.amount = number(Angle::from_si(std::asin(std::clamp(sin(bolt) + change / *a.throw_, -1.0, 1.0))));
  return {a.part,
          a.kind,
          t.turns,
          t.flats,
          change,
          turn_sentence(t, a, change, bolt, a.part, effect_of(given.task.adjusters[turn.adjuster], given.task, turns))};
}

// How it is read, for whoever has never done it; then what the tape shows once it is turned.
std::vector<Message> coach(const JobRear& given, const setup::RearAnswer& answer) {
  std::vector<Message> told;
  if (answer.reason == setup::RearReason::never_read)
    for (const char* code : {"rear-coach-settle", "rear-coach-strings", "rear-coach-lengths", "rear-coach-frame"})
      told.push_back({code, {}});
  const bool read = std::any_of(given.events.begin(), given.events.end(),
                                [](const auto& e) { return std::holds_alternative<setup::RearReading>(e); });
  if (read && !answer.offset_known) told.push_back({"rear-coach-offset", {}});
  if (!answer.expected) return told;
  const setup::RearReading& r = *answer.expected;
  const auto more = [&](const char* left, const char* right, Length difference) {
    told.push_back({difference.si() >= 0.0 ? left : right, {{"size", number(abs(difference))}}});
  };
  told.push_back({"rear-then-roll", {}});
  if (r.left_string)
    more("rear-watch-string-front", "rear-watch-string-rear", r.left_string->front - r.left_string->rear);
  if (r.left_length) more("rear-watch-left-longer", "rear-watch-right-longer", *r.left_length - *r.right_length);
  if (r.left_to_frame)
    more("rear-watch-left-further", "rear-watch-right-further", *r.left_to_frame - *r.right_to_frame);
  return told;
}

}  // namespace

void judge_rear(Context& c) {
  const auto given = job_rear(c.job, c.after, c.model_after);
  if (!given) return;
  const setup::RearAnswer answer = setup::align_rear(given->task, given->events);
  RearResult r;
  r.verdict = word(answer.verdict);
  r.thrust = value(answer.thrust);
  r.offset = value(answer.offset);
  r.offset_known = answer.offset_known;
  r.probability = answer.probability;
  r.probability_after = answer.probability_after;
  r.thrust_after = value(answer.thrust_after);
  r.offset_after = value(answer.offset_after);
  r.thrust_wanted = {given->task.thrust.low, given->task.thrust.high, {}};
  if (given->task.offset) r.offset_wanted = {given->task.offset->low, given->task.offset->high, {}};
  for (const setup::RearTurn& turn : answer.turns) r.turns.push_back(told(turn, *given));
  r.coach = coach(*given, answer);
  r.notes = given->notes;
  Message why{word(answer.reason, given->leaf_springs),
              {{"probability", share(answer.probability)},
               {"after", share(answer.probability_after)},
               {"wanted", share(given->task.accept_probability)},
               {"readings", std::to_string(answer.more_readings)},
               {"thrust", number(answer.thrust.value, answer.thrust.u)},
               {"toe", number(answer.toe.value, answer.toe.u)}}};
  r.why = why;

  Finding f;
  f.outcome = answer.verdict == setup::RearVerdict::accept     ? Outcome::met
              : answer.reason == setup::RearReason::never_read ? Outcome::note
                                                               : Outcome::condition;
  f.sense = Finding::Sense::at_least;
  f.subject = "rear axle";
  f.message = std::move(why);
  f.source = "JCGM 106:2012 8.3 (from memory)";
  f.basis = Basis::measured;
  if (answer.reason != setup::RearReason::never_read) {
    f.value = share(answer.probability);
    f.limit = share(given->task.accept_probability);
    f.margin = share(answer.probability - given->task.accept_probability);
  }
  c.add(std::move(f));
  c.out.rear = std::move(r);
}

}  // namespace trammel
