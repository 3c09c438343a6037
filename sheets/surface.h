// Cairo's surfaces and contexts as owned values, and what a drawing measures. Private to sheets.
#pragma once

#include <cairo.h>

#include <memory>
#include <string>

#include "sheets/page.h"

namespace trammel::sheets {

struct Destroy {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using Surface = std::unique_ptr<cairo_surface_t, Destroy>;
using Cairo = std::unique_ptr<cairo_t, Destroy>;

// A stream into a string.
inline cairo_status_t append(void* to, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

inline Surface scratch() { return Surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr)); }

// The height that a drawing takes.
inline double measure(const Draw& draw, const Box& room) {
  const Surface surface = scratch();
  const Cairo cairo(cairo_create(surface.get()));
  Canvas canvas(cairo.get());
  return draw(canvas, room);
}

}  // namespace trammel::sheets
