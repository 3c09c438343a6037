#include "sheets/marks.h"

#include <array>
#include <cmath>

namespace trammel::sheets {

void draw_gate(Canvas& canvas, Point at, double size, Outcome outcome) {
  const double post = size * 0.15, top = at.y, foot = at.y + size * 0.85;
  const double hinge = at.x + post, latch = at.x + size - post;
  for (const double x : {at.x, latch}) canvas.fill({{x, top}, {x + post, top}, {x + post, foot}, {x, foot}});
  if (outcome != Outcome::stop && outcome != Outcome::condition) return;
  // The leaf: shut, or swung towards us and so seen shorter and lower at its free end.
  const double reach = outcome == Outcome::stop ? latch - hinge : (latch - hinge) * 0.6;
  const double drop = outcome == Outcome::stop ? 0 : size * 0.22, pen = size * 0.09;
  const double y0 = top + size * 0.18, y1 = top + size * 0.66, end = hinge + reach - pen / 2;
  canvas.line({hinge, y0}, {end, y0 + drop}, {pen});
  canvas.line({hinge, y1}, {end, y1 + drop}, {pen});
  canvas.line({hinge, y1}, {end, y0 + drop}, {pen});
  canvas.line({end, y0 + drop - pen / 2}, {end, y1 + drop + pen / 2}, {pen});
}

void draw_chocked_wheel(Canvas& canvas, Point c, double r) {
  canvas.disc(c, r);
  canvas.disc(c, r * 0.55, 1.0);
  canvas.disc(c, r * 0.16);
  const double ground = c.y + r;
  for (const double side : {-1.0, 1.0}) {
    const double near = c.x + side * r * 0.62, far = c.x + side * r * 1.75;
    canvas.fill({{near, ground}, {far, ground}, {far, ground - r * 0.25}, {c.x + side * r * 1.08, ground - r * 0.62}});
  }
  canvas.line({c.x - r * 1.9, ground + 0.5}, {c.x + r * 1.9, ground + 0.5}, {1.0});
}

void draw_bolt_state(Canvas& canvas, Point at, double height, const std::string& state) {
  constexpr std::array<std::string_view, 8> ladder = {"out",  "nut-off",    "slack", "finger-tight",
                                                      "snug", "part-tight", "final", "verified"};
  std::size_t rung = 0;
  while (rung < ladder.size() && ladder[rung] != state) ++rung;
  const double w = height * 1.1, plate = at.y + height * 0.72, head_h = height * 0.22, middle = at.x + w / 2;
  canvas.fill({{at.x, plate}, {at.x + w, plate}, {at.x + w, plate + height * 0.12}, {at.x, plate + height * 0.12}},
              0.0);
  if (rung == 0 || rung == ladder.size()) {
    // Out: an empty hole.
    const double hole = height * 0.16;
    canvas.fill({{middle - hole, plate - 0.3},
                 {middle + hole, plate - 0.3},
                 {middle + hole, plate + height * 0.13},
                 {middle - hole, plate + height * 0.13}},
                1.0);
    return;
  }
  constexpr std::array<double, 8> gaps = {0, 0.48, 0.34, 0.16, 0.0, 0.0, 0.0, 0.0};
  const double seat = plate - gaps[rung] * height, half = height * 0.34;
  const std::vector<Point> head = {
      {middle - half, seat - head_h}, {middle + half, seat - head_h}, {middle + half, seat}, {middle - half, seat}};
  if (rung >= 6)
    canvas.fill(head);
  else
    canvas.polyline(head, true, {0.7});
  if (rung == 5)
    canvas.fill({{middle - half, seat - head_h}, {middle, seat - head_h}, {middle, seat}, {middle - half, seat}});
  canvas.line({middle, seat}, {middle, at.y + height}, {1.2});
  if (rung == 7)
    canvas.line({middle + half * 0.3, seat - head_h * 2}, {middle + half * 1.5, plate + height * 0.3}, {1.2});
}

void draw_tick_box(Canvas& canvas, Point at, double size) { canvas.rect({at.x, at.y, size, size}, {0.9}); }

double draw_write_line(Canvas& canvas, Point at, double width, const std::string& name) {
  const double room = 8 * mm;
  canvas.line({at.x, at.y + room}, {at.x + width, at.y + room}, {0.5});
  return room + 0.6 * mm + canvas.text({at.x, at.y + room + 0.6 * mm}, width, name, {6.8});
}

void draw_true_bar(Canvas& canvas, Point at, double length, double every, const std::string& name) {
  canvas.fill({{at.x, at.y}, {at.x + length, at.y}, {at.x + length, at.y + 0.8 * mm}, {at.x, at.y + 0.8 * mm}});
  const int count = static_cast<int>(std::lround(length / every));
  for (int i = 0; i <= count; ++i) {
    const double x = at.x + i * every;
    canvas.line({x, at.y}, {x, at.y - (i == 0 || i == count ? 2.4 : 1.4) * mm}, {0.5});
  }
  canvas.text({at.x, at.y + 1.2 * mm}, std::max(length, 45 * mm), name, {6.8});
}

std::vector<Point> nut_outline(Point c, double across_flats, int flats) {
  std::vector<Point> out;
  const double r = across_flats / 2 / std::cos(M_PI / flats);
  for (int i = 0; i < flats; ++i) {
    const double a = 2 * M_PI * (i + 0.5) / flats;
    out.push_back({c.x + r * std::cos(a), c.y + r * std::sin(a)});
  }
  return out;
}

void draw_dimension(Canvas& canvas, Point a, Point b, const std::string& name, double size) {
  const double direction = std::atan2(b.y - a.y, b.x - a.x);
  canvas.line(a, b, {0.4});
  canvas.arrow_head(b, direction, 2 * mm);
  canvas.arrow_head(a, direction + M_PI, 2 * mm);
  if (!name.empty()) canvas.label({(a.x + b.x) / 2, (a.y + b.y) / 2}, name, {size}, true);
}

std::string basis_mark(const Words& words, Basis basis) {
  constexpr std::array<const char*, 4> codes = {"sheet-basis-measured", "sheet-basis-kit", "sheet-basis-assumed",
                                                "sheet-basis-computed"};
  // A hair space, then the letter raised.
  return "\u200a<span size=\"68%\" rise=\"2.6pt\" weight=\"bold\">" +
         escape(words(codes[static_cast<std::size_t>(basis)])) + "</span>";
}

}  // namespace trammel::sheets
