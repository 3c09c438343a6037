#include "assess/alignment_task.h"

#include <cmath>
#include <numbers>

#include "assess/tyres.h"
#include "fastener/thread.h"
#include "job/overlay.h"
#include "suspension/geometry/sensitivity_spread.h"

namespace trammel {
namespace {

// Where points carry no uncertainty of their own.
const Length assumed_point_u = 5.0 * units::mm;

// Change of length for one turn: a both-hand sleeve works two threads at once, a rod end one.
std::optional<Length> per_turn(const Adjuster& adjuster) {
  const auto read = fastener::read_thread(adjuster.thread.value);
  const auto* thread = std::get_if<fastener::Thread>(&read);
  if (!thread || adjuster.kind.value == "none") return std::nullopt;
  return (adjuster.kind.value == "both-hand sleeve" ? 2.0 : 1.0) * thread->pitch;
}

// The largest uncertainty of the points that the layout has.
Length point_u(const Corner& corner) {
  Length u{};
  const auto add = [&u](const PointValue& p) { u = std::max(u, p.u.value_or(assumed_point_u)); };
  for (const auto* arm : {&corner.lower_arm, &corner.upper_arm})
    if (*arm)
      for (const PointValue* p : {&(*arm)->front_bush, &(*arm)->rear_bush, &(*arm)->ball_joint}) add(*p);
  if (corner.tie_rod) add(corner.tie_rod->rack_end), add(corner.tie_rod->knuckle_end);
  if (corner.strut) add(corner.strut->top), add(corner.strut->lower);
  if (corner.kingpin) add(corner.kingpin->bottom), add(corner.kingpin->top);
  return u;
}

void add_adjusters(JobAlignment& a, const Corner& corner, setup::Side side, const suspension::AxleMechanism& axle) {
  const auto at = side == setup::Side::left ? suspension::Side::left : suspension::Side::right;
  const suspension::AdjusterRates rates = axle.adjuster_rates(at);
  const suspension::AdjusterSpread spread = suspension::adjuster_spread(axle, at, point_u(corner));
  if (!rates.outcome.ok()) return;
  const auto add = [&](const std::optional<Adjuster>& given, const char* name, const suspension::WheelAnglesRate& rate,
                       const suspension::WheelAnglesSpread& rate_spread) {
    if (!given) return;
    const auto advance = per_turn(*given);
    if (!advance) return;
    setup::Adjuster adjuster;
    adjuster.side = side;
    adjuster.name = name;
    adjuster.own = {rate.camber * *advance, rate.toe * *advance};
    adjuster.own_spread = {rate_spread.camber * *advance, rate_spread.toe * *advance, rate_spread.correlation};
    adjuster.flats_per_turn = given->flats.value;
    if (given->shortest) adjuster.most_shorter = (given->shortest->value / *advance) * units::turn;
    if (given->longest) adjuster.most_longer = (given->longest->value / *advance) * units::turn;
    a.task.adjusters.push_back(std::move(adjuster));
  };
  if (corner.upper_arm) add(corner.upper_arm->adjuster, "upper_arm", rates.upper_arm, spread.upper_arm);
  if (corner.tie_rod) add(corner.tie_rod->adjuster, "tie_rod", rates.tie_rod, spread.tie_rod);
}

void read_tolerance(JobAlignment& a, const Job& job) {
  const auto given = job.alignment ? job.alignment->tolerance : std::nullopt;
  setup::Tolerance& t = a.task.tolerance;
  if (given) {
    if (given->camber) t.camber = {given->camber->low, given->camber->high};
    if (given->total_toe) t.total_toe = {given->total_toe->low, given->total_toe->high};
    if (given->toe_difference) t.toe_difference = {given->toe_difference->low, given->toe_difference->high};
    return;
  }
  t.camber = {-0.5 * units::degree, 0.5 * units::degree};
  t.total_toe = {0.125 * units::inch, 0.25 * units::inch};
  t.toe_difference = {-2.0 * units::mm, 2.0 * units::mm};
  a.notes.push_back({"alignment-tolerance-assumed", {}});
}

void read_instruments(JobAlignment& a, const Job& job) {
  if (!job.alignment || !job.alignment->instruments) {
    a.notes.push_back({"alignment-tools-assumed", {}});
    return;
  }
  const Instruments& given = *job.alignment->instruments;
  setup::Instruments& tools = a.task.instruments;
  const auto set = [](auto& tool, const auto& value) {
    if (value) tool = {value->value, setup::InstrumentBasis::measured};
  };
  set(tools.tape, given.tape);
  set(tools.square, given.square);
  set(tools.string, given.string);
  set(tools.steering_wheel, given.steering_wheel);
  if (given.turn_error) a.task.handling.turn_error = given.turn_error->value * units::turn;
}

// How far the steering wheel turns for the road wheels' turn.
void read_steering_ratio(JobAlignment& a, const Cart& cart, const CartModel& model) {
  if (!cart.front->rack_per_turn) {
    a.notes.push_back({"steering-ratio-assumed", {}});
    return;
  }
  const Valued<Length>& per_turn_of_wheel = *cart.front->rack_per_turn;
  const auto rates = model.front->mechanism->adjuster_rates(suspension::Side::left);
  if (!rates.outcome.ok() || rates.rack.toe.si() == 0.0) return;
  const double ratio = -2.0 * std::numbers::pi / (rates.rack.toe.si() * per_turn_of_wheel.value.si());
  const double share = per_turn_of_wheel.u ? std::abs(*per_turn_of_wheel.u / per_turn_of_wheel.value) : 0.1;
  if (ratio > 0.0) a.task.steering_ratio = setup::Estimate<double>{ratio, ratio * share};
}

std::optional<setup::SquareGap> gap(const std::optional<SquareGap>& given) {
  if (!given) return std::nullopt;
  return setup::SquareGap{given->gap, given->at == SquareGap::At::top ? setup::GapAt::top : setup::GapAt::bottom,
                          given->over};
}
template <class Q>
std::optional<Q> value(const std::optional<Valued<Q>>& given) {
  return given ? std::optional<Q>(given->value) : std::nullopt;
}

setup::Reading reading(const Reading& given) {
  setup::Reading r;
  r.left_camber_gap = gap(given.left_camber_gap);
  r.right_camber_gap = gap(given.right_camber_gap);
  r.left_camber_gauge = value(given.left_camber);
  r.right_camber_gauge = value(given.right_camber);
  r.toe_front = value(given.toe_front);
  r.toe_rear = value(given.toe_rear);
  r.toe_diameter = value(given.toe_diameter);
  if (given.left_string_front && given.left_string_rear)
    r.left_string = {given.left_string_front->value, given.left_string_rear->value};
  if (given.right_string_front && given.right_string_rear)
    r.right_string = {given.right_string_front->value, given.right_string_rear->value};
  r.string_diameter = value(given.string_diameter);
  r.steering_wheel_angle = value(given.steering_wheel_angle);
  if (given.floor_slope)
    r.floor_slope =
        setup::Estimate<Angle>{given.floor_slope->value, given.floor_slope->u.value_or(0.1 * units::degree)};
  return r;
}

setup::Adjustment adjustment(const Adjustment& given, const std::vector<setup::Adjuster>& adjusters) {
  setup::Adjustment a;
  const auto add = [&](const std::optional<AdjusterMove>& move, setup::Side side, const char* name) {
    if (!move) return;
    double flats = 6.0;
    for (const setup::Adjuster& adjuster : adjusters)
      if (adjuster.side == side && adjuster.name == name) flats = adjuster.flats_per_turn;
    const double turns = move->unit == AdjusterMove::Unit::turns ? move->amount : move->amount / flats;
    a.turns.push_back({side, name, turns * units::turn});
  };
  add(given.left_upper_arm, setup::Side::left, "upper_arm");
  add(given.right_upper_arm, setup::Side::right, "upper_arm");
  add(given.left_tie_rod, setup::Side::left, "tie_rod");
  add(given.right_tie_rod, setup::Side::right, "tie_rod");
  return a;
}

}  // namespace

std::optional<JobAlignment> job_alignment(const Job& job, const Cart& cart, const CartModel& model) {
  if (!model.front || !model.front->mechanism || !cart.front || !cart.front->left) return std::nullopt;
  const suspension::AxleMechanism& axle = *model.front->mechanism;
  if (!axle.check().empty()) return std::nullopt;
  JobAlignment a;
  read_tolerance(a, job);
  read_instruments(a, job);
  read_steering_ratio(a, cart, model);
  if (job.alignment && job.alignment->accept_at) a.task.accept_probability = job.alignment->accept_at->value;
  add_adjusters(a, *cart.front->left, setup::Side::left, axle);
  add_adjusters(a, right_corner(*cart.front), setup::Side::right, axle);

  // Toe is told at the diameter of the first reading, else at the tyre's.
  for (const Event& event : job.events) {
    if (const auto* r = std::get_if<Reading>(&event)) {
      if (r->toe_diameter && !(a.task.toe_diameter.si() > 0.0)) a.task.toe_diameter = r->toe_diameter->value;
      if (const auto& g = r->left_camber_gap ? r->left_camber_gap : r->right_camber_gap) a.task.square_over = g->over;
      a.events.push_back(reading(*r));
    } else if (const auto* turned = std::get_if<Adjustment>(&event)) {
      a.events.push_back(adjustment(*turned, a.task.adjusters));
    }
  }
  if (!(a.task.toe_diameter.si() > 0.0)) {
    const auto tyre = tyre_model(cart.front, "front");
    a.task.toe_diameter = 2.0 * (tyre ? tyre->radius : axle.loaded_radius());
  }
  return a;
}

}  // namespace trammel
