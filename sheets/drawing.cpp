#include "sheets/drawing.h"

#include "assess/fitted_cart.h"
#include "sheets/layout.h"
#include "sheets/picture.h"

namespace trammel {
namespace {

using sheets::Picture;

// What was asked for: one curve, the map, the elevations alone in a file of one drawing, or everything.
std::vector<Picture> asked_for(const sheets::AxleShown& shown, const DrawingAsked& asked, const sheets::Words& words) {
  std::vector<Picture> all;
  const bool whole = asked.curve.empty() && !asked.map;
  if (whole) all.push_back(elevation_picture(shown, words));
  for (const TravelCurve& c : shown.curves)
    if (whole ? !asked.svg : c.name == asked.curve) all.push_back(curve_picture(c, words));
  if (asked.map || (whole && !asked.svg))
    if (auto map = map_picture(shown, words)) all.push_back(std::move(*map));
  return all;
}

Message why_nothing(const DrawingAsked& asked, const std::optional<sheets::AxleShown>& shown) {
  if (!shown) return {"drawing-nothing", {{"axle", asked.axle}}};
  if (asked.map) return {"drawing-no-map", {{"axle", asked.axle}}};
  std::string has;
  for (const TravelCurve& c : shown->curves)
    if (c.side != "right") has += (has.empty() ? "" : ", ") + c.name;
  return {"drawing-no-curve", {{"curve", asked.curve}, {"axle", asked.axle}, {"curves", has}}};
}

}  // namespace

Drawing draw_axle(const Job& job, const Assessment& assessment, const DrawingAsked& asked,
                  const SheetOptions& options) {
  const sheets::Words words(options);
  const auto shown = sheets::axle_shown(job, fitted_cart(job), assessment, asked.axle);
  const std::vector<Picture> pictures = shown ? asked_for(*shown, asked, words) : std::vector<Picture>{};
  Drawing drawing;
  if (pictures.empty()) {
    drawing.why_not = why_nothing(asked, shown);
    return drawing;
  }
  if (asked.svg) {
    // Both wheels' curves where they differ, one below the other; what is told is the first one's.
    const sheets::Draw draw = [&](sheets::Canvas& canvas, const sheets::Box& room) {
      double y = room.y;
      for (const Picture& p : pictures) y += p.draw(canvas, {room.x, y, room.w, room.h}) + 4 * sheets::mm;
      return y - room.y;
    };
    drawing.bytes = sheets::svg(draw, sheets::size_of(options.paper).w, pictures.front().title, pictures.front().told);
    return drawing;
  }
  sheets::Book book = sheets::new_book(job, words, options, "sheet-title-geometry");
  for (const Picture& p : pictures) book.block(p.draw, 6 * sheets::mm);
  drawing.bytes = book.pdf(job.name.value + ", " + asked.axle, sheets::pdf_date(job));
  drawing.pages = book.pages();
  return drawing;
}

}  // namespace trammel
