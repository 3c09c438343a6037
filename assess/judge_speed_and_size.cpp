#include <algorithm>
#include <cmath>

#include "assess/context.h"
#include "assess/tyres.h"
#include "vehicle/envelope.h"
#include "vehicle/speed_class.h"

namespace trammel {
namespace {

const char* class_code(vehicle::SpeedClass k) {
  switch (k) {
    case vehicle::SpeedClass::golf_car:
      return "golf car";
    case vehicle::SpeedClass::personal_transport_vehicle:
      return "personal transport vehicle";
    case vehicle::SpeedClass::low_speed_vehicle:
      return "low-speed vehicle";
    case vehicle::SpeedClass::none:
      return "no class";
  }
  return "";
}

// Speed rises with the driven tyres' rolling radius.
void judge_speed(Context& c) {
  if (!c.before.drive || !c.before.drive->top_speed)
    return c.add(not_computed("top speed and its class", {"drive.top_speed"}));
  const Valued<Speed>& given = *c.before.drive->top_speed;
  const bool front_driven = c.after.drive && c.after.drive->driven && c.after.drive->driven->value == "front";
  const auto& was = front_driven ? c.model_before.front : c.model_before.rear;
  const auto& is = front_driven ? c.model_after.front : c.model_after.rear;
  c.out.before.top_speed = given.value;
  if (!was || !is)
    return c.add(
        not_computed("top speed after the kit", {front_driven ? "front.loaded_radius" : "rear.loaded_radius"}));

  const Mass gross = c.after.ratings && c.after.ratings->gross ? c.after.ratings->gross->value : Mass{};
  const vehicle::SpeedChange change = vehicle::speed_change(given.value, was->radius, is->radius, gross);
  const double grown = is->radius / was->radius;
  std::optional<Speed> u;
  if (given.u) u = grown * *given.u;
  c.out.after.top_speed = change.after;
  c.out.before.speed_class = class_code(change.class_before);
  c.out.after.speed_class = class_code(change.class_after);
  const Number after = u ? number(change.after, *u) : number(change.after);
  std::vector<Input> inputs = {input("drive.top_speed", given)};
  for (const auto& [axle, name] :
       {std::pair{&c.before, "loaded_radius, before"}, std::pair{&c.after, "loaded_radius, after"}}) {
    const auto& end = front_driven ? axle->front : axle->rear;
    if (end && end->loaded_radius) inputs.push_back(input(name, *end->loaded_radius));
  }

  // The class it falls in by attainable speed, and whether the bigger tyres carry it into another.
  const vehicle::SpeedRule* rule = vehicle::rule_for(given.value, gross);
  if (rule) {
    LimitCheck check{"speed-class", class_code(change.class_before)};
    check.value = after;
    check.limit = number(rule->below);
    check.before = number(given.value);
    check.when_broken = Outcome::condition;
    check.source = std::string(rule->citation) + ", " + std::string(rule->date);
    check.inputs = inputs;
    Finding f = held_against(std::move(check));
    f.message.arguments.emplace_back("class", std::string(class_code(change.class_after)));
    if (f.outcome != Outcome::met)
      f.cure = Message{"cure-limiter", {{"factor", share(std::floor(100.0 * change.stay_in_class) / 100.0)}}};
    c.add(std::move(f));
  }
  if (c.job.site && c.job.site->speed_limit) {
    LimitCheck check{"site-speed", c.job.site->name ? c.job.site->name->value : "site"};
    check.value = after;
    check.limit = number(c.job.site->speed_limit->value);
    check.before = number(given.value);
    check.when_broken = Outcome::condition;
    check.source = "the site's own limit";
    check.inputs = inputs;
    check.inputs.push_back(input("site.speed_limit", *c.job.site->speed_limit));
    Finding f = held_against(std::move(check));
    if (f.outcome != Outcome::met)
      f.cure = Message{
          "cure-limiter",
          {{"factor",
            share(std::floor(100.0 * vehicle::limiter_factor(change.after, c.job.site->speed_limit->value)) / 100.0)}}};
    c.add(std::move(f));
  }
  const auto tyre_speed = [&](const std::optional<Axle>& axle, const char* name) {
    const auto limit = tyre_limit(axle, name);
    if (!limit || limit->rating.up_to.si() > 1e8) return;
    LimitCheck check{"tyre-speed", std::string(name) + " tyres"};
    check.value = after;
    check.before = number(given.value);
    check.limit = number(limit->rating.up_to);
    check.source = "ISO 4000-1 / ETRTO speed symbol table";
    check.inputs = inputs;
    c.add(held_against(std::move(check)));
  };
  tyre_speed(c.after.front, "front");
  tyre_speed(c.after.rear, "rear");
}

// How high it stands now, against the door.
void judge_size(Context& c) {
  const auto rise_at = [](const std::optional<AxleModel>& a,
                          const std::optional<AxleModel>& b) -> std::optional<Length> {
    if (!a || !b) return std::nullopt;
    return a->ground() - b->ground();
  };
  const auto front = rise_at(c.model_before.front, c.model_after.front),
             rear = rise_at(c.model_before.rear, c.model_after.rear);
  const auto summary = [](CartSummary& s, const Cart& cart, const CartModel& m) {
    s.wheelbase = m.wheelbase;
    if (m.front) s.front_radius = m.front->radius, s.front_half_track = m.front->half_track;
    if (m.rear) s.rear_radius = m.rear->radius, s.rear_half_track = m.rear->half_track;
    if (cart.height) s.height = cart.height->value;
    if (cart.clearance) s.clearance = cart.clearance->value;
  };
  summary(c.out.before, c.before, c.model_before);
  summary(c.out.after, c.after, c.model_after);
  if (!front && !rear) return;
  const Length highest = std::max(front.value_or(*(rear ? rear : front)), rear.value_or(*(front ? front : rear)));
  const Length lowest = std::min(front.value_or(*(rear ? rear : front)), rear.value_or(*(front ? front : rear)));

  // What a kit hangs lower than before is not known here: clearance is told for what is fixed to the body.
  if (c.before.clearance && c.after.clearance && c.before.clearance->value.si() == c.after.clearance->value.si()) {
    c.out.after.clearance = c.before.clearance->value + lowest;
    if (lowest.si() != 0.0)
      c.add(noted("clearance-change", "body between the axles", number(c.before.clearance->value),
                  number(*c.out.after.clearance), {input("clearance", *c.before.clearance)},
                  "geometry: hub height less loaded radius"));
  }
  if (!c.before.height) return c.add(not_computed("height after the kit", {"height"}));
  const Length u = c.before.height->u.value_or(Length{});
  c.out.after.height = c.before.height->value + highest;
  if (!c.job.site || !c.job.site->door_height) return;

  LimitCheck check{"doorway", "whole cart"};
  check.value = number(*c.out.after.height, u);
  check.before = number(c.before.height->value);
  const Valued<Length>& door = *c.job.site->door_height;
  check.limit = door.u ? number(door.value, *door.u) : number(door.value);
  check.source = "measured doorway; empty cart, which stands highest; no bounce";
  check.inputs = {input("height", *c.before.height), input("site.door_height", door)};
  c.add(held_against(std::move(check)));
}

}  // namespace

void judge_speed_and_size(Context& c) {
  judge_speed(c);
  judge_size(c);
}

}  // namespace trammel
