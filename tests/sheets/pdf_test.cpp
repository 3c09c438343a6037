// What stands in the bytes, by poppler's own readers as outside witnesses.
#include <gmock/gmock.h>

#include <iostream>
#include <regex>

#include "messages/catalogue.h"
#include "sheets/invented_clearance.h"
#include "sheets/invented_job.h"
#include "sheets/printed.h"
#include "shop/open.h"

namespace trammel {
namespace {

using sheets::add_invented_clearance;
using sheets::in_one_line;
using sheets::invented_assessment;
using sheets::invented_job;
using sheets::Picture;
using sheets::picture_of;
using sheets::sheet_of;
using sheets::Stored;
using testing::HasSubstr;
using testing::Not;

TEST(Bytes, AreTheSameEachTime) {
  SheetOptions options;
  options.png_dots_per_inch = 40;
  Assessment a = invented_assessment();
  add_invented_clearance(a);
  const auto once = draw_sheets(invented_job(), a, options);
  const auto again = draw_sheets(invented_job(), a, options);
  ASSERT_EQ(once.size(), 6u);
  for (std::size_t i = 0; i < once.size(); ++i) {
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

// Of one tool in two numbers the greater is laid out; what is slackened in its place has none on the mat.
TEST(PackSheet, CountsToolsOnceAndLeavesOutWhatStaysInPlace) {
  const OpenedJob opened = open_and_assess(TRAMMEL_SOURCE_DIR "/examples/load-cart");
  ASSERT_TRUE(opened.assessment);
  const auto sheets = draw_sheets(*opened.file.value, *opened.assessment);
  const std::string text = Stored(sheet_of(sheets, "pack-sheet").pdf).text();
  EXPECT_THAT(text, HasSubstr("4 chocks"));
  EXPECT_THAT(text, Not(HasSubstr("2 chocks")));
  EXPECT_THAT(text, HasSubstr("2 wrenches 16 mm"));
  EXPECT_THAT(text, HasSubstr("wheel nut"));
  EXPECT_THAT(text, Not(HasSubstr("battery main terminal")));
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
      for (const LooseItem& item : step.unfinished.loose) EXPECT_THAT(text, HasSubstr(item.at));
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

TEST(AlignmentSheet, TellsTheChanceInWords) {
  const std::string text =
      in_one_line(Stored(sheet_of(draw_sheets(invented_job(), invented_assessment()), "alignment-sheet").pdf).text());
  EXPECT_THAT(text, HasSubstr("about 9 in 10"));
  EXPECT_THAT(text, HasSubstr("less than 1 in 20"));
}

// What is seen on slip plates when the turning stops, the causes with their tests, and the rear axle are all told.
TEST(AlignmentSheet, HasStoppingReadingsCausesAndTheRearAxle) {
  const std::string text =
      in_one_line(Stored(sheet_of(draw_sheets(invented_job(), invented_assessment()), "alignment-sheet").pdf).text());
  for (const char* words : {"Stop turning when it reads so", "2.4 mm", "9.5 mm", "Once all is turned", "If not",
                            "Invented-otherwise-arm", "Rear axle", "17", "Invented-turn-the-track-bar",
                            "Its middle stands to the right by", "The next readings", "Before turning"})
    EXPECT_THAT(text, HasSubstr(words)) << words;
}

// The planned order is printed, with what is to be done again said at its step.
TEST(WorkSheet, FollowsThePlannedOrder) {
  Assessment a = invented_assessment(6);
  for (StepLine& step : a.steps) step.act = "Act-" + std::to_string(step.number) + "-done", step.side.clear();
  a.order = {{3, "A"}, {0, "B"}, {5, "A"}, {1, "A"}, {2, "B"}, {4, "A+B"}};
  a.steps[5].again = true;
  const std::string text = Stored(sheet_of(draw_sheets(invented_job(), a), "work-sheet").pdf).text();
  std::size_t at = 0;
  for (const StepInOrder& s : a.order) {
    const std::size_t here = text.find(a.steps[s.step].act);
    ASSERT_NE(here, std::string::npos);
    EXPECT_GT(here, at);
    at = here;
  }
  EXPECT_THAT(text, HasSubstr("Do it again"));
  EXPECT_THAT(text, HasSubstr("A+B"));
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
  for (const bool align : {true, false}) {
    Assessment a = invented_assessment(9, align);
    add_invented_clearance(a);
    for (const Sheet& sheet : draw_sheets(invented_job(), a)) {
      const std::string text = Stored(sheet.pdf).text();
      EXPECT_THAT(text, Not(HasSubstr("sheet-"))) << sheet.name;
      EXPECT_THAT(text, Not(HasSubstr("{"))) << sheet.name;
    }
  }
}

// In German no fixed English line is left, and numbers have their comma.
TEST(Words, AreGermanWhereAskedFor) {
  Assessment a = invented_assessment();
  add_invented_clearance(a);
  SheetOptions options;
  options.language = "de";
  for (const Sheet& sheet : draw_sheets(invented_job(), a, options)) {
    const std::string text = in_one_line(Stored(sheet.pdf).text());
    EXPECT_THAT(text, HasSubstr("Seite 1 von")) << sheet.name;
    for (const MessageEntry& entry : all_messages())
      if (entry.room == "sheets" && entry.line.size() >= 12 && entry.line.find('{') == std::string_view::npos) {
        EXPECT_THAT(text, Not(HasSubstr(std::string(entry.line)))) << sheet.name;
      }
    if (sheet.name == "alignment-sheet") { EXPECT_THAT(text, HasSubstr("1,40 deg ± 0,15 deg")); }
  }
}

// Law 4, by poppler's rendering.
TEST(Ink, IsMonochrome) {
  Assessment a = invented_assessment();
  add_invented_clearance(a);
  for (const Sheet& sheet : draw_sheets(invented_job(), a))
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

}  // namespace
}  // namespace trammel
