#include "setup/verdict.h"

#include <algorithm>
#include <cmath>

#include "measure/normal.h"
#include "setup/belief.h"
#include "setup/blunder.h"
#include "setup/reach.h"

namespace trammel::setup {

namespace {

Aspect aspect_of(ReadingItem item) {
  return item == ReadingItem::left_camber    ? Aspect::left_camber
         : item == ReadingItem::right_camber ? Aspect::right_camber
         : item == ReadingItem::total_toe    ? Aspect::total_toe
                                             : Aspect::toe_difference;
}

// Jammed and rolled as it stands.
double rolled_probability(Belief belief) {
  belief.roll();
  return belief.probability_in_tolerance();
}

}  // namespace

Answer judge(const AlignmentTask& task, const Belief& belief, const Way& way) {
  const Belief::Inside& b = belief.inside();
  const Aims aims = aims_of(b);
  const Square cov = aims.jacobian * b.joint.covariance().topLeftCorner<4, 4>() * aims.jacobian.transpose();
  Answer a;
  a.state = belief.state();
  a.toe_diameter = task.toe_diameter;
  a.probability_in_tolerance = belief.probability_in_tolerance();
  a.after = {a.state, a.probability_in_tolerance};
  a.flags = belief.flags();
  a.steering_ratio_assumed = !task.steering_ratio;

  // Each aim alone: out for sure, never read, beyond any adjuster.
  const std::vector<bool> served = served_aspects(b, aims);
  std::vector<bool> is_out(aims.aspects.size(), false);
  for (std::size_t k = 0; k < aims.aspects.size(); ++k) {
    const double sd = std::sqrt(std::max(0.0, cov(k, k)));
    is_out[k] = 1.0 - normal_between(aims.mean[k], sd, aims.low[k], aims.high[k]) >= task.accept_probability;
    const bool unread = sd > 3.0 * aims.half(k);
    if (unread) a.to_read.push_back(aims.aspects[k]);
    is_out[k] = is_out[k] && !unread;
    if (is_out[k]) a.out.push_back(aims.aspects[k]);
    if (!served[k]) a.not_adjustable.push_back(aims.aspects[k]);
  }
  const auto decide = [&](Verdict verdict, Reason reason) {
    a.verdict = verdict;
    a.reason = reason;
    return a;
  };

  // A reading in doubt, or none at all, is read before anything is turned.
  if (!b.doubted.empty()) {
    a.more_readings = 1;
    for (const auto& [item, value] : b.doubted) {
      const Aspect aspect = aspect_of(item);
      if (std::find(a.to_read.begin(), a.to_read.end(), aspect) == a.to_read.end()) a.to_read.push_back(aspect);
    }
    return decide(Verdict::measure, Reason::reading_in_doubt);
  }
  if (!a.to_read.empty()) {
    a.more_readings = 1;
    return decide(Verdict::measure, Reason::never_read);
  }
  if (!b.turning && a.probability_in_tolerance >= task.accept_probability)
    return decide(Verdict::accept, Reason::in_tolerance);

  // What is out and beyond the adjusters' reach has none, or not enough thread.
  const Reach reach = reach_of(b, aims);
  bool beyond = false;
  for (std::size_t k = 0; k < aims.aspects.size(); ++k)
    beyond |= is_out[k] && (reach.best.mean[k] < aims.low[k] || reach.best.mean[k] > aims.high[k]);
  if (beyond) {
    a.suspects = diagnose(task, belief);
    return decide(Verdict::diagnose, reach.at_limit ? Reason::adjuster_out_of_range : Reason::no_adjuster);
  }

  const Prescription p = prescribe(task, belief);
  const auto adjust = [&](Reason reason) {
    a.turns = p.turns;
    a.after = p.after;
    // What to do when it is turned: read where it stands, or jam and roll.
    Belief turned = belief;
    turned.adjust({p.as_adjustment().turns, false});
    a.next = next_step(turned, way);
    return decide(Verdict::adjust, reason);
  };
  const auto read = [&](Reason reason, const NextStep& step) {
    a.next = step;
    a.more_readings = std::max({step.readings_in_all, step.cambers, step.toe, 1});
    for (std::size_t k = 0; k < aims.aspects.size(); ++k) {
      const bool camber = aims.aspects[k] == Aspect::left_camber || aims.aspects[k] == Aspect::right_camber;
      if (aims.aspects[k] == Aspect::toe_difference || (camber ? step.cambers : step.toe) > 0)
        a.to_read.push_back(aims.aspects[k]);
    }
    return decide(Verdict::measure, reason);
  };
  a.after = p.after;

  // A pass is open: correct what the reading showed, or roll it and read.
  Way possible = way;
  possible.may_turn = !p.turns.empty();
  const NextStep step = next_step(belief, possible);
  if (b.turning) {
    if (!p.turns.empty() && p.after.probability_in_tolerance > rolled_probability(belief) + 0.01)
      return adjust(Reason::touch_up);
    return read(Reason::jam_roll_and_read, step);
  }

  // The fewest minutes to acceptance: a turn, or more readings; neither may help.
  // What is surely out, or much nearer after a turn, is not read again for a fifth of the minutes: the
  // look-ahead is no better than that, and a turn teaches too.
  const bool gains = !a.out.empty() || p.after.probability_in_tolerance > a.probability_in_tolerance + 0.1;
  const bool nearly = gains && possible.may_turn && step.minutes_by_turning < 1.2 * step.minutes;
  if (step.what == Do::turn || nearly) return adjust(Reason::turning_helps);
  const bool no_use = p.turns.empty() || p.after.probability_in_tolerance < a.probability_in_tolerance + 0.02;
  if (step.chance_by_reading < 0.03 && no_use) {
    a.more_readings = 0;
    return decide(Verdict::measure, Reason::cannot_be_decided_with_these_instruments);
  }
  return read(Reason::reading_helps, step);
}

Answer align(const AlignmentTask& task, const std::vector<Event>& events, const Way& way) {
  const Blunders found = find_blunders(task, events);
  if (!found.any()) return judge(task, fold(task, events), way);

  // The likeliest slip is named and what it touches set aside.
  const Blunder& slip = found.suspects.front();
  Answer a = judge(task, fold(task, without(slip, events)), way);
  a.flags.insert(a.flags.begin(), flag_of(task, events, slip));
  // Read again where nothing was read since, or where the slip is not sure.
  bool last = true;
  for (std::size_t i = slip.event + 1; i < events.size(); ++i) last &= !std::holds_alternative<Reading>(events[i]);
  if (!last && slip.probability >= 0.9) return a;
  a.verdict = Verdict::measure;
  a.reason = Reason::reading_in_doubt;
  a.turns.clear();
  a.more_readings = 1;
  if (slip.kind == Suspicion::not_rolled)
    a.to_read = aims_of(fold(task, events).inside()).aspects;
  else
    a.to_read = {aspect_of(slip.item)};
  return a;
}

}  // namespace trammel::setup
