#include "assess/models.h"

#include <cmath>

#include "job/mirror.h"
#include "job/overlay.h"
#include "suspension/geometry/independent_axle.h"
#include "suspension/geometry/linked_axle.h"
#include "suspension/geometry/steered_beam.h"
#include "suspension/linkage/leaf_link.h"

namespace trammel {
namespace {

Vector3<double> metres(const PointValue& p) { return {p.value.x.si(), p.value.y.si(), p.value.z.si()}; }

suspension::ArmPoints<double> arm(const Arm& a) {
  return {metres(a.front_bush), metres(a.rear_bush), metres(a.ball_joint)};
}

// A spring's or a damper's two ends.
template <class Part>
std::optional<suspension::SpringPoints<double>> mounts(const std::optional<Part>& part) {
  using enum suspension::MountedOn;
  if (!part) return std::nullopt;
  const auto on = [&](const PointValue& foot, suspension::MountedOn where) {
    return suspension::SpringPoints<double>{metres(part->chassis), metres(foot), where};
  };
  if (part->lower_arm) return on(*part->lower_arm, lower_arm);
  if (part->upper_arm) return on(*part->upper_arm, upper_arm);
  if (part->knuckle) return on(*part->knuckle, knuckle);
  return std::nullopt;
}

// The arm itself, or the leaf in its place.
bool arm_or_leaf(const std::optional<Arm>& given, const Corner& c, const char* name,
                 suspension::ArmPoints<double>& points) {
  if (c.transverse_leaf && c.transverse_leaf->in_place_of.value == name)
    points = suspension::leaf_link(metres(c.transverse_leaf->clamp), metres(c.transverse_leaf->eye));
  else if (given)
    points = arm(*given);
  else
    return false;
  return true;
}

std::optional<suspension::CornerPoints<double>> corner(const Corner& c, const std::string& layout) {
  using suspension::Guide;
  if (!c.hub) return std::nullopt;
  suspension::CornerPoints<double> p;
  if (layout == "strut") {
    if (!c.lower_arm || !c.strut) return std::nullopt;
    p.guide = Guide::strut;
    p.lower_arm = arm(*c.lower_arm);
    p.strut_top = metres(c.strut->top);
    p.strut_lower = metres(c.strut->lower);
  } else if (layout == "double wishbone") {
    if (!arm_or_leaf(c.lower_arm, c, "lower arm", p.lower_arm) ||
        !arm_or_leaf(c.upper_arm, c, "upper arm", p.upper_arm))
      return std::nullopt;
  } else {
    if (!c.arm || c.kingpin.has_value() != c.tie_rod.has_value()) return std::nullopt;
    p.guide = Guide::the_arm;
    p.lower_arm.front_bush = metres(c.arm->bush);
    p.lower_arm.rear_bush = metres(c.arm->other_bush);
    p.steered = c.kingpin.has_value();
    if (p.steered) {
      p.lower_arm.ball_joint = metres(c.kingpin->bottom);
      p.upper_arm.ball_joint = metres(c.kingpin->top);
    }
  }
  if (p.steered) {
    if (!c.tie_rod) return std::nullopt;
    p.rack_end = metres(c.tie_rod->rack_end);
    p.knuckle_end = metres(c.tie_rod->knuckle_end);
  }
  p.hub_centre = metres(c.hub->centre);
  p.camber = c.hub->camber.value;
  p.toe = c.hub->toe.value;
  p.spring = mounts(c.spring);
  p.damper = mounts(c.damper);
  // A strut is its own damper.
  if (c.strut && !p.damper)
    p.damper = suspension::SpringPoints<double>{p.strut_top, p.strut_lower, suspension::MountedOn::knuckle};
  return p;
}

// A spacer lets the wheel down until its spring is as long again.
void settle(const Corner& given, suspension::Side side, suspension::CornerPoints<double>& points, AxleModel& m) {
  if (!given.spring || !given.spring->spacer || given.spring->spacer->value.si() == 0 || !points.spring) return;
  const bool right = side == suspension::Side::right;
  if (!suspension::check(points, right).empty()) return;
  const Length longer = given.spring->spacer->value;
  suspension::SettledCorner s =
      right ? mirrored(suspension::settled(mirrored(points), longer)) : settled(points, longer);
  if (!s.outcome.ok()) {
    m.faults.push_back(
        {suspension::PointFaultKind::spring_too_long, right ? "right.spring.spacer" : "left.spring.spacer"});
    return;
  }
  points = s.points;
  m.settled[right ? 1 : 0] = std::move(s);
}

std::optional<AxleModel> independent(const Axle& axle, bool steers) {
  if (!axle.left) return std::nullopt;
  auto left = corner(*axle.left, axle.layout.value);
  if (!left) return std::nullopt;
  AxleModel m;
  const Vector3<double> hub_as_told = left->hub_centre;
  m.radius = axle.loaded_radius ? axle.loaded_radius->value : Length::from_si(hub_as_told.z);
  settle(*axle.left, suspension::Side::left, *left, m);
  m.left_hub = left->hub_centre;
  suspension::IndependentPoints points{*left, std::nullopt, m.radius};
  if (axle.right) {
    points.right = corner(*axle.right, axle.layout.value);
    if (!points.right) return std::nullopt;
    settle(*axle.right, suspension::Side::right, *points.right, m);
  } else if (m.settled[0]) {
    m.settled[1] = mirrored(*m.settled[0]);
  }
  if (axle.relay)
    points.relay = suspension::RelayPoints{metres(axle.relay->pitman_pivot), metres(axle.relay->pitman_end),
                                           metres(axle.relay->idler_pivot), metres(axle.relay->idler_end)};
  auto mechanism = std::make_shared<suspension::IndependentAxle>(points);
  if (!steers) mechanism->hold_steer();
  m.mechanism = std::move(mechanism);
  // The tyre's middle keeps its place on the hub.
  const Length offset = axle.half_track ? axle.half_track->value - Length::from_si(hub_as_told.y) : Length{};
  m.half_track = Length::from_si(left->hub_centre.y) + offset;
  return m;
}

std::optional<suspension::AxleLocation> location(const std::string& words) {
  if (words == "two trailing arms and track bar") return suspension::AxleLocation::two_trailing_arms_and_track_bar;
  if (words == "three links and track bar") return suspension::AxleLocation::three_links_and_track_bar;
  if (words == "four links and track bar") return suspension::AxleLocation::four_links_and_track_bar;
  if (words == "leaf springs") return suspension::AxleLocation::leaf_springs;
  return std::nullopt;
}

suspension::LeafSpringPoints leaf_points(const LeafSpring& l) {
  return {metres(l.fixed_eye), metres(l.shackled_eye), metres(l.shackle_pivot), metres(l.seat),
          l.clamped ? l.clamped->value : Length{}};
}
// A new shackle is told by its length, the old one by its points.
suspension::SpringChange spring_change(const LeafSpring& l) {
  suspension::SpringChange change;
  if (l.shackle_length) {
    const Vector3<double> span = metres(l.shackled_eye) - metres(l.shackle_pivot);
    change.shackle_longer = l.shackle_length->value - Length::from_si(std::hypot(span.x, span.z));
    if (abs(change.shackle_longer) < 1e-6 * units::metre) change.shackle_longer = {};
  }
  if (l.block) change.block = l.block->value;
  if (l.wedge) change.wedge = l.wedge->value;
  return change;
}

Corner right_of(const Axle& axle) { return axle.right ? *axle.right : mirrored(*axle.left); }

// What carries a rigid axle, as it was measured. Nothing where something is missing.
std::optional<suspension::LiveAxlePoints> rigid_points(const Axle& axle, Length half_track) {
  if (!axle.axle_centre || !axle.located_by) return std::nullopt;
  const auto located = location(axle.located_by->value);
  if (!located) return std::nullopt;
  suspension::LiveAxlePoints p;
  p.location = *located;
  p.axle_centre = metres(*axle.axle_centre);
  p.half_track = half_track;
  p.loaded_radius = axle.loaded_radius ? axle.loaded_radius->value : Length::from_si(p.axle_centre.z);
  if (*located == suspension::AxleLocation::leaf_springs) {
    if (!axle.left || !axle.left->leaf) return std::nullopt;
    const Corner right = right_of(axle);
    if (!right.leaf) return std::nullopt;
    p.springs = {leaf_points(*axle.left->leaf), leaf_points(*right.leaf)};
    return p;
  }
  bool bar = false;
  for (const Link& link : axle.link) {
    const suspension::Link ends{metres(link.chassis), metres(link.axle)};
    if (link.name.value == "track bar") {
      p.track_bar = ends;
      bar = true;
    } else {
      p.links.push_back(ends);
    }
  }
  if (!bar || static_cast<int>(p.links.size()) != suspension::links_of(*located)) return std::nullopt;
  return p;
}

// Shackles, blocks and wedges: the axle as it comes to stand. A shackle that does not reach is a fault.
void change_springs(const Axle& axle, suspension::LiveAxlePoints& p, AxleModel& m) {
  if (p.springs.empty() || !suspension::check(p).empty()) return;
  const std::array changes{spring_change(*axle.left->leaf), spring_change(*right_of(axle).leaf)};
  m.shackle_longer = {changes[0].shackle_longer, changes[1].shackle_longer};
  suspension::ChangedAxle changed = suspension::change_springs(p, changes);
  if (!changed.outcome.ok()) {
    const char* side = changed.side == suspension::Side::left ? "left" : "right";
    m.faults.push_back(
        {suspension::PointFaultKind::leaf_shackle_too_short, std::string(side) + ".leaf.shackle_length"});
    return;
  }
  p = changed.axle;
  m.changed = std::move(changed);
}

std::optional<AxleModel> live(const Axle& axle) {
  if (!axle.half_track) return std::nullopt;
  auto p = rigid_points(axle, axle.half_track->value);
  if (!p) return std::nullopt;
  AxleModel m;
  change_springs(axle, *p, m);
  const Vector3<double> half = p->half_track.si() * p->along;
  m.left_hub = {p->axle_centre.x, p->axle_centre.y + half.y, p->axle_centre.z};
  m.radius = p->loaded_radius;
  m.half_track = p->half_track;
  m.mechanism = std::make_shared<suspension::LinkedAxle>(std::move(*p));
  return m;
}

std::optional<suspension::KnucklePoints> knuckle(const Corner& c, const PointValue& tie_rod_end) {
  if (!c.kingpin || !c.hub) return std::nullopt;
  return suspension::KnucklePoints{metres(c.kingpin->top), metres(c.kingpin->bottom), metres(tie_rod_end),
                                   metres(c.hub->centre),  c.hub->camber.value,       c.hub->toe.value};
}

std::optional<AxleModel> beam(const Axle& axle) {
  if (!axle.left || !axle.tie_rod || !axle.drag_link) return std::nullopt;
  const auto left = knuckle(*axle.left, axle.tie_rod->left_end);
  const auto right = knuckle(right_of(axle), axle.tie_rod->right_end);
  if (!left || !right) return std::nullopt;
  auto p = rigid_points(axle, Length::from_si(left->hub_centre.y));
  if (!p) return std::nullopt;
  AxleModel m;
  change_springs(axle, *p, m);
  suspension::BeamAxlePoints b{*p, *left, *right, {}};
  const DragLink& link = *axle.drag_link;
  b.drag_link = {metres(link.chassis_end), metres(link.axle_end),
                 link.axle_end.value.y.si() < 0 ? suspension::Side::right : suspension::Side::left, std::nullopt};
  if (link.pitman_pivot && link.pitman_shaft)
    b.drag_link.pitman_arm =
        suspension::PitmanArm{metres(*link.pitman_pivot), metres(*link.pitman_shaft) - metres(*link.pitman_pivot)};
  // What is fixed to the beam moves with it; the drag link is set to its new length with the wheels straight.
  for (suspension::KnucklePoints* k : {&b.left, &b.right})
    for (Vector3<double>* at : {&k->king_pin_top, &k->king_pin_bottom, &k->tie_rod_end, &k->hub_centre})
      *at = m.carried(*at);
  b.drag_link.knuckle_end = m.carried(b.drag_link.knuckle_end);
  m.left_hub = b.left.hub_centre;
  m.left_hub.z = 0.5 * (b.left.hub_centre.z + b.right.hub_centre.z);
  m.radius = axle.loaded_radius ? axle.loaded_radius->value : Length::from_si(left->hub_centre.z);
  b.beam.loaded_radius = m.radius;
  m.half_track = axle.half_track ? axle.half_track->value : Length::from_si(b.left.hub_centre.y);
  m.mechanism = std::make_shared<suspension::SteeredBeam>(std::move(b));
  return m;
}

std::string code(suspension::PointFaultKind kind) {
  using enum suspension::PointFaultKind;
  switch (kind) {
    case not_a_number:
      return "point-not-a-number";
    case bushes_coincide:
      return "point-bushes-coincide";
    case ball_joint_on_bush_line:
      return "point-ball-joint-on-bush-line";
    case ball_joints_coincide:
      return "point-ball-joints-coincide";
    case upper_below_lower:
      return "point-upper-below-lower";
    case zero_length_tie_rod:
      return "point-tie-rod-without-length";
    case no_steering_arm:
      return "point-no-steering-arm";
    case wrong_side:
      return "point-wrong-side";
    case arms_in_line:
      return "point-arms-in-line";
    case tie_rod_in_line:
      return "point-tie-rod-in-line";
    case lower_arm_upright:
      return "point-lower-arm-upright";
    case zero_length_spring:
      return "point-spring-without-length";
    case zero_length_strut:
      return "point-strut-without-length";
    case strut_across:
      return "point-strut-across";
    case relay_in_line:
      return "point-relay-in-line";
    case angle_too_large:
      return "point-angle-too-large";
    case wrong_number_of_links:
      return "axle-wrong-number-of-links";
    case zero_length_link:
      return "axle-link-without-length";
    case half_track_not_positive:
      return "axle-half-track-not-positive";
    case links_in_line:
      return "axle-links-in-line";
    case zero_length_part:
      return "point-part-without-length";
    case drag_link_in_line:
      return "point-drag-link-in-line";
    case leaf_seat_outside:
      return "leaf-seat-outside";
    case leaf_eyes_exchanged:
      return "leaf-eyes-exchanged";
    case leaf_too_arched:
      return "leaf-too-arched";
    case leaf_shackle_in_line:
      return "leaf-shackle-in-line";
    case leaf_shackle_too_short:
      return "leaf-shackle-too-short";
    case spring_too_long:
      return "spring-too-long";
  }
  return "point-not-a-number";
}

// A beam or an axle on leaf springs: where its wheels stand.
std::optional<AxleModel> rigid(const Axle& axle) {
  if (!axle.axle_centre || !axle.half_track) return std::nullopt;
  AxleModel m;
  m.left_hub = metres(*axle.axle_centre) + Vector3<double>{0.0, axle.half_track->value.si(), 0.0};
  m.radius = axle.loaded_radius ? axle.loaded_radius->value : Length::from_si(m.left_hub.z);
  m.half_track = axle.half_track->value;
  return m;
}

}  // namespace

std::optional<AxleModel> axle_model(const std::optional<Axle>& axle, bool steers) {
  if (!axle) return std::nullopt;
  for (const char* layout : {"double wishbone", "strut", "swing axle", "trailing arm"})
    if (axle->layout.value == layout) return independent(*axle, steers);
  std::optional<AxleModel> model;
  if (axle->layout.value == "live axle") model = live(*axle);
  if (axle->layout.value == "solid beam") model = beam(*axle);
  const bool known_to_stand =
      axle->layout.value == "solid beam" || (axle->located_by && axle->located_by->value == "leaf springs");
  return !model && known_to_stand ? rigid(*axle) : model;
}

Vector3<double> AxleModel::carried(const Vector3<double>& part) const {
  if (changed) return changed->carried(part);
  const auto& corner = settled[part.y < 0 ? 1 : 0];
  return corner ? corner->lower_arm(part) : part;
}

std::vector<suspension::PointFault> AxleModel::check() const {
  auto all = mechanism ? mechanism->check() : std::vector<suspension::PointFault>{};
  all.insert(all.end(), faults.begin(), faults.end());
  return all;
}

CartModel cart_model(const Cart& cart) {
  CartModel m{axle_model(cart.front, true), axle_model(cart.rear, false), cart.wheelbase.value};
  if (m.front && m.rear) m.wheelbase = Length::from_si(m.front->left_hub.x - m.rear->left_hub.x);
  return m;
}

Message point_fault(const std::string& axle, const suspension::PointFault& fault) {
  return {code(fault.kind), {{"point", axle + "." + fault.point}}};
}

}  // namespace trammel
