// Ball joints, rod ends, half shafts and bump stops: what binds, runs out of angle or meets before the wheel is at its
// stop.
#include <algorithm>
#include <cmath>
#include <functional>

#include "assess/geometry.h"
#include "assess/joint_sweep.h"
#include "suspension/clearance/axle_places.h"
#include "suspension/geometry/joint_lean.h"
#include "suspension/geometry/steer_memo.h"

namespace trammel {
namespace {

using suspension::AxleCoordinates;
using suspension::AxleMechanism;
using suspension::PartAxes;
using suspension::Side;
using V = Vector3<double>;

const char* lean_source = "geometry: the stud from the middle of its housing over rise, steer and roll";

// One joint of the axle as it is now: its limit and how it is read.
struct Joint {
  std::string name, key;
  const JointLimit* limit;
  std::string other_side;  // "right." where that side's points do not count
  JointReading reading;
};

suspension::Stud stud_of(const JointLimit& j) {
  return j.stud && j.stud->value == "along" ? suspension::Stud::along : suspension::Stud::across;
}
Angle lean_of(const JointLimit& j) { return j.lean ? j.lean->value : Angle{}; }

std::optional<V> hardpoint(const AxleMechanism& m, const std::string& name) {
  for (const suspension::Hardpoint& p : m.points())
    if (p.name == name) return p.at;
  return std::nullopt;
}

// An arm against the knuckle.
JointReading arm_joint(Side side, std::string arm, Angle lean) {
  return [=](const AxleMechanism& now, const AxleMechanism& rest) -> LeanAt {
    const std::string own = (side == Side::left ? "left." : "right.") + arm, ball = arm + ".ball_joint";
    const auto front = hardpoint(now, own + ".front_bush"), rear = hardpoint(now, own + ".rear_bush");
    const auto front0 = hardpoint(rest, own + ".front_bush"), rear0 = hardpoint(rest, own + ".rear_bush");
    const auto first = rest.side_pose(side, {});
    const V* ball0 = first.point(ball);
    if (!front || !rear || !front0 || !rear0 || !ball0) return {};
    const PartAxes arm0 = PartAxes::of(*front0 - *rear0, *ball0 - *rear0), knuckle0 = suspension::knuckle_axes(first);
    return [=, &now, stud = first.wheel.steering_axis, along = *front - *rear,
            from = *rear](const AxleCoordinates& at) -> std::optional<Angle> {
      const auto pose = now.side_pose(side, at);
      const V* joint = pose.point(ball);
      if (!pose.outcome.ok() || !joint) return std::nullopt;
      return suspension::arm_joint_lean(PartAxes::of(along, *joint - from), arm0, suspension::knuckle_axes(pose),
                                        knuckle0, stud, lean);
    };
  };
}

// A strut's line, fast to the knuckle, in its top mount on the body.
JointReading strut_top(Side side, Angle lean) {
  return [=](const AxleMechanism& now, const AxleMechanism& rest) -> LeanAt {
    const std::string own = side == Side::left ? "left.strut." : "right.strut.";
    const auto top = hardpoint(rest, own + "top"), lower = hardpoint(rest, own + "lower");
    const auto first = rest.side_pose(side, {});
    if (!top || !lower || !first.outcome.ok()) return {};
    const V line = *top - *lower;
    return [=, &now, knuckle = suspension::knuckle_axes(first)](const AxleCoordinates& at) -> std::optional<Angle> {
      const auto pose = now.side_pose(side, at);
      if (!pose.outcome.ok()) return std::nullopt;
      return suspension::rod_joint_lean(suspension::knuckle_axes(pose).now(knuckle, line), line, PartAxes::fixed(),
                                        PartAxes::fixed(), suspension::Stud::along, {0, 1, 0}, lean);
    };
  };
}

// A rod against the knuckle, or against what its inner end hangs on.
JointReading rod_joint(Side side, std::string outer_end, bool outer, suspension::Stud stud, Angle lean) {
  return [=](const AxleMechanism& now, const AxleMechanism& rest) -> LeanAt {
    const auto part = [=](const suspension::SidePose& pose) {
      return outer ? suspension::knuckle_axes(pose) : PartAxes::fixed();
    };
    const auto first = rest.side_pose(side, {});
    const V* end0 = first.point(outer_end);
    if (!end0 || !first.rod_inner_end) return {};
    const auto memo = now.one_body() ? std::make_shared<suspension::SteerMemo>(now) : nullptr;
    return [=, &now, rod0 = *end0 - *first.rod_inner_end,
            part0 = part(first)](const AxleCoordinates& at) -> std::optional<Angle> {
      const auto pose = memo ? memo->pose(at).side(side) : now.side_pose(side, at);
      const V* end = pose.point(outer_end);
      if (!pose.outcome.ok() || !end || !pose.rod_inner_end) return std::nullopt;
      return suspension::rod_joint_lean(*end - *pose.rod_inner_end, rod0, part(pose), part0, stud, {0, 0, 1}, lean);
    };
  };
}

// A link of a rigid axle: the worse of its two ends.
JointReading link_joint(std::string link, suspension::Stud stud, Angle lean) {
  return [=](const AxleMechanism& now, const AxleMechanism& rest) -> LeanAt {
    const auto chassis = hardpoint(now, link + ".chassis"), chassis0 = hardpoint(rest, link + ".chassis");
    const auto end = hardpoint(now, link + ".axle"), end0 = hardpoint(rest, link + ".axle");
    const auto centre = hardpoint(now, "axle_centre");
    if (!chassis || !chassis0 || !end || !end0 || !centre) return {};
    const V rod0 = *end0 - *chassis0, level = cross(V{0, 0, 1}, rod0);
    return [=, &now, from = *chassis, to = *end, middle = *centre](const AxleCoordinates& at) -> std::optional<Angle> {
      const auto pose = now.pose(at);
      if (!pose.ok() || !pose.body) return std::nullopt;
      const auto place = suspension::place(*pose.body, at.rise, at.roll);
      const suspension::AxleAxes<double> turned(place);
      const V rod = suspension::moved(to, middle, place, turned) - from;
      const PartAxes axle{turned.x, turned.y, turned.z};
      return std::max(suspension::rod_joint_lean(rod, rod0, PartAxes::fixed(), PartAxes::fixed(), stud, level, lean),
                      suspension::rod_joint_lean(rod, rod0, axle, PartAxes::fixed(), stud, level, lean));
    };
  };
}

// Both ends of a shaft that drives the wheel: its inner joint against the body, its outer one against the wheel.
struct ShaftAt {
  Angle angle{};
  Length length{};
};
std::optional<ShaftAt> shaft_at(const HalfShaft& shaft, Side side, const AxleMechanism& m, const AxleCoordinates& at,
                                const AxleMechanism& told_of) {
  const auto metres = [&](const PointValue& p) { return V{p.value.x.si(), p.value.y.si(), p.value.z.si()}; };
  const auto pose = m.side_pose(side, at), fitted = told_of.side_pose(side, {});
  if (!pose.outcome.ok() || !fitted.outcome.ok()) return std::nullopt;
  V inner = metres(shaft.inner), outer = metres(shaft.outer);
  if ((side == Side::right) != (inner.y < 0)) inner = mirrored(inner), outer = mirrored(outer);
  // The outer joint is fast to the wheel's carrier: told by the spin axis and, where it steers, the steering axis.
  const auto axes = [](const suspension::SidePose& p) {
    return PartAxes::of(p.wheel.spin_axis, p.wheel.steered ? p.wheel.steering_axis : V{0, 0, 1});
  };
  const V now = pose.wheel.hub_centre + axes(pose).now(axes(fitted), outer - fitted.wheel.hub_centre);
  const V along = now - inner;
  const double out = side == Side::left ? 1 : -1;
  const auto between = [](const V& a, const V& b) { return std::atan2(norm(cross(a, b)), dot(a, b)); };
  return ShaftAt{Angle::from_si(std::max(between(along, {0, out, 0}), between(along, pose.wheel.spin_axis))),
                 Length::from_si(norm(along))};
}

std::vector<Joint> joints_of(const JudgedAxle& axle, Side side, const Corner& corner) {
  std::vector<Joint> all;
  const bool right = side == Side::right;
  const double outward = right ? -1 : 1;
  const std::string key = axle.name + (right ? ".right." : ".left.");
  const std::string name = axle.name + (axle.now.right ? (right ? " right" : " left") : "") + " ";
  const auto add = [&](const char* what, const char* path, const std::optional<JointLimit>& limit, auto reading) {
    if (limit)
      all.push_back({name + what, key + path, &*limit, right ? "left." : "right.", reading(outward * lean_of(*limit))});
  };
  const auto arm = [&](const char* which) { return [=](Angle lean) { return arm_joint(side, which, lean); }; };
  if (corner.lower_arm) add("lower ball joint", "lower_arm.joint", corner.lower_arm->joint, arm("lower_arm"));
  if (corner.upper_arm) add("upper ball joint", "upper_arm.joint", corner.upper_arm->joint, arm("upper_arm"));
  if (corner.strut)
    add("strut top mount", "strut.joint", corner.strut->joint, [=](Angle lean) { return strut_top(side, lean); });
  if (corner.tie_rod) {
    const auto rod = [&](bool outer, const std::optional<JointLimit>& j) {
      return [=](Angle) { return rod_joint(side, "tie_rod.knuckle_end", outer, stud_of(*j), lean_of(*j)); };
    };
    const auto &inner = corner.tie_rod->inner_joint, &outer = corner.tie_rod->outer_joint;
    add("tie rod, inner joint", "tie_rod.inner_joint", inner, rod(false, inner));
    add("tie rod, outer joint", "tie_rod.outer_joint", outer, rod(true, outer));
  }
  return all;
}

// The joints that belong to the axle as a whole.
std::vector<Joint> joints_of(const JudgedAxle& axle) {
  std::vector<Joint> all;
  if (axle.now.drag_link && axle.now.drag_link->joint) {
    const JointLimit& j = *axle.now.drag_link->joint;
    const Side on = axle.now.drag_link->axle_end.value.y.si() < 0 ? Side::right : Side::left;
    for (const bool outer : {false, true})
      all.push_back({axle.name + " drag link, " + (outer ? "outer" : "inner") + " joint",
                     axle.name + ".drag_link.joint", &j, on == Side::left ? "right." : "left.",
                     rod_joint(on, "drag_link.axle_end", outer, stud_of(j), lean_of(j))});
  }
  int number = 0;
  for (const Link& link : axle.now.link) {
    const bool bar = link.name.value == "track bar";
    const std::string point = bar ? "track_bar" : "link." + std::to_string(number++);
    if (link.joint)
      all.push_back({axle.name + " " + link.name.value, axle.name + ".link." + link.name.value + ".joint", &*link.joint,
                     "-", link_joint(point, stud_of(*link.joint), lean_of(*link.joint))});
  }
  return all;
}

void judge_joint(Context& c, const JudgedAxle& axle, const Joint& joint, Angle roll, Length lock) {
  const AxleMechanism& now = *axle.model.mechanism;
  // The rest is the cart as it first stood; a lean that the kit gives is told of the cart as it stands after it.
  const bool by_kit = joint.limit->lean && joint.limit->lean->basis == Basis::kit;
  const AxleMechanism& rest = by_kit || !axle.was ? now : *axle.was;
  const auto worst = worst_lean(joint.reading(now, rest), axle.range, lock, roll);
  if (!worst) return;
  LimitCheck check{"joint-angle", joint.name};
  // Springs and dampers only carry the axle to the pose that is asked for.
  const auto counts = [&](const std::string& point) {
    for (const char* part : {".leaf.", ".spring.", ".damper."})
      if (point.find(part) != point.npos) return false;
    return !point.starts_with(joint.other_side);
  };
  check.value = number(worst->angle,
                       lean_spread(joint.reading, now, rest, worst->at, point_uncertainties(axle.now, now), counts));
  if (axle.was)
    if (const auto before = worst_lean(joint.reading(*axle.was, *axle.was), axle.range, lock, roll))
      check.before = number(before->angle);
  check.limit = number(joint.limit->swing.value, joint.limit->swing.u.value_or(Angle{}));
  check.source = lean_source;
  check.inputs = axle.range.inputs;
  check.inputs.push_back(input(joint.key + ".swing", joint.limit->swing));
  if (joint.limit->lean)
    check.inputs.push_back(input(joint.key + ".lean", *joint.limit->lean));
  else
    check.inputs.push_back(assumed(joint.key + ".lean", number(Angle{})));
  const bool broken = worst->angle > joint.limit->swing.value;
  const Angle over = worst->angle - joint.limit->swing.value;
  Finding f = held_against(std::move(check));
  f.message.arguments.emplace_back("rise", number(worst->at.rise));
  f.message.arguments.emplace_back("lock", "@sheet-lock-" + steer_word(now, worst->at, lock));
  if (f.outcome != Outcome::met)
    f.cure = broken ? Message{"cure-joint-by", {{"by", number(over)}}} : Message{"cure-joint", {}};
  c.add(std::move(f));
}

void judge_half_shaft(Context& c, const JudgedAxle& axle, Side side, const HalfShaft& shaft) {
  const AxleMechanism& now = *axle.model.mechanism;
  const std::string name =
      axle.name + (axle.now.right ? (side == Side::left ? " left" : " right") : "") + " half shaft";
  const std::string key = axle.name + (side == Side::left ? ".left." : ".right.") + "half_shaft.";
  // Its outer joint was told of the cart as it first stood, unless the kit tells it anew.
  const AxleMechanism& as_told = axle.was && shaft.outer.basis != Basis::kit ? *axle.was : now;
  // Worst angle and the two ends of its length over the travel.
  struct Worst {
    Angle angle{};
    Length rise{}, shortest = Length::from_si(1e9), longest{}, at_shortest{}, at_longest{};
  };
  const auto over = [&](const AxleMechanism& m) -> std::optional<Worst> {
    Worst w;
    for (int i = 0; i <= 32; ++i) {
      AxleCoordinates at;
      at.rise = axle.range.lowest + (i / 32.0) * (axle.range.highest - axle.range.lowest);
      const auto s = shaft_at(shaft, side, m, at, as_told);
      if (!s) return std::nullopt;
      if (s->angle > w.angle) w.angle = s->angle, w.rise = at.rise;
      if (s->length < w.shortest) w.shortest = s->length, w.at_shortest = at.rise;
      if (s->length > w.longest) w.longest = s->length, w.at_longest = at.rise;
    }
    return w;
  };
  const auto w = over(now);
  if (!w) return;
  std::vector<Input> inputs = axle.range.inputs;
  inputs.push_back(input(key + "inner", shaft.inner));
  inputs.push_back(input(key + "outer", shaft.outer));
  const auto add = [&](const char* code, auto value, const auto& limit, const char* which, Length rise,
                       Finding::Sense sense) {
    LimitCheck check{code, name};
    check.sense = sense;
    check.value = number(value);
    check.limit = number(limit.value);
    if (limit.u) check.limit.u = limit.u->si();
    check.source = "geometry";
    check.inputs = inputs;
    check.inputs.push_back(input(key + which, limit));
    Finding f = held_against(std::move(check));
    f.message.arguments.emplace_back("rise", number(rise));
    if (f.outcome != Outcome::met) f.cure = Message{"cure-half-shaft", {}};
    c.add(std::move(f));
  };
  add("half-shaft-angle", w->angle, shaft.swing, "swing", w->rise, Finding::Sense::at_most);
  if (shaft.shortest)
    add("half-shaft-in", w->shortest, *shaft.shortest, "shortest", w->at_shortest, Finding::Sense::at_least);
  if (shaft.longest)
    add("half-shaft-out", w->longest, *shaft.longest, "longest", w->at_longest, Finding::Sense::at_most);
}

// Where the rubber is met, and whether it is solid before the wheel is at the travel that the file gives.
void judge_bump_stop(Context& c, const JudgedAxle& axle, Side side, const BumpStop& stop) {
  const auto metres = [](const PointValue& p) { return V{p.value.x.si(), p.value.y.si(), p.value.z.si()}; };
  const PointValue& told = stop.lower_arm ? *stop.lower_arm : *stop.axle;
  const V fitted = axle.model.carried(metres(told));
  const Length beyond = axle.range.highest + 60.0 * units::mm;
  const auto room_of = [&](const std::shared_ptr<const AxleMechanism>& m, const V& meets, const V& seat) {
    const auto places = suspension::wheel_places(m, side, {}, axle.range.lowest, beyond);
    return [=](Length rise) -> std::optional<Length> {
      const auto at = places(rise, 0.0, {});
      return at ? std::optional(Length::from_si(norm(at->carrier(meets) - seat))) : std::nullopt;
    };
  };
  const auto room = room_of(axle.model.mechanism, fitted, metres(stop.chassis));
  // Before the kits, where the stop was told then.
  const auto& first = axle.name == "front" ? c.before.front : c.before.rear;
  const auto& corner = !first ? std::nullopt : side == Side::right && first->right ? first->right : first->left;
  std::function<std::optional<Length>(Length)> room_was;
  if (axle.was && corner && corner->bump_stop && (corner->bump_stop->lower_arm || corner->bump_stop->axle)) {
    const BumpStop& was = *corner->bump_stop;
    room_was = room_of(axle.was, metres(was.lower_arm ? *was.lower_arm : *was.axle), metres(was.chassis));
  }
  // The rise at which the room has come down to a length: it falls as the wheel rises.
  const auto meets_at = [&](const auto& room_at, Length length) -> std::optional<Length> {
    Length low = axle.range.lowest, high = beyond;
    while (high > axle.range.highest && !room_at(high)) high -= 2.0 * units::mm;
    const auto a = room_at(low), b = room_at(high);
    if (!a || !b || *a < length) return low;
    if (*b > length) return std::nullopt;
    for (int i = 0; i < 20; ++i) {
      const Length middle = 0.5 * (low + high);
      const auto r = room_at(middle);
      (r && *r > length ? low : high) = middle;
    }
    return low;
  };
  const std::string name = axle.name + (axle.now.right ? (side == Side::left ? " left" : " right") : "") + " bump stop";
  const std::string key = axle.name + (side == Side::left ? ".left." : ".right.") + "bump_stop.";
  std::vector<Input> inputs{input(key + "chassis", stop.chassis), input(key + "free_length", stop.free_length)};
  const auto contact = meets_at(room, stop.free_length.value);
  const Length before_contact = 10.0 * units::mm;
  LimitCheck free{"bump-stop-gap", name, Finding::Sense::at_least};
  free.value = number(contact ? *contact : axle.range.highest, stop.free_length.u.value_or(1.0 * units::mm));
  free.limit = number(before_contact);
  if (room_was)
    if (const auto was = meets_at(room_was, corner->bump_stop->free_length.value)) free.before = number(*was);
  free.when_broken = contact && contact->si() <= 0 ? Outcome::stop : Outcome::condition;
  free.source = common_practice;
  free.inputs = inputs;
  Finding f = held_against(std::move(free));
  if (f.outcome != Outcome::met) f.cure = Message{"cure-bump-stop-shorter", {}};
  c.add(std::move(f));

  if (!stop.solid_length) return;
  // The travel in the file ends where something stops the wheel; a stop with room left there does not.
  const auto left = room(axle.range.highest);
  if (!left) return;
  LimitCheck late{"bump-stop-late", name};
  late.value = number(*left, stop.free_length.u.value_or(1.0 * units::mm));
  late.limit = number(stop.solid_length->value, stop.solid_length->u.value_or(1.0 * units::mm));
  if (room_was && first->bump)
    if (const auto was = room_was(first->bump->value)) late.before = number(*was);
  late.when_broken = Outcome::condition;
  late.source = "geometry";
  late.inputs = inputs;
  late.inputs.push_back(input(key + "solid_length", *stop.solid_length));
  late.inputs.insert(late.inputs.end(), axle.range.inputs.begin(), axle.range.inputs.end());
  const Length by = *left - stop.solid_length->value;
  Finding g = held_against(std::move(late));
  g.message.arguments.emplace_back("rise", number(axle.range.highest));
  if (g.outcome != Outcome::met && by.si() > 0) g.cure = Message{"cure-bump-stop-longer", {{"by", number(by)}}};
  c.add(std::move(g));
}

// A spacer or a perch screwed down: how far it lets the wheel down under its old load.
void note_spacer(Context& c, const JudgedAxle& axle, Side side, const Valued<Length>& spacer) {
  const auto& settled = axle.model.settled[side == Side::left ? 0 : 1];
  if (!settled) return;
  const Length u = spacer.u.value_or(Length{}) * (settled->down / spacer.value);
  Finding f =
      noted("spacer-lift", axle.name + (axle.now.right ? (side == Side::left ? " left" : " right") : "") + " spring",
            std::nullopt, number(settled->down, abs(u)),
            {input(axle.name + (side == Side::left ? ".left" : ".right") + ".spring.spacer", spacer)},
            "geometry: the spring as long as it was under its old load");
  f.message.arguments.emplace_back("spacer", number(spacer.value));
  c.add(std::move(f));
}

}  // namespace

void judge_joints(Context& c, const JudgedAxle& axle) {
  const Length lock = axle.now.rack_travel && axle.model.mechanism->steered() ? axle.now.rack_travel->value : Length{};
  const Angle roll = axle.model.mechanism->one_body() ? 4.0 * units::degree : Angle{};
  for (const Side side : {Side::left, Side::right}) {
    const auto& corner = side == Side::right && axle.now.right ? axle.now.right : axle.now.left;
    if (!corner || (side == Side::right && !axle.now.right)) continue;
    for (const Joint& joint : joints_of(axle, side, *corner)) judge_joint(c, axle, joint, roll, lock);
    if (corner->half_shaft) judge_half_shaft(c, axle, side, *corner->half_shaft);
    if (corner->spring && corner->spring->spacer) note_spacer(c, axle, side, *corner->spring->spacer);
    const auto& stop = corner->bump_stop;
    if (stop && (stop->lower_arm || stop->axle))
      judge_bump_stop(c, axle, side, *stop);
    else if (stop)
      c.add(not_computed(axle.name + " bump stop", {axle.name + ".left.bump_stop.lower_arm"}));
  }
  for (const Joint& joint : joints_of(axle)) judge_joint(c, axle, joint, roll, lock);
}

}  // namespace trammel
