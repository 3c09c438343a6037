#include <cmath>

#include "assess/masses.h"
#include "assess/tyres.h"
#include "vehicle/axle_load.h"
#include "vehicle/speed_class.h"
#include "vehicle/stability.h"

namespace trammel {
namespace {

// common practice, no source: what share of a slope's angle a standing cart should have in hand, and what share
// of its weight must stay on the front wheels for it to steer.
const double slope_in_hand = 1.5;
const double least_front_share = 0.15;
const Acceleration pulling_off = 0.1 * units::g;
const double tips_noticeably_sooner = 0.05;

const char* tip_source = "statics; static stability factor as in the NHTSA rollover rulemaking, 49 CFR 575 notice";

// One cart under one load: everything the vehicle room says of it.
struct Loaded {
  vehicle::MassSum<Un> mass;
  vehicle::AxleLoads<Un> axles;
  std::optional<vehicle::WheelLoads<Un>> wheels;
  std::optional<Un> factor;  // rigid
  std::optional<AngleOf<Un>> tilt, tip_back;
  std::optional<vehicle::RollThreshold<Un>> rolled;
  std::optional<Un> front_share_uphill;
  std::optional<vehicle::SpeedOf<Un>> bend_speed;
};

Loaded loaded(const Context& c, const CartModel& model, const std::optional<RollAxles>& roll,
              const std::vector<vehicle::MassItem<Un>>& items) {
  Loaded l;
  l.mass = vehicle::sum(items);
  const auto feet = footprint(model);
  l.axles = vehicle::axle_loads(l.mass.whole, feet.wheelbase);
  l.tip_back = vehicle::tip_back_angle(l.mass.whole, feet.wheelbase);
  if (c.job.site && c.job.site->slope)
    l.front_share_uphill = vehicle::front_share_uphill(l.mass.whole, feet.wheelbase,
                                                       AngleOf<Un>::from_si(Un(std::atan(c.job.site->slope->value))),
                                                       vehicle::as<Un>(pulling_off));
  if (!model.front || !model.rear || !model.front->half_track || !model.rear->half_track) return l;

  l.factor = vehicle::rigid_threshold(l.mass.whole, feet);
  l.tilt = vehicle::rigid_tilt_angle(l.mass.whole, feet);
  double on_front = 0.5;  // of the roll, on the front axle; even where no springs are given
  if (roll) {
    const vehicle::RollModel<Un> rolling{l.mass, feet, roll->front, roll->rear};
    on_front = vehicle::value_of(vehicle::front_share(rolling));
    l.rolled = vehicle::roll_threshold(rolling);
    if (l.rolled->outcome == vehicle::RollOutcome::cannot_stand_upright) l.rolled.reset();
  }
  l.wheels = vehicle::wheel_loads(l.mass, feet, Un(on_front));
  if (c.job.site && c.job.site->bend_radius)
    l.bend_speed = vehicle::bend_speed(l.rolled ? l.rolled->threshold : *l.factor,
                                       vehicle::as<Un>(c.job.site->bend_radius->value));
  return l;
}

LoadedCart summary(const Loaded& l) {
  using vehicle::value_of;
  LoadedCart s;
  s.total = value_of(l.mass.whole.mass);
  s.front = value_of(l.axles.front);
  s.rear = value_of(l.axles.rear);
  s.cg = {value_of(l.mass.whole.at.x), value_of(l.mass.whole.at.y), value_of(l.mass.whole.at.z)};
  s.cg_height_u = vehicle::standard_uncertainty(l.mass.whole.at.z);
  if (l.factor) s.stability_factor = l.factor->value();
  if (l.tilt) s.tilt_rigid = value_of(*l.tilt);
  if (l.rolled) s.tilt_rolled = Angle::from_si(std::atan(l.rolled->threshold.value()));
  if (l.tip_back) s.tip_back = value_of(*l.tip_back);
  if (l.bend_speed) s.bend_speed = value_of(*l.bend_speed);
  return s;
}

struct Case {
  std::string name;
  Loaded before, after;
  vehicle::MassOf<Un> riders;  // people and cargo together
  std::vector<Input> inputs;
};

void judge_ratings(Context& c, const Case& k) {
  const auto row = [&](const char* code, const char* subject, auto value, auto before, Mass limit, std::string source,
                       Input given) {
    LimitCheck check{code, subject};
    check.value = number_of(value);
    check.before = number_of(before);
    check.limit = number(limit);
    check.source = std::move(source);
    check.inputs = k.inputs;
    check.inputs.push_back(std::move(given));
    check.load_case = k.name;
    c.add(held_against(std::move(check)));
  };
  const auto& b = k.before;
  const auto& a = k.after;
  if (c.after.ratings && c.after.ratings->gross)
    row("gross-mass", "whole cart", a.mass.whole.mass, b.mass.whole.mass, c.after.ratings->gross->value,
        "maker's rating", input("ratings.gross", *c.after.ratings->gross));
  if (c.after.ratings && c.after.ratings->payload && k.riders.si() > Un(0.0))
    row("payload", "people and load", k.riders, k.riders, c.after.ratings->payload->value, "maker's rating",
        input("ratings.payload", *c.after.ratings->payload));
  if (c.after.front && c.after.front->rating)
    row("axle-load", "front axle", a.axles.front, b.axles.front, c.after.front->rating->value, "maker's rating",
        input("front.rating", *c.after.front->rating));
  if (c.after.rear && c.after.rear->rating)
    row("axle-load", "rear axle", a.axles.rear, b.axles.rear, c.after.rear->rating->value, "maker's rating",
        input("rear.rating", *c.after.rear->rating));
  if (!a.wheels || !b.wheels) return;
  const auto heavier = [](const auto& x, const auto& y) { return x < y ? y : x; };
  if (const auto limit = tyre_limit(c.after.front, "front"))
    row("tyre-load", "front tyres", heavier(a.wheels->front_left, a.wheels->front_right),
        heavier(b.wheels->front_left, b.wheels->front_right), limit->rating.load, limit->source, limit->inputs.front());
  if (const auto limit = tyre_limit(c.after.rear, "rear"))
    row("tyre-load", "rear tyres", heavier(a.wheels->rear_left, a.wheels->rear_right),
        heavier(b.wheels->rear_left, b.wheels->rear_right), limit->rating.load, limit->source, limit->inputs.front());
}

// How much sooner it tips, on its own account: no published limit for carts is known.
void judge_factor(Context& c, const Case& k) {
  if (!k.after.factor || !k.before.factor) return;
  Finding f = noted("stability-factor", "whole cart", number_of(*k.before.factor), number_of(*k.after.factor), k.inputs,
                    tip_source);
  const double lost = 1.0 - k.after.factor->value() / k.before.factor->value();
  f.load_case = k.name;
  f.message.arguments.emplace_back("load", k.name);
  f.message.arguments.emplace_back("lost", share(lost));
  if (lost > tips_noticeably_sooner) f.outcome = Outcome::condition;
  c.add(std::move(f));
}

void judge_slope(Context& c, const Case& k) {
  if (!c.job.site || !c.job.site->slope) return;
  const Angle slope = Angle::from_si(std::atan(c.job.site->slope->value));
  const auto row = [&](const char* code, const AngleOf<Un>& value, const std::optional<AngleOf<Un>>& before,
                       Angle limit, const char* source) {
    LimitCheck check{code, "whole cart", Finding::Sense::at_least};
    check.value = number_of(value);
    if (before) check.before = number_of(*before);
    check.limit = number(limit);
    check.source = source;
    check.inputs = k.inputs;
    check.inputs.push_back(input("site.slope", *c.job.site->slope));
    check.load_case = k.name;
    c.add(held_against(std::move(check)));
  };
  const auto tilt = [](const Loaded& l) -> std::optional<AngleOf<Un>> {
    using std::atan;
    if (l.rolled) return AngleOf<Un>::from_si(atan(l.rolled->threshold));
    return l.tilt;
  };
  if (const auto now = tilt(k.after))
    row("side-slope", *now, tilt(k.before), slope_in_hand * slope,
        "statics; 1.5 times the site's slope in hand: common practice, no source");
  if (k.after.tip_back)
    row("tip-back", *k.after.tip_back, k.before.tip_back, slope_in_hand * slope,
        "statics, tan = a2/h; 1.5 times the site's slope in hand: common practice, no source");
  if (!k.after.front_share_uphill) return;
  LimitCheck light{"steer-light", "front wheels", Finding::Sense::at_least};
  const auto in_percent = [](const Un& s) { return share(s.value(), s.u()); };
  light.value = in_percent(*k.after.front_share_uphill);
  if (k.before.front_share_uphill) light.before = in_percent(*k.before.front_share_uphill);
  light.limit = share(least_front_share);
  light.when_broken = k.after.front_share_uphill->value() < 0.0 ? Outcome::stop : Outcome::condition;
  light.source = "statics, pulling off uphill at 0.1 g; least share: common practice, no source";
  light.inputs = k.inputs;
  light.inputs.push_back(input("site.slope", *c.job.site->slope));
  light.load_case = k.name;
  Finding f = held_against(std::move(light));
  if (f.outcome != Outcome::met) f.cure = Message{"cure-load-forward", {}};
  c.add(std::move(f));
}

// The tightest bend against the speed at which the cart will be driven.
void judge_bend(Context& c, const Case& k) {
  if (!k.after.bend_speed || !c.after.drive || !c.after.drive->top_speed) return;
  Speed driven = c.after.drive->top_speed->value;
  if (c.out.after.top_speed) driven = *c.out.after.top_speed;
  if (c.job.site->speed_limit && c.job.site->speed_limit->value < driven) driven = c.job.site->speed_limit->value;
  LimitCheck check{"bend-speed", "whole cart", Finding::Sense::at_least};
  check.value = number_of(*k.after.bend_speed);
  if (k.before.bend_speed) check.before = number_of(*k.before.bend_speed);
  check.limit = number(driven);
  check.when_broken = Outcome::condition;
  check.source = k.after.rolled ? "quasi-static roll equilibrium on springs and roll centres" : tip_source;
  check.inputs = k.inputs;
  check.inputs.push_back(input("site.bend_radius", *c.job.site->bend_radius));
  check.load_case = k.name;
  Finding f = held_against(std::move(check));
  f.message.arguments.emplace_back("radius", number(c.job.site->bend_radius->value));
  // A speed with a third of the sideways pull in hand.
  if (f.outcome != Outcome::met)
    f.cure =
        Message{"cure-cap-speed", {{"speed", number(std::sqrt(2.0 / 3.0) * vehicle::value_of(*k.after.bend_speed))}}};
  c.add(std::move(f));
}

}  // namespace

void judge_loads(Context& c) {
  if (c.after.mass.empty()) return c.add(not_computed("axle loads and tipping", {"mass"}));
  if (!(c.model_after.wheelbase.si() > 0.0)) return c.add(not_computed("axle loads and tipping", {"wheelbase"}));
  vehicle::Sources sources;
  const MassModel mass_before = mass_model(c.before, c.model_before, c.model_before, sources);
  const MassModel mass_after = mass_model(c.after, c.model_before, c.model_after, sources);
  const auto roll_before = roll_axles(c.before, c.model_before, sources),
             roll_after = roll_axles(c.after, c.model_after, sources);
  if (!roll_after)
    c.add(
        not_computed("tipping on the springs (rigid tipping is)", {"front.left.spring.rate", "rear.left.spring.rate"}));

  std::vector<LoadCase> cases = c.job.load_case;
  if (cases.empty()) {
    cases.emplace_back();
    cases.back().name.value = "empty";
  }
  for (const LoadCase& load : cases) {
    std::vector<std::string> missing;
    Case k;
    k.name = load.name.value;
    // One person is the same person before and after: one source each.
    vehicle::Sources riders_sources = sources;
    auto items_before = mass_before.empty, items_after = mass_after.empty;
    for (auto& r : riders(c.job, c.before, load, c.model_before, c.model_before, riders_sources, missing))
      items_before.push_back(std::move(r));
    missing.clear();
    for (auto& r : riders(c.job, c.after, load, c.model_before, c.model_after, riders_sources, missing)) {
      k.riders += r.mass;
      items_after.push_back(std::move(r));
    }
    if (!missing.empty()) {
      c.add(not_computed("load case " + k.name, missing));
      continue;
    }
    k.before = loaded(c, c.model_before, roll_before, items_before);
    k.after = loaded(c, c.model_after, roll_after, items_after);
    k.inputs = mass_after.inputs;
    if (!load.seats.empty())
      k.inputs.push_back(c.job.person ? input("person", *c.job.person)
                                      : assumed("person", number(85.0 * units::kg, 10.0 * units::kg)));
    c.out.load_cases.push_back({k.name, summary(k.before), summary(k.after)});
    judge_ratings(c, k);
    judge_factor(c, k);
    judge_slope(c, k);
    judge_bend(c, k);
  }
}

}  // namespace trammel
