#include <algorithm>
#include <string>

#include "assess/context.h"
#include "assess/tyres.h"
#include "measure/text.h"
#include "suspension/clearance/sweep.h"

namespace trammel {
namespace {

using suspension::Side;

const double shoulder_share = 0.12;  // shoulder radius over section width, where the tyre is not drawn: assumed
const double growth_share = 0.01;    // of the radius, by speed and wear: assumed
const Length assumed_gap = 15.0 * units::mm;
const Length assumed_travel = 40.0 * units::mm;

suspension::TyreShape shape(const TyreModel& tyre, const AxleModel& axle) {
  suspension::TyreShape s;
  s.radius = tyre.radius;
  s.width = tyre.width;
  s.shoulder_radius = shoulder_share * tyre.width;
  s.growth = growth_share * tyre.radius;
  // The tyre's middle stands at the half track, which need not be the hub's.
  if (axle.half_track) s.centre_offset = *axle.half_track - Length::from_si(std::abs(axle.left_hub.y));
  return s;
}

suspension::SweepRange range(const Axle& axle) {
  suspension::SweepRange r;
  r.lowest = -(axle.droop ? axle.droop->value : assumed_travel);
  r.highest = axle.bump ? axle.bump->value : assumed_travel;
  const Length lock = axle.rack_travel ? axle.rack_travel->value : Length{};
  r.rack_right = -lock;
  r.rack_left = lock;
  return r;
}

struct Feature {
  std::string name;
  const BodyPoint* given;
  Side side;
  suspension::BodyFeature at;
};

// Body points near this axle, each on the sides where it stands.
std::vector<Feature> features(const Cart& cart, double axle_x, double other_x) {
  std::vector<Feature> all;
  for (const BodyPoint& p : cart.body_point) {
    const Vector3<double> at{p.at.value.x.si(), p.at.value.y.si(), p.at.value.z.si()};
    if (std::abs(at.x - axle_x) > std::abs(at.x - other_x)) continue;
    const Length skin = 2.0 * p.at.u.value_or(Length{});
    const auto add = [&](const Vector3<double>& a) {
      all.push_back({p.name.value, &p, a.y >= 0.0 ? Side::left : Side::right, {a, a, skin}});
    };
    add(at);
    if (p.both_sides && p.both_sides->value) add(mirrored(at));
  }
  return all;
}

// Least gap of each feature; nothing where no pose of the wheel could be reached.
struct Least {
  std::optional<Length> gap;
  Length rise{}, rack{};
};
std::vector<Least> apart_gaps(const AxleModel& model, const Axle& axle, const TyreModel& tyre,
                              const std::vector<Feature>& list) {
  std::vector<Least> least(list.size());
  for (const Side side : {Side::left, Side::right}) {
    std::vector<suspension::BodyFeature> of_side;
    std::vector<std::size_t> index;
    for (std::size_t i = 0; i < list.size(); ++i)
      if (list[i].side == side) {
        of_side.push_back(list[i].at);
        index.push_back(i);
      }
    if (of_side.empty()) continue;
    const auto swept = suspension::sweep(*model.mechanism, side, shape(tyre, model), range(axle), of_side);
    for (std::size_t k = 0; k < index.size(); ++k)
      if (swept.features[k].found)
        least[index[k]] = {swept.features[k].gap, swept.features[k].rise, swept.features[k].rack};
  }
  return least;
}
// Wheels on one body go up and down with it, level and in roll.
std::vector<Least> one_body_gaps(const AxleModel& model, const Axle& axle, const TyreModel& tyre,
                                 const std::vector<Feature>& list) {
  const suspension::SweepRange r = range(axle);
  constexpr int steps = 16;
  std::vector<Least> least(list.size());
  for (int i = 0; i <= steps; ++i)
    for (const double roll : {-4.0, 0.0, 4.0}) {
      const Length rise = r.lowest + (static_cast<double>(i) / steps) * (r.highest - r.lowest);
      const suspension::AxlePose pose = model.mechanism->pose({rise, roll * units::degree});
      if (!pose.ok()) continue;
      for (std::size_t k = 0; k < list.size(); ++k) {
        const suspension::WheelPose<double>& wheel = pose.side(list[k].side).wheel;
        const suspension::TyrePlace place{wheel.hub_centre, wheel.spin_axis};
        const Length gap = suspension::tyre_gap(shape(tyre, model), place, list[k].at.from).gap - list[k].at.skin;
        if (!least[k].gap || gap < *least[k].gap) least[k] = {gap, rise, {}};
      }
    }
  return least;
}

std::vector<Least> gaps(const std::optional<AxleModel>& model, const std::optional<Axle>& axle,
                        const std::optional<TyreModel>& tyre, const std::vector<Feature>& list) {
  if (!model || !model->mechanism || !axle || !tyre) return std::vector<Least>(list.size());
  return model->mechanism->one_body() ? one_body_gaps(*model, *axle, *tyre, list)
                                      : apart_gaps(*model, *axle, *tyre, list);
}

const char* lock_word(Length rack, const Axle& axle) {
  if (abs(rack) < 2.0 * units::mm) return "straight";
  // The rack goes against the wheel's turn where one turn to the left moves it right.
  const bool to_left = (rack.si() > 0.0) == (!axle.rack_per_turn || axle.rack_per_turn->value.si() > 0.0);
  return to_left ? "left-lock" : "right-lock";
}

void judge_axle(Context& c, const std::string& name, std::optional<Axle> Cart::*axle,
                std::optional<AxleModel> CartModel::*model, std::optional<AxleModel> CartModel::*other) {
  const auto& now = c.model_after.*model;
  if (!now) return;
  const double other_x = c.model_after.*other ? (c.model_after.*other)->left_hub.x : now->left_hub.x - 10.0;
  const std::vector<Feature> list = features(c.after, now->left_hub.x, other_x);
  if (list.empty()) return;
  const auto tyre_now = tyre_model(c.after.*axle, name), tyre_was = tyre_model(c.before.*axle, name);
  if (!tyre_now) return c.add(not_computed("tyre clearance, " + name, {name + ".tyre.size"}));

  const std::vector<Least> after = gaps(now, c.after.*axle, tyre_now, list);
  const std::vector<Least> before = gaps(c.model_before.*model, c.before.*axle, tyre_was, list);
  const Length wanted = c.after.wanted_gap ? c.after.wanted_gap->value : assumed_gap;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const char* side = list[i].side == Side::left ? "left" : "right";
    if (!after[i].gap) {
      c.add(not_computed("tyre clearance at " + list[i].name, {name + " linkage"}));
      continue;
    }
    GapResult row{list[i].name, side, lock_word(after[i].rack, *(c.after.*axle)), before[i].gap, after[i].gap, {}};
    row.at = list[i].given->at.value;
    if (list[i].side == Side::right && row.at.y.si() > 0) row.at.y = -row.at.y;
    c.out.gaps.push_back(row);

    // Touching stops the job; closer than wanted is a condition.
    LimitCheck check{"tyre-gap", list[i].name + ", " + side};
    check.sense = Finding::Sense::at_least;
    check.value = number(*after[i].gap, tyre_now->u);
    check.limit = number(wanted);
    if (before[i].gap) check.before = number(*before[i].gap);
    check.when_broken = after[i].gap->si() < 0.0 ? Outcome::stop : Outcome::condition;
    check.source = "closed-form gap of a cylinder with rounded shoulders; wanted gap: common practice, no source";
    check.inputs = tyre_now->inputs;
    check.inputs.push_back(input("body_point." + list[i].name + ".at", list[i].given->at));
    check.inputs.push_back(c.after.wanted_gap ? input("wanted_gap", *c.after.wanted_gap)
                                              : assumed("wanted_gap", number(wanted)));
    Finding f = held_against(std::move(check));
    f.message.arguments.emplace_back("lock", std::string(row.pose));
    f.message.arguments.emplace_back("rise", number(after[i].rise));
    if (f.outcome != Outcome::met) f.cure = Message{now->mechanism->steered() ? "cure-steer-stop" : "cure-trim", {}};
    c.add(std::move(f));
  }
}

}  // namespace

void judge_clearance(Context& c) {
  judge_axle(c, "front", &Cart::front, &CartModel::front, &CartModel::rear);
  judge_axle(c, "rear", &Cart::rear, &CartModel::rear, &CartModel::front);
}

}  // namespace trammel
