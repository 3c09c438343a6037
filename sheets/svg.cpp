#include <cairo-svg.h>

#include "sheets/surface.h"

namespace trammel::sheets {
namespace {

constexpr double border = 6 * mm;

}  // namespace

std::string svg(const Draw& draw, double width, const std::string& title,
                const std::function<std::string(const Box& room)>& told) {
  const Box room{border, border, width - 2 * border, 247 * mm};  // as high as a page's body
  const double height = measure(draw, room) + 2 * border;
  std::string bytes;
  const Surface surface(cairo_svg_surface_create_for_stream(append, &bytes, width, height));
  const Cairo cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  Canvas canvas(cairo.get());
  draw(canvas, room);
  cairo_surface_finish(surface.get());

  // Cairo has no place for a title: it goes first inside the root.
  const std::size_t root = bytes.find("<svg"), inside = bytes.find('>', root);
  if (inside != std::string::npos)
    bytes.insert(inside + 1, "\n<title>" + escape(title) + "</title>\n<desc>" + escape(told(room)) + "</desc>");
  return bytes;
}

}  // namespace trammel::sheets
