#include "sheets/cart_drawing.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace trammel::sheets {
namespace {

constexpr Pen thick{1.0}, thin{0.5}, ghost{0.5, 0.45, 2.2}, centre_line{0.35, 0.45, 4.0};

std::vector<Point> box_outline(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

void draw_wheel(Canvas& canvas, Point c, double r) {
  canvas.disc(c, r, 1.0);
  canvas.circle(c, r, thick);
  canvas.circle(c, r * 0.52, thin);
  canvas.line({c.x - 1.5 * mm, c.y}, {c.x + 1.5 * mm, c.y}, {0.35});
  canvas.line({c.x, c.y - 1.5 * mm}, {c.x, c.y + 1.5 * mm}, {0.35});
}

// Pairs of hardpoints that one part joins.
void draw_links(Canvas& canvas, const AxleTravel& axle, Point origin, double scale) {
  constexpr std::array<std::array<std::string_view, 2>, 5> joins = {{{".front_bush", ".ball_joint"},
                                                                     {".rear_bush", ".ball_joint"},
                                                                     {".rack_end", ".knuckle_end"},
                                                                     {".chassis", ".axle"},
                                                                     {".chassis", ".lower_arm"}}};
  const auto at = [&](const Vector3<Length>& p) {
    return Point{origin.x - p.x.si() * scale, origin.y + p.y.si() * scale};
  };
  for (const auto& [name, point] : axle.points)
    for (const auto& [from, to] : joins) {
      if (name.size() <= from.size() || !name.ends_with(from)) continue;
      const auto other = axle.points.find(name.substr(0, name.size() - from.size()) + std::string(to));
      if (other == axle.points.end()) continue;
      canvas.line(at(point), at(other->second), {0.6});
      canvas.disc(at(point), 0.45 * mm);
      canvas.disc(at(other->second), 0.45 * mm);
    }
}

struct Sizes {
  double wheelbase, front_radius, rear_radius, front_half, rear_half;
};
Sizes sizes_of(const CartSummary& cart) {
  const double front = radius_of(cart.front_radius);
  const auto half = [](const std::optional<Length>& l) { return l ? l->si() : 0.45; };
  return {cart.wheelbase.si(), front, cart.rear_radius ? cart.rear_radius->si() : front, half(cart.front_half_track),
          half(cart.rear_half_track)};
}

}  // namespace

double radius_of(const std::optional<Length>& radius) { return radius ? radius->si() : 0.22; }

CartScale cart_scale(const Assessment& assessment, double length, double height) {
  const Sizes s = sizes_of(assessment.after);
  const double long_m = s.wheelbase + s.front_radius + s.rear_radius;
  const double high_m = assessment.after.height ? assessment.after.height->si() : 3 * s.front_radius;
  for (const int one_to : {10, 15, 20, 25, 30, 40, 50, 75}) {
    const double scale = 1000.0 * mm / one_to;
    if (long_m * scale <= length && high_m * scale <= height) return {scale, one_to};
  }
  return {1000.0 * mm / 100, 100};
}

void draw_side(Canvas& canvas, const Given& given, Point axle, const CartScale& scale, const SideView& view) {
  const CartSummary &after = given.assessment.after, &before = given.assessment.before;
  const double k = scale.points_per_metre;
  const Sizes s = sizes_of(after), was = sizes_of(before);
  const double x0 = axle.x - s.front_radius * k, x1 = axle.x + (s.wheelbase + s.rear_radius) * k;
  const auto height_of = [&](double z) { return axle.y - z * k; };

  // Floor and roof, where their heights are known; the cart before the kits as a ghost.
  const double floor_x0 = axle.x + s.front_radius * k * 1.15,
               floor_x1 = axle.x + s.wheelbase * k - s.rear_radius * k * 1.15;
  if (after.clearance) {
    const double y = height_of(after.clearance->si());
    canvas.polyline(box_outline(floor_x0, y - 0.05 * k, floor_x1, y), true, thick);
  }
  if (before.clearance && view.before_ghost)
    canvas.line({floor_x0, height_of(before.clearance->si())}, {floor_x1, height_of(before.clearance->si())}, ghost);
  if (after.height) {
    const double y = height_of(after.height->si()), r0 = floor_x0 - 0.06 * k, r1 = floor_x1 + 0.06 * k;
    canvas.polyline({{r0, y + 0.05 * k}, {r0 + 0.06 * k, y}, {r1, y}, {r1, y + 0.05 * k}}, true, thick);
    if (after.clearance)
      for (const double x : {floor_x0 + 0.03 * k, floor_x1 - 0.03 * k})
        canvas.line({x, y + 0.05 * k}, {x, height_of(after.clearance->si()) - 0.05 * k}, thin);
    if (before.height && view.before_ghost)
      canvas.line({r0, height_of(before.height->si())}, {r1, height_of(before.height->si())}, ghost);
  }
  // People where the job puts them, points of the body that a tyre might touch.
  for (const Seat& seat : given.cart_after.seat) {
    if (!view.seats) break;
    const Point p{axle.x - seat.at.value.x.si() * k, height_of(seat.at.value.z.si())};
    canvas.circle(p, 0.07 * k, {0.4, 0.4});
    canvas.line({p.x - 0.05 * k, p.y}, {p.x + 0.05 * k, p.y}, {0.3, 0.4});
    canvas.line({p.x, p.y - 0.05 * k}, {p.x, p.y + 0.05 * k}, {0.3, 0.4});
  }
  for (const BodyPoint& b : given.cart_after.body_point) {
    if (!view.seats) break;
    const Point p{axle.x - b.at.value.x.si() * k, height_of(b.at.value.z.si())};
    canvas.line({p.x - 0.9 * mm, p.y - 0.9 * mm}, {p.x + 0.9 * mm, p.y + 0.9 * mm}, thin);
    canvas.line({p.x - 0.9 * mm, p.y + 0.9 * mm}, {p.x + 0.9 * mm, p.y - 0.9 * mm}, thin);
  }

  draw_wheel(canvas, {axle.x, axle.y - s.front_radius * k}, s.front_radius * k);
  draw_wheel(canvas, {axle.x + s.wheelbase * k, axle.y - s.rear_radius * k}, s.rear_radius * k);
  if (view.before_ghost) {
    if (before.front_radius) canvas.circle({axle.x, axle.y - was.front_radius * k}, was.front_radius * k, ghost);
    if (before.rear_radius)
      canvas.circle({axle.x + s.wheelbase * k, axle.y - was.rear_radius * k}, was.rear_radius * k, ghost);
  }
  canvas.line({x0 - 4 * mm, axle.y}, {x1 + 4 * mm, axle.y}, thick);
  canvas.hatch(box_outline(x0 - 4 * mm, axle.y, x1 + 4 * mm, axle.y + 1.4 * mm), 1.6 * mm);

  if (!view.heights) return;
  const double below = axle.y + 5.5 * mm;
  for (const double x : {axle.x, axle.x + s.wheelbase * k})
    canvas.line({x, axle.y + 2 * mm}, {x, below + 1.5 * mm}, {0.3});
  draw_dimension(canvas, {axle.x, below}, {axle.x + s.wheelbase * k, below},
                 given.line("sheet-drawing-wheelbase") + " " +
                     given.marked(number(after.wheelbase), given.job.cart.wheelbase.basis));
  if (after.clearance) {
    const double y = height_of(after.clearance->si());
    const std::string text = given.computed(*after.clearance);
    // Arrow and number stand together in the middle between the wheels.
    const double wide = canvas.text_width(text, {7}), x = (floor_x0 + floor_x1 - wide - 2 * mm) / 2;
    draw_dimension(canvas, {x, axle.y}, {x, y}, "");
    canvas.label({x + 2 * mm + wide / 2, (axle.y + y) / 2}, text, {7}, true);
  }
  if (after.height) {
    const double x = x1 + 6 * mm, y = height_of(after.height->si());
    canvas.line({floor_x1 + 0.06 * k + 1 * mm, y}, {x + 1.5 * mm, y}, {0.3});
    draw_dimension(canvas, {x, axle.y}, {x, y}, "");
    canvas.text({x - 15 * mm, y - 5 * mm}, 30 * mm, given.computed(*after.height), {7, false, Align::centre});
  }
}

Point on_plan(const Assessment& assessment, Point axle, const CartScale& scale, Spot spot) {
  const Sizes s = sizes_of(assessment.after);
  const double k = scale.points_per_metre;
  const double x = spot.end > 0 ? 0 : spot.end < 0 ? s.wheelbase : s.wheelbase / 2;
  const double half = spot.end < 0 ? s.rear_half : s.front_half;
  return {axle.x + x * k, axle.y + spot.side * half * k};
}

void draw_plan(Canvas& canvas, const Given& given, Point axle, const CartScale& scale) {
  const Sizes s = sizes_of(given.assessment.after);
  const double k = scale.points_per_metre;
  canvas.line({axle.x - s.front_radius * k - 4 * mm, axle.y},
              {axle.x + (s.wheelbase + s.rear_radius) * k + 4 * mm, axle.y}, centre_line);
  for (const int end : {1, -1}) {
    const double r = end > 0 ? s.front_radius : s.rear_radius;
    canvas.line(on_plan(given.assessment, axle, scale, {end, 1}), on_plan(given.assessment, axle, scale, {end, -1}),
                centre_line);
    for (const int side : {1, -1}) {
      const Point c = on_plan(given.assessment, axle, scale, {end, side});
      const std::optional<Tyre>& tyre = end > 0 ? (given.cart_after.front ? given.cart_after.front->tyre : std::nullopt)
                                                : (given.cart_after.rear ? given.cart_after.rear->tyre : std::nullopt);
      const double half_width = (tyre && tyre->width ? tyre->width->value.si() : 0.2) / 2;
      const std::vector<Point> tread =
          box_outline(c.x - r * k, c.y - half_width * k, c.x + r * k, c.y + half_width * k);
      canvas.fill(tread, 1.0);
      canvas.polyline(tread, true, thick);
      canvas.line({c.x - r * k, c.y}, {c.x + r * k, c.y}, centre_line);
    }
  }
  draw_links(canvas, given.assessment.front_after, axle, k);
  draw_links(canvas, given.assessment.rear_after, axle, k);
}

void draw_counts(Canvas& canvas, Point at, const std::map<Spot, int>& counts) {
  const double w = 24 * mm, h = 13 * mm;
  const auto middle = [&](Spot spot) {
    return Point{at.x + w * (spot.end > 0   ? 0.16
                             : spot.end < 0 ? 0.84
                                            : 0.5),
                 at.y + h * (spot.side > 0   ? 0.82
                             : spot.side < 0 ? 0.18
                                             : 0.5)};
  };
  // A point ahead of the front axle says which way the cart looks.
  canvas.fill({{at.x - 0.5 * mm, at.y + h / 2},
               {at.x + 1.6 * mm, at.y + h / 2 - 1.1 * mm},
               {at.x + 1.6 * mm, at.y + h / 2 + 1.1 * mm}},
              0.3);
  for (const int end : {1, -1}) canvas.line(middle({end, 1}), middle({end, -1}), {0.5, 0.5});
  canvas.line(middle({1, 0}), middle({-1, 0}), {0.5, 0.5});
  for (const int end : {1, -1})
    for (const int side : {1, -1}) {
      const Point c = middle({end, side});
      canvas.fill(box_outline(c.x - 2.6 * mm, c.y - 1.1 * mm, c.x + 2.6 * mm, c.y + 1.1 * mm), 1.0);
      canvas.rect({c.x - 2.6 * mm, c.y - 1.1 * mm, 5.2 * mm, 2.2 * mm}, {0.5, 0.5});
    }
  for (const auto& [spot, count] : counts) {
    if (count == 0) continue;
    const Point c = middle(spot);
    canvas.disc(c, 2.1 * mm);
    canvas.label(c, std::to_string(count), {7, true, Align::left, 1.0});
  }
}

}  // namespace trammel::sheets
