#include "assess/clearance_model.h"

#include <cmath>

#include "assess/context.h"
#include "assess/point_uncertainty.h"
#include "suspension/clearance/axle_places.h"

namespace trammel {
namespace {

using suspension::BodyFeature;
using suspension::MovesWith;
using suspension::Side;
using suspension::Solid;
using V = Vector3<double>;

// What is assumed of a tyre where the job does not say.
constexpr double shoulder_share = 0.12;  // shoulder radius over section width
constexpr double growth_share = 0.01;    // of the radius, by speed and wear
const Length assumed_skin = 2.0 * units::mm;
const Length assumed_travel = 40.0 * units::mm;
const Angle assumed_roll = 4.0 * units::degree;
constexpr double chord_sagitta = 2e-4;  // m, between an arc and its chords

V metres(const PointValue& p) { return {p.value.x.si(), p.value.y.si(), p.value.z.si()}; }
Length u_of(const PointValue& p) { return p.u.value_or(Length{}); }

Solid mirror_of(Solid s) {
  s.from = mirrored(s.from);
  s.to = mirrored(s.to);
  for (V& h : s.half_edge) h = mirrored(h);
  return s;
}

class Gathering {
 public:
  Gathering(std::string axle, const AxleModel& model, double other_x)
      : axle_(std::move(axle)), model_(model), x_(model.left_hub.x), other_x_(other_x) {}

  void add(ClearanceFeature f, bool both) {
    V middle{};
    for (const Solid& s : f.shape.pieces) middle += s.middle();
    middle = middle / static_cast<double>(f.shape.pieces.size());
    if (std::abs(middle.x - x_) > std::abs(middle.x - other_x_)) return;
    f.side = middle.y >= 0 ? Side::left : Side::right;
    if (both) {
      ClearanceFeature g = f;
      g.side = f.side == Side::left ? Side::right : Side::left;
      for (Solid& s : g.shape.pieces) s = mirror_of(s);
      if (g.lip) {
        for (V& p : g.lip->points) p = mirrored(p);
        if (g.lip->on_panel) g.lip->on_panel = mirrored(*g.lip->on_panel);
      }
      g.mirror_of = static_cast<int>(all.size());
      all.push_back(std::move(f));
      all.push_back(std::move(g));
    } else {
      all.push_back(std::move(f));
    }
  }

  void points(const Cart& cart) {
    for (const BodyPoint& p : cart.body_point) {
      ClearanceFeature f{
          p.name.value, "body_point." + p.name.value, {}, {{Solid::point(metres(p.at))}, u_of(p.at), {}}, {}, {}};
      f.inputs.push_back(input(f.key + ".at", p.at));
      add(std::move(f), said(p.both_sides));
    }
  }
  void edges(const Cart& cart) {
    for (const BodyEdge& e : cart.body_edge) {
      ClearanceFeature f{
          e.name.value, "body_edge." + e.name.value,
          {},           {{Solid::edge(metres(e.from), metres(e.to))}, std::max(u_of(e.from), u_of(e.to)), {}},
          {},           {}};
      f.inputs.push_back(input(f.key + ".from", e.from));
      add(std::move(f), said(e.both_sides));
    }
  }
  void curves(const Cart& cart) {
    for (const BodyCurve& c : cart.body_curve) {
      if (c.points.size() < 2) continue;
      ClearanceFeature f{c.name.value, "body_curve." + c.name.value, {}, {}, {}, {}};
      std::vector<V> line;
      for (const PointValue& p : c.points) {
        line.push_back(metres(p));
        f.shape.u = std::max(f.shape.u, u_of(p));
      }
      if (c.form && c.form->value == "arc" && line.size() == 3) line = arc_through(line[0], line[1], line[2]);
      for (std::size_t i = 1; i < line.size(); ++i) f.shape.pieces.push_back(Solid::edge(line[i - 1], line[i]));
      f.inputs.push_back(input(f.key + ".points", c.points.front()));
      if (said(c.may_be_trimmed)) {
        f.lip = suspension::Lip{line, std::nullopt};
        if (c.panel) f.lip->on_panel = metres(*c.panel);
      }
      add(std::move(f), said(c.both_sides));
    }
  }
  void parts(const Cart& cart) {
    for (const BodyPart& p : cart.body_part) {
      ClearanceFeature f{p.name.value, "body_part." + p.name.value, {}, {}, {}, {}};
      if (p.from && p.to && p.diameter) {
        f.shape.pieces = {Solid::round(metres(*p.from), metres(*p.to), 0.5 * p.diameter->value)};
        f.shape.u = hypot(std::max(u_of(*p.from), u_of(*p.to)), 0.5 * p.diameter->u.value_or(Length{}));
        f.inputs.push_back(input(f.key + ".from", *p.from));
      } else if (p.corner && p.opposite) {
        f.shape.pieces = {Solid::box(metres(*p.corner), metres(*p.opposite))};
        f.shape.u = std::max(u_of(*p.corner), u_of(*p.opposite));
        f.inputs.push_back(input(f.key + ".corner", *p.corner));
      } else {
        continue;
      }
      if (p.moves_with && p.moves_with->value != "body") {
        f.shape.moves = MovesWith::carrier;
        for (Solid& piece : f.shape.pieces) piece = carried(piece);
      }
      add(std::move(f), said(p.both_sides));
    }
  }
  // A spring whose outside diameter is given: its lower end goes with arm, axle or knuckle.
  void spring(const std::optional<Corner>& corner, const char* side, bool both) {
    if (!corner || !corner->spring || !corner->spring->diameter) return;
    const Spring& s = *corner->spring;
    const auto& foot = s.lower_arm ? s.lower_arm : s.axle ? s.axle : s.knuckle;
    if (!foot) return;
    const bool by_knuckle = !s.lower_arm && !s.axle;
    ClearanceFeature f{"spring", axle_ + "." + side + ".spring", {}, {}, {}, {}};
    f.shape.pieces = {Solid::round(metres(s.chassis),
                                   by_knuckle ? with_knuckle(metres(*foot)) : model_.carried(metres(*foot)),
                                   0.5 * s.diameter->value)};
    f.shape.u = hypot(std::max(u_of(s.chassis), u_of(*foot)), 0.5 * s.diameter->u.value_or(Length{}));
    f.shape.moves = by_knuckle ? MovesWith::far_end_by_knuckle : MovesWith::far_end;
    f.inputs.push_back(input(f.key + ".chassis", s.chassis));
    f.inputs.push_back(input(f.key + ".diameter", *s.diameter));
    add(std::move(f), both);
  }

  std::vector<ClearanceFeature> all;

 private:
  static bool said(const std::optional<Flag>& flag) { return flag && flag->value; }
  // What an arm carries is told as the cart first stood; a spacer has let it down.
  Solid carried(Solid s) const {
    const auto& settled = model_.settled[s.middle().y < 0 ? 1 : 0];
    return settled ? suspension::moved(s, MovesWith::carrier, settled->lower_arm) : s;
  }

  V with_knuckle(const V& part) const {
    const auto& settled = model_.settled[part.y < 0 ? 1 : 0];
    return settled ? settled->knuckle(part) : part;
  }

  std::string axle_;
  const AxleModel& model_;
  double x_, other_x_;
};

}  // namespace

std::vector<V> arc_through(const V& a, const V& b, const V& c) {
  const V ab = b - a, ac = c - a, n = cross(ab, ac);
  const double nn = dot(n, n);
  if (!(nn > 1e-16)) return {a, b, c};
  const V centre = a + (dot(ac, ac) * cross(cross(ab, ac), ab) + dot(ab, ab) * cross(ac, cross(ab, ac))) / (2 * nn);
  const V x = unit(a - centre), z = unit(n), y = cross(z, x);
  const double radius = norm(a - centre);
  double end = std::atan2(dot(c - centre, y), dot(c - centre, x));
  if (end <= 0) end += 2 * M_PI;
  const double step = 2 * std::acos(std::max(0.0, 1 - chord_sagitta / radius));
  const int parts = std::clamp(static_cast<int>(std::ceil(end / step)), 2, 200);
  std::vector<V> line;
  for (int i = 0; i <= parts; ++i) {
    const double t = end * i / parts;
    line.push_back(centre + radius * (std::cos(t) * x + std::sin(t) * y));
  }
  line.front() = a;
  line.back() = c;
  return line;
}

std::vector<ClearanceFeature> clearance_features(const Cart& cart, const std::string& axle_name, const AxleModel& model,
                                                 double other_x) {
  Gathering g(axle_name, model, other_x);
  g.points(cart);
  g.edges(cart);
  g.curves(cart);
  g.parts(cart);
  const std::optional<Axle>& axle = axle_name == "front" ? cart.front : cart.rear;
  if (axle) {
    g.spring(axle->left, "left", !axle->right);
    g.spring(axle->right, "right", false);
  }
  return std::move(g.all);
}

std::optional<ClearanceTyre> clearance_tyre(const std::optional<Axle>& axle, const AxleModel& model,
                                            const std::string& axle_name) {
  const auto tyre = tyre_model(axle, axle_name);
  if (!tyre) return std::nullopt;
  const Tyre& given = *axle->tyre;
  // The tyre's middle stands at the half track, which need not be the hub's.
  const Length offset = model.half_track ? *model.half_track - Length::from_si(std::abs(model.left_hub.y)) : Length{};
  const auto measured = [&](const std::optional<Valued<Length>>& v) {
    return v ? std::optional(v->value) : std::nullopt;
  };
  ClearanceTyre t;
  t.of_size = [offset, shoulder = measured(given.shoulder_radius), growth = measured(given.growth),
               skin = measured(given.skin).value_or(assumed_skin)](Length radius, Length width) {
    return suspension::TyreShape{
        radius, width, shoulder.value_or(shoulder_share * width), growth.value_or(growth_share * radius), offset, skin};
  };
  t.shape = t.of_size(tyre->radius, tyre->width);
  t.radius_u = tyre->u;
  t.inputs = tyre->inputs;
  const std::string path = axle_name + ".tyre.";
  t.inputs.push_back(given.shoulder_radius ? input(path + "shoulder_radius", *given.shoulder_radius)
                                           : assumed(path + "shoulder_radius", number(t.shape.shoulder_radius)));
  t.inputs.push_back(given.growth ? input(path + "growth", *given.growth)
                                  : assumed(path + "growth", number(t.shape.growth)));
  t.inputs.push_back(given.skin ? input(path + "skin", *given.skin) : assumed(path + "skin", number(t.shape.skin)));
  return t;
}

std::optional<ClearanceAxle> clearance_axle(const Axle& axle, const AxleModel& model) {
  ClearanceAxle a;
  a.grid.lowest = -(axle.droop ? axle.droop->value : assumed_travel);
  a.grid.highest = axle.bump ? axle.bump->value : assumed_travel;
  a.grid.rises = 15;
  if (!model.mechanism || !model.mechanism->check().empty()) return std::nullopt;
  const Length lock = axle.rack_travel ? axle.rack_travel->value : Length{};
  a.steers = model.mechanism->steered() && lock.si() > 0.0;
  a.symmetric = !model.mechanism->one_body() && !axle.right && !axle.relay;
  if (model.mechanism->one_body()) {
    a.grid.roll = assumed_roll;
    a.grid.rolls = 3;
  }
  a.by = [lock = a.steers ? lock : Length{}, low = a.grid.lowest, high = a.grid.highest](auto mechanism, Side side) {
    return suspension::wheel_places(std::move(mechanism), side, lock, low, high);
  };
  a.left = a.by(model.mechanism, Side::left);
  a.right = a.by(model.mechanism, Side::right);
  a.point_u = point_uncertainties(axle, *model.mechanism);
  a.grid.steers = a.steers ? 17 : 1;
  if (!a.steers) a.grid.right_lock = a.grid.left_lock = 0;
  return a;
}

}  // namespace trammel
