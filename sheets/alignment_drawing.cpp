#include "sheets/alignment_drawing.h"

#include <algorithm>
#include <cmath>

namespace trammel::sheets {
namespace {

double on_paper(Length l) { return l.si() * 1000 * mm; }

// A wavy cut through a drawing, as a break line.
void draw_break(Canvas& canvas, double x0, double x1, double y) {
  std::vector<Point> upper, lower;
  for (int i = 0; i <= 24; ++i) {
    const double x = x0 + (x1 - x0) * i / 24, wave = 0.7 * mm * std::sin(2 * M_PI * i / 12.0);
    upper.push_back({x, y - 1 * mm + wave});
    lower.push_back({x, y + 1 * mm + wave});
  }
  std::vector<Point> band = upper;
  band.insert(band.end(), lower.rbegin(), lower.rend());
  canvas.fill(band, 1.0);
  canvas.polyline(upper, false, {0.4});
  canvas.polyline(lower, false, {0.4});
}

}  // namespace

double draw_square(Canvas& canvas, const Given& given, const Box& room, const std::string& side, Length gap,
                   std::optional<Length> over) {
  // The blade stands upright at `blade`; the rim lies inboard. Seen from the front the cart's left wheel has its
  // outer side to the right of the paper.
  const double out = side == "right" ? -1.0 : 1.0;
  const double height = 44 * mm, top = room.y + 2 * mm, foot = top + height,
               blade = room.x + room.w * (out > 0 ? 0.52 : 0.48);
  const double lip_top = top + 9 * mm, lip_foot = foot - 9 * mm, g = on_paper(abs(gap));
  const bool at_top = gap.si() > 0;
  const double top_gap = at_top ? g : 0, foot_gap = at_top ? 0 : g;
  const auto in = [&](double depth, double lean) { return blade - out * (lean + depth); };
  const auto edge = [&](double x) { return blade + out * x; };

  // Tyre behind, then the rim: two lips and the dish between them, leaning by the gap.
  const double lip = 4 * mm, dish = 9 * mm, back = 26 * mm, wall = 7 * mm;
  const std::vector<Point> tyre = {{in(0.5 * mm, top_gap), lip_top - lip / 2},
                                   {in(2.2 * mm, top_gap), lip_top - lip / 2 - wall * 0.7},
                                   {in(5 * mm, top_gap), lip_top - lip / 2 - wall},
                                   {in(back + 6 * mm, top_gap), lip_top - lip / 2 - wall},
                                   {in(back + 6 * mm, foot_gap), lip_foot + lip / 2 + wall},
                                   {in(5 * mm, foot_gap), lip_foot + lip / 2 + wall},
                                   {in(2.2 * mm, foot_gap), lip_foot + lip / 2 + wall * 0.7},
                                   {in(0.5 * mm, foot_gap), lip_foot + lip / 2}};
  canvas.polyline(tyre, true, {0.6});
  const std::vector<Point> rim = {{in(0, top_gap), lip_top - lip / 2},      {in(0, top_gap), lip_top + lip / 2},
                                  {in(dish, top_gap), lip_top + 7 * mm},    {in(dish, foot_gap), lip_foot - 7 * mm},
                                  {in(0, foot_gap), lip_foot - lip / 2},    {in(0, foot_gap), lip_foot + lip / 2},
                                  {in(back, foot_gap), lip_foot + lip / 2}, {in(back, top_gap), lip_top - lip / 2}};
  canvas.fill(rim, 1.0);
  canvas.hatch(rim, 2.2 * mm);
  canvas.polyline(rim, true, {1.0});

  // The square: blade with its rule, stock on the floor.
  canvas.polyline({{edge(0), foot}, {edge(0), top}, {edge(7 * mm), top}, {edge(7 * mm), foot}}, false, {1.2});
  canvas.rect({std::min(edge(0), edge(34 * mm)), foot, 34 * mm, 4 * mm}, {1.2});
  for (int i = 1; i < 9; ++i) canvas.line({edge(0), top + i * 5 * mm}, {edge(1.6 * mm), top + i * 5 * mm}, {0.35});
  const double floor = foot + 4 * mm;
  canvas.line({room.x, floor}, {room.x + room.w, floor}, {0.8});
  draw_break(canvas, std::min(in(back + 9 * mm, g), edge(10 * mm)), std::max(in(back + 9 * mm, g), edge(10 * mm)),
             (lip_top + lip_foot) / 2);

  // The gap, shaded where a feeler goes in, named out on free paper.
  const double gy = at_top ? lip_top : lip_foot, gx = blade - out * g;
  if (g > 0) canvas.fill({{gx, gy - lip / 2}, {blade, gy - lip / 2}, {blade, gy + lip / 2}, {gx, gy + lip / 2}});
  canvas.line({edge(0.5 * mm), gy}, {edge(10 * mm), gy}, {0.4});
  const double width = room.w * 0.48 - 11 * mm, x = out > 0 ? edge(11 * mm) : room.x;
  const Align align = out > 0 ? Align::left : Align::right;
  canvas.text({x, gy - 5.5 * mm}, width, given.computed(abs(gap)), {12, true, align});
  canvas.text({x, gy + 0.4 * mm}, width,
              given.line(g <= 0   ? "sheet-square-touches"
                         : at_top ? "sheet-square-top"
                                  : "sheet-square-bottom"),
              {8, false, align});
  const double y = floor + 1.5 * mm;
  const std::string height_text = over ? given.line("sheet-square-over", {{"over", given.words.print(*over)}}) : "";
  return y - room.y +
         canvas.text(
             {room.x, y}, room.w,
             begun(given.line("sheet-square-caption", {{"side", given.words.of("side", side)}})) + " " + height_text,
             {7.2});
}

double draw_tape(Canvas& canvas, const Given& given, const Box& room, const AlignResult& align, Length target) {
  // Numbers fall to the left: the front reading is less than the rear where the wheels toe in.
  const double band_low = on_paper(align.total_toe_wanted.low), band_high = on_paper(align.total_toe_wanted.high);
  const double goal = on_paper(target), now = align.state.total_toe.value * 1000 * mm;
  const double right_most = std::min({0.0, goal, band_low, now}), left_most = std::max({0.0, goal, band_high, now});
  const double rear_x =
      std::clamp(room.x + room.w / 2 + (left_most + right_most) / 2, room.x + 8 * mm, room.x + room.w - 8 * mm);
  const auto at = [&](double toe) { return rear_x - toe; };
  const auto fits = [&](double x) { return x > room.x + 1 * mm && x < room.x + room.w - 1 * mm; };

  const double top = room.y + 12 * mm, wide = 16 * mm;
  canvas.line({room.x, top}, {room.x + room.w, top}, {1.0});
  canvas.line({room.x, top + wide}, {room.x + room.w, top + wide}, {1.0});
  // Millimetres along the upper edge and sixteenths of an inch along the lower, both counted from the rear reading.
  for (int i = -300; i <= 300; ++i) {
    const double x = at(i * mm);
    if (fits(x)) canvas.line({x, top}, {x, top + (i % 10 == 0 ? 4.5 : i % 5 == 0 ? 3.4 : 2.2) * mm}, {0.35});
    if (fits(x) && i % 10 == 0 && i != 0 && fits(x - 3 * mm) && fits(x + 3 * mm))
      canvas.label({x, top + 6 * mm}, std::to_string(std::abs(i)), {6});
    const double s = at(i * 25.4 * mm / 16);
    if (fits(s - 3 * mm) && fits(s + 3 * mm) && i % 16 == 0 && i != 0)
      canvas.label({s, top + wide - 6 * mm}, std::to_string(std::abs(i / 16)), {6});
    if (fits(s))
      canvas.line({s, top + wide},
                  {s, top + wide -
                          (i % 16 == 0  ? 4.5
                           : i % 4 == 0 ? 3.4
                           : i % 2 == 0 ? 2.4
                                        : 1.5) *
                              mm},
                  {0.35});
  }
  const double b0 = std::clamp(at(band_high), room.x, room.x + room.w),
               b1 = std::clamp(at(band_low), room.x, room.x + room.w);
  canvas.hatch({{b0, top + wide * 0.5}, {b1, top + wide * 0.5}, {b1, top + wide * 0.72}, {b0, top + wide * 0.72}},
               1 * mm, {0.4, 0.2});
  canvas.rect({b0, top + wide * 0.5, b1 - b0, wide * 0.22}, {0.5});

  // Marks: the rear reading, the front one now, and where the front one should fall. A name stands on the side
  // of its mark that looks away from the target.
  const auto name_at = [&](double x, double y, const std::string& name, const TextStyle& style, double away) {
    const double w = canvas.text_width(name, style);
    const double left = away < 0 ? x - w - 1.2 * mm : away > 0 ? x + 1.2 * mm : x - w / 2;
    canvas.text({std::clamp(left, room.x, std::max(room.x, room.x + room.w - w)), y}, -1, name, style);
  };
  const double foot = top + wide;
  if (fits(at(now))) {
    canvas.line({at(now), top}, {at(now), foot + 3.5 * mm}, {0.8, 0.0, 2.0});
    name_at(at(now), foot + 1.2 * mm, given.line("sheet-tape-now"), {8}, at(now) < at(goal) ? -1 : 1);
  }
  canvas.line({at(0), top - 5 * mm}, {at(0), foot}, {1.0});
  // Clear of the target's arrow where the two fall together.
  const double rear_side = at(0) < at(goal) ? -1 : 1;
  const bool together = std::abs(at(goal) - at(0)) < 3 * mm;
  name_at(together ? at(goal) + rear_side * 1.6 * mm : at(0), top - 6 * mm, given.line("sheet-tape-rear"), {8},
          rear_side);
  canvas.line({at(goal), top}, {at(goal), foot}, {2.0});
  canvas.fill({{at(goal) - 2 * mm, top - 4 * mm}, {at(goal) + 2 * mm, top - 4 * mm}, {at(goal), top}});
  name_at(at(goal), room.y, given.line("sheet-tape-target"), {10, true}, 0);

  double y = foot + 6 * mm;
  y += canvas.text({room.x, y}, room.w,
                   given.line(target.si() < 0 ? "sheet-tape-more" : "sheet-tape-less") + " " +
                       bold(given.computed(abs(target))) + ".",
                   {10});
  y += canvas.text({room.x, y + 0.5 * mm}, room.w,
                   given.line("sheet-tape-caption") + " " + given.line("sheet-tape-scales"), {7.2}) +
       0.5 * mm;
  return y - room.y;
}

double draw_flats(Canvas& canvas, const Box& room, const AlignTurn& turn, int flats, const std::string& counted) {
  // Turns beyond the first run outside it and take room.
  const double across = 23 * mm, beyond = 2.2 * mm * std::min(3.0, std::floor(std::abs(turn.flats) / flats + 1e-6));
  const Point c{room.x + room.w / 2, room.y + 26 * mm + beyond};
  const std::vector<Point> nut = nut_outline(c, across, flats);
  canvas.polyline(nut, true, {1.4});
  canvas.label(c, counted, {17, true});
  // Paint mark on the upper flat, and a tick for each flat that passes it.
  canvas.fill({{c.x - 2.4 * mm, c.y - across / 2 + 1.8 * mm},
               {c.x + 2.4 * mm, c.y - across / 2 + 1.8 * mm},
               {c.x, c.y - across / 2 + 0.2 * mm}});
  const double count = std::abs(turn.flats), step = 2 * M_PI / flats, radius = across / 2 + 5.5 * mm;
  const int whole = static_cast<int>(std::floor(count + 1e-6));
  const double sweep = count * step;
  // Turns beyond the first run outside the one before, so that each is seen.
  std::vector<Point> spiral;
  const auto on_spiral = [&](double a) {
    const double r = radius + 2.2 * mm * std::min(a / (2 * M_PI), 3.0);
    return Point{c.x + r * std::sin(a), c.y - r * std::cos(a)};
  };
  const int parts = std::max(8, static_cast<int>(sweep / 0.08));
  for (int i = 0; i <= parts; ++i) spiral.push_back(on_spiral(sweep * i / parts));
  canvas.polyline(spiral, false, {1.2});
  for (int i = 0; i <= whole && i <= 4 * flats; ++i) {
    const Point p = on_spiral(i * step);
    canvas.disc(p, 0.8 * mm);
    if (i > 0 && i <= flats) {
      const double r = radius + 5.8 * mm + beyond;
      canvas.label({c.x + r * std::sin(i * step), c.y - r * std::cos(i * step)}, std::to_string(i), {8, i == whole});
    }
  }
  // The part gets longer or shorter: two ends moving apart or together under the nut.
  const double y = c.y + across / 2 + 19.5 * mm + beyond, half = 17 * mm;
  const bool longer = turn.flats > 0;
  canvas.rect({c.x - 7 * mm, y - 2.4 * mm, 14 * mm, 4.8 * mm}, {1.0});
  for (const double s : {-1.0, 1.0}) {
    canvas.rect({std::min(c.x + s * 7 * mm, c.x + s * half), y - 1 * mm, half - 7 * mm, 2 * mm}, {0.7});
    canvas.circle({c.x + s * (half + 2 * mm), y}, 2 * mm, {0.7});
    const double from = longer ? half + 5 * mm : half + 11 * mm, to = longer ? half + 11 * mm : half + 5 * mm;
    canvas.line({c.x + s * from, y}, {c.x + s * to, y}, {1.0});
    canvas.arrow_head({c.x + s * to, y}, (longer ? (s > 0 ? 0 : M_PI) : (s > 0 ? M_PI : 0)), 2.4 * mm);
  }
  return y + 4 * mm - room.y;
}

}  // namespace trammel::sheets
