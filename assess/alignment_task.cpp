#include "assess/alignment_task.h"

#include <cmath>
#include <numbers>

#include "assess/accessories.h"
#include "assess/fitted_cart.h"
#include "assess/standing.h"
#include "assess/tyres.h"
#include "job/job_shape.h"
#include "setup/learned.h"

namespace trammel {
namespace {

// Share of what is not known of the effects that left and right have in common where only one side was measured.
constexpr double mirrored_alike = 0.5;

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
  if (!a.beam || a.steered_by_link) t.toe_difference = {-2.0 * units::mm, 2.0 * units::mm};
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
  r.while_turning = given.while_turning && given.while_turning->value;
  if (given.on_sidewall && given.on_sidewall->value) r.square_touches = setup::SquareTouches::sidewall;
  if (given.repeats) r.repeats = given.repeats->value;
  if (given.floor_slope)
    r.floor_slope =
        setup::Estimate<Angle>{given.floor_slope->value, given.floor_slope->u.value_or(0.1 * units::degree)};
  return r;
}

// What a cause would show on this cart: from the geometry, where the axle moves by one.
setup::Chassis chassis(const Cart& cart, const CartModel& model, bool beam) {
  setup::Chassis c = setup::class_average(beam);
  c.leaf_springs = cart.front->located_by && cart.front->located_by->value == "leaf springs";
  if (beam || !model.front->mechanism) return c;
  const auto corner = [&](suspension::Side side, setup::CornerRates& out) {
    const suspension::AdjusterRates r = model.front->mechanism->adjuster_rates(side);
    if (!r.outcome.ok()) return false;
    const auto rate = [](const suspension::WheelAnglesRate& x) { return setup::WheelRate{x.camber, x.toe}; };
    const bool strut = cart.front->layout.value == "strut";
    out = {rate(r.rise), rate(strut ? r.strut_top : r.upper_arm), rate(r.lower_arm), rate(r.tie_rod), rate(r.rack)};
    return true;
  };
  setup::Chassis own = c;
  own.known = corner(suspension::Side::left, own.left) && corner(suspension::Side::right, own.right);
  return own.known ? own : c;
}

// Ride heights, and the wheels as the cart came in.
setup::Signs signs(const Job& job, const setup::AlignmentTask& task, Length hub_lowered) {
  setup::Signs s;
  setup::AlignmentTask untouched = task;
  untouched.adjusters.clear();
  setup::Belief before(untouched);
  std::optional<Length> left, right, left_before, right_before;
  bool came_in = false;
  for (const Event* event : standing_events(job)) {
    const auto* r = std::get_if<Reading>(event);
    if (!r) continue;
    const bool earlier = r->before_work && r->before_work->value;
    if (earlier) before.condition(reading(*r)), came_in = true;
    if (!r->left_height || !r->right_height) continue;
    (earlier ? left_before : left) = r->left_height->value;
    (earlier ? right_before : right) = r->right_height->value;
  }
  if (came_in) {
    const auto state = before.state();
    s.before_work = setup::Signs::Wheels{state.left_camber, state.right_camber, before.own_toe(setup::Side::left),
                                         before.own_toe(setup::Side::right)};
  }
  const Length u = 1.5 * units::mm;
  if (left) s.height_difference = setup::Estimate<Length>{*left - *right, std::sqrt(2.0) * u};
  if (left && left_before)
    s.height_change = setup::Estimate<Length>{0.5 * (*left + *right - *left_before - *right_before) - hub_lowered, u};
  return s;
}

// The moves of an entry by their keys: "left_upper_arm", "tie_rod".
struct Moves {
  std::vector<std::pair<std::string_view, AdjusterMove>> all;
  void field(const Key& key, std::optional<AdjusterMove>& move) {
    if (move) all.emplace_back(key.name, *move);
  }
  void field(const Key&, std::optional<Text>&) {}  // who and when
};

// What an entry turned, in the adjusters' own laws; `bolts` is where each eccentric bolt stands.
setup::Adjustment adjustment(const Adjustment& given, JobAlignment& a, std::vector<Angle>& bolts) {
  setup::Adjustment made;
  Moves moves;
  walk_fields(moves, given);
  for (const auto& [key, move] : moves.all) {
    bool known = false;
    for (std::size_t i = 0; i < a.adjusters.size() && !known; ++i) {
      const FittedAdjuster& adjuster = a.adjusters[i];
      if (key != key_of(adjuster)) continue;
      made.turns.push_back({adjuster.law.side, adjuster.law.name, turns_of(move, adjuster, bolts[i])});
      known = true;
    }
    if (!known) a.notes.push_back({"adjustment-of-nothing", {{"key", std::string(key)}}});
  }
  return made;
}

}  // namespace

std::optional<std::vector<std::string>> adjuster_keys(const Job& job) {
  const Cart cart = fitted_cart(job);
  const CartModel model = cart_model(cart);
  if (!cart.front || !model.front) return std::nullopt;
  std::vector<Message> notes;
  std::vector<std::string> keys;
  for (const FittedAdjuster& a : front_adjusters(cart, model, notes)) keys.push_back(key_of(a));
  return keys;
}

std::optional<JobAlignment> job_alignment(const Job& job, const Cart& cart, const CartModel& model,
                                          Length hub_lowered) {
  if (!model.front || !cart.front) return std::nullopt;
  JobAlignment a;
  a.beam = cart.front->layout.value == "solid beam";
  a.steered_by_link =
      cart.front->drag_link && cart.front->drag_link->adjuster && cart.front->drag_link->adjuster->kind.value != "none";
  const auto& mechanism = model.front->mechanism;
  if (!a.beam && (!mechanism || !cart.front->left || !mechanism->check().empty())) return std::nullopt;
  read_tolerance(a, job);
  read_instruments(a, job);
  if (mechanism) read_steering_ratio(a, cart, model);
  if (job.alignment && job.alignment->accept_at) a.task.accept_probability = job.alignment->accept_at->value;
  if (job.alignment && job.alignment->floor && job.alignment->floor->value == "slip plates") {
    a.floor = setup::Floor::plates;
    a.task.handling = setup::standing_on(a.floor, a.task.handling);
  }
  a.way = setup::usual_way(a.floor);
  if (job.alignment && job.alignment->times) {
    const AlignmentTimes& given = *job.alignment->times;
    const auto set = [](Time& time, const std::optional<Valued<Time>>& value) {
      if (value) time = value->value;
    };
    set(a.way.times.cambers, given.cambers);
    set(a.way.times.toe, given.toe);
    set(a.way.times.strings, given.strings);
    set(a.way.times.turning, given.turning);
    set(a.way.times.touch_up, given.touch_up);
    set(a.way.times.roll, given.roll);
  }
  a.adjusters = front_adjusters(cart, model, a.notes);
  for (const FittedAdjuster& adjuster : a.adjusters) a.task.adjusters.push_back(adjuster.law);

  // A side that is only the mirror image of the other has its errors.
  if (!a.beam && !cart.front->right) a.task.alike = mirrored_alike;

  // Toe is told at the diameter of the first reading, else at the tyre's.
  std::vector<Angle> bolts(a.adjusters.size());
  for (const Event* event : standing_events(job)) {
    if (const auto* r = std::get_if<Reading>(event)) {
      if (r->before_work && r->before_work->value) continue;
      if (r->toe_diameter && !(a.task.toe_diameter.si() > 0.0)) a.task.toe_diameter = r->toe_diameter->value;
      if (const auto& g = r->left_camber_gap ? r->left_camber_gap : r->right_camber_gap) a.task.square_over = g->over;
      a.events.push_back(reading(*r));
      a.stop_of.push_back(a.stop_of.empty() ? 1 : a.stop_of.back() + 1);
    } else if (const auto* turned = std::get_if<Adjustment>(event)) {
      a.events.push_back(adjustment(*turned, a, bolts));
      a.stop_of.push_back(a.stop_of.empty() ? 0 : a.stop_of.back());
    }
  }
  // Turned, and read before the roll: that turn was not rolled.
  for (std::size_t i = 0; i + 1 < a.events.size(); ++i) {
    auto* turned = std::get_if<setup::Adjustment>(&a.events[i]);
    const auto* then = std::get_if<setup::Reading>(&a.events[i + 1]);
    if (turned && then && then->while_turning) turned->rolled = false;
  }
  a.bolts = std::move(bolts);
  if (!(a.task.toe_diameter.si() > 0.0)) {
    const auto tyre = tyre_model(cart.front, "front");
    a.task.toe_diameter = 2.0 * (tyre ? tyre->radius : model.front->radius);
  }
  // Finished jobs on the same cart and kits.
  if (!job.learned_from.empty()) {
    std::vector<setup::FinishedJob> finished;
    for (const LearnedJob& learned : job.learned_from) {
      Job alone = as_fitted(*learned.job);
      const Cart fitted = with_kits(alone.cart, alone.kits);
      alone.learned_from.clear();
      if (auto one = job_alignment(alone, fitted, cart_model(fitted))) finished.push_back({one->task, one->events});
    }
    const int used = setup::learn_from(a.task, finished);
    for (std::size_t i = 0; i < a.adjusters.size(); ++i) a.adjusters[i].law = a.task.adjusters[i];
    a.notes.push_back(
        {"alignment-learned", {{"used", std::to_string(used)}, {"given", std::to_string(job.learned_from.size())}}});
  }
  a.task.chassis = chassis(cart, model, a.beam);
  a.task.signs = signs(job, a.task, hub_lowered);
  return a;
}

}  // namespace trammel
