#include "setup/study.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "setup/belief.h"

namespace trammel::setup {

namespace {

// What a stop reads at face value.
struct FaceValue {
  Angle left_camber, right_camber;
  Length total_toe, difference;
};
FaceValue face_value(const AlignmentTask& task, const Reading& r) {
  const double ratio = task.steering_ratio ? task.steering_ratio->value : 14.0;
  return {camber_of(*r.left_camber_gap), camber_of(*r.right_camber_gap), *r.toe_rear - *r.toe_front,
          task.toe_diameter * (r.steering_wheel_angle->si() / ratio)};
}
bool in_tolerance(const Tolerance& t, const FaceValue& v) {
  const auto in = [](const auto& band, auto value) { return !band || (value >= band->low && value <= band->high); };
  return in(t.camber, v.left_camber) && in(t.camber, v.right_camber) && in(t.total_toe, v.total_toe) &&
         in(t.toe_difference, v.difference);
}

}  // namespace

CartRun align_as_told(const AlignmentTask& task, const Way& way, const TrueCart& truth, Generator& g,
                      const StudyLimits& limits) {
  SimulatedCart cart(task, truth);
  Belief belief(task);
  CartRun run;
  // What was read more often than something else is a reading of its own.
  const auto take = [&](int cambers, int toe, int strings) {
    const ShopTimes& t = way.times;
    run.minutes += static_cast<double>(cambers) * t.cambers + static_cast<double>(toe) * t.toe +
                   static_cast<double>(strings) * t.strings;
    run.readings += std::max({cambers, toe, strings});
    ReadingPlan plan;
    plan.string_diameter = task.toe_diameter;
    bool wheel = true;
    do {
      plan.cambers = cambers > 0;
      plan.toe = toe > 0;
      plan.strings = strings > 0;
      plan.steering_wheel = wheel && !plan.strings;
      plan.repeats = std::numeric_limits<int>::max();
      for (const int n : {cambers, toe, strings})
        if (n > 0) plan.repeats = std::min(plan.repeats, n);
      if (cambers + toe + strings == 0) plan.repeats = 1;
      belief.condition(cart.read(plan, g));
      cambers = std::max(0, cambers - plan.repeats);
      toe = std::max(0, toe - plan.repeats);
      strings = std::max(0, strings - plan.repeats);
      wheel = false;
    } while (cambers + toe + strings > 0);
  };
  const auto turn = [&](int pass) {
    Adjustment turns = prescribe(task, belief).as_adjustment();
    turns.rolled = false;
    if (limits.may_turn) std::erase_if(turns.turns, [&](const Turn& t) { return !limits.may_turn(t, pass); });
    cart.turn(turns, g);
    belief.adjust(turns);
    return !turns.turns.empty();
  };

  // The first stop: all of it once.
  take(1, 1, way.strings);
  run.minutes += way.times.roll;
  run.stops = 1;
  for (int i = 0; i < limits.most_steps && run.passes <= limits.most_passes; ++i) {
    const NextStep step = next_step(belief, way);
    switch (step.what) {
      case Do::accept:
        run.accepted = true;
        run.believed = belief.probability_in_tolerance();
        run.out = !cart.in_tolerance();
        return run;
      case Do::turn:
        // Nothing better than as it stands is no pass: it is read again.
        if (turn(run.passes + 1)) {
          run.minutes += way.times.turning;
          ++run.passes;
        } else {
          take(1, 1, way.strings);
          run.minutes += way.times.roll;
          ++run.re_readings;
        }
        break;
      case Do::read_while_turning:
        take(step.cambers, step.toe, step.strings);
        run.while_turning += std::max({step.cambers, step.toe, step.strings});
        if (turn(run.passes)) run.minutes += way.times.touch_up;
        break;
      case Do::roll:
        // Jam, roll, and read as often as it said.
        cart.roll(g);
        belief.roll();
        if (run.passes == 1) run.in_after_first = cart.in_tolerance();
        take(step.cambers, step.toe, way.strings ? step.toe : 0);
        run.minutes += way.times.roll;
        ++run.stops;
        run.re_readings += std::max(step.cambers, step.toe) - 1;
        break;
      case Do::read:
        take(step.cambers, step.toe, way.strings ? step.toe : 0);
        run.minutes += way.times.roll;
        ++run.stops;
        run.re_readings += std::max({1, step.cambers, step.toe});
        break;
    }
  }
  return run;
}

CartRun align_by_feel(const AlignmentTask& task, const ShopTimes& times, const TrueCart& truth, Generator& g,
                      const StudyLimits& limits) {
  SimulatedCart cart(task, truth);
  CartRun run;
  std::vector<double> guessed;
  for (std::size_t j = 0; j < task.adjusters.size(); ++j) guessed.push_back(std::exp(0.3 * normal(g)));
  ReadingPlan plan;
  const Tolerance& t = task.tolerance;
  const Angle camber = t.camber ? t.camber->middle() : Angle{};
  for (;; ++run.passes) {
    const Reading reading = cart.read(plan, g);
    const FaceValue seen = face_value(task, reading);
    run.minutes += times.roll + times.cambers + times.toe;
    run.readings += plan.repeats;
    ++run.stops;
    if (in_tolerance(t, seen)) {
      run.accepted = true;
      run.out = !cart.in_tolerance();
      return run;
    }
    if (run.passes == limits.most_passes) return run;

    // Each adjuster for its own angle alone, by whole flats.
    Adjustment turns;
    const Length total = t.total_toe ? t.total_toe->middle() - seen.total_toe : Length{};
    for (std::size_t j = 0; j < task.adjusters.size(); ++j) {
      const Adjuster& a = task.adjusters[j];
      const bool left = a.side == Side::left, cambers = std::abs(a.own.camber.si()) > 0.3 * std::abs(a.own.toe.si());
      const bool single = a.name == "tie_rod" && task.adjusters.size() == 2, drag = a.name == "drag_link";
      Angle wanted, effect;
      if (cambers) {
        wanted = camber - (left ? seen.left_camber : seen.right_camber);
        effect = a.own.camber;
      } else {
        const Length own = 0.5 * total + (left ? -1.0 : 1.0) * seen.difference;
        wanted = toe_angle(single ? total : drag ? -seen.difference - 0.5 * total : own, task.toe_diameter);
        effect = a.own.toe;
      }
      const double flats = std::round(a.flats_per_turn * (2.0 / 3.0) * guessed[j] * (wanted / effect));
      if (flats != 0.0) turns.turns.push_back({a.side, a.name, flats / a.flats_per_turn * units::turn});
    }
    // Out by the reading and less than half a flat off: the toe a flat either way.
    if (turns.turns.empty())
      for (const Adjuster& a : task.adjusters)
        if (a.name == "tie_rod" && turns.turns.empty())
          turns.turns.push_back({a.side, a.name, (uniform(g) < 0.5 ? 1.0 : -1.0) / a.flats_per_turn * units::turn});
    cart.turn(turns, g);
    run.minutes += times.turning;
  }
}

StudySummary summary(const std::vector<CartRun>& runs) {
  StudySummary s;
  s.carts = static_cast<int>(runs.size());
  if (runs.empty()) return s;
  std::vector<double> passes;
  std::vector<Time> minutes;
  for (const CartRun& r : runs) {
    s.accepted += r.accepted;
    s.out += r.accepted && r.out;
    s.stated_out += r.accepted ? 1.0 - r.believed : 0.0;
    s.in_after_first += r.in_after_first ? 1.0 / s.carts : 0.0;
    s.within_one += r.accepted && r.passes <= 1 ? 1.0 / s.carts : 0.0;
    s.within_two += r.accepted && r.passes <= 2 ? 1.0 / s.carts : 0.0;
    s.mean_re_readings += static_cast<double>(r.re_readings) / s.carts;
    s.mean_while_turning += static_cast<double>(r.while_turning) / s.carts;
    passes.push_back(r.passes);
    minutes.push_back(r.minutes);
  }
  std::sort(passes.begin(), passes.end());
  std::sort(minutes.begin(), minutes.end());
  const auto rank = [&](double share) { return static_cast<std::size_t>(std::ceil(share * s.carts)) - 1; };
  s.median_passes = passes[rank(0.5)];
  s.ninetieth_passes = passes[rank(0.9)];
  s.median_minutes = minutes[rank(0.5)];
  s.ninetieth_minutes = minutes[rank(0.9)];
  return s;
}

double share_at_most(int some, int all, double confidence) {
  if (some >= all) return 1.0;
  // The chance of so few or fewer falls as the share grows.
  const auto so_few = [&](double share) {
    double sum = 0.0, ways = 0.0;  // ways: logarithm of how many sets of k there are
    for (int k = 0; k <= some; ++k) {
      sum += std::exp(ways + k * std::log(share) + (all - k) * std::log1p(-share));
      ways += std::log(static_cast<double>(all - k) / (k + 1));
    }
    return sum;
  };
  double low = 0.0, high = 1.0;
  while (high - low > 1e-12) {
    const double share = 0.5 * (low + high);
    (so_few(share) > 1.0 - confidence ? low : high) = share;
  }
  return high;
}

}  // namespace trammel::setup
