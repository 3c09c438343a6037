#include "sheets/axle_strokes.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace trammel::sheets {
namespace {

enum class Form { line, tube, spring, damper, block };
struct Stroke {
  std::string_view what;
  Form form;
  Pen pen;
  bool named;
};
constexpr Pen heavy{1.7}, middle{1.2}, thin{0.8};
constexpr std::array strokes = {Stroke{"axle", Form::tube, {4.6}, true},
                                Stroke{"rack", Form::tube, {3.4}, true},
                                Stroke{"centre-link", Form::tube, {2.6}, true},
                                Stroke{"lower-arm", Form::line, heavy, true},
                                Stroke{"upper-arm", Form::line, heavy, true},
                                Stroke{"wheel-arm", Form::line, heavy, true},
                                Stroke{"link", Form::line, heavy, true},
                                Stroke{"track-bar", Form::line, heavy, true},
                                Stroke{"transverse-leaf", Form::tube, {2.8}, true},
                                Stroke{"leaf", Form::tube, {2.8}, true},
                                Stroke{"shackle", Form::line, middle, true},
                                Stroke{"block", Form::block, {4.0}, true},
                                Stroke{"seat", Form::line, thin, false},
                                Stroke{"strut", Form::damper, {4.0}, true},
                                Stroke{"damper", Form::damper, {2.6}, true},
                                Stroke{"spring", Form::spring, thin, true},
                                Stroke{"tie-rod", Form::line, thin, true},
                                Stroke{"drag-link", Form::line, thin, true},
                                Stroke{"pitman-arm", Form::line, middle, true},
                                Stroke{"idler-arm", Form::line, middle, true},
                                Stroke{"half-shaft", Form::line, {0.8, 0.0, 6.0, 1.5}, true},
                                Stroke{"knuckle", Form::line, {2.4}, false},
                                Stroke{"stub", Form::line, middle, false},
                                Stroke{"steering-arm", Form::line, middle, false}};

const Stroke& stroke_of(const OutlinePart& part) {
  const auto found = std::find_if(strokes.begin(), strokes.end(), [&](const Stroke& s) { return s.what == part.what; });
  return found == strokes.end() ? strokes.back() : *found;
}

std::vector<Point> on_paper(const View& view, const std::vector<Vector3<double>>& line) {
  std::vector<Point> points;
  for (const auto& p : line) points.push_back(view.at(p));
  return points;
}

double length(Point a, Point b) { return std::hypot(b.x - a.x, b.y - a.y); }
// A place along a line and beside it.
Point beside(Point a, Point b, double along, double off) {
  const double l = std::max(length(a, b), 1e-9);
  const double ux = (b.x - a.x) / l, uy = (b.y - a.y) / l;
  return {a.x + along * (b.x - a.x) - off * uy, a.y + along * (b.y - a.y) + off * ux};
}

// Two lines about a middle line, closed at its ends: a ring where it is seen on end.
void draw_tube(Canvas& canvas, const std::vector<Point>& line, double width) {
  const double half = width / 2;
  if (line.size() == 2 && length(line.front(), line.back()) < half) {
    canvas.disc(line.front(), half, 1.0);
    return canvas.circle(line.front(), half, {0.7});
  }
  std::vector<Point> there, back;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Point from = line[i == 0 ? 0 : i - 1], to = line[std::min(i + 1, line.size() - 1)];
    const double l = std::max(length(from, to), 1e-9);
    const double nx = -(to.y - from.y) / l * half, ny = (to.x - from.x) / l * half;
    there.push_back({line[i].x + nx, line[i].y + ny});
    back.push_back({line[i].x - nx, line[i].y - ny});
  }
  there.insert(there.end(), back.rbegin(), back.rend());
  canvas.fill(there, 1.0);
  canvas.polyline(there, true, {0.7});
}

void draw_coil(Canvas& canvas, Point a, Point b) {
  const double half = std::min(1.8 * mm, 0.15 * length(a, b));
  std::vector<Point> line{a, beside(a, b, 0.1, 0)};
  constexpr int turns = 11;
  for (int i = 0; i < turns; ++i) line.push_back(beside(a, b, 0.1 + 0.8 * (i + 0.5) / turns, i % 2 ? half : -half));
  line.push_back(beside(a, b, 0.9, 0));
  line.push_back(b);
  canvas.polyline(line, false, {0.9});
}

// The rod comes from the body's end.
void draw_damper(Canvas& canvas, Point body_end, Point foot, double width) {
  canvas.line(body_end, foot, {0.8});
  const double half = width / 2;
  const std::vector<Point> cylinder{beside(body_end, foot, 0.45, half), beside(body_end, foot, 0.92, half),
                                    beside(body_end, foot, 0.92, -half), beside(body_end, foot, 0.45, -half)};
  canvas.fill(cylinder, 1.0);
  canvas.polyline(cylinder, true, {0.8});
}

void draw_block(Canvas& canvas, Point seat, Point foot, double half) {
  const std::vector<Point> box{beside(seat, foot, 0, half), beside(seat, foot, 1, half), beside(seat, foot, 1, -half),
                               beside(seat, foot, 0, -half)};
  canvas.fill(box, 1.0);
  canvas.hatch(box, 1.0 * mm, {0.5});
  canvas.polyline(box, true, {0.8});
}

}  // namespace

bool is_named(const OutlinePart& part) { return stroke_of(part).named; }

void draw_part(Canvas& canvas, const View& view, const OutlinePart& part) {
  const Stroke& stroke = stroke_of(part);
  const std::vector<Point> line = on_paper(view, part.line);
  switch (stroke.form) {
    case Form::line:
      return canvas.polyline(line, false, stroke.pen);
    case Form::tube:
      return draw_tube(canvas, line, stroke.pen.width);
    case Form::spring:
      return draw_coil(canvas, line.front(), line.back());
    case Form::damper:
      return draw_damper(canvas, line.front(), line.back(), stroke.pen.width);
    case Form::block:
      return draw_block(canvas, line.front(), line.back(), stroke.pen.width);
  }
}

void draw_part_as_ghost(Canvas& canvas, const View& view, const OutlinePart& part) {
  canvas.polyline(on_paper(view, part.line), false, ghost_pen);
}

void draw_pivot(Canvas& canvas, Point at) {
  constexpr double half = 0.85 * mm;
  canvas.fill(
      {{at.x - half, at.y - half}, {at.x + half, at.y - half}, {at.x + half, at.y + half}, {at.x - half, at.y + half}});
}

void draw_joint(Canvas& canvas, Point at) {
  canvas.disc(at, 0.8 * mm, 1.0);
  canvas.circle(at, 0.8 * mm, {0.8});
}

std::vector<Point> wheel_outline(const View& view, const AxleOutline& axle, const OutlineWheel& wheel) {
  using V = Vector3<double>;
  const double loaded = axle.loaded_radius.si();
  const double radius = axle.tyre ? axle.tyre->radius.si() : loaded;
  const double half = axle.tyre ? 0.5 * axle.tyre->width.si() : 0.0;
  const double shoulder = axle.tyre ? axle.tyre->shoulder_radius.si() : 0.0;
  const V middle = axle.tyre ? wheel.hub + axle.tyre->centre_offset.si() * wheel.spin : wheel.hub;
  const double floor = axle.ground.si();
  std::vector<Point> outline;
  const auto add = [&](V p) {
    p.z = std::max(p.z, floor);  // flat on the ground
    outline.push_back(view.at(p));
  };
  if (view.from == SeenFrom::left) {
    for (int i = 0; i < 120; ++i) {
      const double a = 2 * M_PI * i / 120;
      add(middle + V{radius * std::cos(a), 0, radius * std::sin(a)});
    }
    return outline;
  }
  // Across: the tyre's section at its top and at its foot, upright to the spin axis.
  const V up = unit((wheel.spin.y < 0 ? -1.0 : 1.0) * V{0, -wheel.spin.z, wheel.spin.y});
  const V out = unit(V{0, wheel.spin.y, wheel.spin.z});
  if (!axle.tyre) return {view.at(middle + radius * up), view.at(middle - radius * up)};
  for (int corner = 0; corner < 4; ++corner) {
    const double o = corner == 0 || corner == 3 ? 1 : -1, u = corner < 2 ? 1 : -1;
    for (int i = 0; i <= 5; ++i) {
      const double a = 0.5 * M_PI * (corner + i / 5.0);
      add(middle + (o * (half - shoulder) + shoulder * std::cos(a)) * out +
          (u * (radius - shoulder) + shoulder * std::sin(a)) * up);
    }
  }
  return outline;
}

std::vector<Point> steering_axis(const View& view, const AxleOutline& axle, const OutlineWheel& wheel) {
  const auto at_height = [&](double z) {
    return view.at(wheel.axis_foot + ((z - wheel.axis_foot.z) / wheel.axis.z) * wheel.axis);
  };
  return {at_height(wheel.hub.z + 0.9 * axle.loaded_radius.si()), at_height(axle.ground.si())};
}

}  // namespace trammel::sheets
