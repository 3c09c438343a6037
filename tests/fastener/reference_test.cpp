#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>

#include "fastener/surface.h"
#include "reference/across_flats.h"
#include "reference/fastener_sources.h"
#include "reference/surface_states.h"
#include "reference/torque_factor_K.h"
#include "reference/tyre_load_index.h"
#include "reference/tyre_speed_symbol.h"

namespace trammel {
namespace {

namespace fs = std::filesystem;

// Runs the generator on the shipped tables with one file changed; true where it accepts them.
bool accepted(const std::string& file, const std::string& from, const std::string& to) {
  const fs::path folder = fs::path(TRAMMEL_BUILD_DIR) / "tests" /
                          (std::string("tables-") + testing::UnitTest::GetInstance()->current_test_info()->name());
  fs::remove_all(folder);
  fs::create_directories(folder / "in");
  for (const auto& entry : fs::directory_iterator(TRAMMEL_SOURCE_DIR "/reference"))
    if (entry.path().extension() == ".csv") fs::copy(entry.path(), folder / "in");
  std::stringstream text;
  text << std::ifstream(folder / "in" / file).rdbuf();
  std::string changed = text.str();
  const auto at = changed.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  changed.replace(at, from.size(), to);
  std::ofstream(folder / "in" / file) << changed;
  const std::string command = std::string(TRAMMEL_PYTHON) + " " + TRAMMEL_SOURCE_DIR + "/tools/make_tables.py " +
                              (folder / "in").string() + " " + (folder / "out").string() + " 2> /dev/null";
  return std::system(command.c_str()) == 0;
}

TEST(Tables, FaultyRowsFailTheBuild) {
  EXPECT_TRUE(accepted("tyre_load_index.csv", "20,80,", "20,80,"));
  EXPECT_FALSE(accepted("tyre_load_index.csv", "21,82.5,", "20,82.5,"));               // the same row twice
  EXPECT_FALSE(accepted("tyre_load_index.csv", "21,82.5,", "21,82.5 kg,"));            // not a number
  EXPECT_FALSE(accepted("tyre_load_index.csv", "21,82.5,", "21,,"));                   // nothing where a number must be
  EXPECT_FALSE(accepted("tyre_load_index.csv", "21,82.5,", "21,82.5,1,"));             // a cell too many
  EXPECT_FALSE(accepted("tyre_load_index.csv", "as_published (secondary)", "heard"));  // unknown basis
  EXPECT_FALSE(accepted("tyre_load_index.csv", "load_index,", "index,"));              // unknown column
  EXPECT_FALSE(accepted("across_flats.csv", "7/16 in (11.11)", "7/16 in (11.91)"));    // inch and millimetre differ
}

// ISO 4000-1 / ETRTO, secondary copies.
TEST(Tables, TyreMarks) {
  const auto load = [](int index) {
    return std::ranges::find(reference::tyre_load_index, index, &reference::LoadIndexRow::load_index)->load_kg;
  };
  EXPECT_EQ(load(60), 250);
  EXPECT_EQ(load(76), 400);
  EXPECT_EQ(load(100), 800);
  EXPECT_TRUE(std::ranges::is_sorted(reference::tyre_load_index, {}, &reference::LoadIndexRow::load_kg));
  const auto speed = [](std::string_view s) {
    return std::ranges::find(reference::tyre_speed_symbol, s, &reference::SpeedSymbolRow::symbol)->speed_kmh;
  };
  EXPECT_EQ(speed("B"), 50);
  EXPECT_EQ(speed("H"), 210);
}

// Every source id that a row names is described.
TEST(Tables, SourcesAreDescribed) {
  for (const auto& row : reference::across_flats) {
    const std::string_view s = row.source;
    for (auto at = s.find('S'); at != std::string_view::npos; at = s.find('S', at + 1)) {
      const std::string_view id = s.substr(at, 3);
      if (id.size() < 3 || id[1] < '0' || id[1] > '9') continue;
      EXPECT_NE(std::ranges::find(reference::fastener_sources, id, &reference::SourceRow::id),
                reference::fastener_sources.end())
          << id;
    }
  }
}

// The spread of each surface state, save those marked from memory or the middle of a range, is made of published K.
TEST(Tables, SurfaceSpreadsAreMadeOfPublishedFactors) {
  const auto published = [](double k) {
    return std::ranges::any_of(reference::torque_factor_k,
                               [&](const reference::NutFactorRow& r) { return r.k == k || r.low == k || r.high == k; });
  };
  for (const auto& row : reference::surface_states) {
    EXPECT_LE(row.k_low, row.k_nominal);
    EXPECT_LE(row.k_nominal, row.k_high);
    if (row.basis == reference::Basis::from_memory) continue;
    EXPECT_TRUE(published(row.k_low)) << row.state << row.k_low;
    EXPECT_TRUE(published(row.k_high)) << row.state << row.k_high;
    EXPECT_TRUE(published(row.k_nominal) || row.state == "waxed") << row.state << row.k_nominal;
  }
}

TEST(Surface, NamesReadBack) {
  using namespace fastener;
  for (auto text : surface_names()) {
    const auto s = read_surface(text);
    ASSERT_TRUE(s) << text;
    EXPECT_EQ(name(*s), text);
  }
  EXPECT_EQ(read_surface("Oiled"), Surface::light_oil);
  EXPECT_EQ(read_surface("dry, zinc"), Surface::dry_zinc);
  EXPECT_FALSE(read_surface("dry zinc and oil"));
  EXPECT_FALSE(read_surface(""));
  EXPECT_TRUE(is_wet(Surface::thread_locker) && is_wet(Surface::light_oil));
  EXPECT_FALSE(is_wet(Surface::dry_cadmium));
}

}  // namespace
}  // namespace trammel
