#include "assess/alignment_task.h"
#include "assess/context.h"
#include "setup/verdict.h"

namespace trammel {
namespace {

template <class Q>
AlignValue value(const setup::Estimate<Q>& e) {
  return {e.value.si(), e.u.si()};
}
AlignState state(const setup::AlignmentState& s) {
  return {value(s.left_camber), value(s.right_camber), value(s.total_toe), value(s.toe_difference),
          value(s.steering_wheel_angle)};
}
const char* word(setup::Side side) { return side == setup::Side::left ? "left" : "right"; }
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
      return "left camber";
    case setup::Aspect::right_camber:
      return "right camber";
    case setup::Aspect::total_toe:
      return "total toe";
    case setup::Aspect::toe_difference:
      return "toe difference";
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
      return "left camber";
    case right_camber:
      return "right camber";
    case total_toe:
      return "total toe";
    case left_string:
      return "left string";
    case right_string:
      return "right string";
    case steering_wheel_angle:
      return "steering wheel angle";
  }
  return "";
}
const char* word(setup::Cause cause) {
  using enum setup::Cause;
  switch (cause) {
    case bent_part:
      return "cause-bent-part";
    case worn_joint:
      return "cause-worn-joint";
    case sagged_spring:
      return "cause-sagged-spring";
    case wrong_part:
      return "cause-wrong-part";
    case swapped_arms:
      return "cause-swapped-arms";
    case rack_not_centred:
      return "cause-rack-not-centred";
    case adjuster_out_of_range:
      return "cause-adjuster-out-of-range";
  }
  return "cause-bent-part";
}

AlignTurn turn(const setup::PrescribedTurn& t) {
  AlignTurn a;
  a.side = word(t.side);
  a.adjuster = t.adjuster;
  a.turns = t.turns / units::turn;
  a.flats = t.flats;
  a.direction = t.turns.si() > 0.0 ? "longer" : "shorter";
  a.square_gap_after = t.watch.gap.at == setup::GapAt::top ? t.watch.gap.gap : -t.watch.gap.gap;
  a.over = t.watch.gap.over;
  a.toe_after = t.watch.total_toe.value;
  return a;
}

Message flag(const setup::ReadingFlag& f) {
  static const char* codes[] = {"reading-unlikely", "reading-wrong-sign", "reading-front-and-rear-swapped",
                                "reading-tape-misread"};
  Message m{codes[static_cast<int>(f.suspicion)],
            {{"item", std::string(word(f.item))}, {"event", std::to_string(f.event + 1)}}};
  m.arguments.emplace_back("read", f.is_length ? number(f.read_length) : number(f.read_angle));
  m.arguments.emplace_back("expected", f.is_length ? number(f.expected_length) : number(f.expected_angle));
  return m;
}

// Each stop's state as it was known then, and what was turned after it.
std::vector<AlignPass> passes(const setup::AlignmentTask& task, const std::vector<setup::Event>& events) {
  std::vector<AlignPass> all;
  setup::Belief belief(task);
  for (std::size_t i = 0; i < events.size(); ++i) {
    belief.apply(events[i], i);
    if (std::holds_alternative<setup::Reading>(events[i])) {
      all.push_back({state(belief.state()), belief.probability_in_tolerance(), {}});
    } else if (!all.empty()) {
      for (const setup::Turn& t : std::get<setup::Adjustment>(events[i]).turns) {
        AlignTurn made;
        made.side = word(t.side);
        made.adjuster = t.adjuster;
        made.turns = t.turns / units::turn;
        for (const setup::Adjuster& a : task.adjusters)
          if (a.side == t.side && a.name == t.adjuster) made.flats = made.turns * a.flats_per_turn;
        made.direction = made.turns > 0.0 ? "longer" : "shorter";
        all.back().turned.push_back(std::move(made));
      }
    }
  }
  return all;
}

template <class Q>
BandValue<Q> band(const std::optional<setup::Band<Q>>& b) {
  return b ? BandValue<Q>{b->low, b->high, {}} : BandValue<Q>{};
}

}  // namespace

void judge_alignment(Context& c) {
  const auto given = job_alignment(c.job, c.after, c.model_after);
  if (!given) return c.add(not_computed("alignment", {"front.left with arms and tie rod"}));
  const setup::Answer answer = setup::align(given->task, given->events);

  AlignResult r;
  r.verdict = word(answer.verdict);
  r.state = state(answer.state);
  r.toe_diameter = answer.toe_diameter;
  r.probability = answer.probability_in_tolerance;
  for (const auto& t : answer.turns) r.turns.push_back(turn(t));
  r.expected = state(answer.after.expected);
  r.probability_after = answer.after.probability_in_tolerance;
  r.more_readings = answer.more_readings;
  r.camber_wanted = band(given->task.tolerance.camber);
  r.total_toe_wanted = band(given->task.tolerance.total_toe);
  r.toe_difference_wanted = band(given->task.tolerance.toe_difference);
  r.passes = passes(given->task, given->events);

  // Why, what to read, what to look for.
  Message why{word(answer.reason), {{"probability", share(answer.probability_in_tolerance)}}};
  why.arguments.emplace_back("after", share(answer.after.probability_in_tolerance));
  why.arguments.emplace_back("wanted", share(given->task.accept_probability));
  why.arguments.emplace_back("readings", std::to_string(answer.more_readings));
  why.arguments.emplace_back("read", joined(answer.to_read));
  why.arguments.emplace_back("out", joined(answer.out));
  why.arguments.emplace_back("fixed", joined(answer.not_adjustable));
  r.notes.push_back(why);
  for (const auto& f : answer.flags) r.notes.push_back(flag(f));
  for (const auto& s : answer.suspects)
    r.notes.push_back({word(s.cause),
                       {{"share", share(s.share)},
                        {"where", std::string(s.where == setup::Where::both   ? "both sides"
                                              : s.where == setup::Where::left ? "left"
                                                                              : "right")}}});
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
  c.out.align = std::move(r);
}

}  // namespace trammel
