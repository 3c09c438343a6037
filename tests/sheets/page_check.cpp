#include "sheets/page_check.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

namespace trammel::sheets {
namespace {

double overlap(const Box& a, const Box& b) {
  const double w = std::min(a.x + a.w, b.x + b.w) - std::max(a.x, b.x);
  const double h = std::min(a.y + a.h, b.y + b.h) - std::max(a.y, b.y);
  return std::min(w, h);
}

}  // namespace

void Worst::take(const std::string& name, const Book& book) {
  const Box in = book.inside_margins(), body = book.body();
  for (int page = 0; page < book.pages(); ++page) {
    ++pages;
    const std::string where = name + " page " + std::to_string(page + 1);
    std::vector<Box> texts;
    const Box ink = book.ink(page, &texts);
    for (const double out : {in.x - ink.x, in.y - ink.y, ink.x + ink.w - in.x - in.w, ink.y + ink.h - in.y - in.h})
      if (out > outside) outside = out, where_outside = where;
    double low = body.y;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (texts[i].y + texts[i].h < body.y + body.h) low = std::max(low, texts[i].y + texts[i].h);
      for (std::size_t j = i + 1; j < texts.size(); ++j)
        if (const double o = trammel::sheets::overlap(texts[i], texts[j]); o > overlap)
          overlap = o, where_overlap = where + " at " + std::to_string(texts[i].x) + ", " + std::to_string(texts[i].y);
    }
    if (low - body.y < least_filled) least_filled = low - body.y, where_empty = where;
  }
}

void Worst::expect(const std::string& of) const {
  std::cout << of << ": " << pages << " pages, worst outside " << outside << " pt, worst overlap of texts " << overlap
            << " pt, emptiest page " << least_filled / mm << " mm\n";
  EXPECT_LE(outside, 1.0) << of << " " << where_outside;
  EXPECT_LE(overlap, 1.0) << of << " " << where_overlap;
  EXPECT_GE(least_filled, 15 * mm) << of << " " << where_empty;
}

}  // namespace trammel::sheets
