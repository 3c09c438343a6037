#include <algorithm>
#include <cmath>

#include "assess/geometry.h"
#include "suspension/geometry/travel.h"

namespace trammel {
namespace {

const Length assumed_travel = 40.0 * units::mm;

// Where the points stand at rest, for drawing.
void rest_points(AxleTravel& t, const suspension::AxleMechanism& axle) {
  for (const suspension::Hardpoint& p : axle.points())
    t.points[p.name] = {Length::from_si(p.at.x), Length::from_si(p.at.y), Length::from_si(p.at.z)};
}

// The curves of an axle over its travel, steering in the middle.
AxleTravel curves(const suspension::AxleMechanism& axle, const TravelRange& range) {
  constexpr int steps = 24;
  suspension::TravelRequest request;
  request.rises.clear();
  for (int i = 0; i <= steps; ++i)
    request.rises.push_back(range.lowest + (static_cast<double>(i) / steps) * (range.highest - range.lowest));

  AxleTravel t;
  t.computed = true;
  for (const suspension::AxlePose& pose : suspension::travel(axle, request)) {
    const auto add = [&](std::vector<TravelPoint>& side, const suspension::SidePose& s) {
      const auto& g = s.geometry;
      if (s.outcome.ok()) side.push_back({pose.rise, g.camber, g.toe, g.caster, abs(g.half_track)});
    };
    add(t.left, pose.left);
    add(t.right, pose.right);
  }
  rest_points(t, axle);
  return t;
}

// Points that are no mechanism: named one by one. False where there is any.
bool usable(Context& c, const AxleModel& axle, const std::string& axle_name, const Place& place) {
  const std::vector<suspension::PointFault> faults = axle.check();
  for (const suspension::PointFault& fault : faults) {
    Finding f;
    f.outcome = Outcome::stop;
    f.subject = axle_name + "." + fault.point;
    f.message = point_fault(axle_name, fault);
    f.source = "geometry";
    f.place = place;
    c.add(std::move(f));
  }
  return faults.empty();
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

// What a layout cannot do without, for saying what is missing.
std::vector<std::string> needed(const Axle& axle, const std::string& name) {
  const std::string& layout = axle.layout.value;
  std::vector<std::string> keys;
  if (layout == "live axle")
    keys = {".axle_centre", ".half_track", ".link"};
  else if (layout == "strut")
    keys = {".left.lower_arm", ".left.strut", ".left.tie_rod", ".left.hub"};
  else if (layout == "swing axle" || layout == "trailing arm")
    keys = {".left.arm", ".left.hub"};
  else
    keys = {".left.lower_arm", ".left.upper_arm", ".left.tie_rod", ".left.hub"};
  for (std::string& k : keys) k.insert(0, name);
  return keys;
}

void judge_axle(Context& c, const std::string& name, std::optional<Axle> Cart::*axle,
                std::optional<AxleModel> CartModel::*model, AxleTravel& before, AxleTravel& after) {
  const std::string what = name == "front" ? "front wheel geometry" : "rear axle geometry";
  const auto& given = c.after.*axle;
  const auto &now = c.model_after.*model, &was = c.model_before.*model;
  if (!given) return c.add(not_computed(what, {name}));
  if (now && !now->mechanism) {
    const Finding f = layout_not_computed(name, *given);
    after.why_not = f.message;
    return c.add(f);
  }
  if (!now) {
    after.why_not = {"not-computed", {{"what", what}, {"missing", name + ".left"}}};
    return c.add(not_computed(what, needed(*given, name)));
  }
  if (!usable(c, *now, name, given->layout.place)) return;

  const TravelRange range = travel_range(*given, name);
  after = curves(*now->mechanism, range);
  const auto mechanism_before = was ? was->mechanism : nullptr;
  if (mechanism_before) before = curves(*mechanism_before, travel_range(*(c.before.*axle), name));
  const JudgedAxle judged{name, *given, *now, mechanism_before, range, before, after};
  if (now->mechanism->steered()) {
    judge_bump_steer(c, judged);
    note_steering_axis(c, judged);
  }
  judge_damper(c, judged);
  judge_joints(c, judged);
  judge_lines(c, judged);
  if (now->mechanism->one_body()) {
    judge_axle_body(c, judged);
    judge_springs(c, judged);
  }
}

}  // namespace

TravelRange travel_range(const Axle& axle, const std::string& name) {
  TravelRange r;
  const auto side = [&](const std::optional<Valued<Length>>& v, const char* key) {
    r.inputs.push_back(v ? input(name + "." + key, *v) : assumed(name + "." + key, number(assumed_travel)));
    return v ? v->value : assumed_travel;
  };
  r.lowest = -side(axle.droop, "droop");
  r.highest = side(axle.bump, "bump");
  return r;
}

void judge_geometry(Context& c) {
  judge_axle(c, "front", &Cart::front, &CartModel::front, c.out.front_before, c.out.front_after);
  judge_axle(c, "rear", &Cart::rear, &CartModel::rear, c.out.rear_before, c.out.rear_after);

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
