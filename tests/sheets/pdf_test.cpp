// What stands in the bytes, by poppler's own readers as outside witnesses.
#include <cairo.h>
#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iostream>
#include <regex>
#include <set>

#include "sheets/invented_job.h"
#include "sheets/sheets.h"

namespace trammel {
namespace {

using sheets::invented_assessment;
using sheets::invented_job;
using testing::HasSubstr;

std::string output_of(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  char part[4096];
  while (const std::size_t n = std::fread(part, 1, sizeof part, pipe)) out.append(part, n);
  EXPECT_EQ(pclose(pipe), 0) << command;
  return out;
}

// A PDF in a file of its own for as long as it is looked at.
class Stored {
 public:
  explicit Stored(const std::string& pdf) : path_(testing::TempDir() + "sheet_" + std::to_string(getpid()) + ".pdf") {
    std::ofstream(path_, std::ios::binary) << pdf;
  }
  ~Stored() { std::remove(path_.c_str()); }
  std::string text() const { return output_of(PDFTOTEXT " -layout '" + path_ + "' -"); }
  std::string info() const { return output_of(PDFINFO " '" + path_ + "'"); }
  std::string pixels(int dots_per_inch, int page) const {  // 8-bit RGB, PPM
    return output_of(PDFTOPPM " -r " + std::to_string(dots_per_inch) + " -f " + std::to_string(page) + " -l " +
                     std::to_string(page) + " '" + path_ + "'");
  }

 private:
  std::string path_;
};

Sheet sheet_of(const std::vector<Sheet>& sheets, const std::string& name) {
  for (const Sheet& sheet : sheets)
    if (sheet.name == name) return sheet;
  ADD_FAILURE() << "no sheet " << name;
  return {};
}

struct Picture {
  int width = 0, height = 0;
  std::string rgb;
};
Picture picture_of(const std::string& ppm) {
  Picture p;
  int offset = 0;
  std::sscanf(ppm.c_str(), "P6 %d %d 255%n", &p.width, &p.height, &offset);
  p.rgb = ppm.substr(offset + 1);
  EXPECT_EQ(p.rgb.size(), std::size_t(p.width) * p.height * 3);
  return p;
}

TEST(Bytes, AreTheSameEachTime) {
  SheetOptions options;
  options.png_dots_per_inch = 40;
  const auto once = draw_sheets(invented_job(), invented_assessment(), options);
  const auto again = draw_sheets(invented_job(), invented_assessment(), options);
  ASSERT_EQ(once.size(), 4u);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(once[i].pdf, again[i].pdf);
    EXPECT_EQ(once[i].png, again[i].png);
    EXPECT_EQ(static_cast<int>(once[i].png.size()), once[i].pages);
  }
}

TEST(Bytes, CarryTheJobsDateAndPageCount) {
  for (const Sheet& sheet : draw_sheets(invented_job(), invented_assessment())) {
    const std::string info = Stored(sheet.pdf).info();
    EXPECT_TRUE(std::regex_search(info, std::regex("CreationDate: .*Nov 25 .*2026"))) << info;
    EXPECT_TRUE(std::regex_search(info, std::regex("Pages: +" + std::to_string(sheet.pages) + "\n"))) << info;
  }
}

// ISO 216 A4 is 210 x 297 mm; Letter is 8.5 x 11 in (from memory).
TEST(Paper, HasItsSize) {
  const std::vector<std::tuple<Paper, double, double>> sizes = {{Paper::a4, 210, 297}, {Paper::letter, 215.9, 279.4}};
  for (const auto& [paper, width, height] : sizes) {
    SheetOptions options;
    options.paper = paper;
    const std::string info = Stored(draw_sheets(invented_job(), invented_assessment(), options)[0].pdf).info();
    std::smatch found;
    ASSERT_TRUE(std::regex_search(info, found, std::regex("Page size: +([0-9.]+) x ([0-9.]+) pts"))) << info;
    EXPECT_NEAR(std::stod(found[1]), width * 72 / 25.4, 0.01);
    EXPECT_NEAR(std::stod(found[2]), height * 72 / 25.4, 0.01);
  }
}

TEST(TorqueRecord, NamesEveryInstance) {
  const Assessment a = invented_assessment();
  const std::string text = Stored(sheet_of(draw_sheets(invented_job(), a), "torque-record").pdf).text();
  int instances = 0;
  for (const FastenerLine& f : a.fasteners)
    for (const std::string& instance : f.instances) {
      EXPECT_THAT(text, HasSubstr(instance.empty() ? f.id : f.id + " " + instance));
      ++instances;
    }
  std::cout << instances << " instances looked for\n";
}

TEST(WorkSheet, ShowsEveryStepAndEveryLooseFastener) {
  for (const int count : {1, 9, 60}) {
    Assessment a = invented_assessment(count);
    for (StepLine& step : a.steps) step.act = "Act-" + std::to_string(step.number) + "-done";
    const std::string text = Stored(sheet_of(draw_sheets(invented_job(), a), "work-sheet").pdf).text();
    for (const StepLine& step : a.steps) {
      EXPECT_THAT(text, HasSubstr(step.act));
      for (const LooseItem& item : step.loose_after) EXPECT_THAT(text, HasSubstr(item.at));
    }
    EXPECT_THAT(text, HasSubstr("page 1 of "));
  }
}

TEST(WorkSheet, OfAJobWithoutStepsSaysSo) {
  const std::string text =
      Stored(sheet_of(draw_sheets(invented_job(), invented_assessment(0)), "work-sheet").pdf).text();
  EXPECT_THAT(text, HasSubstr("no steps"));
}

TEST(AlignmentSheet, WithoutReadingsSaysWhatToMeasure) {
  const std::string text =
      Stored(sheet_of(draw_sheets(invented_job(), invented_assessment(9, false)), "alignment-sheet").pdf).text();
  EXPECT_THAT(text, HasSubstr("not computed"));
  EXPECT_THAT(text, HasSubstr("gap at the square"));
  EXPECT_THAT(text, HasSubstr("Steering wheel off straight"));
}

// Words as they are read, however the lines break.
std::string in_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  return text;
}

TEST(AlignmentSheet, TellsTheChanceInWords) {
  const std::string text =
      in_one_line(Stored(sheet_of(draw_sheets(invented_job(), invented_assessment()), "alignment-sheet").pdf).text());
  EXPECT_THAT(text, HasSubstr("about 9 in 10"));
  EXPECT_THAT(text, HasSubstr("less than 1 in 20"));
}

// By the nearest quarter flat, and one flat is one flat.
TEST(AlignmentSheet, CountsFlatsAsHandsDo) {
  for (const auto& [flats, told] : {std::pair{0.9, "turn 1 flat,"},
                                    {-1.1, "turn 1 flat,"},
                                    {0.75, "turn ¾ flat,"},
                                    {1.25, "turn 1 ¼ flats,"},
                                    {-3.95, "turn 4 flats,"}}) {
    Assessment a = invented_assessment();
    a.align->turns.resize(1);
    a.align->turns[0].flats = flats;
    EXPECT_THAT(in_one_line(Stored(sheet_of(draw_sheets(invented_job(), a), "alignment-sheet").pdf).text()),
                HasSubstr(told));
  }
}

TEST(OwnerPage, HasTipLimitFallOutWarningAndStandingLine) {
  const std::string text =
      Stored(sheet_of(draw_sheets(invented_job(), invented_assessment()), "owner-page").pdf).text();
  for (const char* words :
       {"tip over in this bend", "fall out", "150 kPa", "local law", "25 km or 7 days", "tip sideways"})
    EXPECT_THAT(std::regex_replace(text, std::regex("\\s+"), " "), testing::ContainsRegex(words));
}

// No gap of the catalogue may reach paper: an unfilled {name} or a bare code of ours.
TEST(Words, AreAllThere) {
  for (const bool align : {true, false})
    for (const Sheet& sheet : draw_sheets(invented_job(), invented_assessment(9, align))) {
      const std::string text = Stored(sheet.pdf).text();
      EXPECT_THAT(text, Not(HasSubstr("sheet-"))) << sheet.name;
      EXPECT_THAT(text, Not(HasSubstr("{"))) << sheet.name;
    }
}

// Law 4, by poppler's rendering.
TEST(Ink, IsMonochrome) {
  for (const Sheet& sheet : draw_sheets(invented_job(), invented_assessment()))
    for (int page = 1; page <= sheet.pages; ++page) {
      const Picture p = picture_of(Stored(sheet.pdf).pixels(60, page));
      long coloured = 0, dark = 0;
      for (std::size_t i = 0; i < p.rgb.size(); i += 3) {
        coloured += p.rgb[i] != p.rgb[i + 1] || p.rgb[i] != p.rgb[i + 2];
        dark += static_cast<unsigned char>(p.rgb[i]) < 128;
      }
      EXPECT_EQ(coloured, 0) << sheet.name << " page " << page;
      EXPECT_GT(dark, 1000);
    }
}

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

}  // namespace
}  // namespace trammel
