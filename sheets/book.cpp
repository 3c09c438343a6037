#include <cairo-pdf.h>

#include <algorithm>

#include "sheets/page.h"
#include "sheets/surface.h"

namespace trammel::sheets {
namespace {

constexpr double margin = 12 * mm, punch_margin = 18 * mm;  // the left edge is punched or clipped
constexpr double head = 14 * mm, foot = 13 * mm;

}  // namespace

Book::Book(PaperSize size, Furniture furniture) : size_(size), furniture_(std::move(furniture)) {
  inside_ = {punch_margin, margin, size.w - punch_margin - margin, size.h - 2 * margin};
  body_ = {inside_.x, inside_.y + head, inside_.w, inside_.h - head - foot};
  new_page();
}

void Book::new_page() {
  pages_.emplace_back();
  y_ = 0;
}

void Book::new_page_if_begun() {
  if (y_ > 0) new_page();
}

double Book::left_on_page() const { return body_.h - y_; }

void Book::place(Placed placed) {
  if (y_ > 0 && placed.height > left_on_page()) {
    // Headings at the page's foot go over with what they head, unless the page holds nothing else.
    std::vector<Placed>& page = pages_.back();
    auto first = page.end();
    while (first != page.begin() && std::prev(first)->heading) --first;
    double over = placed.height;
    for (auto it = first; it != page.end(); ++it) over += it->height + it->gap_after;
    std::vector<Placed> moved;
    if (first != page.begin() && over <= body_.h) {
      moved.assign(first, page.end());
      page.erase(first, page.end());
    }
    new_page();
    for (Placed& heading : moved) place(std::move(heading));
  }
  placed.room = {body_.x, body_.y + y_, body_.w, body_.h};
  y_ += placed.height + placed.gap_after;
  pages_.back().push_back(std::move(placed));
}

void Book::block(const Draw& draw, double gap_after) {
  Placed placed{draw, {}, 1.0, measure(draw, {body_.x, body_.y + y_, body_.w, body_.h}), gap_after, false};
  if (placed.height > body_.h) {
    // Wider by as much as it is drawn smaller, so it gets no higher than the page.
    placed.scale = body_.h / placed.height;
    placed.height = body_.h;
  }
  place(std::move(placed));
}

void Book::heading(const Draw& draw, double gap_after) {
  place({draw, {}, 1.0, measure(draw, {body_.x, body_.y + y_, body_.w, body_.h}), gap_after, true});
}

void Book::draw_page(Canvas& canvas, int page) const {
  // Head: what this is, whose it is.
  const double right = inside_.x + inside_.w;
  canvas.text({inside_.x, inside_.y - 1 * mm}, inside_.w * 0.5, furniture_.title, {17, true});
  canvas.text({inside_.x + inside_.w * 0.5, inside_.y}, inside_.w * 0.5, furniture_.job, {8.5, false, Align::right});
  canvas.line({inside_.x, inside_.y + head - 4 * mm}, {right, inside_.y + head - 4 * mm}, {1.4});

  for (const Placed& p : pages_[page]) {
    cairo_t* cairo = canvas.cairo();
    cairo_save(cairo);
    cairo_translate(cairo, p.room.x, p.room.y);
    cairo_scale(cairo, p.scale, p.scale);
    canvas.start_block(p.room.y == body_.y);
    p.draw(canvas, {0, 0, p.room.w / p.scale, p.room.h / p.scale});
    cairo_restore(cairo);
  }

  // Foot: the letters of the bases, the standing line, which page of how many.
  const double y = inside_.y + inside_.h - foot + 3 * mm;
  canvas.line({inside_.x, y}, {right, y}, {0.5});
  const double h = canvas.text({inside_.x, y + 1 * mm}, inside_.w - 28 * mm, furniture_.legend, {6.6});
  canvas.text({inside_.x, y + 1 * mm + h}, inside_.w - 28 * mm, furniture_.standing, {6.6});
  canvas.text({right - 26 * mm, y + 1 * mm}, 26 * mm, furniture_.page_of(page + 1, pages()), {10, true, Align::right});
}

std::string Book::pdf(const std::string& title, const std::string& date) const {
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, size_.w, size_.h));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, date.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
  const Cairo cairo(cairo_create(surface.get()));
  for (int page = 0; page < pages(); ++page) {
    Canvas canvas(cairo.get());
    draw_page(canvas, page);
    cairo_show_page(cairo.get());
  }
  cairo_surface_finish(surface.get());
  return bytes;
}

std::string Book::png(int page, double dots_per_inch) const {
  const double scale = dots_per_inch / 72.0;
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(size_.w * scale + 0.5),
                                                   static_cast<int>(size_.h * scale + 0.5)));
  const Cairo cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), scale, scale);
  Canvas canvas(cairo.get());
  draw_page(canvas, page);
  std::string bytes;
  cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  return bytes;
}

Box Book::ink(int page, std::vector<Box>* texts) const {
  // Drawn for real and looked at: what a recording says of its ink is rounded outward.
  constexpr double scale = 3.0;
  const int w = static_cast<int>(size_.w * scale), h = static_cast<int>(size_.h * scale);
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, w, h));
  const Cairo cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), scale, scale);
  Canvas canvas(cairo.get());
  draw_page(canvas, page);
  if (texts) *texts = canvas.texts();
  cairo_surface_flush(surface.get());
  const unsigned char* pixels = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  int left = w, right = 0, top = h, foot = 0;
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x)
      if (pixels[y * stride + 4 * x] < 192) {
        left = std::min(left, x), right = std::max(right, x + 1);
        top = std::min(top, y), foot = std::max(foot, y + 1);
      }
  return {left / scale, top / scale, (right - left) / scale, (foot - top) / scale};
}

}  // namespace trammel::sheets
