#include "sheets/gap_map.h"

#include <algorithm>
#include <cmath>

namespace trammel::sheets {
namespace {

constexpr double ring = 3 * mm;

std::string in_mm(Length l) { return std::to_string(static_cast<int>(std::lround(l.si() * 1000))); }

}  // namespace

int worst_cell(const GapMap& map) {
  int worst = -1;
  for (std::size_t i = 0; i < map.cells.size(); ++i)
    if (map.cells[i].gap && (worst < 0 || *map.cells[i].gap < *map.cells[static_cast<std::size_t>(worst)].gap))
      worst = static_cast<int>(i);
  return worst;
}

double draw_gap_map(Canvas& canvas, const Words& words, const Box& room, const GapMap& map, Length wanted) {
  const int columns = static_cast<int>(map.steers.size()), rows = static_cast<int>(map.rises.size());
  if (columns == 0 || rows == 0) return 0;
  const auto cell_at = [&](int row, int column) -> const GapMap::Cell& {
    return map.cells[static_cast<std::size_t>(row) * map.steers.size() + static_cast<std::size_t>(column)];
  };
  const double left = 9 * mm, foot = 16 * mm, w = room.w - left - 1 * mm, h = 56 * mm;
  double y0 =
      room.y +
      canvas.text({room.x, room.y}, room.w,
                  escape(begun(words("sheet-clearance-map", {{"side", words.of("side", map.side)}}))), {9.5, true}) +
      2 * mm;
  const Box field{room.x + left, y0, w, h};
  const double cw = w / columns, ch = h / rows;
  // A turn to the left lies to the left.
  const auto cell_box = [&](int row, int column) {
    return Box{field.x + (columns - 1 - column) * cw, field.y + (rows - 1 - row) * ch, cw, ch};
  };
  for (int i = 0; i < rows; ++i)
    for (int j = 0; j < columns; ++j) {
      const auto& cell = cell_at(i, j);
      const Box b = cell_box(i, j);
      const std::vector<Point> outline{{b.x, b.y}, {b.x + b.w, b.y}, {b.x + b.w, b.y + b.h}, {b.x, b.y + b.h}};
      if (!cell.gap)
        canvas.line({b.x, b.y}, {b.x + b.w, b.y + b.h}, {0.3, 0.4});
      else if (cell.gap->si() < 0)
        canvas.fill(outline);
      else if (*cell.gap < wanted)
        canvas.hatch(outline, 1.3 * mm, {0.4, 0.1});
    }
  // The line at the wanted gap, between cells on its two sides.
  const auto near = [&](int i, int j) {
    const auto& gap = cell_at(i, j).gap;
    return gap && *gap < wanted;
  };
  for (int i = 0; i < rows; ++i)
    for (int j = 0; j < columns; ++j) {
      const Box b = cell_box(i, j);
      if (j + 1 < columns && near(i, j) != near(i, j + 1)) canvas.line({b.x, b.y}, {b.x, b.y + b.h}, {1.2});
      if (i + 1 < rows && near(i, j) != near(i + 1, j)) canvas.line({b.x, b.y}, {b.x + b.w, b.y}, {1.2});
    }
  for (int i = 2; i < rows; i += 4)
    for (int j = 2; j < columns; j += 4) {
      const auto& cell = cell_at(i, j);
      const Box b = cell_box(i, j);
      const int least = worst_cell(map);
      const bool under = least >= 0 && std::abs(least / columns - i) * ch < 2 * ring &&
                         std::abs(least % columns - j) * cw < 2.2 * ring;
      if (cell.gap && !under)
        canvas.label({b.x + b.w / 2, b.y + b.h / 2}, in_mm(*cell.gap), {8, *cell.gap < wanted}, true);
    }
  canvas.rect(field, {1.0});
  // The pose where it is least.
  const int least = worst_cell(map);
  if (least >= 0) {
    const Box b = cell_box(least / columns, least % columns);
    const Length gap = *map.cells[static_cast<std::size_t>(least)].gap;
    const Point middle{std::clamp(b.x + b.w / 2, field.x + ring, field.x + w - ring),
                       std::clamp(b.y + b.h / 2, field.y + ring, field.y + h - ring)};
    canvas.disc(middle, ring, 1.0);
    canvas.circle(middle, ring, {1.2});
    canvas.label(middle, in_mm(gap), {7.5, true});
  }
  // Axes.
  for (const int i : {0, (rows - 1) / 2, rows - 1}) {
    const Box b = cell_box(i, 0);
    canvas.text({room.x, b.y + b.h / 2 - 1.6 * mm}, left - 2 * mm, in_mm(map.rises[static_cast<std::size_t>(i)]),
                {8, false, Align::right});
  }
  for (const int j : {0, (columns - 1) / 4, (columns - 1) / 2, 3 * (columns - 1) / 4, columns - 1}) {
    const Box b = cell_box(0, j);
    const int degrees =
        static_cast<int>(std::lround(std::abs(map.steers[static_cast<std::size_t>(j)].in(units::degree))));
    canvas.label({std::clamp(b.x + b.w / 2, field.x + 3 * mm, field.x + w - 3 * mm), field.y + h + 2.4 * mm},
                 std::to_string(degrees), {8});
  }
  canvas.text({field.x, field.y + h + 4.6 * mm}, w, escape(words("sheet-clearance-axes")), {7.6});
  return y0 + h + foot - room.y;
}

}  // namespace trammel::sheets
