#include <algorithm>
#include <cmath>

#include "job/member.h"
#include "jobfile/rules.h"
#include "measure/nearest.h"

namespace trammel {

namespace {

constexpr std::string_view track_bar = "track bar";

// Distances between the two ends of one part, metres. common practice, no source.
constexpr Plausible arm_length{0.08, 1.0}, spring_length{0.05, 1.2}, link_length{0.1, 2.0}, cross_rod_length{0.3, 1.6};
constexpr Plausible shackle_span{0.02, 0.3}, half_spring{0.15, 1.2};
constexpr double farthest = 5.0;       // of a point from the origin, along each axis
constexpr double radius_slack = 0.08;  // between the wheel centre's height and the loaded radius
constexpr double wheelbase_slack = 0.15;

bool written(const PointValue& p) { return p.place.line > 0; }
Number length_number(double si) { return {Kind::length, si, {}}; }

// The table at a path of the tree; the nearest one above it where it is not there.
const Node& table_at(const Node& root, std::initializer_list<std::string_view> path) {
  const Node* at = &root;
  for (const std::string_view key : path) {
    const Node* next = at->find(key);
    if (!next) break;
    at = next;
  }
  return *at;
}

class AxleCheck {
 public:
  AxleCheck(const Node& root, std::string name, const Axle& axle, ReadContext& context)
      : table_(table_at(root, {name})), name_(std::move(name)), axle_(axle), context_(context) {}

  void run() {
    for (const char* layout : {"double wishbone", "strut", "swing axle", "trailing arm"})
      if (axle_.layout.value == layout) independent();
    if (axle_.layout.value == "live axle") live_axle();
    if (axle_.layout.value == "solid beam") rigid_axle();
  }

 private:
  void needs(bool has, const Node& table, std::string_view where, std::string_view key) {
    // A misspelt key is told as one.
    const auto misspelt = [&](const Member& m) { return !known(m.key) && !nearest(m.key, std::span(&key, 1)).empty(); };
    if (has || std::any_of(table.members.begin(), table.members.end(), misspelt)) return;
    context_.report.at(table, "layout-needs",
                       {{"layout", axle_.layout.value}, {"key", std::string(key)}, {"table", std::string(where)}});
  }
  static bool known(std::string_view key) {
    static const auto axle_keys = key_names<Axle>(), corner_keys = key_names<Corner>();
    const auto among = [&](const auto& keys) { return std::find(keys.begin(), keys.end(), key) != keys.end(); };
    return among(axle_keys) || among(corner_keys);
  }
  void foreign(std::string_view key) {
    if (const Member* member = table_.member(key))
      context_.report.at(*member, "key-of-another-layout", {{"key", member->key}, {"layout", axle_.layout.value}});
  }

  void independent() {
    for (const auto* key : {"link", "located_by", "axle_centre", "drag_link"}) foreign(key);
    needs(axle_.loaded_radius.has_value(), table_, name_, "loaded_radius");
    needs(axle_.left.has_value(), table_, name_, "left");
    if (axle_.left) corner(*axle_.left, "left");
    if (axle_.right) corner(*axle_.right, "right");
  }

  void corner(const Corner& corner, const char* side) {
    const Node& table = table_at(table_, {side});
    const std::string where = name_ + "." + side;
    const std::string& layout = axle_.layout.value;
    const auto leaf = [&](const char* place) {
      return corner.transverse_leaf && corner.transverse_leaf->in_place_of.value == place;
    };
    if (layout == "double wishbone" || layout == "strut") {
      needs(corner.lower_arm || leaf("lower arm"), table, where, "lower_arm");
      if (layout == "strut")
        needs(corner.strut.has_value(), table, where, "strut");
      else
        needs(corner.upper_arm || leaf("upper arm"), table, where, "upper_arm");
      needs(corner.tie_rod.has_value(), table, where, "tie_rod");
    } else {
      needs(corner.arm.has_value(), table, where, "arm");
      if (corner.kingpin) needs(corner.tie_rod.has_value(), table, where, "tie_rod");
      if (corner.tie_rod) needs(corner.kingpin.has_value(), table, where, "kingpin");
    }
    needs(corner.hub.has_value(), table, where, "hub");
    if (!corner.hub || !axle_.loaded_radius || !written(corner.hub->centre)) return;
    const double height = corner.hub->centre.value.z.si(), radius = axle_.loaded_radius->value.si();
    const bool doubted = radius < sizes::radius.low || radius > sizes::radius.high || height > farthest;
    if (!doubted && std::abs(height - radius) > radius_slack)
      context_.report.add("radius-does-not-fit", {{"height", length_number(height)}, {"radius", length_number(radius)}},
                          corner.hub->centre.place, 1);
  }

  // What any axle with a wheel at each end needs, whatever holds it.
  void rigid_axle() {
    needs(axle_.axle_centre.has_value(), table_, name_, "axle_centre");
    needs(axle_.half_track.has_value(), table_, name_, "half_track");
  }

  void live_axle() {
    needs(axle_.located_by.has_value(), table_, name_, "located_by");
    rigid_axle();
    if (axle_.located_by && axle_.located_by->value == "leaf springs") return;
    needs(!axle_.link.empty(), table_, name_, "link");
    if (!axle_.link.empty() && axle_.located_by) links();
  }

  void links() {
    int bars = 0, others = 0;
    for (const Link& link : axle_.link) ++(link.name.value == track_bar ? bars : others);
    const std::string& by = axle_.located_by->value;
    const int wanted = by.starts_with("two") ? 2 : by.starts_with("three") ? 3 : by.starts_with("four") ? 4 : 0;
    const int length = characters(by) + 2;
    if (wanted == 0) return;
    if (bars == 0) context_.report.add("no-track-bar", {{"located_by", by}}, axle_.located_by->place, length);
    if (others != wanted)
      context_.report.add("links-miscounted",
                          {{"located_by", by}, {"wanted", std::to_string(wanted)}, {"found", std::to_string(others)}},
                          axle_.located_by->place, length);
  }

  const Node& table_;
  std::string name_;
  const Axle& axle_;
  ReadContext& context_;
};

// Walks every point of a cart, knowing the side it belongs to.
class PointCheck {
 public:
  PointCheck(ReadContext& context, std::string only_file = {}) : context_(context), only_file_(std::move(only_file)) {}

  template <class M>
  void field(const Key& key, const M& member) {
    if constexpr (is_optional<M>) {
      if (member) field(key, *member);
    } else if constexpr (is_list<M>) {
      for (const auto& item : member) field(key, item);
    } else if constexpr (std::is_same_v<M, PointValue>) {
      point(key.name, member);
    } else if constexpr (is_table<M>) {
      if constexpr (std::is_same_v<M, Corner>) side_ = key.name;
      parts(member);
      walk_fields(*this, member);
      if constexpr (std::is_same_v<M, Corner>) side_ = {};
    }
  }

 private:
  bool mine(const PointValue& p) const { return written(p) && (only_file_.empty() || p.place.file == only_file_); }

  void point(std::string_view key, const PointValue& p) {
    if (!mine(p)) return;
    const auto& v = p.value;
    const double far = std::max({std::abs(v.x.si()), std::abs(v.y.si()), std::abs(v.z.si())});
    if (far > farthest) {
      auto& fault = add("point-far", {{"key", std::string(key)}, {"distance", length_number(far)}}, p);
      if (far / 25.4 < 3.0) fault.hint = Message{"slip-mm-as-inch", {}};
      return;
    }
    const double y = v.y.si();
    if ((side_ == "left" && y < 0) || (side_ == "right" && y > 0))
      add("point-on-other-side", {{"key", std::string(key)}, {"side", std::string(side_)}}, p);
  }

  template <class M>
  void parts(const M& member) {
    if constexpr (std::is_same_v<M, Arm>) {
      apart("front_bush", member.front_bush, "ball_joint", member.ball_joint, arm_length);
      apart("rear_bush", member.rear_bush, "ball_joint", member.ball_joint, arm_length);
      const bool both = written(member.front_bush) && mine(member.rear_bush);
      if (both && member.front_bush.value.x <= member.rear_bush.value.x) add("bushes-exchanged", {}, member.rear_bush);
    } else if constexpr (std::is_same_v<M, TieRod>) {
      apart("rack_end", member.rack_end, "knuckle_end", member.knuckle_end, arm_length);
    } else if constexpr (std::is_same_v<M, Link>) {
      apart("chassis", member.chassis, "axle", member.axle, link_length);
    } else if constexpr (std::is_same_v<M, CrossRod>) {
      apart("left_end", member.left_end, "right_end", member.right_end, cross_rod_length);
    } else if constexpr (std::is_same_v<M, DragLink>) {
      apart("chassis_end", member.chassis_end, "axle_end", member.axle_end, link_length);
    } else if constexpr (std::is_same_v<M, Adjuster>) {
      adjuster(member);
    } else if constexpr (std::is_same_v<M, LeafSpring>) {
      leaf(member);
    } else if constexpr (std::is_same_v<M, Spring>) {
      if (member.lower_arm) apart("chassis", member.chassis, "lower_arm", *member.lower_arm, spring_length);
      if (member.upper_arm) apart("chassis", member.chassis, "upper_arm", *member.upper_arm, spring_length);
      if (member.knuckle) apart("chassis", member.chassis, "knuckle", *member.knuckle, spring_length);
      if (member.axle) apart("chassis", member.chassis, "axle", *member.axle, spring_length);
    }
  }

  // What each kind of adjuster cannot be reckoned without.
  void adjuster(const Adjuster& a) {
    const Place& at = a.kind.place;
    if (at.line == 0 || !(only_file_.empty() || at.file == only_file_)) return;
    const std::string& kind = a.kind.value;
    const auto needs = [&](bool has, const char* key) {
      if (!has)
        context_.report.add("adjuster-needs", {{"kind", kind}, {"key", key}}, at,
                            static_cast<int>(characters(kind)) + 2);
    };
    const bool threaded = kind == "both-hand sleeve" || kind == "sleeve and rod end" || kind == "rod end";
    if (threaded) needs(a.thread.has_value(), "thread");
    if (threaded && kind != "rod end") needs(a.flats.has_value(), "flats");
    if (kind == "eccentric bolt") needs(a.throw_.has_value(), "throw");
    if (kind == "shims" || kind == "holes") needs(a.step.has_value(), "step");
  }

  void leaf(const LeafSpring& l) {
    // Both eyes written the wrong way round: the shackle's pivot is then at the fixed one.
    const bool all = mine(l.fixed_eye) && mine(l.shackled_eye) && mine(l.shackle_pivot);
    if (all && !spans(l.shackled_eye, l.shackle_pivot, shackle_span) &&
        spans(l.fixed_eye, l.shackle_pivot, shackle_span)) {
      add("eyes-exchanged", {}, l.fixed_eye);
      return;
    }
    apart("shackle_pivot", l.shackle_pivot, "shackled_eye", l.shackled_eye, shackle_span);
    apart("fixed_eye", l.fixed_eye, "seat", l.seat, half_spring);
    apart("shackled_eye", l.shackled_eye, "seat", l.seat, half_spring);
  }
  static bool spans(const PointValue& a, const PointValue& b, const Plausible& bounds) {
    const Vector3<Length> between = a.value - b.value;
    const double distance = std::hypot(between.x.si(), between.y.si(), between.z.si());
    return distance >= bounds.low && distance <= bounds.high;
  }

  void apart(const char* a_name, const PointValue& a, const char* b_name, const PointValue& b,
             const Plausible& bounds) {
    if (!written(a) || !written(b) || !(mine(a) || mine(b))) return;
    const Vector3<Length> between = a.value - b.value;
    const double distance = std::hypot(between.x.si(), between.y.si(), between.z.si());
    if (distance >= bounds.low && distance <= bounds.high) return;
    auto& fault = add("points-apart",
                      {{"key", a_name},
                       {"other", b_name},
                       {"distance", length_number(distance)},
                       {"low", length_number(bounds.low)},
                       {"high", length_number(bounds.high)}},
                      a);
    const auto fits = [&](double d) { return d >= bounds.low && d <= bounds.high; };
    if (distance < bounds.low && fits(distance * 25.4)) fault.hint = Message{"slip-inch-as-mm", {}};
    if (distance > bounds.high && fits(distance / 25.4)) fault.hint = Message{"slip-mm-as-inch", {}};
  }

  Diagnostic& add(const char* code, Arguments arguments, const PointValue& at) {
    const std::string_view rest = context_.report.line(at.place);
    const std::size_t close = rest.find('"', std::min(rest.size(), static_cast<std::size_t>(at.place.column)));
    const int length = close == rest.npos ? 1 : static_cast<int>(close) - at.place.column + 2;
    return context_.report.add(code, std::move(arguments), at.place, length);
  }

  ReadContext& context_;
  std::string only_file_;
  std::string_view side_;
};

// A table that a change has made, with required keys that nobody gave.
class GapCheck {
 public:
  GapCheck(const Change& change, ReadContext& context) : change_(change), context_(context) {}
  template <class M>
  void field(const Key& key, const M& member) {
    if constexpr (is_optional<M>) {
      if (member) field(key, *member);
    } else if constexpr (is_list<M>) {
      for (const auto& item : member) field(key, item);
    } else if constexpr (is_table<M>) {
      const std::size_t size = path_.size();
      path_ += (path_.empty() ? "" : ".") + std::string(key.name);
      walk_fields(*this, member);
      path_.resize(size);
    } else if (key.need == Need::required && member.place.line == 0 && !path_.empty()) {
      context_.report.add("change-incomplete", {{"table", path_}, {"key", std::string(key.name)}}, change_.place);
    }
  }

 private:
  const Change& change_;
  ReadContext& context_;
  std::string path_;
};

// What a part or a curve of the body must have to be a solid or a line.
void check_body(const Cart& cart, ReadContext& context) {
  for (const BodyPart& p : cart.body_part) {
    const bool round = p.from && p.to && p.diameter, box = p.corner && p.opposite;
    const bool mixed = (p.from || p.to || p.diameter) && (p.corner || p.opposite);
    if ((!round && !box) || mixed)
      context.report.add("part-shape", {{"name", p.name.value}}, p.name.place, characters(p.name.value) + 2);
  }
  for (const BodyCurve& c : cart.body_curve) {
    const bool arc = c.form && c.form->value == "arc";
    if (arc ? c.points.size() != 3 : c.points.size() < 2)
      context.report.add("curve-points", {{"name", c.name.value}, {"found", std::to_string(c.points.size())}},
                         c.name.place, characters(c.name.value) + 2);
  }
}

}  // namespace

void check_format(const Node& root, std::string_view wanted, ReadContext& context) {
  const Node* format = root.find("format");
  if (!format || format->kind != Node::Kind::text || format->text == wanted) return;
  context.report.at(*format, "wrong-format", {{"wanted", std::string(wanted)}, {"found", format->text}});
}

void check_cart(const Node& root, const Cart& cart, ReadContext& context) {
  if (!cart.front && !cart.rear) context.report.at(root, "no-axle", {});
  if (cart.front) AxleCheck(root, "front", *cart.front, context).run();
  if (cart.rear) AxleCheck(root, "rear", *cart.rear, context).run();
  check_body(cart, context);
  PointCheck points(context);
  walk_fields(points, cart);
  const double wheelbase = cart.wheelbase.value.si();
  const bool both = cart.rear && cart.rear->axle_centre && written(*cart.rear->axle_centre) &&
                    wheelbase >= sizes::wheelbase.low && wheelbase <= sizes::wheelbase.high;
  if (both && std::abs(cart.rear->axle_centre->value.x.si() + wheelbase) > wheelbase_slack)
    context.report.add(
        "axle-off-wheelbase",
        {{"x", length_number(cart.rear->axle_centre->value.x.si())}, {"wheelbase", length_number(wheelbase)}},
        cart.rear->axle_centre->place);
}

void check_changed_cart(const Cart& cart, const Change& last, ReadContext& context) {
  PointCheck points(context, last.place.file);
  walk_fields(points, cart);
  GapCheck gaps(last, context);
  walk_fields(gaps, cart);
}

}  // namespace trammel
