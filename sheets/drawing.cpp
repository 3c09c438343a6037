#include "sheets/drawing.h"

#include "job/overlay.h"
#include "sheets/elevation.h"
#include "sheets/layout.h"
#include "sheets/picture.h"

namespace trammel {
namespace sheets {
namespace {

// Nothing where both lie alike.
bool alike(const AxleOutline& a, const AxleOutline& b) {
  if (a.parts.size() != b.parts.size() || a.ground != b.ground || a.loaded_radius != b.loaded_radius) return false;
  for (std::size_t i = 0; i < a.parts.size(); ++i)
    if (a.parts[i].what != b.parts[i].what || a.parts[i].line != b.parts[i].line) return false;
  const auto size = [](const AxleOutline& o) {
    return o.tyre ? std::pair(o.tyre->radius, o.tyre->width) : std::pair(Length{}, Length{});
  };
  return size(a) == size(b);
}

Picture elevation(const AxleOutline& now, const std::optional<AxleOutline>& stock, const Words& words) {
  Picture p;
  p.name = "elevation";
  p.title = words("drawing-elevation", {{"axle", words("drawing-axle-" + now.axle)}});
  p.draw = [&words, now, stock](Canvas& canvas, const Box& room) {
    return draw_elevations(canvas, room, words, now, stock);
  };
  p.told = [now, stock](const Box& room) { return elevations_told(place_elevations(room, now, stock)); };
  return p;
}

}  // namespace

std::vector<Picture> axle_pictures(const Job& job, const Cart& now, const Assessment&, const std::string& axle,
                                   const Words& words) {
  std::vector<Picture> all;
  const auto outline = axle_outline(now, axle);
  if (!outline) return all;
  auto stock = axle_outline(job.cart, axle);
  if (stock && alike(*outline, *stock)) stock.reset();
  all.push_back(elevation(*outline, stock, words));
  return all;
}

}  // namespace sheets

Drawing draw_axle(const Job& job, const Assessment& assessment, const DrawingAsked& asked,
                  const SheetOptions& options) {
  const sheets::Words words(options);
  const Cart now = sheets::cart_after(job);
  const auto pictures = sheets::axle_pictures(job, now, assessment, asked.axle, words);
  Drawing drawing;
  if (pictures.empty()) {
    drawing.why_not = Message{"drawing-nothing", {{"axle", asked.axle}}};
    return drawing;
  }
  if (asked.svg) {
    drawing.bytes = sheets::svg(pictures.front().draw, sheets::size_of(options.paper).w, pictures.front().title,
                                pictures.front().told);
    return drawing;
  }
  sheets::Book book = sheets::new_book(job, words, options, "sheet-title-geometry");
  for (const sheets::Picture& p : pictures) book.block(p.draw);
  drawing.bytes = book.pdf(job.name.value + ", " + asked.axle, sheets::pdf_date(job));
  drawing.pages = book.pages();
  return drawing;
}

}  // namespace trammel
