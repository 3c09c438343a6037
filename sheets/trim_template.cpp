#include "sheets/trim_template.h"

#include <cairo.h>

#include <algorithm>
#include <cmath>

namespace trammel::sheets {
namespace {

constexpr double head = 24 * mm;         // over the field: what it is, the bar, which sheet
constexpr double lap = 0.010;            // m
constexpr double beyond_cut = 0.045;     // m of lip shown past the ends of the cut, to lay the sheet by
constexpr double full_size = 1000 * mm;  // points a metre

struct Shown {
  std::size_t first = 0, last = 0;  // of the lip's places
};
Shown shown(const TrimResult& t) {
  Shown s{t.lip.size(), 0};
  for (std::size_t i = 0; i < t.lip.size(); ++i)
    if (t.lip[i].x != t.cut[i].x || t.lip[i].y != t.cut[i].y) {
      s.first = std::min(s.first, i);
      s.last = i;
    }
  const auto apart = [&](std::size_t a, std::size_t b) {
    return std::hypot((t.lip[a].x - t.lip[b].x).si(), (t.lip[a].y - t.lip[b].y).si());
  };
  const Shown cut = s;
  while (s.first > 0 && apart(s.first, cut.first) < beyond_cut) --s.first;
  while (s.last + 1 < t.lip.size() && apart(s.last, cut.last) < beyond_cut) ++s.last;
  return s;
}

std::string name_of(const TemplateTiles::Tile& tile) {
  return std::string(1, static_cast<char>('A' + tile.column % 26)) + std::to_string(tile.row + 1);
}

// The name stands on the side of the cross that looks to the middle of the sheet.
void draw_cross(Canvas& canvas, Point at, const std::string& name, bool at_left) {
  canvas.line({at.x - 4 * mm, at.y}, {at.x + 4 * mm, at.y}, {0.5});
  canvas.line({at.x, at.y - 4 * mm}, {at.x, at.y + 4 * mm}, {0.5});
  canvas.circle(at, 2 * mm, {0.5});
  const double away = 2.6 * mm, wide = canvas.text_width(name, {7});
  canvas.text({at_left ? at.x + away : at.x - away - wide, at.y + 0.6 * mm}, -1, name, {7});
}

// The sheets as they lie together, this one filled.
void draw_where(Canvas& canvas, const TemplateTiles& tiles, const TemplateTiles::Tile& here, Point at) {
  constexpr double w = 4.2 * mm, h = 5.4 * mm;
  for (const auto& t : tiles.tiles) {
    const Box b{at.x + t.column * w, at.y + t.row * h, w, h};
    if (t.column == here.column && t.row == here.row)
      canvas.fill({{b.x, b.y}, {b.x + b.w, b.y}, {b.x + b.w, b.y + b.h}, {b.x, b.y + b.h}});
    canvas.rect(b, {0.6});
  }
}

}  // namespace

TemplateTiles tiles_of(const TrimResult& trim, double field_width, double field_height) {
  TemplateTiles t;
  t.width = field_width, t.height = field_height, t.lap = lap;
  const Shown s = shown(trim);
  if (s.first >= trim.lip.size()) return t;
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  for (std::size_t i = s.first; i <= s.last; ++i)
    for (const PanelPoint& p : {trim.lip[i], trim.cut[i]}) {
      x0 = std::min(x0, p.x.si()), x1 = std::max(x1, p.x.si());
      y0 = std::min(y0, p.y.si()), y1 = std::max(y1, p.y.si());
    }
  // Room for the marks at the outer edge, and the whole in the middle of its sheets.
  const double margin = 0.012, wide = x1 - x0 + 2 * margin, high = y1 - y0 + 2 * margin;
  const auto count = [](double size, double field) {
    return std::max(1, static_cast<int>(std::ceil((size - lap) / (field - lap) - 1e-9)));
  };
  t.columns = count(wide, field_width);
  t.rows = count(high, field_height);
  const double all_wide = t.columns * (field_width - lap) + lap, all_high = t.rows * (field_height - lap) + lap;
  t.left = 0.5 * (x0 + x1) - 0.5 * all_wide;
  t.top = 0.5 * (y0 + y1) + 0.5 * all_high;
  for (int row = 0; row < t.rows; ++row)
    for (int column = 0; column < t.columns; ++column) {
      const double left = t.left + column * (field_width - lap), top = t.top - row * (field_height - lap);
      bool something = false;
      for (std::size_t i = s.first; i <= s.last && !something; ++i)
        for (const PanelPoint& p : {trim.lip[i], trim.cut[i]})
          something |=
              p.x.si() >= left && p.x.si() <= left + field_width && p.y.si() <= top && p.y.si() >= top - field_height;
      if (something) t.tiles.push_back({column, row});
    }
  return t;
}

void lay_template(const Given& given, Book& book, const TrimResult& trim) {
  const double field_w = book.width(), field_h = book.body_height() - head;
  const TemplateTiles tiles = tiles_of(trim, field_w / full_size, field_h / full_size);
  const Shown part = shown(trim);
  const std::string side = given.words.of("side", trim.side);
  for (std::size_t n = 0; n < tiles.tiles.size(); ++n) {
    const TemplateTiles::Tile tile = tiles.tiles[n];
    book.new_page_if_begun();
    book.block([=, &given, &trim](Canvas& canvas, const Box& room) {
      // Head: what to do, the bar that proves the scale, where this sheet lies.
      canvas.text({room.x, room.y}, room.w * 0.62,
                  given.line("sheet-template-title", {{"curve", trim.curve}, {"side", side}, {"sheet", name_of(tile)}}),
                  {12, true});
      canvas.text({room.x, room.y + 6 * mm}, room.w * 0.62,
                  given.line("sheet-template-how",
                             {{"cut", given.words.print(trim.deepest)}, {"u", given.words.print(trim.u)}}),
                  {7.6});
      draw_true_bar(canvas, {room.x + room.w * 0.66, room.y + 6 * mm}, 50 * mm, 10 * mm,
                    given.line("sheet-template-bar"));
      draw_where(canvas, tiles, tile, {room.x + room.w - 4.2 * mm * tiles.columns, room.y + 9 * mm});

      const Box field{room.x, room.y + head, field_w, field_h};
      const double left = tiles.left + tile.column * (tiles.width - tiles.lap),
                   top = tiles.top - tile.row * (tiles.height - tiles.lap);
      const auto at = [&](const PanelPoint& p) {
        return Point{field.x + (p.x.si() - left) * full_size, field.y + (top - p.y.si()) * full_size};
      };
      cairo_t* cairo = canvas.cairo();
      cairo_save(cairo);
      cairo_rectangle(cairo, field.x, field.y, field.w, field.h);
      cairo_clip(cairo);
      const auto within = [&](Point p) {
        return p.x > field.x + 4 * mm && p.x < field.x + field.w - 4 * mm && p.y > field.y + 4 * mm &&
               p.y < field.y + field.h - 4 * mm;
      };

      // What must not be cut, hatched.
      for (const BehindPanel& k : trim.keep_outs) {
        std::vector<Point> outline;
        for (const PanelPoint& p : k.outline) outline.push_back(at(p));
        canvas.hatch(outline, 2.4 * mm, {0.5, 0.25});
        canvas.polyline(outline, true, {0.8});
      }
      // Lip and cut.
      std::vector<Point> lip, cut;
      for (std::size_t i = part.first; i <= part.last; ++i) {
        lip.push_back(at(trim.lip[i]));
        cut.push_back(at(trim.cut[i]));
      }
      canvas.polyline(lip, false, {0.7, 0.0, 3.0});
      // Thick only where something is cut off: elsewhere the lip stays.
      std::vector<Point> run;
      for (std::size_t i = 0; i <= cut.size(); ++i) {
        const bool goes = i < cut.size() && std::hypot(lip[i].x - cut[i].x, lip[i].y - cut[i].y) > 0.05 * mm;
        if (goes && run.empty() && i > 0) run.push_back(cut[i - 1]);
        if (goes) run.push_back(cut[i]);
        if (goes || run.empty()) continue;
        if (i < cut.size()) run.push_back(cut[i]);
        canvas.polyline(run, false, {2.0});
        run.clear();
      }
      std::vector<Point> cut_only;
      for (std::size_t i = 0; i < cut.size(); ++i)
        if (std::hypot(lip[i].x - cut[i].x, lip[i].y - cut[i].y) > 2 * mm) cut_only.push_back(cut[i]);
      // A short stroke across the cut each 20 mm or so, on the side of the piece that goes.
      for (std::size_t i = 0; i < lip.size(); i += 2) {
        const double dx = lip[i].x - cut[i].x, dy = lip[i].y - cut[i].y, l = std::hypot(dx, dy);
        if (l > 2 * mm) canvas.line(cut[i], {cut[i].x + 2 * mm * dx / l, cut[i].y + 2 * mm * dy / l}, {0.8});
      }
      // Each line is named once a sheet, where it lies well inside and apart from the other.
      const auto name_line = [&](const std::vector<Point>& line, const char* code, double away, bool middle) {
        std::size_t best = line.size();
        const std::size_t from = line.size() / 2;
        for (std::size_t k = 0; k < line.size(); ++k) {
          const std::size_t i = middle ? (k % 2 ? from + (k + 1) / 2 : from - k / 2) : k;
          if (i >= line.size()) continue;
          const Point p{line[i].x, line[i].y + away};
          if (within(p) && p.x > field.x + 20 * mm && p.x < field.x + field.w - 20 * mm) {
            best = i;
            break;
          }
        }
        if (best < line.size()) canvas.label({line[best].x, line[best].y + away}, given.line(code), {9, true}, true);
      };
      name_line(cut_only, "sheet-template-cut", -5 * mm, true);
      name_line(lip, "sheet-template-lip", 5 * mm, true);
      for (const BehindPanel& k : trim.keep_outs) {
        Point middle{0, 0};
        int inside = 0;
        for (const PanelPoint& p : k.outline)
          if (within(at(p))) middle.x += at(p).x, middle.y += at(p).y, ++inside;
        if (inside == 0) continue;
        const std::string what =
            given.line("sheet-template-keep-out", {{"what", k.name}, {"behind", given.words.print(k.behind)}});
        const double half = canvas.text_width(what, {9, true}) / 2 + 2 * mm;
        canvas.label({std::clamp(middle.x / inside, field.x + half, field.x + field.w - half), middle.y / inside}, what,
                     {9, true}, true);
      }
      cairo_restore(cairo);
      canvas.rect(field, {0.3, 0.4});

      // Marks in the laps, at the same places of the panel on every sheet that shows them.
      for (const int i : {0, 1})
        for (const int j : {0, 1}) {
          const double x = tiles.left + (tile.column + i) * (tiles.width - tiles.lap) + 0.5 * tiles.lap,
                       y = tiles.top - (tile.row + j) * (tiles.height - tiles.lap) - 0.5 * tiles.lap;
          draw_cross(canvas, at({Length::from_si(x), Length::from_si(y)}), name_of({tile.column + i, tile.row + j}),
                     i == 0);
        }
      // Which way the cart looks, seen from outside.
      const double way = trim.side == "left" ? -1 : 1, fx = field.x + field.w / 2, fy = field.y + field.h - 6 * mm;
      canvas.line({fx - 10 * mm, fy}, {fx + 10 * mm, fy}, {1.2});
      canvas.arrow_head({fx + way * 12 * mm, fy}, way > 0 ? 0 : M_PI, 4 * mm);
      canvas.label({fx, fy - 3.4 * mm}, given.line("sheet-template-front"), {8}, true);
      return room.h;
    });
  }
}

}  // namespace trammel::sheets
