#include "sheets/curve_drawing.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace trammel::sheets {
namespace {

constexpr double title = 6 * mm, left = 17 * mm, right = 4 * mm, values_high = 54 * mm, difference_high = 26 * mm;
constexpr double between = 9 * mm, foot = 10 * mm, wide = 2.0;  // wide: standard uncertainties to either side
constexpr TextStyle head{9.5, true}, plain{8}, on_axis{7.5, false, Align::right};
constexpr Pen now_pen{1.5}, stock_pen{0.9, 0.2, 4.0}, edge_pen{0.35, 0.25}, grid_pen{0.25, 0.6};

// A step of 1, 2 or 5 times a power of ten that divides the range into at most so many.
double round_step(double range, int most) {
  const double least = range / most;
  const double ten = std::pow(10.0, std::floor(std::log10(least)));
  for (const double by : {1.0, 2.0, 5.0})
    if (by * ten >= least * (1 - 1e-9)) return by * ten;
  return 10 * ten;
}

struct Range {
  double low = 1e300, high = -1e300;
  void take(double v) { low = std::min(low, v), high = std::max(high, v); }
};
void take(Range& range, Kind kind, const std::vector<CurvePoint>& line, bool band) {
  for (const CurvePoint& p : line) {
    range.take(in_drawn_unit(kind, p.value - (band ? wide * p.u : 0.0)));
    range.take(in_drawn_unit(kind, p.value + (band ? wide * p.u : 0.0)));
  }
}

void scale_y(Frame& f, Range range, int steps, double least) {
  const double middle = 0.5 * (range.low + range.high);
  if (range.high - range.low < least) range = {middle - least / 2, middle + least / 2};
  f.y_step = round_step(range.high - range.low, steps);
  f.y_low = std::floor(range.low / f.y_step - 1e-6) * f.y_step;
  f.y_high = std::ceil(range.high / f.y_step + 1e-6) * f.y_step;
}
void scale_x(Frame& f, const std::vector<CurvePoint>& line) {
  f.x_low = line.front().rise.in(units::mm), f.x_high = line.back().rise.in(units::mm);
  if (!(f.x_high > f.x_low)) f.x_high = f.x_low + 1;
  f.x_step = round_step(f.x_high - f.x_low, 10);
}

// The least range that an axis spans: finer would draw what no tape can tell.
double least_range(Kind kind) { return kind == Kind::angle ? 0.1 : kind == Kind::length ? 2.0 : 0.02; }

std::string on_scale(double v, double step) {
  const int digits = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
  const std::string text = fmt::format("{:.{}f}", std::abs(v) < step / 1000 ? 0.0 : v, digits);
  return text.starts_with('-') ? "\u2212" + text.substr(1) : text;
}

std::vector<Point> on_paper(const Frame& f, Kind kind, const std::vector<CurvePoint>& line, double by_u) {
  std::vector<Point> points;
  for (const CurvePoint& p : line)
    points.push_back(f.at(p.rise.in(units::mm), in_drawn_unit(kind, p.value + by_u * p.u)));
  return points;
}

void draw_axes(Canvas& canvas, const Frame& f, bool rises) {
  const int rows = static_cast<int>(std::lround((f.y_high - f.y_low) / f.y_step));
  for (int i = 0; i <= rows; ++i) {
    const double y = f.y_low + i * f.y_step;
    const Point p = f.at(f.x_low, y);
    canvas.line(p, f.at(f.x_high, y), std::abs(y) < f.y_step / 1000 ? Pen{0.7} : grid_pen);
    canvas.text({f.box.x - left, p.y - 1.6 * mm}, left - 1.5 * mm, on_scale(y, f.y_step), on_axis);
  }
  const int last = static_cast<int>(std::floor(f.x_high / f.x_step + 1e-3));
  for (int i = static_cast<int>(std::ceil(f.x_low / f.x_step - 1e-9)); i <= last; ++i) {
    const double x = i * f.x_step;
    const Point p = f.at(x, f.y_low);
    canvas.line(p, f.at(x, f.y_high), std::abs(x) < f.x_step / 1000 ? Pen{0.7} : grid_pen);
    if (rises) canvas.label({p.x, p.y + 2.4 * mm}, on_scale(x, f.x_step), {7.5});
  }
  canvas.rect(f.box, {0.8});
}

void draw_band(Canvas& canvas, const Frame& f, Kind kind, const std::vector<CurvePoint>& line) {
  std::vector<Point> above = on_paper(f, kind, line, wide);
  const std::vector<Point> below = on_paper(f, kind, line, -wide);
  canvas.polyline(above, false, edge_pen);
  canvas.polyline(below, false, edge_pen);
  above.insert(above.end(), below.rbegin(), below.rend());
  canvas.hatch(above, 1.5 * mm, {0.3, 0.4});
}

const CurvePoint& at_rest(const std::vector<CurvePoint>& line) {
  return *std::min_element(line.begin(), line.end(),
                           [](const auto& a, const auto& b) { return abs(a.rise) < abs(b.rise); });
}

// What the lines are, and the numbers at rest.
double draw_key(Canvas& canvas, const Box& room, const Words& words, const TravelCurve& c) {
  double x = room.x, y = room.y;
  const auto item = [&](const char* code, const CurvePoint& p, bool with_u,
                        const std::function<void(Point, Point)>& sample) {
    Number n{c.kind, p.value, {}};
    if (with_u) n.u = p.u;
    const std::string text = escape(words(code, {{"value", words.print(n)}}));
    const double w = 11 * mm + canvas.text_width(text, plain);
    if (x > room.x && x + w > room.x + room.w) x = room.x, y += 4.4 * mm;
    sample({x, y + 1.8 * mm}, {x + 9 * mm, y + 1.8 * mm});
    canvas.text({x + 10.5 * mm, y}, -1, text, plain);
    x += w + 5 * mm;
  };
  const auto banded = [&](Point a, Point b) {
    canvas.hatch({{a.x, a.y - 1.4 * mm}, {b.x, b.y - 1.4 * mm}, {b.x, b.y + 1.4 * mm}, {a.x, a.y + 1.4 * mm}}, 1.5 * mm,
                 {0.3, 0.4});
    canvas.line(a, b, now_pen);
  };
  item(c.difference.empty() ? "drawing-curve-alone" : "drawing-curve-now", at_rest(c.now), true, banded);
  if (!c.difference.empty()) {
    item("drawing-curve-stock", at_rest(c.stock), true, [&](Point a, Point b) { canvas.line(a, b, stock_pen); });
    item("drawing-curve-difference", at_rest(c.difference), true, banded);
  }
  y += 4.6 * mm;
  y += canvas.text({room.x, y}, room.w, escape(words("drawing-curve-band")), {7.2});
  return y - room.y;
}

}  // namespace

double in_drawn_unit(Kind kind, double si) {
  return kind == Kind::angle ? Angle::from_si(si).in(units::degree) : kind == Kind::length ? si * 1000.0 : si;
}

CurveFrames place_curve(const Box& room, const TravelCurve& c) {
  CurveFrames f;
  f.values.box = {room.x + left, room.y + title + 4 * mm, room.w - left - right, values_high};
  scale_x(f.values, c.now);
  Range range;
  take(range, c.kind, c.now, true);
  take(range, c.kind, c.stock, false);
  scale_y(f.values, range, 7, least_range(c.kind));
  f.difference = f.values;
  f.difference.box.y += values_high + between;
  f.difference.box.h = c.difference.empty() ? 0.0 : difference_high;
  if (c.difference.empty()) return f;
  Range d;
  take(d, c.kind, c.difference, true);
  d.take(0.0);
  scale_y(f.difference, d, 4, least_range(c.kind));
  return f;
}

std::string curve_title(const Words& words, const TravelCurve& c) {
  return words("drawing-curve-" + c.name) + (c.side == "right" ? ", " + words("drawing-right-wheel") : "");
}

double draw_curve(Canvas& canvas, const Box& room, const Words& words, const TravelCurve& c) {
  const CurveFrames f = place_curve(room, c);
  const bool compared = !c.difference.empty();
  canvas.text({room.x, room.y}, room.w, escape(curve_title(words, c)), head);
  const char* unit = c.kind == Kind::angle    ? "drawing-in-degrees"
                     : c.kind == Kind::length ? "drawing-in-millimetres"
                                              : "drawing-as-a-ratio";
  canvas.text({room.x, f.values.box.y - 4 * mm}, room.w, escape(words(unit)), {7.5});
  draw_band(canvas, f.values, c.kind, c.now);
  draw_axes(canvas, f.values, !compared);
  canvas.begin_window(f.values.box);
  canvas.polyline(on_paper(f.values, c.kind, c.stock, 0), false, stock_pen);
  canvas.polyline(on_paper(f.values, c.kind, c.now, 0), false, now_pen);
  canvas.end_window();
  double y = f.values.box.y + f.values.box.h;
  if (compared) {
    canvas.text({room.x, f.difference.box.y - 5 * mm}, room.w, escape(words("drawing-curve-change")), {8, true});
    draw_band(canvas, f.difference, c.kind, c.difference);
    draw_axes(canvas, f.difference, true);
    canvas.polyline(on_paper(f.difference, c.kind, c.difference, 0), false, now_pen);
    y = f.difference.box.y + f.difference.box.h;
  }
  canvas.text({f.values.box.x, y + 4.4 * mm}, f.values.box.w, escape(words("drawing-rise-axis")),
              {7.5, false, Align::centre});
  y += foot;
  y += draw_key(canvas, {room.x, y, room.w, 0}, words, c);
  return y - room.y;
}

std::string curve_told(const CurveFrames& f, const TravelCurve& c) {
  const auto told = [](const char* name, const Frame& frame) {
    const Point low = frame.at(frame.x_low, frame.y_low), high = frame.at(frame.x_high, frame.y_high);
    return fmt::format("{}: x {:.6g} at {:.4f}, {:.6g} at {:.4f}; y {:.6g} at {:.4f}, {:.6g} at {:.4f}", name,
                       frame.x_low, low.x, frame.x_high, high.x, frame.y_low, low.y, frame.y_high, high.y);
  };
  const char* unit = c.kind == Kind::angle ? "deg" : c.kind == Kind::length ? "mm" : "1";
  std::string text = fmt::format("{} {}, rise in mm, value in {}; {}", c.name, c.side, unit, told("values", f.values));
  return c.difference.empty() ? text : text + "; " + told("difference", f.difference);
}

}  // namespace trammel::sheets
