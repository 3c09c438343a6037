// What is drawn as full size is full size on the paper: measured in poppler's rendering at 508 dots per inch, where a
// millimetre is 20 dots.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <map>

#include "sheets/invented_clearance.h"
#include "sheets/invented_job.h"
#include "sheets/printed.h"

namespace trammel::sheets {
namespace {

// The lengths of unbroken dark runs of a row, in pixels, with the row above them.
std::vector<std::pair<int, int>> runs_of(const Picture& p, int least) {
  std::vector<std::pair<int, int>> runs;
  for (int y = 0; y < p.height; ++y)
    for (int x = 0, from = 0; x <= p.width; ++x) {
      const bool dark = x < p.width && static_cast<unsigned char>(p.rgb[3 * (std::size_t(y) * p.width + x)]) < 100;
      if (dark) continue;
      if (x - from >= least) runs.push_back({y, x - from});
      from = x + 1;
    }
  return runs;
}

// Law 3. At 508 dots per inch a millimetre is 20 dots: the bar that proves the print is 1000 dots long.
TEST(FullSize, BarIsFiftyMillimetres) {
  for (const bool align : {true, false}) {
    const Picture p =
        picture_of(Stored(sheet_of(draw_sheets(invented_job(), invented_assessment(9, align)), "alignment-sheet").pdf)
                       .pixels(508, 1));
    int best = 0;
    for (const auto& [y, length] : runs_of(p, 900))
      if (std::abs(length - 1000) < std::abs(best - 1000)) best = length;
    std::cout << "worst error of the 50 mm bar " << std::abs(best - 1000) / 20.0 << " mm\n";
    EXPECT_NEAR(best, 1000, 2);
  }
}

// The feeler's black block between square and lip is as wide as the gap, at several gaps.
TEST(FullSize, GapAtTheSquareIsTrue) {
  for (const double gap : {2.0, 3.5, 6.0}) {
    Assessment a = invented_assessment();
    a.align->turns.resize(1);
    a.align->turns[0].square_gap_after = gap * units::mm;
    const Picture p =
        picture_of(Stored(sheet_of(draw_sheets(invented_job(), a), "alignment-sheet").pdf).pixels(508, 1));
    // A block: 70 rows or more with the same run beginning at the same place.
    std::map<std::pair<int, int>, int> rows;
    for (int y = 0; y < p.height; ++y)
      for (int x = 0, from = 0; x <= p.width; ++x) {
        const bool dark = x < p.width && static_cast<unsigned char>(p.rgb[3 * (std::size_t(y) * p.width + x)]) < 100;
        if (dark) continue;
        if (x - from >= 20) ++rows[{from, x - from}];
        from = x + 1;
      }
    double nearest = 1e9;
    for (const auto& [run, count] : rows)
      // Half the strokes of blade and lip lie outside the gap: 1.1 pt together.
      if (count >= 60) nearest = std::min(nearest, std::abs(run.second / 20.0 - gap - 1.1 / 72 * 25.4));
    std::cout << "worst error of a gap of " << gap << " mm: " << nearest << " mm\n";
    EXPECT_LE(nearest, 0.15);
  }
}

// A line's middle along x and its run along y, in millimetres, for every upright line at least so long.
struct Upright {
  double x = 0, length = 0;
};
std::vector<Upright> uprights_of(const Picture& p, double least, double most) {
  std::vector<Upright> found;
  int begun = -1, longest = 0;
  for (int x = 0; x <= p.width; ++x) {
    int best = 0;
    for (int y = 0, from = 0; x < p.width && y <= p.height; ++y) {
      if (y < p.height && p.dark(x, y, 128)) continue;
      best = std::max(best, y - from);
      from = y + 1;
    }
    const bool in = best >= least * 20 && best <= most * 20;
    if (in && begun < 0) begun = x, longest = 0;
    if (in) longest = std::max(longest, best);
    if (!in && begun >= 0) {
      found.push_back({(begun + x) / 40.0, longest / 20.0});
      begun = -1;
    }
  }
  return found;
}

// Two corners of a cut line 80 mm apart and 90 mm above the lip, in both sizes of paper.
TEST(FullSize, CutLineIsTrue) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    Assessment a = invented_assessment();
    add_invented_clearance(a);
    a.clearance.resize(1);
    SheetOptions options;
    options.paper = paper;
    const Sheet sheet = sheet_of(draw_sheets(invented_job(), a, options), "clearance-sheet");
    const Picture p = picture_of(Stored(sheet.pdf).pixels(508, sheet.pages));
    // The cut's stroke of 2 pt stands over its corner by half, the lip's of 0.7 pt below its foot.
    const std::vector<Upright> lines = uprights_of(p, 89, 92);
    ASSERT_EQ(lines.size(), 2u);
    const double across = lines[1].x - lines[0].x, up = lines[0].length - 1.35 / 72 * 25.4;
    std::cout << "worst error of a cut line of 80 x 90 mm: " << std::max(std::abs(across - 80), std::abs(up - 90))
              << " mm\n";
    EXPECT_NEAR(across, 80, 0.1);
    EXPECT_NEAR(up, 90, 0.1);
  }
}

// Over several sheets: from the cut to the cross on one, and from the cross of the same name to the cut on the next.
TEST(FullSize, CutLineIsTrueAcrossTheSheets) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    Assessment a = invented_assessment();
    add_invented_clearance(a);
    a.clearance.resize(1);
    a.clearance[0].trims = {invented_trim(200 * units::mm, 100 * units::mm, 90 * units::mm)};
    SheetOptions options;
    options.paper = paper;
    const Sheet sheet = sheet_of(draw_sheets(invented_job(), a, options), "clearance-sheet");
    double along = 0;
    int corners = 0;
    for (int page = 2; page <= sheet.pages; ++page) {
      const Picture p = picture_of(Stored(sheet.pdf).pixels(508, page));
      const std::vector<Upright> cuts = uprights_of(p, 89, 92), crosses = uprights_of(p, 7.8, 8.3);
      ASSERT_GE(crosses.size(), 2u);
      // A page with a corner begins or ends the way along the cut; a page without is passed whole.
      const double from = corners == 0 ? 0 : crosses.front().x, to = crosses.back().x;
      if (cuts.empty()) {
        if (corners == 1) along += to - from;
        continue;
      }
      ASSERT_EQ(cuts.size(), 1u);
      along += corners == 0 ? to - cuts[0].x : cuts[0].x - from;
      ++corners;
    }
    EXPECT_EQ(corners, 2);
    std::cout << "worst error of 200 mm over " << sheet.pages - 1 << " sheets: " << std::abs(along - 200) << " mm\n";
    EXPECT_NEAR(along, 200, 0.1);
  }
}

// What lies behind the panel is named on the sheet with how far behind, and hatched where it lies.
TEST(FullSize, KeepOutsAreMarked) {
  Assessment a = invented_assessment();
  add_invented_clearance(a);
  a.clearance.resize(1);
  const Sheet sheet = sheet_of(draw_sheets(invented_job(), a), "clearance-sheet");
  const std::string text = in_one_line(Stored(sheet.pdf).text());
  EXPECT_NE(text.find("do not cut: lamp wiring, 9 mm (3/8 in) behind"), std::string::npos);
  // Forty millimetres wide: its upper edge is a line of that length.
  int best = 0;
  for (const auto& [y, length] : runs_of(picture_of(Stored(sheet.pdf).pixels(508, sheet.pages)), 700))
    if (std::abs(length - 800) < std::abs(best - 800)) best = length;
  EXPECT_NEAR(best / 20.0, 40, 0.5);
}

}  // namespace
}  // namespace trammel::sheets
