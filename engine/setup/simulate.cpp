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

// Independent normal values for both cambers and both toes.
WheelAngles four(Angle camber_sd, Angle toe_sd, Generator& g) {
  WheelAngles w;
  w.left_camber = normal(g, camber_sd);
  w.right_camber = normal(g, camber_sd);
  w.left_toe = normal(g, toe_sd);
  w.right_toe = normal(g, toe_sd);
  return w;
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
  touched_.assign(task_.adjusters.size(), false);
  now_ = cart_.start;
}

Reading SimulatedCart::read(const ReadingPlan& plan, Generator& g) {
  const Instruments& in = task_.instruments;
  const double D = task_.toe_diameter.si();
  Reading r;
  r.repeats = plan.repeats;
  r.while_turning = turning_;
  r.square_touches = plan.on_lips ? SquareTouches::lips : SquareTouches::sidewall;
  const WheelAngles seen = turning_ ? now_ + scrub_ : now_;

  // Gaps against the square, their mean signed: top is negative camber.
  const auto gap = [&](Angle camber, Length bulge) {
    const Length over = plan.square_over, foot = plan.on_lips ? Length{} : bulge;
    const Length signed_gap =
        mean_of(plan.repeats, [&] { return tan(camber) * over - foot + normal(g, in.square.sd); });
    return SquareGap{abs(signed_gap), signed_gap.si() < 0.0 ? GapAt::top : GapAt::bottom, over};
  };
  if (plan.cambers) {
    r.left_camber_gap = gap(seen.left_camber, cart_.left_bulge);
    r.right_camber_gap = gap(seen.right_camber, cart_.right_bulge);
  }

  // Tape ends, rounded to the tape's step.
  const Length x = Length::from_si(D * (std::sin(seen.left_toe.si()) + std::sin(seen.right_toe.si())));
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
  if (!(turning_ && clamped_)) centre_ = Angle::from_si(normal(g) * (in.steering_centre.sd / task_.toe_diameter));
  clamped_ = turning_;
  if (plan.strings) {
    const auto string = [&](Angle toe) {
      const Length half = 0.5 * toe_length(toe, plan.string_diameter), gap_of_string = 60.0 * units::mm;
      return StringReading{mean_of(plan.repeats, [&] { return gap_of_string + half + normal(g, in.string.sd); }),
                           mean_of(plan.repeats, [&] { return gap_of_string - half + normal(g, in.string.sd); })};
    };
    r.left_string = string(seen.left_toe + centre_);
    r.right_string = string(seen.right_toe - centre_);
    r.string_diameter = plan.string_diameter;
    r.steering_wheel_angle = Angle{};
  } else if (plan.steering_wheel && !turning_) {
    Angle sum;
    for (int i = 0; i < plan.repeats; ++i)
      sum +=
          cart_.steering_ratio * (0.5 * (now_.left_toe - now_.right_toe) + centre_) + normal(g, in.steering_wheel.sd);
    r.steering_wheel_angle = sum / static_cast<double>(plan.repeats);
  }
  return r;
}

void SimulatedCart::turn(const Adjustment& adjustment, Generator& g) {
  const Handling& h = task_.handling;
  if (!adjustment.turns.empty() && !turning_) {
    turning_ = true;
    const Angle toe = Angle::from_si(h.scrub_toe / task_.toe_diameter);
    scrub_ = four(h.scrub_camber, toe, g);
  }
  for (const Turn& t : adjustment.turns)
    for (std::size_t j = 0; j < task_.adjusters.size(); ++j)
      if (task_.adjusters[j].side == t.side && task_.adjusters[j].name == t.adjuster) {
        turned_[j] += t.turns + normal(g, h.turn_error);
        touched_[j] = true;
      }
  if (adjustment.rolled)
    roll(g);
  else
    place();
}

void SimulatedCart::roll(Generator& g) {
  if (!turning_) return;
  const Handling& h = task_.handling;
  for (std::size_t j = 0; j < touched_.size(); ++j)
    if (touched_[j]) turned_[j] += normal(g, h.jam_twist);
  settled_ = settled_ + four(h.settling_camber, Angle::from_si(h.settling_toe / task_.toe_diameter), g);
  touched_.assign(touched_.size(), false);
  turning_ = false;
  place();
}

// Where the turns put the wheels.
void SimulatedCart::place() {
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
  cart.left_bulge = uniform(g) * task.handling.sidewall_bulge;
  cart.right_bulge = uniform(g) * task.handling.sidewall_bulge;
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
