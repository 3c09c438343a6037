#include "assess/axle_outline.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "assess/clearance_model.h"
#include "job/mirror.h"

namespace trammel {
namespace {

using suspension::Side;
using V = Vector3<double>;

V metres(const PointValue& p) { return {p.value.x.si(), p.value.y.si(), p.value.z.si()}; }

// The point of a line that is nearest to another.
V foot_on(const V& a, const V& b, const V& p) {
  const V along = b - a;
  return a + (dot(p - a, along) / dot(along, along)) * along;
}

class Outlining {
 public:
  Outlining(const Axle& axle, const AxleModel& model, AxleOutline& out) : axle_(axle), model_(model), out_(out) {
    for (const suspension::Hardpoint& p : model.mechanism->points()) points_[p.name] = p.at;
  }

  void whole() {
    wheels();
    if (axle_.layout.value == "live axle" || axle_.layout.value == "solid beam") rigid();
    for (const int side : {1, -1}) corner(side);
    steering();
  }

 private:
  static std::string prefix(int side) { return side > 0 ? "left." : "right."; }
  const V* at(const std::string& name) const {
    const auto found = points_.find(name);
    return found == points_.end() ? nullptr : &found->second;
  }
  const V* at(int side, const std::string& name) const { return at(prefix(side) + name); }
  const OutlineWheel& wheel(int side) const { return out_.wheels[side > 0 ? 0 : 1]; }
  Corner given(int side) const {
    if (!axle_.left) return {};
    return side > 0 ? *axle_.left : axle_.right ? *axle_.right : mirrored(*axle_.left);
  }

  void part(std::string what, int side, std::vector<V> line, std::string name = {}) {
    out_.parts.push_back({std::move(what), std::move(name), side, std::move(line)});
  }
  void pivot(const V& p) { out_.pivots.push_back(p); }
  void joint(const V& p) { out_.joints.push_back(p); }

  void wheels() {
    const suspension::AxlePose rest = model_.mechanism->pose({});
    for (const Side side : {Side::left, Side::right}) {
      const auto& w = rest.side(side).wheel;
      out_.wheels[side == Side::left ? 0 : 1] = {w.hub_centre, w.spin_axis, w.steered, w.steering_foot,
                                                 w.steering_axis};
    }
  }

  // An arm from its two pivots to its outer end.
  void arm(const char* what, int side, const V& front, const V& rear, const V& outer) {
    part(what, side, {front, outer, rear});
    pivot(front), pivot(rear), joint(outer);
  }
  // What stands between two ends, the first of them on the body.
  void strut_like(const char* what, int side, const V& body_end, const V& foot) {
    part(what, side, {body_end, foot});
    pivot(body_end), joint(foot);
  }
  void from_axis(const char* what, int side, const V& low, const V& high, const V& outer) {
    part(what, side, {foot_on(low, high, outer), outer});
  }

  void corner(int side) {
    const Corner c = given(side);
    const auto leaf_for = [&](const char* arm_name) {
      return c.transverse_leaf && c.transverse_leaf->in_place_of.value == arm_name;
    };
    const std::pair<const char*, const char*> arms[] = {{"lower arm", "lower_arm"}, {"upper arm", "upper_arm"}};
    for (const auto& [words, key] : arms) {
      const std::string name = key;
      if (leaf_for(words)) {
        const V clamp = metres(c.transverse_leaf->clamp), eye = *at(side, name + ".ball_joint");
        part("transverse-leaf", side, {clamp, eye});
        pivot(clamp), joint(eye);
      } else if (const V* ball = at(side, name + ".ball_joint")) {
        arm(name == "lower_arm" ? "lower-arm" : "upper-arm", side, *at(side, name + ".front_bush"),
            *at(side, name + ".rear_bush"), *ball);
      }
    }
    if (const V* bush = at(side, "arm.bush")) {
      // The arm ends in its kingpin, or carries the wheel itself.
      const V *low = at(side, "kingpin.bottom"), *high = at(side, "kingpin.top");
      const V outer = low && high ? 0.5 * (*low + *high) : wheel(side).hub;
      part("wheel-arm", side, {*bush, outer, *at(side, "arm.other_bush")});
      pivot(*bush), pivot(*at(side, "arm.other_bush"));
    }
    knuckle(side);
    if (const V* top = at(side, "strut.top")) strut_like("strut", side, *top, *at(side, "strut.lower"));
    spring_and_damper(side, c);
    if (c.half_shaft) {
      const V inner = metres(c.half_shaft->inner), outer = model_.carried(metres(c.half_shaft->outer));
      part("half-shaft", side, {inner, outer});
      joint(inner), joint(outer);
    }
  }

  // Upright and stub, about the steering axis where the wheel steers.
  void knuckle(int side) {
    const OutlineWheel& w = wheel(side);
    const V* low = at(side, "lower_arm.ball_joint");
    const V* high = at(side, "upper_arm.ball_joint");
    if (const V* bottom = at(side, "kingpin.bottom")) {
      low = bottom, high = at(side, "kingpin.top");
      joint(*low), joint(*high);
    }
    if (!high) high = at(side, "strut.lower");
    if (!low || !high) return;
    part("knuckle", side, {*low, *high});
    if (!w.steered) return;
    const V on_axis = w.axis_foot + dot(w.hub - w.axis_foot, w.axis) * w.axis;
    part("stub", side, {on_axis, w.hub});
    const V* end = at(side, "tie_rod.knuckle_end");
    if (!end) end = at(side, "tie_rod.end");
    if (end) from_axis("steering-arm", side, w.axis_foot, w.axis_foot + w.axis, *end);
  }

  void spring_and_damper(int side, const Corner& c) {
    for (const char* what : {"spring", "damper"}) {
      const std::string name = std::string(what) + ".";
      const V* body_end = at(side, name + "chassis");
      if (body_end && at(side, "strut.top") && *body_end == *at(side, "strut.top")) continue;
      if (body_end)
        for (const char* foot : {"lower_arm", "upper_arm", "knuckle"})
          if (const V* p = at(side, name + foot)) strut_like(what, side, *body_end, *p);
    }
    // On a rigid axle they are the file's alone, their feet carried along with it.
    if (!model_.mechanism->one_body()) return;
    if (c.spring && c.spring->axle)
      strut_like("spring", side, metres(c.spring->chassis), model_.carried(metres(*c.spring->axle)));
    if (c.damper)
      for (const auto& foot : {c.damper->lower_arm, c.damper->upper_arm, c.damper->knuckle})
        if (foot) strut_like("damper", side, metres(c.damper->chassis), model_.carried(metres(*foot)));
  }

  void steering() {
    for (const int side : {1, -1}) {
      const V *inner = at(side, "tie_rod.rack_end"), *outer = at(side, "tie_rod.knuckle_end");
      if (!inner || !outer) continue;
      part("tie-rod", side, {*inner, *outer});
      joint(*inner), joint(*outer);
    }
    const V *left = at("left.tie_rod.rack_end"), *right = at("right.tie_rod.rack_end");
    const V *pitman = at("relay.pitman_end"), *idler = at("relay.idler_end");
    if (pitman && idler) {
      part("pitman-arm", 0, {*at("relay.pitman_pivot"), *pitman});
      part("idler-arm", 0, {*at("relay.idler_pivot"), *idler});
      pivot(*at("relay.pitman_pivot")), pivot(*at("relay.idler_pivot"));
      joint(*pitman), joint(*idler);
      std::vector<V> link{*pitman, *idler};
      if (left && right) link = {*left, *pitman, *idler, *right};
      part("centre-link", 0, std::move(link));
    } else if (left && right && wheel(1).steered) {
      part("rack", 0, {*left, *right});
    }
    // A beam's: from knuckle to knuckle, and from the frame to one of them.
    const V *l = at("left.tie_rod.end"), *r = at("right.tie_rod.end");
    if (l && r) {
      part("tie-rod", 0, {*l, *r});
      joint(*l), joint(*r);
    }
    const V *frame_end = at("drag_link.chassis_end"), *ball = at("drag_link.axle_end");
    if (!frame_end || !ball) return;
    part("drag-link", 0, {*frame_end, *ball});
    joint(*frame_end), joint(*ball);
    const OutlineWheel& turned = wheel(ball->y < 0 ? -1 : 1);
    from_axis("steering-arm", ball->y < 0 ? -1 : 1, turned.axis_foot, turned.axis_foot + turned.axis, *ball);
    if (const V* shaft = at("drag_link.pitman_pivot")) {
      part("pitman-arm", 0, {*shaft, *frame_end});
      pivot(*shaft);
    }
  }

  // The axle's own tube, with what leads it.
  void rigid() {
    const auto end = [&](int side) {
      const V *low = at(side, "kingpin.bottom"), *high = at(side, "kingpin.top");
      return low && high ? 0.5 * (*low + *high) : wheel(side).hub;
    };
    part("axle", 0, {end(1), end(-1)});
    for (const int side : {1, -1}) leaf_spring(side);
    std::size_t number = 0;
    for (const Link& link : axle_.link) {
      const bool bar = link.name.value == "track bar";
      const std::string name = bar ? "track_bar" : "link." + std::to_string(number++);
      const V *chassis = at(name + ".chassis"), *moving = at(name + ".axle");
      if (!chassis || !moving) continue;
      const double y = 0.5 * (chassis->y + moving->y);
      const int side = bar || std::abs(y) < 0.02 ? 0 : y > 0 ? 1 : -1;
      part(bar ? "track-bar" : "link", side, {*chassis, *moving}, bar ? std::string() : link.name.value);
      pivot(*chassis), joint(*moving);
    }
  }

  void leaf_spring(int side) {
    const V *fixed = at(side, "leaf.fixed_eye"), *eye = at(side, "leaf.shackled_eye"), *seat = at(side, "leaf.seat"),
            *shackle = at(side, "leaf.shackle_pivot");
    if (!fixed || !eye || !seat || !shackle) return;
    part("leaf", side, arc_through(*fixed, *seat, *eye));
    part("shackle", side, {*eye, *shackle});
    pivot(*fixed), pivot(*shackle), joint(*eye);
    // From the seat to the middle of the axle's tube; the block is the part of it next to the seat.
    const V tube{at("axle_centre")->x, seat->y, at("axle_centre")->z};
    const Corner c = given(side);
    const double block = c.leaf && c.leaf->block ? c.leaf->block->value.si() : 0.0;
    const double whole = norm(tube - *seat);
    if (block > 0 && whole > 0) part("block", side, {*seat, *seat + std::min(1.0, block / whole) * (tube - *seat)});
    part("seat", side, {*seat, tube});
  }

  const Axle& axle_;
  const AxleModel& model_;
  AxleOutline& out_;
  std::map<std::string, V> points_;
};

// What a tyre might touch, as lines: a box by its edges, all else by its middle line.
void body_lines(const Cart& cart, const AxleModel& model, double other_x, AxleOutline& out) {
  for (const ClearanceFeature& f : clearance_features(cart, out.axle, model, other_x)) {
    if (f.shape.moves != suspension::MovesWith::body) continue;
    for (const suspension::Solid& s : f.shape.pieces) {
      if (s.kind != suspension::Solid::Kind::box) {
        out.body.push_back({s.from, s.to});
        continue;
      }
      const auto corner = [&](int i) {
        return s.from + (i & 1 ? 1.0 : -1.0) * s.half_edge[0] + (i & 2 ? 1.0 : -1.0) * s.half_edge[1] +
               (i & 4 ? 1.0 : -1.0) * s.half_edge[2];
      };
      for (int i = 0; i < 8; ++i)
        for (const int along : {1, 2, 4})
          if (!(i & along)) out.body.push_back({corner(i), corner(i | along)});
    }
  }
}

}  // namespace

std::optional<AxleOutline> axle_outline(const Cart& cart, const std::string& name) {
  const bool front = name == "front";
  const std::optional<Axle>& axle = front ? cart.front : cart.rear;
  const std::optional<AxleModel> model = axle_model(axle, front);
  if (!model || !model->mechanism || !model->check().empty()) return std::nullopt;
  AxleOutline out;
  out.axle = name;
  out.layout = axle->layout.value;
  out.loaded_radius = model->radius;
  out.ground = model->ground();
  Outlining(*axle, *model, out).whole();
  if (const auto tyre = clearance_tyre(axle, *model, name)) out.tyre = tyre->shape;
  const std::optional<AxleModel> other = axle_model(front ? cart.rear : cart.front, !front);
  const double away = front ? -10.0 : 10.0;
  body_lines(cart, *model, other ? other->left_hub.x : model->left_hub.x + away, out);
  return out;
}

}  // namespace trammel
