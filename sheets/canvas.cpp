#include <pango/pangocairo.h>

#include <cmath>
#include <memory>

#include "sheets/page.h"

namespace trammel::sheets {
namespace {

struct Unref {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

// Metrics that do not depend on the surface, so that a page breaks alike in PDF and picture.
Layout lay_out(cairo_t* cairo, double width, const std::string& markup, const TextStyle& style) {
  PangoLayout* layout = pango_cairo_create_layout(cairo);
  PangoContext* context = pango_layout_get_context(layout);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options);
  cairo_font_options_destroy(options);
  pango_cairo_context_set_resolution(context, 72.0);
  pango_context_set_round_glyph_positions(context, FALSE);  // a letter's place is not rounded to whole points

  PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans Condensed");
  pango_font_description_set_absolute_size(font, style.size * PANGO_SCALE);
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);

  pango_layout_set_markup(layout, markup.c_str(), -1);
  pango_layout_set_width(layout, width > 0 ? static_cast<int>(width * PANGO_SCALE) : -1);
  pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(layout, style.align == Align::left     ? PANGO_ALIGN_LEFT
                                     : style.align == Align::centre ? PANGO_ALIGN_CENTER
                                                                    : PANGO_ALIGN_RIGHT);
  return Layout(layout);
}

void use(cairo_t* cairo, const Pen& pen) {
  cairo_set_source_rgb(cairo, pen.ink, pen.ink, pen.ink);
  cairo_set_line_width(cairo, pen.width);
  const double with_dots[] = {pen.dash, pen.dot, pen.dot, pen.dot};
  if (pen.dot > 0)
    cairo_set_dash(cairo, with_dots, 4, 0);
  else if (pen.dash > 0)
    cairo_set_dash(cairo, &pen.dash, 1, 0);
  else
    cairo_set_dash(cairo, nullptr, 0, 0);
}

void trace(cairo_t* cairo, const std::vector<Point>& points, bool closed) {
  cairo_new_path(cairo);
  for (const Point& p : points) cairo_line_to(cairo, p.x, p.y);
  if (closed) cairo_close_path(cairo);
}

}  // namespace

std::string escape(const std::string& plain) {
  char* valid = g_utf8_make_valid(plain.c_str(), -1);
  char* escaped = g_markup_escape_text(valid, -1);
  std::string out(escaped);
  g_free(escaped);
  g_free(valid);
  return out;
}
std::string bold(const std::string& markup) { return "<b>" + markup + "</b>"; }
std::string small(const std::string& markup) { return "<span size=\"80%\">" + markup + "</span>"; }

double Canvas::text(Point at, double width, const std::string& markup, const TextStyle& style) {
  if (markup.empty()) return 0;
  const Layout layout = lay_out(cairo_, width, markup, style);
  cairo_set_source_rgb(cairo_, style.ink, style.ink, style.ink);
  cairo_move_to(cairo_, at.x, at.y);
  pango_cairo_show_layout(cairo_, layout.get());

  PangoRectangle ink, logical;
  pango_layout_get_extents(layout.get(), &ink, &logical);
  double x = at.x + ink.x / double(PANGO_SCALE), y = at.y + ink.y / double(PANGO_SCALE);
  double w = ink.width / double(PANGO_SCALE), h = ink.height / double(PANGO_SCALE);
  cairo_user_to_device(cairo_, &x, &y);
  cairo_user_to_device_distance(cairo_, &w, &h);
  if (w > 0 && h > 0) texts_.push_back({x, y, w, h});
  return logical.height / double(PANGO_SCALE);
}

double Canvas::text_height(double width, const std::string& markup, const TextStyle& style) const {
  if (markup.empty()) return 0;
  const Layout layout = lay_out(cairo_, width, markup, style);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return logical.height / double(PANGO_SCALE);
}

double Canvas::text_width(const std::string& markup, const TextStyle& style) const {
  const Layout layout = lay_out(cairo_, -1, markup, style);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return logical.width / double(PANGO_SCALE);
}

void Canvas::label(Point middle, const std::string& markup, const TextStyle& style, bool ground) {
  const double w = text_width(markup, style), h = text_height(-1, markup, style);
  if (ground) {
    const double x = middle.x - w / 2 - 1, y = middle.y - h / 2;
    fill({{x, y}, {x + w + 2, y}, {x + w + 2, y + h}, {x, y + h}}, 1.0);
  }
  text({middle.x - w / 2, middle.y - h / 2}, -1, markup, style);
}

void Canvas::rule(const Box& room, double width) {
  if (!under_head_) line({room.x, room.y}, {room.x + room.w, room.y}, {width});
}

void Canvas::line(Point a, Point b, const Pen& pen) { polyline({a, b}, false, pen); }

void Canvas::polyline(const std::vector<Point>& points, bool closed, const Pen& pen) {
  use(cairo_, pen);
  trace(cairo_, points, closed);
  cairo_stroke(cairo_);
}

void Canvas::fill(const std::vector<Point>& points, double ink) {
  cairo_set_source_rgb(cairo_, ink, ink, ink);
  trace(cairo_, points, true);
  cairo_fill(cairo_);
}

void Canvas::rect(const Box& b, const Pen& pen) {
  polyline({{b.x, b.y}, {b.x + b.w, b.y}, {b.x + b.w, b.y + b.h}, {b.x, b.y + b.h}}, true, pen);
}

void Canvas::circle(Point c, double radius, const Pen& pen) { arc(c, radius, 0, 2 * M_PI, pen); }

void Canvas::disc(Point c, double radius, double ink) {
  cairo_set_source_rgb(cairo_, ink, ink, ink);
  cairo_new_path(cairo_);
  cairo_arc(cairo_, c.x, c.y, radius, 0, 2 * M_PI);
  cairo_fill(cairo_);
}

void Canvas::arc(Point c, double radius, double from, double to, const Pen& pen) {
  use(cairo_, pen);
  cairo_new_path(cairo_);
  cairo_arc(cairo_, c.x, c.y, radius, from, to);
  cairo_stroke(cairo_);
}

void Canvas::arrow_head(Point tip, double direction, double size) {
  const auto back = [&](double turn) {
    const double a = direction + M_PI + turn;
    return Point{tip.x + size * std::cos(a), tip.y + size * std::sin(a)};
  };
  fill({tip, back(0.32), back(-0.32)});
}

void Canvas::hatch(const std::vector<Point>& outline, double spacing, const Pen& pen) {
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  for (const Point& p : outline) {
    x0 = std::min(x0, p.x), x1 = std::max(x1, p.x);
    y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  }
  cairo_save(cairo_);
  trace(cairo_, outline, true);
  cairo_clip(cairo_);
  for (double x = x0 - (y1 - y0); x < x1; x += spacing) line({x, y1}, {x + (y1 - y0), y0}, pen);
  cairo_restore(cairo_);
}

void Canvas::begin_window(const Box& b) {
  cairo_save(cairo_);
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, b.x, b.y, b.w, b.h);
  cairo_clip(cairo_);
}

void Canvas::end_window() { cairo_restore(cairo_); }

}  // namespace trammel::sheets
