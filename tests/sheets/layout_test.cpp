// Where ink falls on the pages: inside the margins, and no text over another.
#include "sheets/layout.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <iostream>
#include <map>

#include "sheets/invented_job.h"

namespace trammel::sheets {
namespace {

struct Worst {
  double outside = 0, overlap = 0;
  std::string where;
  std::string where_outside;
};

double overlap(const Box& a, const Box& b) {
  const double w = std::min(a.x + a.w, b.x + b.w) - std::max(a.x, b.x);
  const double h = std::min(a.y + a.h, b.y + b.h) - std::max(a.y, b.y);
  return std::min(w, h);
}

Worst worst_of(const Job& job, const Assessment& assessment, Paper paper) {
  Worst worst;
  SheetOptions options;
  options.paper = paper;
  lay_out(job, assessment, options, [&](const std::string& name, const Book& book) {
    const Box in = book.inside_margins();
    for (int page = 0; page < book.pages(); ++page) {
      std::vector<Box> texts;
      const Box ink = book.ink(page, &texts);
      const double sides[] = {in.x - ink.x, in.y - ink.y, ink.x + ink.w - in.x - in.w, ink.y + ink.h - in.y - in.h};
      for (const double out : sides)
        if (out > worst.outside)
          worst.outside = out, worst.where_outside = name + " page " + std::to_string(page + 1) + ", left " +
                                                     std::to_string(sides[0]) + " top " + std::to_string(sides[1]) +
                                                     " right " + std::to_string(sides[2]) + " foot " +
                                                     std::to_string(sides[3]);
      EXPECT_FALSE(texts.empty());
      for (std::size_t i = 0; i < texts.size(); ++i)
        for (std::size_t j = i + 1; j < texts.size(); ++j)
          if (const double o = overlap(texts[i], texts[j]); o > worst.overlap)
            worst.overlap = o, worst.where = name + " page " + std::to_string(page + 1) + " at " +
                                             std::to_string(texts[i].x) + ", " + std::to_string(texts[i].y);
    }
  });
  return worst;
}

struct Case {
  const char* name;
  Paper paper;
  int steps;
  bool align;
};
class Layout : public testing::TestWithParam<Case> {};

// Law 1. Half a point (0.2 mm) is left for the width of a stroke that runs along a margin.
TEST_P(Layout, InkStaysInsideTheMarginsAndTextsDoNotOverlap) {
  const Worst worst =
      worst_of(invented_job(), invented_assessment(GetParam().steps, GetParam().align), GetParam().paper);
  std::cout << "worst outside " << worst.outside << " pt, worst overlap of texts " << worst.overlap << " pt "
            << worst.where << "\n";
  EXPECT_LE(worst.outside, 1.0) << worst.where_outside;
  EXPECT_LE(worst.overlap, 1.0) << worst.where;
}

INSTANTIATE_TEST_SUITE_P(All, Layout,
                         testing::Values(Case{"a4", Paper::a4, 9, true}, Case{"letter", Paper::letter, 9, true},
                                         Case{"no_steps", Paper::a4, 0, true}, Case{"sixty_steps", Paper::a4, 60, true},
                                         Case{"no_readings", Paper::letter, 9, false}),
                         [](const auto& each) { return std::string(each.param.name); });

TEST(LongTexts, WrapInsideTheMargins) {
  std::string one_word(400, 'w'), words;
  for (int i = 0; i < 120; ++i) words += "tighten <again> & again ";
  Job job = invented_job();
  Assessment a = invented_assessment(4, true);
  job.name.value = words.substr(0, 60);
  a.steps[0].act = words;
  a.steps[1].act = one_word;
  a.steps[2].tools = {one_word, words};
  a.fasteners[0].stack = words;
  a.fasteners[1].at = one_word.substr(0, 120);
  a.fasteners[2].note = one_word;
  a.findings[0].source = words;
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const Worst worst = worst_of(job, a, paper);
    EXPECT_LE(worst.outside, 1.0) << worst.where_outside;
    EXPECT_LE(worst.overlap, 1.0) << worst.where;
  }
}

TEST(LongTexts, BlockHigherThanThePageIsDrawnSmallerAndWhole) {
  Assessment a = invented_assessment(1, false);
  a.steps[0].loose_after.clear();
  for (int i = 0; i < 120; ++i)
    a.steps[0].loose_after.push_back({"X" + std::to_string(i), "", "slack", "somewhere", "on stands"});
  EXPECT_LE(worst_of(invented_job(), a, Paper::a4).outside, 1.0);
}

// Law 2: as many blocks as steps, each on one page, is what Book::block promises.
TEST(Book, BlockThatDoesNotFitGoesToTheNextPageWhole) {
  Book book({200, 400}, {"t", "j", "l", "s", [](int, int) { return std::string("p"); }});
  std::vector<double> tops;
  const double body = book.left_on_page();
  const auto block = [&](double height) {
    book.block(
        [height](Canvas& c, const Box& room) {
          c.rect({room.x, room.y, 10, height});
          return height;
        },
        0);
  };
  block(body * 0.6);
  EXPECT_EQ(book.pages(), 1);
  block(body * 0.6);
  EXPECT_EQ(book.pages(), 2);
  EXPECT_NEAR(book.left_on_page(), body * 0.4, 1e-9);
  block(body * 3);
  EXPECT_EQ(book.pages(), 3);
  EXPECT_NEAR(book.left_on_page(), 0, 1e-9);
}

}  // namespace
}  // namespace trammel::sheets
