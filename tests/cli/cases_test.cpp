// A case folder is a test: tests/cases/commands/NAME holds `arguments`, as typed behind `trammel`, and what is
// expected of stdout, stderr and the exit status. No C++ is needed to add one.
// TRAMMEL_WRITE_CASES=1 writes what the program now says; read the difference before it is committed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "cli/run.h"

namespace trammel::test {
namespace {

namespace fs = std::filesystem;

std::string trimmed(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
  return text;
}

TEST(CommandCases, each_says_what_it_said) {
  std::vector<fs::path> folders;
  for (const auto& entry : fs::directory_iterator(TRAMMEL_SOURCE_DIR "/tests/cases/commands"))
    folders.push_back(entry.path());
  std::sort(folders.begin(), folders.end());
  ASSERT_GT(folders.size(), 15u);
  const char* write = std::getenv("TRAMMEL_WRITE_CASES");
  for (const fs::path& folder : folders) {
    const Ran ran = run(trimmed(read_file(folder / "arguments")));
    const std::string said =
        "status " + std::to_string(ran.status) + "\n--- stdout\n" + ran.out + "--- stderr\n" + ran.err;
    if (write && *write) std::ofstream(folder / "expected", std::ios::binary) << said;
    EXPECT_EQ(read_file(folder / "expected"), said) << folder.filename();
  }
}

TEST(CommandJson, is_one_document_and_nothing_else) {
  for (const char* arguments : {"check examples/shuttle", "plan examples/shuttle", "align examples/shuttle",
                                "travel examples/shuttle --rise=0mm", "travel examples/shuttle --axle rear --rise=0mm",
                                "fastener 'M10 8.8 50 N·m dry zinc'", "explain bump-steer", "explain",
                                "survey examples/shuttle/front-survey.toml"}) {
    const Ran ran = run(std::string(arguments) + " --json");
    EXPECT_LE(ran.status, 1) << arguments;
    EXPECT_TRUE(ran.err.empty()) << ran.err;
    EXPECT_TRUE(nlohmann::json::accept(ran.out)) << arguments;
  }
}

TEST(CommandJson, align_has_the_keys_of_its_contract) {
  const auto j = nlohmann::json::parse(run("align examples/shuttle --json").out);
  for (const char* key : {"verdict", "state", "probability_in_tolerance", "turns", "after", "more_readings"})
    EXPECT_TRUE(j.contains(key)) << key;
  for (const char* key :
       {"left_camber_deg", "right_camber_deg", "total_toe_m", "toe_difference_m", "steering_wheel_angle_deg"}) {
    EXPECT_TRUE(j["state"][key].contains("value") && j["state"][key].contains("u")) << key;
    EXPECT_TRUE(j["after"]["expected"].contains(key)) << key;
  }
  for (const auto& t : j["turns"])
    for (const char* key : {"side", "adjuster", "turns", "flats", "direction", "watch"})
      EXPECT_TRUE(t.contains(key)) << key;
}

TEST(CommandSheet, writes_every_sheet_twice_alike) {
  const fs::path folder = fs::path(TRAMMEL_BUILD_DIR) / "tests/sheet-case";
  fs::remove_all(folder);
  const auto draw = [&](const char* name) {
    return run("sheet examples/shuttle --into '" + (folder / name).string() + "'");
  };
  EXPECT_EQ(draw("a").status, 0);
  EXPECT_EQ(draw("b").status, 0);
  int sheets = 0;
  for (const auto& entry : fs::directory_iterator(folder / "a")) {
    ++sheets;
    EXPECT_EQ(read_file(entry.path()), read_file(folder / "b" / entry.path().filename())) << entry.path();
    EXPECT_EQ(read_file(entry.path()).substr(0, 5), "%PDF-");
  }
  EXPECT_EQ(sheets, 8);  // quote, pack, work, torque, alignment, clearance, geometry, owner
}

}  // namespace
}  // namespace trammel::test
