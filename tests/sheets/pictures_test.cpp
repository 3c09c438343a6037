// The pictures of every layout: inside the margins in both papers and languages, no text over another; the map of gaps
// as the numbers have it.
#include <gtest/gtest.h>

#include <regex>

#include "assess/assess.h"
#include "assess/fitted_cart.h"
#include "sheets/drawing.h"
#include "sheets/gap_map.h"
#include "sheets/invented_clearance.h"
#include "sheets/invented_job.h"
#include "sheets/layout.h"
#include "sheets/page_check.h"
#include "sheets/picture.h"
#include "shop/travel.h"

namespace trammel::sheets {
namespace {

struct Case {
  const char *name, *file, *axle;
};
const Case cases[] = {{"shuttle_front", "examples/shuttle", "front"},
                      {"shuttle_rear", "examples/shuttle", "rear"},
                      {"load_cart_front", "examples/load-cart", "front"},
                      {"load_cart_rear", "examples/load-cart", "rear"},
                      {"first_job", "examples/first-job", "front"},
                      {"beam", "tests/cases/carts/beam-on-leaf.toml", "front"},
                      {"centre_link", "tests/cases/carts/centre-link-front.toml", "front"},
                      {"lopsided", "tests/cases/carts/coil-over-knuckle-lopsided.toml", "front"},
                      {"four_links", "tests/cases/carts/four-links.toml", "rear"},
                      {"half_shaft", "tests/cases/carts/half-shaft", "rear"},
                      {"leaf_rear", "tests/cases/carts/leaf-rear", "rear"},
                      {"strut", "tests/cases/carts/strut-front.toml", "front"},
                      {"swing_front", "tests/cases/carts/swing-axle.toml", "front"},
                      {"swing_rear", "tests/cases/carts/swing-axle.toml", "rear"},
                      {"trailing_arm", "tests/cases/carts/trailing-arm-rear.toml", "rear"},
                      {"trailing_arms", "tests/cases/carts/trailing-arms", "rear"},
                      {"transverse_leaf", "tests/cases/carts/transverse-leaf-front.toml", "front"}};

class Pictures : public testing::TestWithParam<Case> {};

TEST_P(Pictures, StayInsideTheMarginsAndTextsDoNotOverlap) {
  const std::string file = std::string(TRAMMEL_SOURCE_DIR "/") + GetParam().file;
  const Job job = job_to_draw({file, GetParam().axle, false});
  const Assessment assessment = assess(job);
  const auto shown = axle_shown(job, fitted_cart(job), assessment, GetParam().axle);
  ASSERT_TRUE(shown);
  EXPECT_GE(shown->curves.size(), 4u);
  Worst worst;
  for (const auto& [paper, language] : {std::pair{Paper::a4, "en"}, std::pair{Paper::letter, "de"}}) {
    SheetOptions options;
    options.paper = paper, options.language = language;
    const Words words(options);
    Book book = new_book(job, words, options, "sheet-title-geometry");
    book.block(elevation_picture(*shown, words).draw);
    for (const TravelCurve& c : shown->curves) book.block(curve_picture(c, words).draw);
    if (const auto map = map_picture(*shown, words)) book.block(map->draw);
    worst.take(language, book);
  }
  worst.expect(GetParam().name);
}
INSTANTIATE_TEST_SUITE_P(Each, Pictures, testing::ValuesIn(cases),
                         [](const auto& each) { return std::string(each.param.name); });

// One black cell for each pose in which the tyre touches.
TEST(GapMaps, AreBlackWhereTheTyreTouches) {
  Assessment assessment = invented_assessment();
  add_invented_clearance(assessment);
  const AxleClearance& front = assessment.clearance.front();
  std::size_t touching = 0;
  for (const GapMap& map : front.maps)
    for (const auto& cell : map.cells) touching += cell.gap && cell.gap->si() < 0;
  ASSERT_GT(touching, 0u);
  AxleShown shown;
  shown.axle = "front", shown.clearance = &front;
  const SheetOptions options;
  const Words words(options);
  const auto picture = map_picture(shown, words);
  ASSERT_TRUE(picture);
  const std::string drawn = svg(picture->draw, 210 * mm, picture->title, picture->told);
  // A filled path of four corners, black, outside the letters.
  const std::regex black(
      R"re(fill:rgb\(0%,0%,0%\);fill-opacity:1;" d="M [0-9.]+ [0-9.]+ L [0-9.]+ [0-9.]+ L [0-9.]+ [0-9.]+ L [0-9.]+ [0-9.]+ Z)re");
  const auto begin = std::sregex_iterator(drawn.begin(), drawn.end(), black);
  EXPECT_EQ(static_cast<std::size_t>(std::distance(begin, std::sregex_iterator())), touching);
}

// The ring stands at the least gap of all.
TEST(GapMaps, LeastIsTheLeastOfAll) {
  Assessment assessment = invented_assessment();
  add_invented_clearance(assessment);
  for (const GapMap& map : assessment.clearance.front().maps) {
    const int worst = worst_cell(map);
    ASSERT_GE(worst, 0);
    for (const auto& cell : map.cells)
      if (cell.gap) { EXPECT_GE(*cell.gap, *map.cells[static_cast<std::size_t>(worst)].gap); }
  }
}

TEST(Drawings, AreTheSameEachTime) {
  const Job job = job_to_draw({TRAMMEL_SOURCE_DIR "/examples/shuttle", "front", false});
  const Assessment assessment = assess(job);
  const DrawingAsked asked{"front", false, "", false};
  EXPECT_EQ(draw_axle(job, assessment, asked).bytes, draw_axle(job, assessment, asked).bytes);
}

}  // namespace
}  // namespace trammel::sheets
