#include "setup/simulate.h"

#include <cassert>
#include <cmath>

#include "setup/belief.h"

namespace trammel::setup {

namespace {

WheelAngles operator+(const WheelAngles& a, const WheelAngles& b) {
  return {a.left_camber + b.left_camber, a.right_camber + b.right_camber, a.left_toe + b.left_toe,
          a.right_toe + b.right_toe};
}

Length mean_of(int repeats, const std::function<Length()>& one) {
  Length sum;
  for (int i = 0; i < repeats; ++i) sum += one();
  return sum / static_cast<double>(repeats);
}

}  // namespace

SimulatedCart::SimulatedCart(const AlignmentTask& task, TrueCart truth) : task_(task), cart_(std::move(truth)) {
  assert(cart_.linkage || cart_.effects.size() == task_.adjusters.size());
  turned_.assign(task_.adjusters.size(), Angle{});
  now_ = cart_.start;
}

Reading SimulatedCart::read(const ReadingPlan& plan, Generator& g) const {
  const Instruments& in = task_.instruments;
  const double D = task_.toe_diameter.si();
  Reading r;
  r.repeats = plan.repeats;

  // Gaps against the square, their mean signed: top is negative camber.
  const auto gap = [&](Angle camber) {
    const Length over = plan.square_over;
    const Length signed_gap = mean_of(plan.repeats, [&] { return tan(camber) * over + normal(g, in.square.sd); });
    return SquareGap{abs(signed_gap), signed_gap.si() < 0.0 ? GapAt::top : GapAt::bottom, over};
  };
  if (plan.cambers) {
    r.left_camber_gap = gap(now_.left_camber);
    r.right_camber_gap = gap(now_.right_camber);
  }

  // Tape ends, rounded to the tape's step.
  const Length x = Length::from_si(D * (std::sin(now_.left_toe.si()) + std::sin(now_.right_toe.si())));
  const auto tape = [&](Length true_value) {
    return mean_of(plan.repeats, [&] {
      const Length read = true_value + normal(g, in.tape.sd);
      const double step = in.tape_step.sd.si();
      return step > 0.0 ? Length::from_si(step * std::round(read.si() / step)) : read;
    });
  };
  if (plan.toe) {
    r.toe_front = tape(plan.between_tyres - 0.5 * x);
    r.toe_rear = tape(plan.between_tyres + 0.5 * x);
    r.toe_diameter = task_.toe_diameter;
  }

  // The steering wheel's centre, once a stop; then strings with it held, or its angle after rolling straight.
  const Angle centre = Angle::from_si(normal(g) * (in.steering_centre.sd / task_.toe_diameter));
  if (plan.strings) {
    const auto string = [&](Angle toe) {
      const Length half = 0.5 * toe_length(toe, plan.string_diameter), gap_of_string = 60.0 * units::mm;
      return StringReading{mean_of(plan.repeats, [&] { return gap_of_string + half + normal(g, in.string.sd); }),
                           mean_of(plan.repeats, [&] { return gap_of_string - half + normal(g, in.string.sd); })};
    };
    r.left_string = string(now_.left_toe + centre);
    r.right_string = string(now_.right_toe - centre);
    r.string_diameter = plan.string_diameter;
    r.steering_wheel_angle = Angle{};
  } else if (plan.steering_wheel) {
    Angle sum;
    for (int i = 0; i < plan.repeats; ++i)
      sum += cart_.steering_ratio * (0.5 * (now_.left_toe - now_.right_toe) + centre) + normal(g, in.steering_wheel.sd);
    r.steering_wheel_angle = sum / static_cast<double>(plan.repeats);
  }
  return r;
}

void SimulatedCart::turn(const Adjustment& adjustment, Generator& g) {
  for (const Turn& t : adjustment.turns)
    for (std::size_t j = 0; j < task_.adjusters.size(); ++j)
      if (task_.adjusters[j].side == t.side && task_.adjusters[j].name == t.adjuster)
        turned_[j] += t.turns + normal(g, task_.handling.turn_error);

  // Where the turns put the wheels, and how they settle.
  const Handling& h = task_.handling;
  const Angle settling_toe = Angle::from_si(h.settling_toe / task_.toe_diameter);
  settled_ = settled_ + WheelAngles{normal(g, h.settling_camber), normal(g, h.settling_camber), normal(g, settling_toe),
                                    normal(g, settling_toe)};
  WheelAngles change;
  if (cart_.linkage)
    change = cart_.linkage(turned_);
  else
    for (std::size_t j = 0; j < turned_.size(); ++j) {
      const TrueEffect& e = cart_.effects[j];
      const double n = turns_of(turned_[j]);
      const bool left = task_.adjusters[j].side == Side::left;
      const Effect &l = left ? e.own : e.other, &r = left ? e.other : e.own;
      change = change + WheelAngles{n * l.camber, n * r.camber, n * l.toe, n * r.toe};
    }
  now_ = cart_.start + change + settled_;
}

bool SimulatedCart::in_tolerance() const {
  const Tolerance& t = task_.tolerance;
  const Length l = toe_length(now_.left_toe, task_.toe_diameter), r = toe_length(now_.right_toe, task_.toe_diameter);
  const auto in = [](const auto& band, auto value) { return !band || (value >= band->low && value <= band->high); };
  return in(t.camber, now_.left_camber) && in(t.camber, now_.right_camber) && in(t.total_toe, l + r) &&
         in(t.toe_difference, 0.5 * (l - r));
}

TrueCart draw_cart(const AlignmentTask& task, const WheelAngles& start, Generator& g) {
  TrueCart cart;
  cart.start = start;
  if (task.steering_ratio) cart.steering_ratio = task.steering_ratio->value + task.steering_ratio->u * normal(g);
  const auto draw = [&](const Effect& e, const EffectSpread& u) {
    const double a = normal(g), c = normal(g), rest = std::sqrt(std::max(0.0, 1.0 - u.correlation * u.correlation));
    return Effect{e.camber + a * u.camber, e.toe + (u.correlation * a + rest * c) * u.toe};
  };
  for (const Adjuster& a : task.adjusters) {
    const Effect own = draw(a.own, a.own_spread);
    cart.effects.push_back({own, draw(a.other, a.other_spread)});
  }
  return cart;
}

}  // namespace trammel::setup
