#include "sheets/key_drawing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "sheets/cart_drawing.h"

namespace trammel::sheets {
namespace {

constexpr double drawing_width = 119 * mm, row_height = 6.4 * mm;

struct Balloon {
  std::string id;
  int count = 0;
};
using Balloons = std::map<Spot, std::vector<Balloon>>;

Balloons balloons_of(const Assessment& assessment) {
  Balloons out;
  for (const FastenerLine& f : assessment.fasteners)
    for (const std::string& instance : f.instances) {
      std::vector<Balloon>& here = out[spot_of(assessment, f.id, instance)];
      if (here.empty() || here.back().id != f.id) here.push_back({f.id, 0});
      ++here.back().count;
    }
  return out;
}

std::string name_of(const Balloon& b) {
  return bold(escape(b.id)) + (b.count > 1 ? "<span size=\"80%\">×" + std::to_string(b.count) + "</span>" : "");
}

double width_of(const Canvas& canvas, const Balloon& b) { return canvas.text_width(name_of(b), {7}) + 3.4 * mm; }

// Rows of balloons no wider than `width`.
std::vector<std::vector<Balloon>> rows_of(const Canvas& canvas, const std::vector<Balloon>& all, double width) {
  std::vector<std::vector<Balloon>> rows;
  double x = width;
  for (const Balloon& b : all) {
    const double w = width_of(canvas, b) + 1 * mm;
    if (rows.empty() || x + w > width) rows.emplace_back(), x = 0;
    rows.back().push_back(b);
    x += w;
  }
  return rows;
}

void draw_balloon(Canvas& canvas, const Box& box, const Balloon& b) {
  std::vector<Point> outline;
  const double r = box.h / 2;
  for (int i = 0; i <= 12; ++i) {
    const double a = -M_PI / 2 + M_PI * i / 12;
    outline.push_back({box.x + box.w - r + r * std::cos(a), box.y + r + r * std::sin(a)});
  }
  for (int i = 0; i <= 12; ++i) {
    const double a = M_PI / 2 + M_PI * i / 12;
    outline.push_back({box.x + r + r * std::cos(a), box.y + r + r * std::sin(a)});
  }
  canvas.fill(outline, 1.0);
  canvas.polyline(outline, true, {0.6});
  canvas.label({box.x + box.w / 2, box.y + r}, name_of(b), {7});
}

// Rows of balloons on a thread, with a leader to their place. They stack away from the plan: up the paper
// (-1), down it (1), or on its middle line (0). At the rear they end under the wheel, elsewhere they begin there.
void draw_string(Canvas& canvas, Point spot, Point begin, double width, int towards, bool from_right,
                 const std::vector<Balloon>& all) {
  const auto rows = rows_of(canvas, all, width);
  const double h = 4.8 * mm, step = towards < 0 ? -row_height : row_height;
  double y = towards == 0  ? begin.y - rows.size() * row_height / 2 + 0.8 * mm
             : towards > 0 ? begin.y
                           : begin.y - row_height;
  const auto length = [&](const std::vector<Balloon>& row) {
    double l = -1 * mm;
    for (const Balloon& b : row) l += width_of(canvas, b) + 1 * mm;
    return l;
  };
  const auto start = [&](const std::vector<Balloon>& row) {
    return from_right ? begin.x + width - length(row) : begin.x;
  };
  const double knot = from_right ? begin.x + width - 4 * mm : begin.x + 4 * mm;
  if (towards != 0) {
    canvas.line(spot, {knot, y + h / 2}, {0.4});
    canvas.disc(spot, 0.7 * mm);
  }
  canvas.line({knot, y + h / 2}, {knot, y + h / 2 + step * (rows.size() - 1.0)}, {0.4});
  for (const auto& row : rows) {
    double x = start(row);
    canvas.line({x + 1 * mm, y + h / 2}, {x + length(row) - 1 * mm, y + h / 2}, {0.4});
    for (const Balloon& b : row) {
      const double w = width_of(canvas, b);
      draw_balloon(canvas, {x, y, w, h}, b);
      x += w + 1 * mm;
    }
    y += step;
  }
}

double draw_views(Canvas& canvas, const Given& given, const Box& room) {
  const Assessment& a = given.assessment;
  const CartScale scale = cart_scale(a, drawing_width - 22 * mm, 82 * mm);
  const double k = scale.points_per_metre;
  const double front = radius_of(a.after.front_radius) * k;
  const double length = a.after.wheelbase.si() * k + front + radius_of(a.after.rear_radius) * k;
  const Point ground{
      room.x + 5 * mm + front,
      room.y + 6 * mm + (a.after.height ? a.after.height->si() : 3 * radius_of(a.after.front_radius)) * k};

  // Balloons: three strings a side, front, middle and rear.
  const Balloons balloons = balloons_of(a);
  const double third = (length + 8 * mm) / 3, half = (length + 8 * mm) / 2;
  const bool middles = balloons.contains({0, 1}) || balloons.contains({0, -1});
  const double width = middles ? third : half;
  std::size_t above = 0, below = 0;
  for (const auto& [spot, list] : balloons) {
    const std::size_t rows = rows_of(canvas, list, width - 6 * mm).size();
    if (spot.side < 0) above = std::max(above, rows);
    if (spot.side > 0) below = std::max(below, rows);
  }
  const double track = std::max(a.after.front_half_track ? a.after.front_half_track->si() : 0.45,
                                a.after.rear_half_track ? a.after.rear_half_track->si() : 0.45) *
                       k;
  const double reach = track + 0.13 * k + 3 * mm;
  const Point axle{ground.x, ground.y + 13 * mm + above * row_height + reach};
  const double bottom = axle.y + reach + below * row_height + 2 * mm;
  draw_side(canvas, given, ground, scale, {});
  draw_plan(canvas, given, axle, scale);
  for (const auto& [spot, list] : balloons) {
    const double left = axle.x - front - 2 * mm;
    if (spot.side == 0) {
      const double inner = a.after.wheelbase.si() * k / 3 - 2 * mm;
      const double x = axle.x + (spot.end > 0 ? 3 * mm : spot.end < 0 ? 2 * inner + 3 * mm : inner + 3 * mm);
      draw_string(canvas, {x, axle.y}, {x, axle.y}, inner, 0, false, list);
      continue;
    }
    const double x = spot.end > 0   ? left
                     : spot.end < 0 ? axle.x + length - front + 2 * mm - (width - 6 * mm)
                                    : left + third;
    draw_string(canvas, on_plan(a, axle, scale, spot), {x, axle.y + spot.side * reach}, width - 6 * mm, spot.side,
                spot.end < 0, list);
  }
  canvas.text({room.x, bottom}, drawing_width,
              given.line("sheet-drawing-caption", {{"scale", std::to_string(scale.one_to)}}), {6.8});
  return bottom - room.y +
         canvas.text_height(drawing_width,
                            given.line("sheet-drawing-caption", {{"scale", std::to_string(scale.one_to)}}), {6.8});
}

double draw_key_line(Canvas& canvas, const Box& room, const FastenerLine& f) {
  const double w = 13 * mm;
  canvas.text({room.x, room.y}, w,
              bold(escape(f.id)) + small(" ×" + std::to_string(std::max<std::size_t>(1, f.instances.size()))), {8.2});
  std::string text = escape(f.at);
  if (!f.thread.empty()) text += "  " + small(escape(f.thread));
  return canvas.text({room.x + w, room.y}, room.w - w, text, {7.6}) + 0.8 * mm;
}

}  // namespace

void lay_key_drawing(const Given& given, Book& book) {
  // As many lines of the key as stand beside the drawing; the rest below it.
  const auto& fasteners = given.assessment.fasteners;
  const auto beside = std::make_shared<std::size_t>(0);
  book.block(
      [&given, &fasteners, beside](Canvas& c, const Box& room) {
        const double height = draw_views(c, given, room);
        const double x = room.x + drawing_width + 4 * mm, w = room.w - drawing_width - 4 * mm;
        double y = room.y + c.text({x, room.y}, w, given.line("sheet-drawing-key"), {9.5, true}) + 1 * mm;
        std::size_t i = 0;
        for (; i < fasteners.size() && y - room.y < height - 9 * mm; ++i)
          y += draw_key_line(c, {x, y, w, 0}, fasteners[i]);
        *beside = i;
        return std::max(height, y - room.y);
      },
      2 * mm);
  for (std::size_t i = *beside; i < fasteners.size(); i += 2)
    book.block(
        [&given, &fasteners, i](Canvas& c, const Box& room) {
          const double half = room.w / 2 - 3 * mm;
          const double a = draw_key_line(c, {room.x, room.y, half, 0}, fasteners[i]);
          return i + 1 < fasteners.size()
                     ? std::max(a, draw_key_line(c, {room.x + half + 6 * mm, room.y, half, 0}, fasteners[i + 1]))
                     : a;
        },
        0);
}

}  // namespace trammel::sheets
