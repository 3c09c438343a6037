// Where ink falls on the pages: inside the margins, and no text over another.
#include "sheets/layout.h"

#include <gmock/gmock.h>

#include <tuple>

#include "sheets/invented_clearance.h"
#include "sheets/invented_job.h"
#include "sheets/page_check.h"
#include "shop/open.h"

namespace trammel::sheets {
namespace {

Worst worst_of(const Job& job, const Assessment& assessment, Paper paper, const std::string& language = "en") {
  Worst worst;
  SheetOptions options;
  options.paper = paper;
  options.language = language;
  lay_out(job, assessment, options, [&](const std::string& name, const Book& book) { worst.take(name, book); });
  lay_out_booklet(job, assessment, options, [&](const Book& book) { worst.take("booklet", book); });
  return worst;
}

struct Case {
  const char* name;
  int steps;
  bool align, clearance;
};
class Layout : public testing::TestWithParam<std::tuple<Case, Paper, const char*>> {};

// Law 1, of every sheet in both sizes and languages.
TEST_P(Layout, InkStaysInsideTheMarginsAndTextsDoNotOverlap) {
  const auto& [each, paper, language] = GetParam();
  Assessment assessment = invented_assessment(each.steps, each.align);
  if (each.clearance) add_invented_clearance(assessment), add_invented_resume(assessment);
  worst_of(invented_job(), assessment, paper, language).expect(each.name);
}

std::string name_of(const testing::TestParamInfo<std::tuple<Case, Paper, const char*>>& each) {
  return std::string(std::get<0>(each.param).name) + (std::get<1>(each.param) == Paper::a4 ? "_a4_" : "_letter_") +
         std::get<2>(each.param);
}
// Every sheet kind on both papers in both languages; and what a job may lack or have much of.
INSTANTIATE_TEST_SUITE_P(EveryKind, Layout,
                         testing::Combine(testing::Values(Case{"nine_steps", 9, true, true}),
                                          testing::Values(Paper::a4, Paper::letter), testing::Values("en", "de")),
                         name_of);
INSTANTIATE_TEST_SUITE_P(OtherJobs, Layout,
                         testing::Values(std::tuple{Case{"no_steps", 0, true, false}, Paper::a4, "en"},
                                         std::tuple{Case{"sixty_steps", 60, true, false}, Paper::a4, "en"},
                                         std::tuple{Case{"sixty_steps", 60, true, false}, Paper::letter, "de"},
                                         std::tuple{Case{"no_readings", 9, false, false}, Paper::letter, "de"}),
                         name_of);

// A whole job of two kits, 140 steps and a cut wing, as a shop would print it.
TEST(RealJob, TheOrchardCartsSheetsStayInsideTheirMargins) {
  const OpenedJob opened = open_and_assess(TRAMMEL_SOURCE_DIR "/examples/orchard-cart");
  ASSERT_TRUE(opened.assessment);
  for (const Paper paper : {Paper::a4, Paper::letter})
    worst_of(*opened.file.value, *opened.assessment, paper, "en").expect("orchard cart");
}

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
  for (const Paper paper : {Paper::a4, Paper::letter}) { worst_of(job, a, paper).expect("long texts"); }
}

TEST(LongTexts, BlockHigherThanThePageIsDrawnSmallerAndWhole) {
  Assessment a = invented_assessment(1, false);
  a.steps[0].unfinished.loose.clear();
  for (int i = 0; i < 120; ++i)
    a.steps[0].unfinished.loose.push_back({"X" + std::to_string(i), "", "slack", "somewhere", "on stands"});
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

// A heading goes over with what it heads, however many stand under each other.
TEST(Book, HeadingNeverEndsAPage) {
  for (const int headings : {1, 2}) {
    Book book({200, 400}, {"t", "j", "l", "s", [](int, int) { return std::string("p"); }});
    const double body = book.left_on_page();
    const auto of = [](double height) {
      return [height](Canvas& c, const Box& room) {
        c.rect({room.x, room.y, 10, height});
        return height;
      };
    };
    book.block(of(body * 0.7), 0);
    for (int i = 0; i < headings; ++i) book.heading(of(body * 0.1), 0);
    book.block(of(body * 0.3), 0);
    ASSERT_EQ(book.pages(), 2);
    EXPECT_NEAR(book.left_on_page(), body * (0.7 - 0.1 * headings), 1e-9);
  }
}

}  // namespace
}  // namespace trammel::sheets
