#include "assess/front_adjusters.h"

#include <algorithm>
#include <cmath>

#include "fastener/thread.h"
#include "job/overlay.h"
#include "suspension/geometry/sensitivity_spread.h"

namespace trammel {
namespace {

using V = Vector3<double>;

// Where points carry no uncertainty of their own, and a steering arm where no points are given.
const Length assumed_point_u = 5.0 * units::mm;
const Length usual_arm = 115.0 * units::mm, usual_arm_u = 20.0 * units::mm;

V metres(const PointValue& p) { return {p.value.x.si(), p.value.y.si(), p.value.z.si()}; }
Length u_of(std::initializer_list<const PointValue*> points) {
  Length u{};
  for (const PointValue* p : points) u = std::max(u, p->u.value_or(assumed_point_u));
  return u;
}

// Which of two ends a word means.
bool means_far(const std::string& word, const V& near, const V& far) {
  if (word == "outer") return std::abs(far.y) > std::abs(near.y);
  if (word == "inner") return std::abs(far.y) < std::abs(near.y);
  if (word == "left") return far.y > near.y;
  if (word == "right") return far.y < near.y;
  if (word == "front") return far.x > near.x;
  return far.x < near.x;
}

// The word for an end of a part, as the cart file has it.
std::string end_word(const std::string& part, const V& near, const V& far, bool of_far) {
  if (part == "tie_rod" && near.y * far.y < 0.0) return (far.y > near.y) == of_far ? "left" : "right";
  if (part == "drag_link") return (far.x > near.x) == of_far ? "front" : "rear";
  return of_far ? "outer" : "inner";
}

void corner_adjusters(std::vector<FittedAdjuster>& all, const Corner& corner, setup::Side side,
                      const suspension::AxleMechanism& axle) {
  const auto at = side == setup::Side::left ? suspension::Side::left : suspension::Side::right;
  // The largest uncertainty of the points that the layout has.
  Length u{};
  const auto count = [&u](const PointValue& p) { u = std::max(u, p.u.value_or(assumed_point_u)); };
  for (const auto* arm : {&corner.lower_arm, &corner.upper_arm})
    if (*arm) count((*arm)->front_bush), count((*arm)->rear_bush), count((*arm)->ball_joint);
  if (corner.tie_rod) count(corner.tie_rod->rack_end), count(corner.tie_rod->knuckle_end);
  if (corner.strut) count(corner.strut->top), count(corner.strut->lower);
  if (corner.kingpin) count(corner.kingpin->bottom), count(corner.kingpin->top);
  const suspension::AdjusterRates rates = axle.adjuster_rates(at);
  const suspension::AdjusterSpread spread = suspension::adjuster_spread(axle, at, u);
  if (!rates.outcome.ok()) return;
  const auto add = [&](std::optional<FittedAdjuster> a, const suspension::WheelAnglesRate& rate,
                       const suspension::WheelAnglesSpread& rate_spread) {
    if (!a) return;
    a->law.own = {rate.camber * a->per_turn, rate.toe * a->per_turn};
    a->law.own_spread = {rate_spread.camber * a->per_turn, rate_spread.toe * a->per_turn, rate_spread.correlation};
    all.push_back(std::move(*a));
  };
  const auto arm = [&](const Arm& given, const char* part) {
    const V bush = 0.5 * (metres(given.front_bush) + metres(given.rear_bush));
    return fitted_adjuster(given.adjuster, part, side, bush, metres(given.ball_joint));
  };
  if (corner.upper_arm) add(arm(*corner.upper_arm, "upper_arm"), rates.upper_arm, spread.upper_arm);
  if (corner.lower_arm) add(arm(*corner.lower_arm, "lower_arm"), rates.lower_arm, spread.lower_arm);
  if (corner.strut) {
    const V top = metres(corner.strut->top);
    add(fitted_adjuster(corner.strut->adjuster, "strut_top", side, 0.9 * top, V{0.9 * top.x, top.y, 0.9 * top.z}),
        rates.strut_top, spread.strut_top);
  }
  if (!corner.tie_rod) return;
  add(fitted_adjuster(corner.tie_rod->adjuster, "tie_rod", side, metres(corner.tie_rod->rack_end),
                      metres(corner.tie_rod->knuckle_end)),
      rates.tie_rod, spread.tie_rod);
}

// A steering arm's end on its king pin: how fast the end comes along u for one radian of steer to the left.
double lever(const Kingpin& pin, const V& end, const V& u) {
  const V top = metres(pin.top), bottom = metres(pin.bottom), s = (1.0 / norm(top - bottom)) * (top - bottom);
  return dot(u, cross(s, end - bottom));
}

V unit(const V& v) { return (1.0 / norm(v)) * v; }

Kingpin across(Kingpin pin) {
  pin.top.value.y = -pin.top.value.y;
  pin.bottom.value.y = -pin.bottom.value.y;
  return pin;
}

void beam_adjusters(std::vector<FittedAdjuster>& all, const Axle& axle, std::vector<Message>& notes) {
  if (!axle.tie_rod) return;
  const V left = metres(axle.tie_rod->left_end), right = metres(axle.tie_rod->right_end), u = unit(right - left);
  const bool steered_left = !axle.drag_link || axle.drag_link->axle_end.value.y.si() > 0.0;

  // Metres of rod for a radian of steer at either end, positive where the rod's end moves to the right.
  double at_left = (left.x < 0.0 ? 1.0 : -1.0) * usual_arm.si(), at_right = at_left;
  Length lever_u = usual_arm_u;
  const bool pins = axle.left && axle.left->kingpin;
  if (pins) {
    const Kingpin& pin = *axle.left->kingpin;
    const Kingpin other = axle.right && axle.right->kingpin ? *axle.right->kingpin : across(pin);
    at_left = lever(pin, left, u);
    at_right = lever(other, right, u);
    lever_u = std::sqrt(2.0) * u_of({&pin.top, &pin.bottom, &axle.tie_rod->left_end, &axle.tie_rod->right_end});
  } else {
    notes.push_back({"steering-arm-assumed", {{"arm", number(usual_arm, usual_arm_u)}}});
  }
  if (std::abs(at_left) < 0.02 || std::abs(at_right) < 0.02) return;

  // Steer to the left is toe-out on the left wheel, toe-in on the right.
  if (auto rod = fitted_adjuster(axle.tie_rod->adjuster, "tie_rod", setup::Side::right, left, right)) {
    // The wheel that the drag link does not hold moves.
    rod->law.side = steered_left ? setup::Side::right : setup::Side::left;
    rod->both_sides = true;
    const double turned = rod->per_turn.si() / (steered_left ? at_right : at_left);
    rod->law.own.toe = Angle::from_si(turned);
    rod->law.own_spread.toe = abs(rod->law.own.toe) * (lever_u.si() / std::abs(steered_left ? at_right : at_left));
    all.push_back(std::move(*rod));
  }
  if (!axle.drag_link || !pins) return;
  const V from = metres(axle.drag_link->chassis_end), to = metres(axle.drag_link->axle_end), v = unit(to - from);
  auto link = fitted_adjuster(axle.drag_link->adjuster, "drag_link",
                              steered_left ? setup::Side::left : setup::Side::right, from, to);
  if (!link) return;
  link->both_sides = true;
  const Kingpin& pin = *axle.left->kingpin;
  const Kingpin opposite = axle.right && axle.right->kingpin ? *axle.right->kingpin : across(pin);
  const double at_link = lever(steered_left ? pin : opposite, to, v);
  if (std::abs(at_link) < 0.02) return;
  const double own = link->per_turn.si() / at_link,
               other = own * (steered_left ? at_left / at_right : at_right / at_left);
  link->law.own.toe = Angle::from_si(steered_left ? -own : own);
  link->law.other.toe = Angle::from_si(steered_left ? other : -other);
  link->law.own_spread.toe = abs(link->law.own.toe) * (lever_u.si() / std::abs(at_link));
  link->law.other_spread.toe = abs(link->law.other.toe) * (lever_u.si() / std::abs(at_link));
  all.push_back(std::move(*link));
}

}  // namespace

std::optional<FittedAdjuster> fitted_adjuster(const std::optional<Adjuster>& given, const char* part, setup::Side side,
                                              const V& near, const V& far) {
  if (!given || given->kind.value == "none") return std::nullopt;
  if (given->only_on && given->only_on->value != (side == setup::Side::left ? "left" : "right")) return std::nullopt;
  FittedAdjuster a;
  a.kind = given->kind.value;
  a.part = part;
  a.law.side = side;
  a.law.name = part;
  if (given->throw_) a.throw_ = given->throw_->value;
  if (given->step) a.step = given->step->value;

  // What one turn of the law is.
  if (given->thread) {
    const auto read = fastener::read_thread(given->thread->value);
    const auto* thread = std::get_if<fastener::Thread>(&read);
    if (!thread) return std::nullopt;
    a.per_turn = (a.kind == "sleeve and rod end" ? 1.0 : 2.0) * thread->pitch;
    a.thread_diameter = thread->d;
    a.law.flats_per_turn = given->flats ? given->flats->value : 6;
  } else {
    a.per_turn = a.kind == "eccentric bolt" ? 0.4 * units::mm : a.kind == "slot" ? 2.0 * units::mm : 4.0 * *a.step;
    a.law.flats_per_turn = 1;
  }
  if (a.kind == "rod end") {
    a.part_turns = 2.0;
    a.law.flats_per_turn = 1;
  }
  if (a.throw_) {
    a.law.most_longer = (*a.throw_ / a.per_turn) * units::turn;
    a.law.most_shorter = -a.law.most_longer;
  }
  if (given->shortest) a.law.most_shorter = (given->shortest->value / a.per_turn) * units::turn;
  if (given->longest) a.law.most_longer = (given->longest->value / a.per_turn) * units::turn;

  // From where it is seen, and which way its face moves.
  const V along = (1.0 / norm(far - near)) * (far - near);
  const bool across = std::abs(along.y) > std::abs(along.x);
  a.stand = across ? Stand::in_front : 0.5 * (near.y + far.y) > 0.0 ? Stand::left_side : Stand::right_side;
  const V eye = across ? V{1.0, 0.0, 0.0} : V{0.0, a.stand == Stand::left_side ? 1.0 : -1.0, 0.0};
  using setup::RightHandAt;
  const auto face = [&](bool far_end) {
    auto moves = setup::face_when_longer(along, far_end ? RightHandAt::far_end : RightHandAt::near_end, eye);
    // A rod end turns itself against the rod: the other way round.
    if (a.kind == "rod end" && moves)
      moves = *moves == setup::FaceMoves::up ? setup::FaceMoves::down : setup::FaceMoves::up;
    return moves;
  };
  if (given->thread && (given->right_hand_at || given->left_hand_at)) {
    const bool far_end = given->right_hand_at ? means_far(given->right_hand_at->value, near, far)
                                              : !means_far(given->left_hand_at->value, near, far);
    a.face_when_longer = face(far_end);
  } else if (given->thread && face(true)) {
    const bool up_by_far = *face(true) == setup::FaceMoves::up;
    const std::string far_word = end_word(part, near, far, true), near_word = end_word(part, near, far, false);
    a.right_hand_if_up_is_longer = up_by_far ? far_word : near_word;
    a.right_hand_if_up_is_shorter = up_by_far ? near_word : far_word;
  }
  return a;
}

std::vector<FittedAdjuster> front_adjusters(const Cart& cart, const CartModel& model, std::vector<Message>& notes) {
  std::vector<FittedAdjuster> all;
  if (!cart.front) return all;
  if (model.front && model.front->mechanism && cart.front->left && cart.front->layout.value != "solid beam") {
    corner_adjusters(all, *cart.front->left, setup::Side::left, *model.front->mechanism);
    corner_adjusters(all, right_corner(*cart.front), setup::Side::right, *model.front->mechanism);
  } else if (cart.front->layout.value == "solid beam") {
    beam_adjusters(all, *cart.front, notes);
  }
  return all;
}

Angle turns_of(const AdjusterMove& move, const FittedAdjuster& adjuster, Angle& bolt) {
  switch (move.unit) {
    case AdjusterMove::Unit::turns:
      return (move.amount / adjuster.part_turns) * units::turn;
    case AdjusterMove::Unit::flats:
      return (move.amount / (adjuster.part_turns * adjuster.law.flats_per_turn)) * units::turn;
    case AdjusterMove::Unit::length:
      return (move.amount / adjuster.per_turn.si()) * units::turn;
    case AdjusterMove::Unit::angle:
      break;
  }
  const Angle now = bolt + Angle::from_si(move.amount);
  const double shift = adjuster.throw_.value_or(Length{}).si() * (sin(now) - sin(bolt));
  bolt = now;
  return (shift / adjuster.per_turn.si()) * units::turn;
}

}  // namespace trammel
