#include "setup/next_step.h"

#include <algorithm>

#include "setup/look_ahead.h"

namespace trammel::setup {

namespace {

// What is tried out while turning, all within one pass.
constexpr InPlace in_place_choices[] = {{1, 0, 0}, {2, 0, 0}, {4, 0, 0}, {0, 1, 0}, {0, 2, 0}, {0, 4, 0}, {0, 0, 2},
                                        {0, 0, 4}, {0, 2, 2}, {0, 4, 4}, {1, 1, 0}, {2, 2, 0}, {2, 4, 0}, {4, 4, 0},
                                        {1, 1, 1}, {1, 2, 2}, {2, 2, 2}, {2, 4, 4}, {4, 4, 4}};
InPlace operator+(const InPlace& a, const InPlace& b) {
  return {a.cambers + b.cambers, a.toe + b.toe, a.strings + b.strings};
}

int a_stop(int times, int rolls, int most) { return std::min(most, (times + rolls - 1) / rolls); }

}  // namespace

Way usual_way(Floor floor) {
  Way way;
  if (floor == Floor::plates) way.pass_price = 16.0 * units::minute;
  return way;
}

NextStep next_step(const Belief& belief, const Way& way) {
  const Belief::Inside& b = belief.inside();
  if (!b.turning && b.read_since_turn && belief.probability_in_tolerance() >= b.task.accept_probability)
    return {Do::accept, 0, 0, 0, {}, 1.0, 1.0};
  const LookAhead ahead(belief, way);
  NextStep best;
  best.minutes = 1e9 * units::minute;
  const auto consider = [&](const NextStep& step) {
    const double by_reading = std::max(best.chance_by_reading, step.chance_by_reading);
    const Time by_turning = best.minutes_by_turning;
    if (step.minutes < best.minutes) best = step;
    best.chance_by_reading = by_reading;
    best.minutes_by_turning = by_turning;
  };

  if (b.turning) {
    // Roll now, or read some of it first.
    const auto rolled = ahead.after_rolling(ahead.now(), ahead.as_it_stands());
    consider({Do::roll, a_stop(rolled.effort.cambers, rolled.effort.rolls, way.most_repeats),
              a_stop(rolled.effort.toe, rolled.effort.rolls, way.most_repeats), 0, rolled.minutes, rolled.chance, 0.0});
    for (const InPlace& e : in_place_choices) {
      const InPlace so_far = b.here + e;
      if (!way.read_while_turning || (e.strings > 0 && !way.strings_while_turning) ||
          std::max({so_far.cambers, so_far.toe, so_far.strings}) > way.most_repeats)
        continue;
      const auto then = ahead.in_place(ahead.now(), e);
      consider({Do::read_while_turning, e.cambers, e.toe, e.strings, then.minutes, then.chance, 0.0});
    }
    return best;
  }

  // Turn now.
  Time turn_now = ahead.round();
  if (way.may_turn) {
    const auto turned = ahead.from_turned(ahead.after_turns(ahead.now()));
    turn_now = best.minutes_by_turning = way.times.turning + turned.minutes;
    consider({Do::turn, 0, 0, 0, turn_now, turned.chance, 0.0});
  }
  // Read until it is accepted, as it stands.
  const LookAhead::Head now = ahead.now().topLeftCorner<LookAhead::head, LookAhead::head>();
  const int most = 4 * way.most_repeats;
  best.chance_by_reading = ahead.acceptance(now, ahead.as_it_stands(), {most, most, most});
  for (const Effort& near : {Effort{4, 4, 6}, Effort{8, 8, 8}, Effort{16, 16, 16}}) {
    const auto read = ahead.reading(now, ahead.as_it_stands(), turn_now, {1, 0, 0}, near);
    if (!(read.chance > 0.0)) continue;
    consider({Do::read,
              a_stop(read.effort.cambers, read.effort.rolls, way.most_repeats),
              a_stop(read.effort.toe, read.effort.rolls, way.most_repeats),
              0,
              read.minutes,
              read.chance,
              read.chance,
              {},
              std::max({read.effort.rolls, read.effort.cambers, read.effort.toe})});
    break;
  }
  // Read, and then accept or turn on what was read.
  if (!way.may_turn) return best;
  for (const auto& [c, t] : {std::pair{1, 1}, {2, 2}, {4, 4}, {1, 0}, {2, 0}, {0, 1}, {0, 2}, {0, 4}}) {
    if (std::max(c, t) > way.most_repeats) continue;
    const Effort e{1, c, t};
    const double p = ahead.acceptance(now, ahead.as_it_stands(), e);
    const auto then = ahead.from_turned(ahead.after_turns(ahead.after_stop(ahead.now(), e)));
    consider({Do::read,
              c,
              t,
              0,
              ahead.cost(e) + (1.0 - p) * (way.times.turning + then.minutes),
              p + (1.0 - p) * then.chance,
              p,
              {},
              std::max(c, t)});
  }
  return best;
}

}  // namespace trammel::setup
