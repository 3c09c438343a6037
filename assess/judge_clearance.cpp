#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "assess/clearance_model.h"
#include "assess/context.h"
#include "suspension/clearance/gap_spread.h"
#include "suspension/tyre/size.h"

namespace trammel {
namespace {

using suspension::Side;

const Length assumed_gap = 15.0 * units::mm;
const Length spread_within = 30.0 * units::mm;   // of the wanted gap, where the linkage's own uncertainty is counted
const Length keep_out_depth = 80.0 * units::mm;  // behind a panel, within which a part is marked on its template
constexpr int map_size = 25, rolling_map_size = 13;  // rises and steers; of an axle that also rolls

const char* gap_source =
    "least gap to a tyre with rounded shoulders, growth and tolerance skin; wanted gap: common practice, no source";

const char* word(Side side) { return side == Side::left ? "left" : "right"; }
const char* lock_word(double steer) {
  if (std::abs(steer) < 0.05) return "straight";
  const bool full = std::abs(steer) > 0.98;
  return steer > 0 ? (full ? "left-lock" : "to-the-left") : (full ? "right-lock" : "to-the-right");
}
Vector3<Length> lengths(const Vector3<double>& p) {
  return {Length::from_si(p.x), Length::from_si(p.y), Length::from_si(p.z)};
}

// All that is known of one axle of one cart: nothing where it is not known how it moves.
struct OneSide {
  std::vector<std::size_t> index;  // of the features
  std::vector<suspension::BodyFeature> shapes;
};
struct AxleCase {
  std::array<suspension::Stations, 2> stations;  // left and right, once for all that is asked of them
  std::vector<ClearanceFeature> features;
  std::optional<ClearanceTyre> tyre;
  std::optional<ClearanceAxle> axle;
  std::shared_ptr<const suspension::AxleMechanism> mechanism;
  // How far a gap in a pose is uncertain by the linkage's points.
  Length by_linkage(Side side, const suspension::WheelStation& at, const suspension::BodyFeature& feature) const {
    return suspension::gap_spread(
        *mechanism, side, [&](auto moved) { return axle->by(std::move(moved), side); }, at, tyre->shape, feature,
        axle->point_u);
  }
  bool usable() const { return tyre && axle; }
  OneSide of(Side side, bool with_trimmable = true) const {
    OneSide s;
    for (std::size_t i = 0; i < features.size(); ++i)
      if (features[i].side == side && (with_trimmable || !features[i].lip)) {
        s.index.push_back(i);
        s.shapes.push_back(features[i].shape);
      }
    return s;
  }
  const suspension::Stations& stations_of(Side side) const { return stations[side == Side::left ? 0 : 1]; }
  // The least gap to each feature. What is the mirror image of another, on an axle that is one too, has its answer.
  std::vector<suspension::LeastGap> gaps() const {
    std::vector<suspension::LeastGap> all(features.size());
    if (!usable()) return all;
    const auto answered = [&](std::size_t i) { return axle->symmetric && features[i].mirror_of >= 0; };
    for (const Side side : {Side::left, Side::right}) {
      std::vector<std::size_t> index;
      std::vector<suspension::BodyFeature> shapes;
      for (std::size_t i = 0; i < features.size(); ++i)
        if (features[i].side == side && !answered(i)) index.push_back(i), shapes.push_back(features[i].shape);
      if (shapes.empty()) continue;
      const auto least = suspension::least_gaps(axle->of(side), stations_of(side), tyre->shape, tyre->radius_u, shapes);
      for (std::size_t k = 0; k < least.size(); ++k) all[index[k]] = least[k];
    }
    for (std::size_t i = 0; i < features.size(); ++i)
      if (answered(i)) all[i] = mirrored(all[static_cast<std::size_t>(features[i].mirror_of)]);
    return all;
  }
};
AxleCase case_of(const Cart& cart, const std::optional<Axle>& axle, const std::optional<AxleModel>& model,
                 const std::string& name, double other_x) {
  AxleCase s;
  if (!axle || !model) return s;
  s.features = clearance_features(cart, name, *model, other_x);
  s.tyre = clearance_tyre(axle, *model, name);
  s.axle = clearance_axle(*axle, *model);
  s.mechanism = model->mechanism;
  if (!s.usable() || s.features.empty()) return s;
  const int size = s.axle->grid.rolls > 1 ? rolling_map_size : map_size;
  s.axle->grid.rises = size;
  if (s.axle->steers) s.axle->grid.steers = size;
  for (const Side side : {Side::left, Side::right})
    if (!s.of(side).shapes.empty())
      s.stations[side == Side::left ? 0 : 1] = suspension::stations(s.axle->of(side), s.axle->grid);
  return s;
}

std::vector<GapMap> maps(const AxleCase& now) {
  std::vector<GapMap> all;
  for (const Side side : {Side::left, Side::right}) {
    const OneSide s = now.of(side);
    if (s.shapes.empty()) continue;
    const suspension::PoseGrid& grid = now.axle->grid;
    const auto& places = now.axle->of(side);
    const auto map = suspension::clearance_map(now.stations_of(side), now.tyre->shape, s.shapes);
    GapMap m{word(side), {}, {}, {}, {}};
    for (int i = 0; i < grid.rises; ++i) m.rises.push_back(grid.rise(i));
    const Length level = std::clamp(Length{}, grid.lowest, grid.highest);
    for (int j = 0; j < grid.steers; ++j) {
      const auto at = places(level, grid.steer(j), {});
      m.steers.push_back(at ? suspension::steer_angle(at->tyre, side) : Angle{});
    }
    for (const auto& c : map.cells) m.cells.push_back({c.feature < 0 ? std::nullopt : std::optional(c.gap), c.feature});
    for (const std::size_t i : s.index) m.features.push_back(now.features[i].name);
    all.push_back(std::move(m));
  }
  return all;
}

suspension::PoseGrid stop_grid(const AxleCase& now) {
  suspension::PoseGrid grid = now.axle->grid;
  if (grid.rolls == 1) grid.rises = 13;
  return grid;
}

// One stop serves both wheels: the one that comes too near first sets it.
SteerStopResult stop_towards(const AxleCase& now, bool left, Length wanted) {
  SteerStopResult r;
  r.direction = left ? "left" : "right";
  Length u{};
  for (const Side side : {Side::left, Side::right}) {
    const OneSide s = now.of(side, false);
    if (s.shapes.empty()) continue;
    const auto stop =
        suspension::steer_stop(now.axle->of(side), stop_grid(now), now.tyre->shape, s.shapes, wanted, side, left);
    if (stop.whole || (r.kind == SteerStopResult::Kind::no_help)) continue;
    if (!stop.no_help && stop.share >= r.share) continue;
    r.kind = stop.no_help ? SteerStopResult::Kind::no_help : SteerStopResult::Kind::at_an_angle;
    r.share = stop.share;
    const ClearanceFeature& f = now.features[s.index[static_cast<std::size_t>(stop.feature)]];
    r.feature = f.name;
    u = hypot(hypot(f.shape.u, now.tyre->radius_u), now.by_linkage(side, stop.at, f.shape));
    // What a gap wider and one narrower by its uncertainty would ask for.
    const auto share_for = [&](Length gap) {
      const auto other =
          suspension::steer_stop(now.axle->of(side), stop_grid(now), now.tyre->shape, s.shapes, gap, side, left);
      return other.no_help ? 0.0 : other.share;
    };
    const Side inner = left ? Side::left : Side::right;
    const double lock = left ? 1 : -1;
    const auto angle = [&](double share) {
      const auto at = now.axle->of(inner)(Length{}, lock * share, {});
      return at ? abs(suspension::steer_angle(at->tyre, inner)) : Angle{};
    };
    r.inner = angle(stop.share);
    r.u = 0.5 * (angle(share_for(wanted - u)) - angle(share_for(wanted + u)));
  }
  return r;
}

// The convex outline of some places.
std::vector<PanelPoint> outline_of(std::vector<PanelPoint> points) {
  std::sort(points.begin(), points.end(), [](auto a, auto b) { return std::pair(a.x, a.y) < std::pair(b.x, b.y); });
  std::vector<PanelPoint> hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const PanelPoint& p : points) {
      const auto turns_right = [&](const PanelPoint& a, const PanelPoint& b) {
        return (b.x - a.x).si() * (p.y - a.y).si() - (b.y - a.y).si() * (p.x - a.x).si() <= 0;
      };
      while (hull.size() >= start + 2 && turns_right(hull[hull.size() - 2], hull.back())) hull.pop_back();
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}
bool inside(const std::vector<PanelPoint>& outline, PanelPoint p) {
  bool in = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const PanelPoint &a = outline[i], &b = outline[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x.si() < a.x.si() + (b.x - a.x).si() * (p.y - a.y).si() / (b.y - a.y).si())
      in = !in;
  }
  return in;
}

// What stands close behind the panel, as its shadow on it. Round parts are drawn as boxes about their length.
std::vector<BehindPanel> keep_outs(const AxleCase& now, Side side, const suspension::PanelFrame& panel, double flip,
                                   const TrimResult& trim) {
  std::vector<BehindPanel> all;
  for (const ClearanceFeature& f : now.features) {
    if (f.side != side) continue;
    const suspension::Solid& s = f.shape.pieces.front();
    if (s.kind != suspension::Solid::Kind::box && s.kind != suspension::Solid::Kind::round) continue;
    std::vector<PanelPoint> shadow;
    double nearest = 1e9;
    constexpr int around = 16;
    for (int i = 0; i < around; ++i) {
      const double a = 2 * M_PI * i / around;
      const Vector3<double> in_plane = std::cos(a) * panel.x + std::sin(a) * panel.y;
      for (const double tilt : {-0.3, 0.0, 0.3}) {
        const Vector3<double> p = s.furthest(in_plane + tilt * panel.z) - panel.origin;
        shadow.push_back({Length::from_si(flip * dot(p, panel.x)), Length::from_si(dot(p, panel.y))});
      }
    }
    nearest = -dot(s.furthest(panel.z) - panel.origin, panel.z);
    if (nearest > keep_out_depth.si() || nearest < -keep_out_depth.si()) continue;
    BehindPanel k{f.name, outline_of(std::move(shadow)), Length::from_si(std::max(0.0, nearest)), false};
    if (k.outline.size() < 3) continue;
    for (std::size_t i = 0; i < trim.lip.size() && !k.crossed; ++i) {
      const PanelPoint &a = trim.lip[i], &b = trim.cut[i];
      if (a.x == b.x && a.y == b.y) continue;
      for (int part = 0; part <= 8 && !k.crossed; ++part)
        k.crossed = inside(k.outline, {a.x + (part / 8.0) * (b.x - a.x), a.y + (part / 8.0) * (b.y - a.y)});
    }
    all.push_back(std::move(k));
  }
  return all;
}

TrimResult trim_of(const AxleCase& now, const ClearanceFeature& f, const std::string& axle, Length wanted) {
  TrimResult r;
  r.curve = f.name;
  r.side = word(f.side);
  r.axle = axle;
  r.u = hypot(f.shape.u, now.tyre->radius_u);
  const auto trim =
      suspension::trim_line(now.axle->of(f.side), now.stations_of(f.side), now.tyre->shape, *f.lip, {wanted});
  if (trim.status != suspension::TrimStatus::ok) {
    r.kind = TrimResult::Kind::no_plane;
    return r;
  }
  // Seen from outside, the front of the cart is to the left of a left panel.
  const double flip = dot(cross(trim.panel.x, trim.panel.y), trim.panel.z) < 0 ? -1 : 1;
  bool beyond = false;
  const suspension::TrimRay* deepest = nullptr;
  for (const suspension::TrimRay& ray : trim.rays) {
    if (ray.cut.si() > 0 && (!deepest || ray.cut > deepest->cut)) deepest = &ray;
    r.lip.push_back({Length::from_si(flip * ray.x), Length::from_si(ray.y)});
    r.cut.push_back({Length::from_si(flip * ray.cut_x()), Length::from_si(ray.cut_y())});
    beyond |= ray.beyond;
    if (r.lip.size() > 1 && ray.cut.si() > 0) {
      const PanelPoint &a = r.lip[r.lip.size() - 2], &b = r.lip.back();
      r.length += hypot(b.x - a.x, b.y - a.y);
    }
  }
  // Along the cut, where it is deepest: what the gap is uncertain by, over how fast it grows there.
  if (deepest) {
    const Vector3<double> inward = deepest->inward_x * trim.panel.x + deepest->inward_y * trim.panel.y;
    const Vector3<double> at = trim.panel.place(deepest->cut_x(), deepest->cut_y());
    Vector3<double> slope;
    static_cast<void>(suspension::PlacedTyre(now.tyre->shape, deepest->worst.tyre).gap_m(at, slope));
    const double grows = std::max(0.2, std::abs(dot(slope, inward)));
    r.u = hypot(r.u, now.by_linkage(f.side, deepest->worst, {{suspension::Solid::point(at)}, {}, {}})) / grows;
  }
  r.deepest = trim.deepest;
  r.out_of_plane = trim.out_of_plane;
  r.kind = beyond ? TrimResult::Kind::beyond : trim.needed() ? TrimResult::Kind::cut : TrimResult::Kind::nothing;
  r.keep_outs = keep_outs(now, f.side, trim.panel, flip, r);
  return r;
}

// The largest tyre and the sizes on offer, by the worse side.
void try_sizes(const AxleCase& now, const Job& job, AxleClearance& out) {
  struct SideGrid {
    const suspension::Stations& stations;
    std::vector<suspension::BodyFeature> shapes;
  };
  std::vector<SideGrid> sides;
  for (const Side side : {Side::left, Side::right})
    if (OneSide s = now.of(side); !s.shapes.empty()) sides.push_back({now.stations_of(side), std::move(s.shapes)});
  if (sides.empty()) return;
  const auto& shape = now.tyre->shape;
  std::optional<Length> radius, width;
  bool radius_none = false, width_none = false;
  for (const SideGrid& s : sides) {
    const auto r = suspension::largest_radius(s.stations, now.tyre->of_size, shape.width,
                                              {0.5 * shape.radius, 1.25 * shape.radius}, s.shapes, out.wanted);
    const auto w = suspension::widest(s.stations, now.tyre->of_size, shape.radius,
                                      {0.4 * shape.width, 1.5 * shape.width}, s.shapes, out.wanted);
    radius_none |= !r;
    width_none |= !w;
    if (r) radius = radius ? std::min(*radius, *r) : *r;
    if (w) width = width ? std::min(*width, *w) : *w;
  }
  if (radius && !radius_none && *radius < 1.249 * shape.radius) out.largest_diameter = 2.0 * *radius;
  if (width && !width_none && *width < 1.499 * shape.width) out.widest = *width;
  for (const Text& text : job.tyre_choice) {
    TyreChoiceResult c{text.value, false, {}, {}, {}};
    const auto read = suspension::read_tyre(text.value);
    if (const auto* size = std::get_if<suspension::TyreSize>(&read)) {
      c.understood = true;
      c.diameter = size->overall_diameter;
      c.width = size->section_width;
      const auto other = now.tyre->of_size(0.5 * c.diameter, c.width);
      for (const SideGrid& s : sides)
        if (const auto gap = suspension::least_gap(s.stations, other, s.shapes); gap && (!c.gap || *gap < *c.gap))
          c.gap = gap;
    }
    out.choices.push_back(std::move(c));
  }
}

// What turns a gap that is short: cutting where that is allowed, else a stop where turning is what does it.
std::optional<Message> cure(const AxleClearance& all, const ClearanceFeature& f, bool touches_turned) {
  for (const TrimResult& t : all.trims)
    if (f.lip && t.curve == f.name && t.side == word(f.side)) {
      if (t.kind == TrimResult::Kind::cut) return Message{"cure-trim-template", {{"cut", number(t.deepest)}}};
      return Message{"cure-trim", {}};
    }
  if (touches_turned) {
    const SteerStopResult* least = nullptr;
    for (const SteerStopResult& s : all.stops)
      if (s.kind == SteerStopResult::Kind::at_an_angle && (!least || s.inner < least->inner)) least = &s;
    if (least) return Message{"cure-steer-stop-at", {{"angle", number(least->inner, least->u)}}};
    return Message{"cure-steer-stop", {}};
  }
  return Message{"cure-trim", {}};
}

void judge_axle(Context& c, const std::string& name, std::optional<Axle> Cart::*axle,
                std::optional<AxleModel> CartModel::*model, std::optional<AxleModel> CartModel::*other) {
  const auto& model_now = c.model_after.*model;
  if (!model_now) return;
  const double other_x = c.model_after.*other ? (c.model_after.*other)->left_hub.x : model_now->left_hub.x - 10.0;
  const AxleCase now = case_of(c.after, c.after.*axle, model_now, name, other_x);
  if (now.features.empty()) return;
  if (!now.tyre) return c.add(not_computed("tyre clearance, " + name, {name + ".tyre.size"}));
  if (!now.axle) return c.add(not_computed("tyre clearance, " + name, {name + " linkage"}));
  const AxleCase was = case_of(c.before, c.before.*axle, c.model_before.*model, name, other_x);

  AxleClearance all;
  all.axle = name;
  all.wanted = c.after.wanted_gap ? c.after.wanted_gap->value : assumed_gap;
  all.lowest = now.axle->grid.lowest;
  all.highest = now.axle->grid.highest;
  all.steers = now.axle->steers;
  const auto& shape = now.tyre->shape;
  all.tyre_radius = shape.radius, all.tyre_width = shape.width, all.shoulder = shape.shoulder_radius;
  all.growth = shape.growth, all.skin = shape.skin;
  all.maps = maps(now);
  if (all.steers) all.stops = {stop_towards(now, true, all.wanted), stop_towards(now, false, all.wanted)};
  for (const ClearanceFeature& f : now.features)
    if (f.lip) all.trims.push_back(trim_of(now, f, name, all.wanted));
  try_sizes(now, c.job, all);

  // One finding a feature; before the kits by the same name on the same side.
  const auto after = now.gaps(), before = was.gaps();
  std::vector<Length> by_linkage(now.features.size());
  for (std::size_t i = 0; i < now.features.size(); ++i) {
    const ClearanceFeature& f = now.features[i];
    if (!after[i].found) {
      c.add(not_computed("tyre clearance at " + f.name, {name + " linkage"}));
      continue;
    }
    suspension::LeastGap least = after[i];
    // The linkage's own part, where the gap is near enough for it to matter; a mirror image's is its original's.
    if (least.gap() < all.wanted + spread_within) {
      by_linkage[i] = now.axle->symmetric && f.mirror_of >= 0 ? by_linkage[static_cast<std::size_t>(f.mirror_of)]
                                                              : now.by_linkage(f.side, least.at, f.shape);
      least.u = hypot(least.u, by_linkage[i]);
    }
    GapResult row;
    row.point = f.name;
    row.side = word(f.side);
    row.axle = name;
    row.pose = lock_word(least.at.steer);
    row.after = least.gap();
    row.u = least.u;
    row.rise = least.at.rise;
    row.roll = least.at.roll;
    row.steer = suspension::steer_angle(least.at.tyre, f.side);
    row.at = lengths(least.place.on_body);
    for (std::size_t k = 0; k < was.features.size(); ++k)
      if (before[k].found && was.features[k].name == f.name && was.features[k].side == f.side)
        row.before = before[k].gap();
    c.out.gaps.push_back(row);

    // Touching stops the job unless the lip there may be cut back; closer than wanted is a condition.
    LimitCheck check{"tyre-gap", f.name + ", " + row.side};
    check.sense = Finding::Sense::at_least;
    check.value = number(least.gap(), least.u);
    check.limit = number(all.wanted);
    if (row.before) check.before = number(*row.before);
    const bool cut_cures = std::any_of(all.trims.begin(), all.trims.end(), [&](const TrimResult& t) {
      return f.lip && t.curve == f.name && t.side == row.side && t.kind == TrimResult::Kind::cut;
    });
    check.when_broken = least.gap().si() < 0.0 && !cut_cures ? Outcome::stop : Outcome::condition;
    check.source = gap_source;
    check.inputs = now.tyre->inputs;
    check.inputs.insert(check.inputs.end(), f.inputs.begin(), f.inputs.end());
    check.inputs.push_back(c.after.wanted_gap ? input("wanted_gap", *c.after.wanted_gap)
                                              : assumed("wanted_gap", number(all.wanted)));
    Finding finding = held_against(std::move(check));
    finding.message.arguments.emplace_back("lock", std::string(row.pose));
    finding.message.arguments.emplace_back("rise", number(least.at.rise));
    if (finding.outcome != Outcome::met) finding.cure = cure(all, f, std::abs(least.at.steer) > 0.05);
    c.add(std::move(finding));
  }

  // A saw that would run before something that must not be cut.
  for (const TrimResult& t : all.trims)
    for (const BehindPanel& k : t.keep_outs)
      if (k.crossed && t.kind != TrimResult::Kind::nothing) {
        Finding f;
        f.outcome = Outcome::condition;
        f.subject = t.curve + ", " + t.side;
        f.message = {"trim-keep-out", {{"subject", f.subject}, {"what", k.name}, {"behind", number(k.behind)}}};
        f.source = "geometry; marked within 80 mm behind a panel: common practice, no source";
        c.add(std::move(f));
      }
  if (all.largest_diameter) {
    Finding f = noted("largest-tyre", name + " tyres", {}, number(*all.largest_diameter), now.tyre->inputs, gap_source);
    f.message.arguments.emplace_back("fitted", number(2.0 * shape.radius));
    c.add(std::move(f));
  }
  c.out.clearance.push_back(std::move(all));
}

// Each size on offer once, by the axle where it comes nearest.
void note_choices(Context& c) {
  for (std::size_t i = 0; i < c.job.tyre_choice.size(); ++i) {
    const AxleClearance* worst = nullptr;
    for (const AxleClearance& a : c.out.clearance)
      if (i < a.choices.size() && a.choices[i].gap && (!worst || *a.choices[i].gap < *worst->choices[i].gap))
        worst = &a;
    if (!worst) continue;
    Finding f =
        noted("tyre-choice", worst->choices[i].size, std::nullopt, number(*worst->choices[i].gap), {}, gap_source);
    f.message.arguments.emplace_back("wanted", number(worst->wanted));
    f.message.arguments.emplace_back("axle", worst->axle);
    c.add(std::move(f));
  }
}

}  // namespace

void judge_clearance(Context& c) {
  judge_axle(c, "front", &Cart::front, &CartModel::front, &CartModel::rear);
  judge_axle(c, "rear", &Cart::rear, &CartModel::rear, &CartModel::front);
  note_choices(c);
}

}  // namespace trammel
