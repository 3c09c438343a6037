#include <cmath>

#include "assess/geometry.h"
#include "suspension/geometry/bump_steer.h"
#include "suspension/geometry/bump_steer_cure.h"

namespace trammel {
namespace {

using suspension::Side;

// Toe change over bumps beyond which a cart wanders, and beyond which it steers itself. Invented carts gave
// 0 to 14 deg/m as built or with the rack moved along with the arms, 77 to 195 with the rack left behind.
const AnglePerLength wanders = 20.0 * units::degree / units::metre;
const AnglePerLength steers_itself = 50.0 * units::degree / units::metre;
const char* bump_steer_source =
    "a study of 12 invented carts: 0 to 14 deg/m sound, 77 to 195 deg/m with the rack left behind";

const char* name(Side side) { return side == Side::left ? "left" : "right"; }

}  // namespace

void judge_bump_steer(Context& c, const JudgedAxle& axle) {
  const suspension::AxleMechanism& after = *axle.model.mechanism;
  const TravelRange& range = axle.range;
  const bool both_alike = !axle.now.right;
  for (const Side side : {Side::left, Side::right}) {
    if (side == Side::right && both_alike) continue;
    const auto steer = [&](const suspension::AxleMechanism& a) {
      return suspension::bump_steer(a, side, range.lowest, range.highest);
    };
    const suspension::BumpSteer now = steer(after);
    if (!now.outcome.ok()) {
      Finding f;
      f.outcome = Outcome::stop;
      f.subject = axle.name + " " + name(side);
      f.message = {"travel-out-of-reach",
                   {{"subject", f.subject}, {"lowest", number(range.lowest)}, {"highest", number(range.highest)}}};
      if (now.outcome.rise_limit) f.message.arguments.emplace_back("reached", number(*now.outcome.rise_limit));
      f.source = "geometry";
      f.inputs = range.inputs;
      c.add(std::move(f));
      continue;
    }
    const AnglePerLength size = abs(now.worst);
    if (!axle.after.bump_steer || size > *axle.after.bump_steer) axle.after.bump_steer = size;

    // Degrees per metre have no everyday unit: told as the toe change over the travel, held against the rate.
    const auto over_50mm = [](AnglePerLength rate) { return rate * (50.0 * units::mm); };
    LimitCheck check{"bump-steer", both_alike ? axle.name + " wheels" : axle.name + " " + name(side)};
    check.value = number(over_50mm(size));
    const bool stop = size > steers_itself;
    check.limit = number(over_50mm(stop ? steers_itself : wanders));
    check.when_broken = stop ? Outcome::stop : Outcome::condition;
    check.source = bump_steer_source;
    check.inputs = range.inputs;
    if (axle.now.left && axle.now.left->tie_rod) {
      check.inputs.push_back(input(axle.name + ".left.tie_rod.rack_end", axle.now.left->tie_rod->rack_end));
      check.inputs.push_back(input(axle.name + ".left.tie_rod.knuckle_end", axle.now.left->tie_rod->knuckle_end));
    }
    if (axle.was) {
      const suspension::BumpSteer was = steer(*axle.was);
      if (was.outcome.ok()) {
        check.before = number(over_50mm(abs(was.worst)));
        axle.before.bump_steer = abs(was.worst);
      }
    }
    if (axle.now.drag_link) {
      check.inputs.push_back(input(axle.name + ".drag_link.chassis_end", axle.now.drag_link->chassis_end));
      check.inputs.push_back(input(axle.name + ".drag_link.axle_end", axle.now.drag_link->axle_end));
    }
    Finding f = held_against(std::move(check));
    if (f.outcome == Outcome::met) {
      c.add(std::move(f));
      continue;
    }
    if (axle.now.drag_link) {
      if (const auto by = suspension::shift_for_no_bump_steer(after, side, {"drag_link.chassis_end"}))
        f.cure = Message{by->si() < 0.0 ? "cure-drag-link-lower" : "cure-drag-link-higher", {{"by", number(abs(*by))}}};
      c.add(std::move(f));
      continue;
    }
    // Both ends of the rod can cure it: the inner ones with the rack, the outer ones by a spacer or another arm.
    const auto shift = [&](const char* end) {
      return suspension::shift_for_no_bump_steer(
          after, side, {std::string("left.tie_rod.") + end, std::string("right.tie_rod.") + end});
    };
    const auto inner = shift("rack_end"), outer = shift("knuckle_end");
    const auto cure = [](const char* lower, const char* higher, Length by) {
      return Message{by.si() < 0.0 ? lower : higher, {{"by", number(abs(by))}}};
    };
    if (inner)
      f.cure = cure("cure-rack-lower", "cure-rack-higher", *inner);
    else if (outer)
      f.cure = cure("cure-outer-lower", "cure-outer-higher", *outer);
    const std::string subject = f.subject;
    c.add(std::move(f));
    if (inner && outer) {
      Finding other;
      other.outcome = Outcome::note;
      other.subject = subject;
      other.message = {"bump-steer-other-cure", {{"subject", subject}}};
      other.cure = cure("cure-outer-lower", "cure-outer-higher", *outer);
      other.source = "geometry";
      c.add(std::move(other));
    }
  }
}

// What the kit does to the steering axis at rest.
void note_steering_axis(Context& c, const JudgedAxle& axle) {
  const auto at_rest = [](const suspension::AxleMechanism& m) { return m.side_pose(Side::left, {}).geometry; };
  const auto now = at_rest(*axle.model.mechanism);
  std::optional<suspension::WheelGeometry<double>> was;
  if (axle.was) was = at_rest(*axle.was);
  std::vector<Input> inputs;
  if (axle.now.left && axle.now.left->upper_arm)
    inputs.push_back(input(axle.name + ".left.upper_arm.ball_joint", axle.now.left->upper_arm->ball_joint));
  if (axle.now.left && axle.now.left->lower_arm)
    inputs.push_back(input(axle.name + ".left.lower_arm.ball_joint", axle.now.left->lower_arm->ball_joint));
  const auto row = [&](const char* code, auto member) {
    std::optional<Number> before;
    if (was) before = number((*was).*member);
    const auto value = now.*member;
    if (before && std::abs(before->si - number(value).si) < 1e-9) return;
    c.add(noted(code, axle.name + " wheels", before, number(value), inputs, "ISO 8855:2011 7.1.6, 7.2"));
  };
  using G = suspension::WheelGeometry<double>;
  row("caster-change", &G::caster);
  row("steering-offset-change", &G::steering_axis_offset_at_ground);
  row("trail-change", &G::caster_trail);
  row("half-track-change", &G::half_track);
  row("roll-centre-change", &G::roll_centre_height);
}

}  // namespace trammel
