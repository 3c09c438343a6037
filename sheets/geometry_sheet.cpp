// The geometry sheet: how each axle lies, how its wheels move, and in numbers what the kits changed.
#include <algorithm>
#include <cmath>

#include "sheets/picture.h"
#include "sheets/room.h"

namespace trammel::sheets {
namespace {

constexpr TextStyle column{7.5, true}, plain{8};

// What is drawn as a curve on the sheet, the first that the axle has; all of them are in `trammel travel --draw`.
const std::vector<std::string> drawn_curve = {"toe", "axle-steer"};
constexpr std::size_t most_limits = 8;

// Widths of what, stock, now, difference or margin, limit.
struct Row {
  std::string what, stock, now, difference, limit;
  std::optional<Outcome> outcome;
};

double draw_row(Canvas& canvas, const Box& room, const Row& row, const TextStyle& style) {
  const double gate = 5 * mm, first = 0.31 * room.w, rest = (room.w - first) / 4;
  if (row.outcome) draw_gate(canvas, {room.x, room.y + 0.3 * mm}, 3.2 * mm, *row.outcome);
  double h = canvas.text({room.x + gate, room.y}, first - gate - 2 * mm, row.what, style);
  double x = room.x + first;
  for (const std::string* text : {&row.stock, &row.now, &row.difference, &row.limit}) {
    h = std::max(h, canvas.text({x, room.y}, rest - 1.5 * mm, *text, style));
    x += rest;
  }
  return h + 0.8 * mm;
}

const CurvePoint* at_rest(const std::vector<CurvePoint>& line) {
  const CurvePoint* nearest = nullptr;
  for (const CurvePoint& p : line)
    if (!nearest || abs(p.rise) < abs(nearest->rise)) nearest = &p;
  return nearest;
}

std::vector<Row> rows_at_rest(const Given& given, const AxleShown& shown) {
  std::vector<Row> rows;
  const auto text = [&](const TravelCurve& c, const std::vector<CurvePoint>& line) {
    const CurvePoint* p = at_rest(line);
    return p ? escape(given.words.brief(Number{c.kind, p->value, p->u})) : std::string("–");
  };
  for (const TravelCurve& c : shown.curves) {
    // A rigid axle's own shifts are counted from where it stands at rest.
    if (c.side == "axle") continue;
    // The right wheel only where it stands otherwise.
    const auto as_left = [&](const TravelCurve& left) {
      return left.side == "left" && left.name == c.name &&
             std::abs(at_rest(left.now)->value - at_rest(c.now)->value) < 1e-9;
    };
    if (c.side == "right" && std::any_of(shown.curves.begin(), shown.curves.end(), as_left)) continue;
    std::string what = given.line("drawing-row-" + c.name);
    if (c.side == "right") what += ", " + given.line("drawing-right-wheel");
    rows.push_back({what, text(c, c.stock), text(c, c.now), text(c, c.difference), {}, {}});
  }
  return rows;
}

// The limits of this axle's geometry, the worst first.
std::vector<Row> rows_of_limits(const Given& given, const std::string& axle) {
  static const std::vector<std::string> codes = {"bump-steer",    "axle-sideways",  "axle-swing", "axle-turned",
                                                 "joint-angle",   "shackle-angle",  "axle-leans", "track-bar-shift",
                                                 "bump-stop-gap", "bump-stop-late", "line-slack"};
  std::vector<const Finding*> found;
  for (const Finding& f : given.assessment.findings)
    if (f.limit && f.value && f.subject.starts_with(axle) &&
        std::find(codes.begin(), codes.end(), f.message.code) != codes.end())
      found.push_back(&f);
  const auto weight = [](const Finding* f) { return -static_cast<int>(f->outcome); };
  std::stable_sort(found.begin(), found.end(), [&](auto* a, auto* b) { return weight(a) < weight(b); });
  std::vector<Row> rows;
  for (const Finding* f : found) {
    if (rows.size() == most_limits) break;
    Number limit = *f->limit;
    limit.u.reset();
    rows.push_back({given.line("limit-" + f->message.code) + ", " + escape(f->subject),
                    f->before ? escape(given.words.brief(*f->before)) : "–",
                    escape(given.words.brief(*f->value)),
                    {},
                    (f->sense == Finding::Sense::at_most ? "≤ " : "≥ ") + escape(given.words.brief(limit)),
                    f->outcome});
  }
  return rows;
}

double draw_table(Canvas& canvas, const Given& given, const Box& room, const AxleShown& shown) {
  canvas.rule(room, 0.8);
  double y = room.y + 1.5 * mm;
  y += draw_row(canvas, {room.x, y, room.w, 0},
                {given.line("drawing-table-what"),
                 given.line("drawing-table-stock"),
                 given.line("drawing-table-now"),
                 given.line("drawing-table-difference"),
                 given.line("drawing-table-limit"),
                 {}},
                column);
  const Length up = shown.stock ? shown.stock->ground - shown.now.ground : Length{};
  if (shown.stock)
    y += draw_row(canvas, {room.x, y, room.w, 0},
                  {given.line("drawing-row-body-up"), "–", "–", escape(given.words.brief(number(up))), {}, {}}, plain);
  for (const Row& row : rows_at_rest(given, shown)) y += draw_row(canvas, {room.x, y, room.w, 0}, row, plain);
  for (const Row& row : rows_of_limits(given, shown.axle)) y += draw_row(canvas, {room.x, y, room.w, 0}, row, plain);
  return y - room.y + 1 * mm;
}

void lay_axle(const Given& given, Book& book, const AxleShown& shown) {
  book.new_page_if_begun();
  book.block(elevation_picture(shown, given.words).draw);
  book.block([&given, shown](Canvas& c, const Box& room) { return draw_table(c, given, room, shown); });
  for (const std::string& name : drawn_curve)
    for (const TravelCurve& c : shown.curves)
      if (c.name == name) return book.block(curve_picture(c, given.words).draw);
}

}  // namespace

bool has_geometry(const Given& given) {
  for (const char* axle : {"front", "rear"})
    if (axle_outline(given.cart_after, axle)) return true;
  return false;
}

void lay_geometry_sheet(const Given& given, Book& book) {
  for (const char* axle : {"front", "rear"})
    if (const auto shown = axle_shown(given.job, given.cart_after, given.assessment, axle))
      lay_axle(given, book, *shown);
}

}  // namespace trammel::sheets
