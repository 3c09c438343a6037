#include <algorithm>
#include <cmath>

#include "assess/geometry.h"

namespace trammel {

namespace {

const Length oil_moves = 5.0 * units::mm;        // of the level plug against the gears
const Length vent_above_oil = 20.0 * units::mm;  // of the vent over the level that the plug sets

// A turned axle has its level plug higher or lower against its gears, and its vent nearer to the oil.
void judge_oil(Context& c, const JudgedAxle& axle) {
  const auto& oil = axle.now.oil;
  const auto turned = axle.model.mechanism->turned_since(*axle.was);
  const auto& first = axle.name == "front" ? c.before.front : c.before.rear;
  if (!oil || !turned || !first || !first->axle_centre) return;
  // Both places were told as the cart first stood. Height over the axle's own line; nose up lifts what stands forward
  // of it.
  const auto height = [&](const PointValue& p, Angle nose_up) {
    const auto off = p.value - first->axle_centre->value;
    return cos(nose_up) * off.z + sin(nose_up) * off.x;
  };
  if (oil->level_plug) {
    const PointValue& plug = *oil->level_plug;
    const Length up = height(plug, *turned) - height(plug, {});
    LimitCheck level{"oil-level", axle.name + " axle"};
    level.value = number(abs(up), plug.u.value_or(2.0 * units::mm) * std::abs(sin(*turned)));
    level.limit = number(oil_moves);
    level.when_broken = Outcome::condition;
    level.source = common_practice;
    level.inputs = {input(axle.name + ".oil.level_plug", plug)};
    Finding f = held_against(std::move(level));
    f.message.arguments.emplace_back("way", std::string(up.si() > 0 ? "@word-higher" : "@word-lower"));
    if (f.outcome != Outcome::met)
      f.cure = Message{up.si() > 0 ? "cure-oil-below" : "cure-oil-above", {{"by", number(abs(up))}}};
    c.add(std::move(f));
    if (oil->vent) {
      const PointValue& vent = *oil->vent;
      const auto over = [&](Angle nose_up) { return height(vent, nose_up) - height(plug, nose_up); };
      LimitCheck breathes{"axle-vent", axle.name + " axle", Finding::Sense::at_least};
      breathes.value = number(over(*turned), hypot(vent.u.value_or(2.0 * units::mm), plug.u.value_or(2.0 * units::mm)));
      breathes.before = number(over({}));
      breathes.limit = number(vent_above_oil);
      breathes.when_broken = Outcome::condition;
      breathes.source = common_practice;
      breathes.inputs = {input(axle.name + ".oil.vent", vent), input(axle.name + ".oil.level_plug", plug)};
      Finding v = held_against(std::move(breathes));
      if (v.outcome != Outcome::met) v.cure = Message{"cure-axle-vent", {}};
      c.add(std::move(v));
    }
  }
}

}  // namespace

// A body that carries both wheels has its own limits: where it stands, how it swings and how far it is turned.
void judge_axle_body(Context& c, const JudgedAxle& axle) {
  const suspension::AxleMechanism& now = *axle.model.mechanism;
  const auto aside_of = [](const suspension::AxleMechanism& m) {
    return Length::from_si(std::abs(m.pose({}).body->centre.y));
  };
  std::vector<Input> links;
  if (axle.now.axle_centre) links.push_back(input(axle.name + ".axle_centre", *axle.now.axle_centre));

  // The axle's middle against the cart's.
  const Length most_aside = 5.0 * units::mm;
  LimitCheck middle{"axle-sideways", axle.name + " axle"};
  middle.value = number(aside_of(now), axle.now.axle_centre ? axle.now.axle_centre->u.value_or(Length{}) : Length{});
  middle.limit = number(most_aside);
  if (axle.was) middle.before = number(aside_of(*axle.was));
  middle.when_broken = Outcome::condition;
  middle.source = common_practice;
  middle.inputs = links;
  Finding f = held_against(std::move(middle));
  if (f.outcome != Outcome::met) f.cure = Message{"cure-track-bar", {}};
  c.add(std::move(f));

  // How far it swings sideways and steers over its travel and in roll.
  const TravelRange& range = axle.range;
  Length swing{};
  for (const Length rise : {range.lowest, range.highest}) {
    const suspension::AxlePose pose = now.pose({rise});
    if (!pose.ok()) {
      Finding out;
      out.outcome = Outcome::stop;
      out.subject = axle.name + " axle";
      out.message = {"travel-out-of-reach",
                     {{"subject", out.subject}, {"lowest", number(range.lowest)}, {"highest", number(range.highest)}}};
      out.source = "geometry";
      out.inputs = range.inputs;
      c.add(std::move(out));
      return;
    }
    swing = std::max(swing, abs(pose.body->lateral_shift));
  }
  LimitCheck side{"axle-swing", axle.name + " axle"};
  side.value = number(swing);
  side.limit = number(10.0 * units::mm);
  side.when_broken = Outcome::condition;
  side.source = common_practice;
  side.inputs = range.inputs;
  c.add(held_against(std::move(side)));

  // Pinion, oil level and vent of an axle that is turned.
  if (axle.was)
    if (const auto turned = now.turned_since(*axle.was); turned && abs(*turned) > 0.05 * units::degree) {
      LimitCheck turn{"axle-turned", axle.name + " axle"};
      turn.value = number(abs(*turned));
      turn.limit = number(5.0 * units::degree);
      turn.when_broken = Outcome::condition;
      turn.source = common_practice;
      turn.inputs = links;
      Finding t = held_against(std::move(turn));
      if (t.outcome != Outcome::met) t.cure = Message{"cure-axle-turned", {}};
      c.add(std::move(t));
    }
  if (axle.was) judge_oil(c, axle);
}

}  // namespace trammel
