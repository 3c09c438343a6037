// What good files give, and how files are put together.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "jobfile/files_for_tests.h"
#include "jobfile/good_files.h"
#include "jobfile/json.h"
#include "jobfile/load.h"

namespace trammel {
namespace {

MapFiles whole_job() {
  MapFiles files;
  files.bytes = {{"shuttle/job.toml", small_job},
                 {"shuttle/cart.toml", front_cart + rear_axle},
                 {"shuttle/kits/lift.toml", small_kit}};
  files.faults = {{"shuttle", FileFault::folder}};
  return files;
}

std::vector<std::string> codes(const std::vector<Diagnostic>& diagnostics) {
  std::vector<std::string> out;
  for (const auto& d : diagnostics) out.push_back(d.message.code);
  return out;
}

TEST(Load, TheFrontAxleAloneIsAWholeCart) {
  MapFiles files;
  files.bytes["cart.toml"] = front_cart;
  const auto cart = load_cart(files, "cart.toml");
  ASSERT_TRUE(cart.value) << render(cart.diagnostics);
  const PointValue& ball = cart.value->front->left->lower_arm->ball_joint;
  EXPECT_DOUBLE_EQ(ball.value.x.si(), 0.00512);
  EXPECT_DOUBLE_EQ(ball.value.y.si(), 0.36108);
  EXPECT_EQ(ball.place.line, 10);
  EXPECT_EQ(ball.place.column, 14);
  EXPECT_EQ(ball.basis, Basis::assumed);
  EXPECT_EQ(cart.value->front->left->upper_arm->adjuster->flats->value, 6);
}

TEST(Load, AJobIsAFolderWithItsCartAndKits) {
  MapFiles files = whole_job();
  const auto job = load_job(files, "shuttle");
  ASSERT_TRUE(job.value) << render(job.diagnostics);
  EXPECT_EQ(job.value->date->value, "2026-05-11");
  EXPECT_DOUBLE_EQ(job.value->site->slope->value, 0.18);
  EXPECT_DOUBLE_EQ(job.value->alignment->accept_at->value, 0.9);
  EXPECT_DOUBLE_EQ(job.value->alignment->instruments->turn_error->value, 0.02);
  ASSERT_EQ(job.value->kits.size(), 1u);
  const Kit& kit = job.value->kits[0].kit;
  ASSERT_EQ(kit.change.size(), 2u);
  EXPECT_TRUE(std::holds_alternative<PointValue>(kit.change[0].value));
  EXPECT_TRUE(kit.change[0].mirror);
  EXPECT_EQ(kit.fastener[0].torque->basis, Basis::kit);
  EXPECT_EQ(kit.fastener[0].passes.size(), 3u);
  EXPECT_EQ(job.value->cart.rear->half_track->basis, Basis::measured);
  EXPECT_DOUBLE_EQ(job.value->cart.rear->half_track->u->si(), 0.002);
  EXPECT_EQ(file_kind(files, "shuttle"), "job");
  EXPECT_EQ(file_kind(files, "shuttle/cart.toml"), "cart");
}

TEST(Load, EventsKeepTheOrderOfTheFile) {
  MapFiles files = whole_job();
  const auto job = load_job(files, "shuttle/job.toml");
  ASSERT_TRUE(job.value) << render(job.diagnostics);
  const auto& events = job.value->events;
  ASSERT_EQ(events.size(), 5u);
  EXPECT_TRUE(std::holds_alternative<Reading>(events[0]));
  EXPECT_TRUE(std::holds_alternative<Adjustment>(events[1]));
  EXPECT_TRUE(std::holds_alternative<Reading>(events[2]));
  EXPECT_TRUE(std::holds_alternative<TorqueEntry>(events[3]));
  EXPECT_TRUE(std::holds_alternative<Signed>(events[4]));
  const auto& first = std::get<Reading>(events[0]);
  EXPECT_EQ(first.toe_front->basis, Basis::measured);
  EXPECT_DOUBLE_EQ(first.toe_front->value.si(), (33 + 9.0 / 16) * 0.0254);
  EXPECT_EQ(first.right_camber_gap->at, SquareGap::At::bottom);
  const auto& turned = std::get<Adjustment>(events[1]);
  EXPECT_EQ(turned.left_upper_arm->unit, AdjusterMove::Unit::flats);
  EXPECT_DOUBLE_EQ(turned.left_upper_arm->amount, 4);
  EXPECT_DOUBLE_EQ(turned.left_tie_rod->amount, -0.5);
  EXPECT_EQ(std::get<Signed>(events[4]).when->value, "2026-05-11T10:30:00");
}

TEST(Load, TheCartsBasisHoldsForWhatDoesNotSayItsOwn) {
  MapFiles files;
  files.bytes["cart.toml"] = "basis = \"measured\"\n" + front_cart;
  EXPECT_EQ(load_cart(files, "cart.toml").value->wheelbase.basis, Basis::measured);
  files.bytes["cart.toml"].replace(files.bytes["cart.toml"].find("\"1855 mm\""), 9,
                                   "{ value = \"1855 mm\", basis = \"computed\" }");
  EXPECT_EQ(load_cart(files, "cart.toml").value->wheelbase.basis, Basis::computed);
}

TEST(Load, IncludedTablesAreMergedAndListsAppended) {
  MapFiles files;
  const std::size_t half = rear_axle.find("[[seat]]");
  files.bytes["a/cart.toml"] =
      "include = [\"parts/rear.toml\"]\n" + front_cart + "[[seat]]\nname = \"guest\"\nat = \"-600 -250 700 mm\"\n";
  files.bytes["a/parts/rear.toml"] = "include = [\"seats.toml\"]\n" + rear_axle.substr(0, half);
  files.bytes["a/parts/seats.toml"] = rear_axle.substr(half);
  const auto cart = load_cart(files, "a/cart.toml");
  ASSERT_TRUE(cart.value) << render(cart.diagnostics);
  EXPECT_EQ(cart.value->rear->link.size(), 3u);
  ASSERT_EQ(cart.value->seat.size(), 2u);
  EXPECT_EQ(cart.value->seat[1].name.place.file, "a/parts/seats.toml");
}

TEST(Load, NoPathIsReadThatLeadsOutOfTheFolder) {
  for (const char* path :
       {"../cart.toml", "/etc/cart.toml", "a/../../cart.toml", "..", "C:/cart.toml", "a\\cart.toml"}) {
    MapFiles files;
    std::string quoted = path;
    for (std::size_t at = 0; (at = quoted.find('\\', at)) != std::string::npos; at += 2) quoted.insert(at, "\\");
    files.bytes["here/job.toml"] = "format = \"trammel job 1\"\nname = \"x\"\ncart = \"" + quoted + "\"\n";
    EXPECT_THAT(codes(load_job(files, "here/job.toml").diagnostics), testing::Contains("path-leaves-folder")) << path;
    EXPECT_EQ(files.asked.size(), 1u) << path;
  }
}

TEST(Load, ChangesAreCheckedOnTheCartThatKitsBeforeLeave) {
  MapFiles files = whole_job();
  auto& job = files.bytes["shuttle/job.toml"];
  job.replace(job.find("\"kits/lift.toml\""), 16, "\"kits/lift.toml\", { file = \"kits/bar.toml\" }");
  files.bytes["shuttle/kits/bar.toml"] =
      "format = \"trammel kit 1\"\nname = \"bar\"\n[[change]]\nremove = \"rear.link.track bar\"\n"
      "[[change]]\nadd = \"rear.link\"\nvalue = { name = \"track bar\", chassis = \"-1900 380 340 mm\", axle = \"-1900 "
      "-380 310 mm\" }\n"
      "[[change]]\nmove = \"rear.link.track bar.chassis\"\nby = \"0 0 10 mm\"\n";
  const auto loaded = load_job(files, "shuttle");
  EXPECT_TRUE(loaded.value) << render(loaded.diagnostics);
  // Without the list's new item the last change finds nothing.
  auto& bar = files.bytes["shuttle/kits/bar.toml"];
  bar.replace(bar.find("name = \"track bar\""), 18, "name = \"new bar\"");
  EXPECT_THAT(codes(load_job(files, "shuttle").diagnostics), testing::ElementsAre("change-finds-nothing"));
}

TEST(Load, AKitAloneMayNameAnyItem) {
  MapFiles files;
  files.bytes["kit.toml"] = small_kit;
  const auto kit = load_kit(files, "kit.toml");
  ASSERT_TRUE(kit.value) << render(kit.diagnostics);
  EXPECT_EQ(kit.value->change[1].path, "rear.link.track bar.axle");
}

TEST(Load, AByteOrderMarkAndLineEndsOfTwoBytesAreText) {
  MapFiles files;
  std::string text = "\xEF\xBB\xBF";
  for (const char c : front_cart) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  files.bytes["cart.toml"] = text;
  const auto cart = load_cart(files, "cart.toml");
  ASSERT_TRUE(cart.value) << render(cart.diagnostics);
  EXPECT_EQ(cart.value->wheelbase.place.line, 3);
}

TEST(Load, TheCaretStandsUnderTheFaultBehindTabsAndOtherLetters) {
  MapFiles files;
  files.bytes["cart.toml"] = front_cart + "\t[[seat]]\n\tname = \"Gäste ±\"\n\tat = \"0 0 0 mmm\"\n";
  const auto lines = std::count(front_cart.begin(), front_cart.end(), '\n') + 3;
  const std::string said = render(load_cart(files, "cart.toml").diagnostics);
  EXPECT_EQ(said.substr(0, said.find(": ")), "cart.toml:" + std::to_string(lines) + ":14");
  EXPECT_THAT(said, testing::EndsWith("\n\tat = \"0 0 0 mmm\"\n\t            ^~~\n"));
  files.bytes["cart.toml"] = front_cart + "[[seat]]\nname = \"Gäste ±\"\nat = { value = \"0 0 0 mm\", ± = 1 }\n";
  EXPECT_FALSE(load_cart(files, "cart.toml").value);
}

TEST(Load, JsonNamesValueBasisAndPlace) {
  MapFiles files = whole_job();
  const std::string json = to_json(*load_job(files, "shuttle").value);
  EXPECT_THAT(json, testing::HasSubstr("\"place\": \"shuttle/cart.toml:3:13\""));
  EXPECT_THAT(json, testing::HasSubstr("\"basis\": \"kit\""));
  EXPECT_THAT(json, testing::HasSubstr("\"entry\": \"adjustment\""));
}

}  // namespace
}  // namespace trammel
