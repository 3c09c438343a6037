#include <algorithm>
#include <cmath>

#include "assess/alignment_coach.h"
#include "assess/alignment_task.h"
#include "assess/alignment_turn.h"
#include "assess/context.h"
#include "assess/standing.h"
#include "job/overlay.h"
#include "setup/caster.h"
#include "setup/verdict.h"

namespace trammel {
namespace {

// A chance as it is said: what rounds to certainty is not certain.
Number chance(double probability) { return share(std::min(probability, 0.99)); }

template <class Q>
AlignValue value(const setup::Estimate<Q>& e) {
  return {e.value.si(), e.u.si()};
}
AlignState state(const setup::AlignmentState& s) {
  return {value(s.left_camber), value(s.right_camber), value(s.total_toe), value(s.toe_difference),
          value(s.steering_wheel_angle)};
}
const char* word(setup::Verdict v) {
  switch (v) {
    case setup::Verdict::accept:
      return "accept";
    case setup::Verdict::adjust:
      return "adjust";
    case setup::Verdict::measure:
      return "measure";
    case setup::Verdict::diagnose:
      return "diagnose";
  }
  return "measure";
}
const char* word(setup::Reason r) {
  using enum setup::Reason;
  switch (r) {
    case in_tolerance:
      return "align-in-tolerance";
    case turning_helps:
      return "align-turn";
    case reading_helps:
      return "align-read-again";
    case reading_in_doubt:
      return "align-reading-in-doubt";
    case never_read:
      return "align-never-read";
    case cannot_be_decided_with_these_instruments:
      return "align-cannot-be-decided";
    case touch_up:
      return "align-touch-up";
    case jam_roll_and_read:
      return "align-jam-roll-and-read";
    case no_adjuster:
      return "align-no-adjuster";
    case adjuster_out_of_range:
      return "align-adjuster-out-of-range";
  }
  return "align-never-read";
}
const char* word(setup::Aspect a) {
  switch (a) {
    case setup::Aspect::left_camber:
      return "@aspect-left-camber";
    case setup::Aspect::right_camber:
      return "@aspect-right-camber";
    case setup::Aspect::total_toe:
      return "@aspect-total-toe";
    case setup::Aspect::toe_difference:
      return "@aspect-toe-difference";
  }
  return "";
}
std::string joined(const std::vector<setup::Aspect>& aspects) {
  std::string all;
  for (const setup::Aspect a : aspects) all += (all.empty() ? "" : ", ") + std::string(word(a));
  return all;
}
const char* word(setup::ReadingItem item) {
  using enum setup::ReadingItem;
  switch (item) {
    case left_camber:
      return "@aspect-left-camber";
    case right_camber:
      return "@aspect-right-camber";
    case total_toe:
      return "@aspect-total-toe";
    case left_string:
      return "@aspect-left-string";
    case right_string:
      return "@aspect-right-string";
    case steering_wheel_angle:
      return "@aspect-steering-wheel";
  }
  return "";
}
const char* word(setup::Cause cause) {
  using enum setup::Cause;
  switch (cause) {
    case bent_part:
      return "bent-part";
    case worn_joint:
      return "worn-joint";
    case sagged_spring:
      return "sagged-spring";
    case wrong_part:
      return "wrong-part";
    case swapped_arms:
      return "swapped-arms";
    case reversed_block:
      return "reversed-block";
    case rack_not_centred:
      return "rack-not-centred";
    case adjuster_out_of_range:
      return "adjuster-out-of-range";
  }
  return "bent-part";
}
const char* word(setup::Where where) {
  return where == setup::Where::both ? "@where-both" : where == setup::Where::left ? "@where-left" : "@where-right";
}
const char* likely(double share) {
  return share > 0.9    ? "@likely-almost-surely"
         : share > 0.66 ? "@likely-probably"
         : share > 0.33 ? "@likely-perhaps"
         : share > 0.1  ? "@likely-less"
                        : "@likely-hardly";
}
// A cause with the test that tells it from the next one.
AlignSuspect told(const std::vector<setup::Suspect>& ranked, std::size_t i) {
  const setup::Suspect& s = ranked[i];
  const std::string cause = word(s.cause);
  AlignSuspect a;
  a.share = s.share;
  a.cause = {"cause-" + cause, {{"share", share(s.share)}, {"where", word(s.where)}, {"likely", likely(s.share)}}};
  a.test = {"test-" + cause, {{"where", word(s.where)}}};
  if (i + 1 < ranked.size() && ranked[i + 1].share > 0.02)
    a.otherwise = {
        "test-otherwise",
        {{"next", std::string("@short-") + word(ranked[i + 1].cause)}, {"where", word(ranked[i + 1].where)}}};
  return a;
}

// What was read, where it stands, and what was expected.
Message flag(const setup::ReadingFlag& f, const JobAlignment& given) {
  static const char* codes[] = {"reading-unlikely",     "reading-wrong-sign",        "reading-front-and-rear-swapped",
                                "reading-tape-misread", "reading-gap-at-wrong-edge", "reading-not-rolled"};
  Message m{codes[static_cast<int>(f.suspicion)],
            {{"item", std::string(word(f.item))}, {"stop", std::to_string(given.stop_of[f.event])}}};
  m.arguments.emplace_back("read", f.is_length ? number(f.read_length) : number(f.read_angle));
  m.arguments.emplace_back("expected", f.is_length ? number(f.expected_length) : number(f.expected_angle));
  return m;
}

// Each stop's state as it was known then, and what was turned after it.
std::vector<AlignPass> passes(const JobAlignment& given) {
  std::vector<AlignPass> all;
  setup::Belief belief(given.task);
  for (std::size_t i = 0; i < given.events.size(); ++i) {
    belief.apply(given.events[i], i);
    if (const auto* reading = std::get_if<setup::Reading>(&given.events[i])) {
      AlignPass pass;
      pass.state = state(belief.state());
      pass.probability = belief.probability_in_tolerance();
      pass.while_turning = reading->while_turning;
      for (const setup::ReadingFlag& f : belief.flags())
        if (f.event == i) pass.doubted.push_back(flag(f, given));
      all.push_back(std::move(pass));
    } else if (!all.empty()) {
      for (const setup::Turn& t : std::get<setup::Adjustment>(given.events[i]).turns)
        all.back().turned.push_back(made_turn(t, given));
    }
  }
  return all;
}

// Read again where the stop before asked for a turn, and none is entered between: what was turned is lost. Work that is
// signed between the two makes them two different states.
void turns_missing(Context& c, const JobAlignment& given) {
  if (c.out.record.empty()) return;
  const std::vector<unsigned char> struck = struck_entries(c.job);
  setup::Belief belief(given.task);
  std::size_t at = 0;               // of the alignment's own events
  std::optional<std::size_t> read;  // the reading just before, nothing else entered since
  for (std::size_t n = 0; n < c.job.events.size() && at < given.events.size(); ++n) {
    if (struck[n]) continue;
    if (std::holds_alternative<Signed>(c.job.events[n])) read.reset();
    const auto* reading = std::get_if<Reading>(&c.job.events[n]);
    const bool ours = reading ? !(reading->before_work && reading->before_work->value)
                              : std::holds_alternative<Adjustment>(c.job.events[n]);
    if (!ours) continue;
    if (reading && read && setup::judge(given.task, belief, given.way).verdict == setup::Verdict::adjust) {
      Finding f;
      f.outcome = Outcome::condition;
      f.subject = "front wheels";
      f.message = {"record-turn-missing",
                   {{"stop", std::to_string(given.stop_of[*read])},
                    {"next", std::to_string(given.stop_of[at])},
                    {"entry", std::to_string(n + 1)}}};
      f.source = common_practice;
      f.basis = Basis::measured;
      f.place = reading->place;
      c.add(std::move(f));
    }
    belief.apply(given.events[at], at);
    read.reset();
    if (reading && !(reading->while_turning && reading->while_turning->value)) read = at;
    ++at;
  }
}

// A camber of a sweep, by square or gauge.
std::optional<Angle> camber(const std::optional<SquareGap>& gap, const std::optional<Valued<Angle>>& gauge) {
  if (gauge) return gauge->value;
  if (!gap) return std::nullopt;
  return setup::camber_of(
      {gap->gap, gap->at == SquareGap::At::top ? setup::GapAt::top : setup::GapAt::bottom, gap->over});
}

// Caster of every sweep in the job, beside what the geometry says.
std::vector<AlignCaster> caster(const Context& c) {
  std::vector<AlignCaster> all;
  for (const CasterReading& r : c.job.caster_reading) {
    AlignCaster a;
    a.side = r.side.value;
    const auto straight = camber(r.gap_straight, r.straight), in = camber(r.gap_steered_in, r.steered_in),
               out = camber(r.gap_steered_out, r.steered_out);
    if (straight && in && out) {
      const setup::Instruments tools;
      const Angle u = r.gap_straight
                          ? setup::camber_of({{}, setup::GapAt::top, r.gap_straight->over}, tools.square.sd, {}).u
                          : r.straight->u.value_or(tools.camber_gauge.sd);
      const setup::CasterReading found =
          setup::caster_of({r.steer.value, *straight, *in, *out, u, r.steer.u.value_or(1.0 * units::degree)});
      a.found = usable(found.outcome);
      a.caster = value(found.caster);
      a.inclination = value(found.inclination);
      a.rule_of_thumb = found.by_rule_of_thumb.si();
    }
    if (c.after.front && c.after.front->left) {
      const Corner corner = a.side == "right" ? right_corner(*c.after.front) : *c.after.front->left;
      if (corner.upper_arm && corner.lower_arm) {
        const Vector3<Length> axis = corner.upper_arm->ball_joint.value - corner.lower_arm->ball_joint.value;
        a.by_geometry = std::atan2(-axis.x.si(), axis.z.si());
      }
    }
    all.push_back(std::move(a));
  }
  return all;
}

template <class Q>
BandValue<Q> band(const std::optional<setup::Band<Q>>& b) {
  return b ? BandValue<Q>{b->low, b->high, {}} : BandValue<Q>{};
}

}  // namespace

void judge_alignment(Context& c) {
  const Length lowered = c.model_before.front && c.model_after.front
                             ? Length::from_si(c.model_before.front->left_hub.z - c.model_after.front->left_hub.z)
                             : Length{};
  auto given = job_alignment(c.job, c.after, c.model_after, lowered);
  if (!given) return c.add(not_computed("alignment", {"front.left with arms and tie rod, or front as a solid beam"}));
  std::vector<AlignCaster> casters = caster(c);
  for (const AlignCaster& found : casters)
    if (found.found && found.by_geometry)
      (found.side == "left" ? given->task.signs.left_caster : given->task.signs.right_caster) = setup::Estimate<Angle>{
          Angle::from_si(found.caster.value - *found.by_geometry), Angle::from_si(found.caster.u)};
  const setup::Answer answer = setup::align(given->task, given->events, given->way);

  AlignResult r;
  r.verdict = word(answer.verdict);
  r.state = state(answer.state);
  r.toe_diameter = answer.toe_diameter;
  r.probability = answer.probability_in_tolerance;
  for (const auto& t : answer.turns)
    for (std::size_t i = 0; i < given->adjusters.size(); ++i) {
      const FittedAdjuster& a = given->adjusters[i];
      if (a.law.side == t.side && a.law.name == t.adjuster)
        r.turns.push_back(align_turn(t, a, given->bolts[i], *given));
    }
  r.expected = state(answer.after.expected);
  r.probability_after = answer.after.probability_in_tolerance;
  r.more_readings = answer.more_readings;
  r.camber_wanted = band(given->task.tolerance.camber);
  r.total_toe_wanted = band(given->task.tolerance.total_toe);
  r.toe_difference_wanted = band(given->task.tolerance.toe_difference);
  r.passes = passes(*given);
  r.slip_plates = given->floor == setup::Floor::plates;
  r.beam = given->beam;
  r.wants_camber = given->task.tolerance.camber.has_value();
  r.wants_difference = given->task.tolerance.toe_difference.has_value();
  r.caster = std::move(casters);
  r.coach = reading_coach(c.job, c.after, *given, answer);
  r.handling = turning_coach(*given, answer);

  // Why, what to read, what to look for.
  Message why{word(answer.reason), {{"probability", chance(answer.probability_in_tolerance)}}};
  why.arguments.emplace_back("after", chance(answer.after.probability_in_tolerance));
  why.arguments.emplace_back("wanted", share(given->task.accept_probability));
  why.arguments.emplace_back("readings", std::to_string(answer.more_readings));
  why.arguments.emplace_back("read", joined(answer.to_read));
  why.arguments.emplace_back("out", joined(answer.out));
  why.arguments.emplace_back("fixed", joined(answer.not_adjustable));
  r.why = why;
  for (const auto& f : answer.flags) r.notes.push_back(flag(f, *given));
  // Those worth five minutes.
  for (std::size_t i = 0; i < answer.suspects.size(); ++i)
    if (i == 0 || answer.suspects[i].share > 0.02) r.suspects.push_back(told(answer.suspects, i));
  const setup::TellingSign telling = setup::telling_sign(given->task, answer.suspects);
  if (telling == setup::TellingSign::heights) r.coach.push_back({"coach-read-heights", {}});
  if (telling == setup::TellingSign::caster) r.coach.push_back({"coach-read-caster", {}});
  for (const Message& m : given->notes) r.notes.push_back(m);

  // Before anything is read there is no finding about the wheels, only a job still to do.
  if (!r.passes.empty()) {
    Finding f;
    f.outcome = answer.verdict == setup::Verdict::accept ? Outcome::met : Outcome::condition;
    f.sense = Finding::Sense::at_least;
    f.subject = "front wheels";
    f.message = std::move(why);
    f.value = share(answer.probability_in_tolerance);
    f.limit = share(given->task.accept_probability);
    f.margin = share(answer.probability_in_tolerance - given->task.accept_probability);
    f.source = "JCGM 106:2012 8.3; ISO 14253-1:2017 (from memory)";
    f.basis = Basis::measured;
    c.add(std::move(f));
  } else {
    Finding f;
    f.outcome = Outcome::note;
    f.subject = "front wheels";
    f.message = std::move(why);
    f.source = "JCGM 106:2012 8.3";
    c.add(std::move(f));
  }
  turns_missing(c, *given);
  c.out.align = std::move(r);
}

}  // namespace trammel
