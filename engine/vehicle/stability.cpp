#include "vehicle/stability.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace trammel::vehicle {

template <class R>
LengthOf<R> tip_distance(const LumpedMass<R>& whole, const Footprint<R>& f) {
  const R rearward = -whole.at.x / f.wheelbase;
  const LengthOf<R> half_here = 0.5 * (f.front_track + (f.rear_track - f.front_track) * rearward);
  return half_here - abs(whole.at.y);
}

namespace {

constexpr double largest_roll = 20.0 * std::numbers::pi / 180.0;

// One axle in SI numbers: what it gives to body and ground at body roll p and lateral acceleration a.
template <class R>
struct Axle {
  R weight_moment;  // W T / 2: the most that the ground can give
  R side_moment;    // g q: moment per a that reaches the ground past the springs
  R stiffness;      // K
  R yield;          // K / k_tyre of the axle, 0 on rigid tyres

  // On both wheels S = (K p - yield g q a) / (1 + yield), M = S + g q a.
  R slope() const { return stiffness / (R(1.0) + yield); }
  R lost() const { return side_moment * yield / (R(1.0) + yield); }
  R ground(const R& p, const R& a) const { return slope() * p + (side_moment - lost()) * a; }
};

template <class R>
struct Body {
  R weight_arm;     // m_s g e
  R weight_offset;  // m_s g |y_s|
};

template <class R>
struct Roll {
  std::array<Axle<R>, 2> axle;
  Body<R> body;

  // Lateral acceleration held at body roll p, with the inner wheels of `lifted` axles off the ground.
  R held(const R& p, const std::array<bool, 2>& lifted) const {
    using std::cos, std::sin;
    R force = -(body.weight_arm * sin(p)) - body.weight_offset * cos(p);
    R per_a = body.weight_arm * cos(p);
    for (int i = 0; i < 2; ++i) {
      force += lifted[i] ? axle[i].weight_moment : axle[i].slope() * p;
      per_a += lifted[i] ? axle[i].side_moment : axle[i].lost();
    }
    return force / per_a;
  }
  // How far axle i is from lifting at roll p: the ground's moment left.
  R left(int i, const R& p, const std::array<bool, 2>& lifted) const {
    return axle[i].weight_moment - axle[i].ground(p, held(p, lifted));
  }
  // The same cart where gravity is `share` of the standard one.
  Roll under(const R& share) const {
    Roll r = *this;
    for (Axle<R>& a : r.axle) a.weight_moment *= share, a.side_moment *= share;
    r.body.weight_arm *= share;
    r.body.weight_offset *= share;
    return r;
  }
};

Roll<double> plain(const Roll<double>& r) { return r; }
Roll<double> plain(const Roll<Uncertain>& r) {
  Roll<double> d{};
  for (int i = 0; i < 2; ++i)
    d.axle[i] = {r.axle[i].weight_moment.value(), r.axle[i].side_moment.value(), r.axle[i].stiffness.value(),
                 r.axle[i].yield.value()};
  d.body = {r.body.weight_arm.value(), r.body.weight_offset.value()};
  return d;
}

// Where axle i lifts, between two rolls that enclose it.
double lift_roll(const Roll<double>& d, int i, const std::array<bool, 2>& lifted, double low, double high) {
  for (int k = 0; k < 60; ++k) {
    const double mid = 0.5 * (low + high);
    (d.left(i, mid, lifted) > 0.0 ? low : high) = mid;
  }
  return 0.5 * (low + high);
}

// The same root with its derivatives: one Newton step in R, zero in value.
template <class R>
R carried(double at, const Roll<R>& roll, const Roll<double>& d, int i, const std::array<bool, 2>& lifted) {
  const double step = 1e-6;
  const double slope = (d.left(i, at + step, lifted) - d.left(i, at - step, lifted)) / (2.0 * step);
  return R(at) - roll.left(i, R(at), lifted) / R(slope);
}

template <class R>
Roll<R> rolling(const RollModel<R>& m) {
  const R g = R(units::g.si());
  const MassSum<R>& mass = m.mass;
  // Where the sprung weight stands along the cart decides what each axle bears of it and where the roll axis is.
  const R rearward = -mass.sprung.at.x / m.footprint.wheelbase;
  const LengthOf<R> axis = m.front.roll_centre_height * (R(1.0) - rearward) + m.rear.roll_centre_height * rearward;
  const AxleLoads<R> loads = axle_loads(mass.whole, m.footprint.wheelbase);
  const auto axle = [&](const RollAxle<R>& a, const MassOf<R>& load, const LengthOf<R>& track, const R& sprung_share,
                        const LumpedMass<R>& unsprung) {
    const R side = (mass.sprung.mass * sprung_share * a.roll_centre_height + unsprung.mass * unsprung.at.z).si();
    R yield(0.0);
    if (a.tyre_rate) yield = a.stiffness.si() / (*a.tyre_rate * track * track * R(0.5)).si();
    return Axle<R>{(load * track).si() * g * R(0.5), side * g, a.stiffness.si(), yield};
  };
  Roll<R> roll;
  roll.axle = {axle(m.front, loads.front, m.footprint.front_track, R(1.0) - rearward, mass.front_unsprung),
               axle(m.rear, loads.rear, m.footprint.rear_track, rearward, mass.rear_unsprung)};
  roll.body = {(mass.sprung.mass * (mass.sprung.at.z - axis)).si() * g,
               (mass.sprung.mass * abs(mass.sprung.at.y)).si() * g};
  return roll;
}

template <class R>
RollThreshold<R> threshold_of(const Roll<R>& roll) {
  const Roll<double> d = plain(roll);

  // Straight ahead: the springs must hold the body up.
  RollThreshold<R> out;
  const R upright = roll.axle[0].slope() + roll.axle[1].slope() - roll.body.weight_arm;
  if (value_of(upright) <= 0.0) {
    out.outcome = RollOutcome::cannot_stand_upright;
    return out;
  }
  out.roll_per_g = AngleOf<R>::from_si((roll.body.weight_arm + roll.axle[0].lost() + roll.axle[1].lost()) / upright);

  // The first inner wheel leaves the ground.
  std::array<bool, 2> lifted{false, false};
  if (std::min(d.left(0, largest_roll, lifted), d.left(1, largest_roll, lifted)) > 0.0) {
    out.outcome = RollOutcome::beyond_model;
    out.roll = AngleOf<R>::from_si(R(largest_roll));
    out.threshold = out.first_lift = roll.held(R(largest_roll), lifted);
    return out;
  }
  std::array<double, 2> lifts_at{};
  for (int i = 0; i < 2; ++i) lifts_at[i] = lift_roll(d, i, lifted, -largest_roll, largest_roll);
  const int first = lifts_at[0] <= lifts_at[1] ? 0 : 1, second = 1 - first;
  R p = carried(lifts_at[first], roll, d, first, lifted);
  R a = roll.held(p, lifted);
  out.front_lifts_first = first == 0;
  out.first_lift = a;

  // On three wheels the other axle's springs alone hold more; the cart tips where they are used up too, or at once
  // where they are softer than the body's weight.
  lifted[first] = true;
  const double from = value_of(p);
  if (d.held(from + 1e-6, lifted) > d.held(from, lifted)) {
    if (d.left(second, largest_roll, lifted) > 0.0) {
      out.outcome = RollOutcome::beyond_model;
      p = R(largest_roll);
    } else {
      p = carried(lift_roll(d, second, lifted, from, largest_roll), roll, d, second, lifted);
    }
    a = roll.held(p, lifted);
  }
  out.threshold = a;
  out.roll = AngleOf<R>::from_si(p);
  return out;
}

}  // namespace

template <class R>
RollThreshold<R> roll_threshold(const RollModel<R>& m) {
  return threshold_of(rolling(m));
}

template <class R>
SprungTilt<R> sprung_tilt_angle(const RollModel<R>& m) {
  using std::atan;
  const Roll<R> roll = rolling(m);
  const Roll<double> d = plain(roll);

  // Gravity on to the table and the angle fix each other; the threshold hardly moves with gravity, so that going
  // round settles fast.
  const auto tilt = [&](double at) { return std::atan(threshold_of(d.under(std::cos(at))).threshold); };
  double at = 0.0;
  for (int round = 0; round < 100; ++round) {
    const double next = tilt(at), moved = next - at;
    at = next;
    if (std::abs(moved) < 1e-15) break;
  }

  // One round in R, and the implicit derivative of the angle that feeds back on itself.
  const double step = 1e-5;
  const auto roll_at = [&](double b) { return threshold_of(d.under(std::cos(b))).roll.si(); };
  const RollThreshold<R> t = threshold_of(roll.under(R(std::cos(at))));
  const R moved = (atan(t.threshold) - R(at)) / R(1.0 - (tilt(at + step) - tilt(at - step)) / (2.0 * step));
  const R more_roll = moved * R((roll_at(at + step) - roll_at(at - step)) / (2.0 * step));
  return {t.outcome, AngleOf<R>::from_si(R(at) + moved), t.roll + AngleOf<R>::from_si(more_roll)};
}

#define TRAMMEL_STABILITY_IN(R)                                                 \
  template LengthOf<R> tip_distance(const LumpedMass<R>&, const Footprint<R>&); \
  template RollThreshold<R> roll_threshold(const RollModel<R>&);                \
  template SprungTilt<R> sprung_tilt_angle(const RollModel<R>&);
TRAMMEL_STABILITY_IN(double)
TRAMMEL_STABILITY_IN(Uncertain)
#undef TRAMMEL_STABILITY_IN

}  // namespace trammel::vehicle
