// The pictures of one axle's geometry, each by itself: elevations to scale, one curve over travel, the map of the
// tyre's gap over rise and steer. SVG holds one drawing a file, PDF one a page or as many as fit.
//
// Values in, bytes out: no files, no clock. The same job and options give the same bytes.
#pragma once

#include <optional>
#include <string>

#include "messages/message.h"
#include "sheets/sheets.h"

namespace trammel {

struct DrawingAsked {
  std::string axle = "front";  // or "rear"
  bool svg = false;            // else PDF
  std::string curve;           // one curve alone, of curve_names()
  bool map = false;            // the map of gaps alone; neither: everything, in SVG the elevations
};

struct Drawing {
  std::string bytes;
  int pages = 1;
  std::optional<Message> why_not;  // where there is nothing to draw
};

// The cart with the job's kits on, and as it stood as the ghost.
Drawing draw_axle(const Job& job, const Assessment& assessment, const DrawingAsked& asked,
                  const SheetOptions& options = {});

}  // namespace trammel
