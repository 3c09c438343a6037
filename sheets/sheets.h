// The sheets of a job as pages: quote sheet, pack sheet, work sheet, torque record, alignment sheet, clearance sheet
// with the cut lines in full size (where tyre and body were measured), geometry sheet (where it is known how an axle
// moves), owner's page.
//
// Values in, bytes out: no files, no clock. The same job, assessment and options give the same bytes;
// the creation date inside a PDF is the job's own date, or 2000-01-01 where it has none.
// Law 1: nothing is drawn outside the margins, and every page says which of how many it is.
// Law 2: a step or a fastener group is never split over two pages.
// Law 3: what is drawn as full size is full size on the paper: 50 mm are 50 * 72 / 25.4 points.
// Law 4: monochrome; nothing is told by a shade alone.
// Every number carries its unit, its uncertainty where it has one, and the letter of its basis.
#pragma once

#include <string>
#include <vector>

#include "assess/assessment.h"
#include "measure/text.h"

namespace trammel {

enum class Paper { a4, letter };

struct SheetOptions {
  Paper paper = Paper::a4;
  PrintStyle print;
  std::string language;            // "en", "de"; where empty a booklet speaks its kit's, all else English
  double png_dots_per_inch = 0.0;  // above zero: each page as a picture too
};

struct Sheet {
  // "quote-sheet", "pack-sheet", "work-sheet", "torque-record", "resume-card", "alignment-sheet", "clearance-sheet",
  // "geometry-sheet", "owner-page"
  std::string name;
  std::string pdf;
  int pages = 0;
  std::vector<std::string> png;  // one a page, where asked for
};

// A kit's fitting booklet: parts mat, pack check, steps with the places of their fasteners,
// torque table, limits and cautions. For a job the booklet holds all its kits.
Sheet draw_booklet(const Job& job, const Assessment& assessment, const SheetOptions& options = {});

std::vector<Sheet> draw_sheets(const Job& job, const Assessment& assessment, const SheetOptions& options = {});

}  // namespace trammel
