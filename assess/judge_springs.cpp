// What is particular to a rigid axle: its leaf springs and shackles, its track bar, the lines that lead to it.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "assess/geometry.h"

namespace trammel {
namespace {

using V = Vector3<double>;

const Angle least_to_line = 10.0 * units::degree;  // of a shackle from the line of the eyes
const Angle most_lean = 0.5 * units::degree;       // of the axle against the body, from side to side
const Length most_aside = 5.0 * units::mm;         // of the axle from the middle
const char* spring_source = "SAE HS-788, three-link equivalent (from memory)";

Number with_sign_dropped(Length l) { return number(abs(l)); }

std::vector<Input> leaf_inputs(const JudgedAxle& axle) {
  std::vector<Input> inputs;
  if (!axle.now.left || !axle.now.left->leaf) return inputs;
  const LeafSpring& leaf = *axle.now.left->leaf;
  const std::string name = axle.name + ".left.leaf.";
  inputs.push_back(input(name + "seat", leaf.seat));
  if (leaf.shackle_length) inputs.push_back(input(name + "shackle_length", *leaf.shackle_length));
  if (leaf.block) inputs.push_back(input(name + "block", *leaf.block));
  if (leaf.wedge) inputs.push_back(input(name + "wedge", *leaf.wedge));
  return inputs;
}

// What shackles, blocks and wedges have done, with the rule of thumb beside the true figure.
void note_changes(Context& c, const JudgedAxle& axle) {
  if (!axle.model.changed) return;
  const suspension::ChangedAxle& changed = *axle.model.changed;
  const bool alike = abs(changed.lean) < 1e-9 * units::radian;
  for (int i = 0; i < 2; ++i) {
    if (i == 1 && alike) continue;
    const std::string subject = axle.name + (alike ? " axle" : i == 0 ? " left" : " right");
    const Length longer = axle.model.shackle_longer[i];
    if (longer.si() != 0) {
      Finding f = noted("shackle-let-down", subject, std::nullopt, number(changed.by_shackle[i]), leaf_inputs(axle),
                        spring_source);
      f.message.arguments.emplace_back("longer", number(longer));
      f.message.arguments.emplace_back("half", number(0.5 * longer));
      c.add(std::move(f));
    }
    if (changed.axle_down[i].si() != 0 || changed.nose_up.si() != 0) {
      Finding f = noted("spring-kit-moves", subject, std::nullopt, number(changed.axle_down[i]), leaf_inputs(axle),
                        spring_source);
      f.message.arguments.emplace_back("turn", number(changed.nose_up));
      c.add(std::move(f));
    }
  }
  if (alike) return;
  LimitCheck lean{"axle-leans", axle.name + " axle"};
  lean.value = number(abs(changed.lean));
  lean.limit = number(most_lean);
  lean.when_broken = Outcome::condition;
  lean.source = common_practice;
  lean.inputs = leaf_inputs(axle);
  c.add(held_against(std::move(lean)));
}

// How near to the line of its eyes a shackle comes over the travel.
void judge_shackles(Context& c, const JudgedAxle& axle) {
  const auto least = [&](const suspension::AxleMechanism& m) {
    std::optional<Angle> smallest;
    for (int i = 0; i <= 8; ++i) {
      const Length rise = axle.range.lowest + (i / 8.0) * (axle.range.highest - axle.range.lowest);
      const suspension::AxlePose pose = m.pose({rise});
      if (!pose.ok() || !pose.body) return smallest;
      for (const suspension::LeafPose& leaf : pose.body->springs) {
        const Angle over = Angle::from_si(std::numbers::pi) - leaf.shackle_to_line;
        const Angle to_line = std::min(leaf.shackle_to_line, over);
        smallest = smallest ? std::min(*smallest, to_line) : to_line;
      }
    }
    return smallest;
  };
  const auto now = least(*axle.model.mechanism);
  if (!now) return;
  LimitCheck check{"shackle-angle", axle.name + " shackles", Finding::Sense::at_least};
  check.value = number(*now);
  if (axle.was)
    if (const auto before = least(*axle.was)) check.before = number(*before);
  check.limit = number(least_to_line);
  check.when_broken = Outcome::condition;
  check.source = common_practice;
  check.inputs = leaf_inputs(axle);
  check.inputs.insert(check.inputs.end(), axle.range.inputs.begin(), axle.range.inputs.end());
  c.add(held_against(std::move(check)));
}

// An adjustable track bar, or one with a choice of holes: what its old length does now, and what brings the axle back.
void judge_track_bar(Context& c, const JudgedAxle& axle) {
  const auto bar = std::find_if(axle.now.link.begin(), axle.now.link.end(),
                                [](const Link& l) { return l.name.value == "track bar"; });
  if (bar == axle.now.link.end() || (bar->hole.empty() && !bar->adjuster) || !axle.was) return;
  const auto at = [](const suspension::AxleMechanism& m, const char* name) {
    for (const suspension::Hardpoint& p : m.points())
      if (p.name == name) return p.at;
    return V{};
  };
  const suspension::AxleMechanism& now = *axle.model.mechanism;
  const V end = at(now, "track_bar.axle");
  const double old_length = norm(at(*axle.was, "track_bar.axle") - at(*axle.was, "track_bar.chassis"));
  const auto aside = [&](const V& chassis) -> std::optional<double> {
    auto points = now.points();
    for (suspension::Hardpoint& p : points)
      if (p.name == "track_bar.chassis") p.at = chassis;
    suspension::AxleCoordinates with_old_bar;
    with_old_bar.changes.links.assign(axle.now.link.size(), Length{});
    with_old_bar.changes.links.back() = Length::from_si(old_length - norm(end - chassis));
    const suspension::AxlePose pose = now.with_points(points)->pose(with_old_bar);
    if (!pose.ok()) return std::nullopt;
    return pose.body->centre.y;
  };
  const auto as_it_is = aside(at(now, "track_bar.chassis"));
  if (!as_it_is) return;
  LimitCheck check{"track-bar-shift", axle.name + " axle"};
  check.value = number(Length::from_si(std::abs(*as_it_is)));
  check.limit = number(most_aside);
  check.when_broken = Outcome::condition;
  check.source = common_practice;
  check.inputs = {input(axle.name + ".link.track bar.chassis", bar->chassis),
                  input(axle.name + ".link.track bar.axle", bar->axle)};
  Finding f = held_against(std::move(check));
  f.message.arguments.emplace_back("side", std::string(*as_it_is > 0 ? "left" : "right"));

  // The length that puts the middle in the middle, and the hole that comes nearest with the bar as it is.
  const Length longer = Length::from_si(norm(end - at(now, "track_bar.chassis")) - old_length);
  Message cure{"cure-track-bar-length",
               {{"by", with_sign_dropped(longer)},
                {"direction", std::string(longer.si() > 0 ? "@direction-longer" : "@direction-shorter")}}};
  std::optional<double> best;
  for (const Hole& hole : bar->hole) {
    const auto left = aside({hole.at.value.x.si(), hole.at.value.y.si(), hole.at.value.z.si()});
    if (!left || (best && std::abs(*left) >= *best)) continue;
    best = std::abs(*left);
    cure.code = "cure-track-bar-hole";
    cure.arguments.resize(2);
    cure.arguments.emplace_back("hole", hole.name.value);
    cure.arguments.emplace_back("left", number(Length::from_si(*best)));
  }
  f.cure = std::move(cure);
  c.add(std::move(f));
}

// A beam that has moved against the body wants its drag link at another length.
void note_drag_link(Context& c, const JudgedAxle& axle) {
  if (!axle.now.drag_link || !axle.was) return;
  const auto length = [](const suspension::AxleMechanism& m) {
    V frame, knuckle;
    for (const suspension::Hardpoint& p : m.points()) {
      if (p.name == "drag_link.chassis_end") frame = p.at;
      if (p.name == "drag_link.axle_end") knuckle = p.at;
    }
    return norm(knuckle - frame);
  };
  const Length longer = Length::from_si(length(*axle.model.mechanism) - length(*axle.was));
  if (abs(longer) < 0.5 * units::mm) return;
  Finding f = noted("drag-link-length", axle.name + " axle", std::nullopt, with_sign_dropped(longer),
                    {input(axle.name + ".drag_link.chassis_end", axle.now.drag_link->chassis_end),
                     input(axle.name + ".drag_link.axle_end", axle.now.drag_link->axle_end)},
                    "geometry");
  f.message.arguments.emplace_back("direction",
                                   std::string(longer.si() > 0 ? "@direction-longer" : "@direction-shorter"));
  c.add(std::move(f));
}

}  // namespace

void judge_springs(Context& c, const JudgedAxle& axle) {
  note_changes(c, axle);
  judge_shackles(c, axle);
  judge_track_bar(c, axle);
  note_drag_link(c, axle);
}

}  // namespace trammel
