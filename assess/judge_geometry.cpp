#include <algorithm>
#include <cmath>

#include "assess/context.h"
#include "job/overlay.h"
#include "suspension/geometry/axle_turn.h"
#include "suspension/geometry/rack_height.h"
#include "suspension/geometry/sensitivity.h"

namespace trammel {
namespace {

using suspension::Side;

// Toe change over bumps beyond which a cart wanders, and beyond which it steers itself. Invented carts gave
// 0 to 14 deg/m as built or with the rack moved along with the arms, 77 to 195 with the rack left behind.
const AnglePerLength wanders = 20.0 * units::degree / units::metre;
const AnglePerLength steers_itself = 50.0 * units::degree / units::metre;
const char* bump_steer_source =
    "a study of 12 invented carts: 0 to 14 deg/m sound, 77 to 195 deg/m with the rack left behind";

const Length assumed_travel = 40.0 * units::mm;

struct Range {
  Length lowest, highest;
  std::vector<Input> inputs;
};
Range travel_range(const Axle& axle, const std::string& name) {
  Range r;
  const auto side = [&](const std::optional<Valued<Length>>& v, const char* key) {
    r.inputs.push_back(v ? input(name + "." + key, *v) : assumed(name + "." + key, number(assumed_travel)));
    return v ? v->value : assumed_travel;
  };
  r.lowest = -side(axle.droop, "droop");
  r.highest = side(axle.bump, "bump");
  return r;
}

void point(AxleTravel& t, const std::string& name, const Vector3<double>& p) {
  t.points[name] = {Length::from_si(p.x), Length::from_si(p.y), Length::from_si(p.z)};
}

void wishbone_points(AxleTravel& t, const std::string& side, const suspension::WishbonePoints<double>& p) {
  point(t, side + ".lower_arm.front_bush", p.lower_arm.front_bush);
  point(t, side + ".lower_arm.rear_bush", p.lower_arm.rear_bush);
  point(t, side + ".lower_arm.ball_joint", p.lower_arm.ball_joint);
  point(t, side + ".upper_arm.front_bush", p.upper_arm.front_bush);
  point(t, side + ".upper_arm.rear_bush", p.upper_arm.rear_bush);
  point(t, side + ".upper_arm.ball_joint", p.upper_arm.ball_joint);
  point(t, side + ".tie_rod.rack_end", p.rack_end);
  point(t, side + ".tie_rod.knuckle_end", p.knuckle_end);
  point(t, side + ".hub.centre", p.hub_centre);
  if (p.spring) {
    point(t, side + ".spring.chassis", p.spring->chassis);
    point(t, side + ".spring.lower_arm", p.spring->lower_arm);
  }
}

// The curves of an independent axle over its travel, rack in the middle.
AxleTravel curves(const suspension::IndependentAxle& axle, const Range& range) {
  constexpr int steps = 24;
  suspension::TravelRequest request;
  request.rises.clear();
  for (int i = 0; i <= steps; ++i)
    request.rises.push_back(range.lowest + (static_cast<double>(i) / steps) * (range.highest - range.lowest));

  AxleTravel t;
  t.computed = true;
  for (const suspension::TravelPose& pose : suspension::travel(axle, request).poses) {
    const auto add = [&](std::vector<TravelPoint>& side, const suspension::SidePose& s) {
      const auto& g = s.geometry;
      if (s.outcome.ok()) side.push_back({pose.rise, g.camber, g.toe, g.caster, abs(g.half_track)});
    };
    add(t.left, pose.left);
    add(t.right, pose.right);
  }
  wishbone_points(t, "left", axle.left);
  wishbone_points(t, "right", axle.right ? *axle.right : suspension::mirrored(axle.left));
  return t;
}

// The right side as the suspension room wants it for one side alone.
const suspension::WishbonePoints<double> side_points(const suspension::IndependentAxle& axle, Side side) {
  if (side == Side::left) return axle.left;
  return axle.right ? *axle.right : suspension::mirrored(axle.left);
}
const char* name(Side side) { return side == Side::left ? "left" : "right"; }

// Points that are no mechanism: named one by one. False where there is any.
bool usable(Context& c, const suspension::IndependentAxle& axle, const std::string& axle_name, const Corner& corner) {
  bool ok = true;
  for (const Side side : {Side::left, Side::right}) {
    if (side == Side::right && !axle.right) continue;
    for (const suspension::PointFault& fault : suspension::check(side_points(axle, side), side == Side::right)) {
      Finding f;
      f.outcome = Outcome::stop;
      f.subject = axle_name + "." + name(side) + "." + std::string(suspension::key(fault.point));
      f.message = point_fault(axle_name + "." + name(side), fault);
      f.source = "geometry";
      f.place = corner.lower_arm ? corner.lower_arm->ball_joint.place : Place{};
      c.add(std::move(f));
      ok = false;
    }
  }
  return ok;
}

void judge_bump_steer(Context& c, const Range& range) {
  const auto& after = *c.model_after.front->independent;
  const auto& before = c.model_before.front ? c.model_before.front->independent : c.model_after.front->independent;
  for (const Side side : {Side::left, Side::right}) {
    if (side == Side::right && !after.right) continue;
    const auto steer = [&](const suspension::IndependentAxle& a) {
      return suspension::bump_steer(side_points(a, side), side, range.lowest, range.highest);
    };
    const suspension::BumpSteer now = steer(after);
    if (!now.outcome.ok()) {
      Finding f;
      f.outcome = Outcome::stop;
      f.subject = std::string("front ") + name(side);
      f.message = {"travel-out-of-reach",
                   {{"subject", f.subject}, {"lowest", number(range.lowest)}, {"highest", number(range.highest)}}};
      if (now.outcome.rise_limit) f.message.arguments.emplace_back("reached", number(*now.outcome.rise_limit));
      f.source = "geometry";
      f.inputs = range.inputs;
      c.add(std::move(f));
      continue;
    }
    const AnglePerLength size = abs(now.worst);
    if (!c.out.front_after.bump_steer || size > *c.out.front_after.bump_steer) c.out.front_after.bump_steer = size;

    // Degrees per metre have no everyday unit: told as the toe change over the travel, held against the rate.
    const auto over_50mm = [](AnglePerLength rate) { return rate * (50.0 * units::mm); };
    LimitCheck check{"bump-steer", after.right ? std::string("front ") + name(side) : "front wheels"};
    check.value = number(over_50mm(size));
    const bool stop = size > steers_itself;
    check.limit = number(over_50mm(stop ? steers_itself : wanders));
    check.when_broken = stop ? Outcome::stop : Outcome::condition;
    check.source = bump_steer_source;
    check.inputs = range.inputs;
    check.inputs.push_back(input("front.left.tie_rod.rack_end", c.after.front->left->tie_rod->rack_end));
    check.inputs.push_back(input("front.left.tie_rod.knuckle_end", c.after.front->left->tie_rod->knuckle_end));
    if (before) {
      const suspension::BumpSteer was = steer(*before);
      if (was.outcome.ok()) {
        check.before = number(over_50mm(abs(was.worst)));
        c.out.front_before.bump_steer = abs(was.worst);
      }
    }
    Finding f = held_against(std::move(check));
    if (f.outcome != Outcome::met)
      if (const auto shift = suspension::rack_shift_for_no_bump_steer(side_points(after, side), side)) {
        f.cure = Message{shift->si() < 0.0 ? "cure-rack-lower" : "cure-rack-higher", {{"by", number(abs(*shift))}}};
      }
    c.add(std::move(f));
  }
}

// What the kit does to the steering axis at rest.
void note_steering_axis(Context& c) {
  const auto at_rest = [](const AxleModel& m) {
    return suspension::side_pose(m.independent->left, Side::left, m.radius, {}, {}).geometry;
  };
  const auto now = at_rest(*c.model_after.front);
  std::optional<suspension::WheelGeometry<double>> was;
  if (c.model_before.front && c.model_before.front->independent) was = at_rest(*c.model_before.front);
  const auto row = [&](const char* code, auto member) {
    std::optional<Number> before;
    if (was) before = number((*was).*member);
    const auto value = now.*member;
    if (before && std::abs(before->si - number(value).si) < 1e-9) return;
    c.add(noted(code, "front wheels", before, number(value),
                {input("front.left.upper_arm.ball_joint", c.after.front->left->upper_arm->ball_joint),
                 input("front.left.lower_arm.ball_joint", c.after.front->left->lower_arm->ball_joint)},
                "ISO 8855:2011 7.1.6, 7.2"));
  };
  using G = suspension::WheelGeometry<double>;
  row("caster-change", &G::caster);
  row("steering-offset-change", &G::steering_axis_offset_at_ground);
  row("trail-change", &G::caster_trail);
  row("half-track-change", &G::half_track);
  row("roll-centre-change", &G::roll_centre_height);
}

// Layouts whose geometry is not computed yet say so; nothing is guessed of them.
Finding layout_not_computed(const std::string& name, const Axle& axle) {
  Finding f;
  f.outcome = Outcome::note;
  f.subject = name + " axle";
  const std::string layout = axle.layout.value + (axle.located_by ? " on " + axle.located_by->value : "");
  f.message = {"layout-not-computed", {{"axle", name}, {"layout", layout}}};
  f.source = common_practice;
  f.place = axle.layout.place;
  return f;
}

void judge_front(Context& c) {
  if (!c.after.front) return c.add(not_computed("front wheel geometry", {"front"}));
  const Range range = travel_range(*c.after.front, "front");
  if (c.model_after.front && !c.model_after.front->independent && !c.model_after.front->live) {
    const Finding f = layout_not_computed("front", *c.after.front);
    c.out.front_after.why_not = f.message;
    return c.add(f);
  }
  if (!c.model_after.front || !c.model_after.front->independent) {
    c.out.front_after.why_not = {"not-computed", {{"what", "front wheel geometry"}, {"missing", "front.left"}}};
    return c.add(not_computed("front wheel geometry", {"front.left.lower_arm", "front.left.upper_arm",
                                                       "front.left.tie_rod", "front.left.hub"}));
  }
  if (!usable(c, *c.model_after.front->independent, "front", *c.after.front->left)) return;
  c.out.front_after = curves(*c.model_after.front->independent, range);
  if (c.model_before.front && c.model_before.front->independent)
    c.out.front_before = curves(*c.model_before.front->independent, travel_range(*c.before.front, "front"));
  judge_bump_steer(c, range);
  note_steering_axis(c);
}

void live_axle_points(AxleTravel& t, const suspension::LiveAxlePoints& p) {
  point(t, "axle_centre", p.axle_centre);
  for (std::size_t i = 0; i < p.links.size(); ++i) {
    point(t, "link." + std::to_string(i) + ".chassis", p.links[i].chassis);
    point(t, "link." + std::to_string(i) + ".axle", p.links[i].axle);
  }
  point(t, "track_bar.chassis", p.track_bar.chassis);
  point(t, "track_bar.axle", p.track_bar.axle);
}

// A live axle's own limits: where it stands, how it swings and how far it is turned.
void judge_rear(Context& c) {
  if (!c.after.rear) return c.add(not_computed("rear axle geometry", {"rear"}));
  if (c.model_after.rear && !c.model_after.rear->independent && !c.model_after.rear->live) {
    const Finding f = layout_not_computed("rear", *c.after.rear);
    c.out.rear_after.why_not = f.message;
    return c.add(f);
  }
  if (!c.model_after.rear || !c.model_after.rear->live)
    return c.add(not_computed("rear axle geometry", {"rear.axle_centre", "rear.half_track", "rear.link"}));
  const suspension::LiveAxlePoints& now = *c.model_after.rear->live;
  const auto& was = c.model_before.rear ? c.model_before.rear->live : c.model_after.rear->live;
  const std::vector<Input> links = {input("rear.axle_centre", *c.after.rear->axle_centre)};
  for (const suspension::AxleFault& fault : suspension::check(now)) {
    Finding f;
    f.outcome = Outcome::stop;
    f.subject = fault.link < 0 ? "rear.axle_centre" : "rear.link";
    f.message = point_fault("rear", fault);
    f.source = "geometry";
    f.inputs = links;
    c.add(std::move(f));
    return;
  }
  c.out.rear_after.computed = true;
  live_axle_points(c.out.rear_after, now);
  if (was) {
    c.out.rear_before.computed = true;
    live_axle_points(c.out.rear_before, *was);
  }

  // The axle's middle against the cart's.
  const Length aside = 5.0 * units::mm;
  LimitCheck middle{"axle-sideways", "rear axle"};
  middle.value = number(abs(Length::from_si(now.axle_centre.y)), c.after.rear->axle_centre->u.value_or(Length{}));
  middle.limit = number(aside);
  if (was) middle.before = number(abs(Length::from_si(was->axle_centre.y)));
  middle.when_broken = Outcome::condition;
  middle.source = common_practice;
  middle.inputs = links;
  Finding f = held_against(std::move(middle));
  if (f.outcome != Outcome::met) f.cure = Message{"cure-track-bar", {}};
  c.add(std::move(f));

  // How far it swings sideways and steers over its travel and in roll.
  const Range range = travel_range(*c.after.rear, "rear");
  Length swing{};
  for (const Length rise : {range.lowest, range.highest}) {
    const suspension::LiveAxlePose pose = suspension::live_axle_pose(now, rise, {});
    if (!pose.outcome.ok()) {
      Finding out;
      out.outcome = Outcome::stop;
      out.subject = "rear axle";
      out.message = {"travel-out-of-reach",
                     {{"subject", out.subject}, {"lowest", number(range.lowest)}, {"highest", number(range.highest)}}};
      out.source = "geometry";
      out.inputs = range.inputs;
      c.add(std::move(out));
      return;
    }
    swing = std::max(swing, abs(pose.lateral_shift));
  }
  LimitCheck side{"axle-swing", "rear axle"};
  side.value = number(swing);
  side.limit = number(10.0 * units::mm);
  side.when_broken = Outcome::condition;
  side.source = common_practice;
  side.inputs = range.inputs;
  c.add(held_against(std::move(side)));

  // Pinion, oil level and vent of an axle that is turned.
  if (was)
    if (const auto turned = suspension::axle_turn(*was, now); turned && abs(*turned) > 0.05 * units::degree) {
      LimitCheck turn{"axle-turned", "rear axle"};
      turn.value = number(abs(*turned));
      turn.limit = number(5.0 * units::degree);
      turn.when_broken = Outcome::condition;
      turn.source = common_practice;
      turn.inputs = links;
      Finding t = held_against(std::move(turn));
      if (t.outcome != Outcome::met) t.cure = Message{"cure-axle-turned", {}};
      c.add(std::move(t));
    }
}

}  // namespace

void judge_geometry(Context& c) {
  judge_front(c);
  judge_rear(c);

  // How far the body has gone up at each end.
  const auto rise = [&](const std::optional<AxleModel>& was, const std::optional<AxleModel>& now, const char* end) {
    if (!was || !now) return;
    const Length up = was->ground() - now->ground();
    if (abs(up) > 0.05 * units::mm)
      c.add(noted("body-rise", end, std::nullopt, number(up), {}, "geometry: hub height less loaded radius"));
  };
  rise(c.model_before.front, c.model_after.front, "front");
  rise(c.model_before.rear, c.model_after.rear, "rear");
}

}  // namespace trammel
