// What must hold of every page of every sheet: ink inside the margins, no text over another, and more than a heading.
#pragma once

#include <string>

#include "sheets/layout.h"

namespace trammel::sheets {

struct Worst {
  double outside = 0, overlap = 0;  // points
  double least_filled = 1e9;        // height of the ink between head and foot, points
  int pages = 0;
  std::string where_outside, where_overlap, where_empty;

  void take(const std::string& name, const Book& book);
  // Prints the worst and expects the laws. A stroke's half width may run along a margin.
  void expect(const std::string& of) const;
};

}  // namespace trammel::sheets
