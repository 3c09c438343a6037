// Files that are half written, huge, not text or made to hurt: always a value or a diagnostic, never a crash.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <random>

#include "jobfile/files_for_tests.h"
#include "jobfile/good_files.h"
#include "jobfile/load.h"

namespace trammel {
namespace {

namespace fs = std::filesystem;

std::string code_of(const std::vector<Diagnostic>& diagnostics) {
  return diagnostics.empty() ? "" : diagnostics.front().message.code;
}

// A value or a diagnostic that can be rendered, and not both.
template <class T>
void holds(const Loaded<T>& loaded) {
  EXPECT_NE(loaded.value.has_value(), !loaded.diagnostics.empty());
  for (const Diagnostic& d : loaded.diagnostics) EXPECT_FALSE(render(d).empty());
}

TEST(Hostile, CutOffAtEveryByte) {
  const std::string cart = front_cart + rear_axle;
  MapFiles files;
  int values = 0;
  for (std::size_t n = 0; n <= cart.size(); ++n) {
    files.bytes["cart.toml"] = cart.substr(0, n);
    const auto loaded = load_cart(files, "cart.toml");
    holds(loaded);
    values += loaded.value.has_value();
  }
  EXPECT_GT(values, 0);  // the whole one at least
  files.bytes["cart.toml"] = cart;
  for (std::size_t n = 0; n <= small_kit.size(); ++n) {
    files.bytes["kit.toml"] = small_kit.substr(0, n);
    holds(load_kit(files, "kit.toml"));
  }
  files.bytes["kits/lift.toml"] = small_kit;
  for (std::size_t n = 0; n <= small_job.size(); ++n) {
    files.bytes["job.toml"] = small_job.substr(0, n);
    holds(load_job(files, "job.toml"));
  }
}

TEST(Hostile, BytesChangedAtRandom) {
  std::mt19937 random(20260511);
  MapFiles files;
  files.bytes = {{"cart.toml", front_cart + rear_axle}, {"kits/lift.toml", small_kit}};
  const std::string job = small_job;
  for (int run = 0; run < 600; ++run) {
    std::string changed = job;
    for (int i = 0; i < 3; ++i) {
      const std::size_t at = random() % changed.size();
      switch (random() % 3) {
        case 0:
          changed[at] = static_cast<char>(random());
          break;
        case 1:
          changed.erase(at, 1 + random() % 8);
          break;
        default:
          changed.insert(at, changed.substr(random() % changed.size(), random() % 20));
      }
    }
    files.bytes["job.toml"] = changed;
    holds(load_job(files, "job.toml"));
  }
}

TEST(Hostile, EveryByteThatIsNotUtf8IsFoundInItsPlace) {
  // RFC 3629: stray tail, overlong, surrogate, beyond U+10FFFF, cut short, never a first byte.
  for (const char* bad : {"\x80", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\xFF",
                          "\xF0\x82\x82\xAC"}) {
    MapFiles files;
    files.bytes["cart.toml"] = "# ±·\nname = \"é" + std::string(bad) + "\"\n";
    const auto said = load_cart(files, "cart.toml").diagnostics;
    ASSERT_EQ(code_of(said), "not-utf8");
    EXPECT_EQ(said[0].place.line, 2);
    EXPECT_EQ(said[0].place.column, 10);
    EXPECT_FALSE(render(said).empty());
  }
}

TEST(Hostile, FaultsOfTheDiskAreToldApart) {
  const std::pair<FileFault, const char*> faults[] = {{FileFault::missing, "file-missing"},
                                                      {FileFault::too_big, "file-too-big"},
                                                      {FileFault::unreadable, "file-unreadable"},
                                                      {FileFault::outside, "path-leaves-folder"}};
  for (const auto& [fault, code] : faults) {
    MapFiles files;
    files.faults["job.toml"] = fault;
    EXPECT_EQ(code_of(load_job(files, "job.toml").diagnostics), code);
    MapFiles named;
    named.bytes["job.toml"] = "format = \"trammel job 1\"\nname = \"x\"\ncart = \"cart.toml\"\n";
    named.faults["cart.toml"] = fault;
    const auto said = load_job(named, "job.toml").diagnostics;
    ASSERT_EQ(code_of(said), code);
    EXPECT_EQ(said[0].place.line, 3);
  }
}

TEST(Hostile, ManyFaultsAreCountedAndALongLineIsCut) {
  MapFiles files;
  std::string text = front_cart + "[drive]\n";
  for (int i = 0; i < 3000; ++i) text += "extra_" + std::to_string(i) + " = 1\n";
  text += "long = \"" + std::string(3000000, 'x') + "\"\n";
  files.bytes["cart.toml"] = text;
  const auto start = std::chrono::steady_clock::now();
  const auto said = load_cart(files, "cart.toml").diagnostics;
  const std::string shown = render(said);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  ASSERT_EQ(said.size(), 501u);
  EXPECT_EQ(said.back().message.code, "more-faults");
  EXPECT_LT(shown.size(), 500000u);
  EXPECT_LT(took.count(), 5.0);
}

TEST(Hostile, DeepNestingIsRefused) {
  for (const std::string& text :
       {"a = " + std::string(100000, '['), "a = " + std::string(200, '[') + std::string(200, ']'),
        std::string("[") + std::string(100000, '['), "a" + std::string(50000, '.') + "b = 1",
        [] {
          std::string t;
          for (int i = 0; i < 100; ++i) t += "{a.a.a.a.a.a.a.a=";
          return "x=" + t;
        }(),
        [] {
          std::string t = "a";
          for (int i = 0; i < 190; ++i) t += ".a";
          return t + " = 1\n";
        }()}) {
    MapFiles files;
    files.bytes["cart.toml"] = text;
    const auto loaded = load_cart(files, "cart.toml");
    EXPECT_FALSE(loaded.value);
    EXPECT_FALSE(render(loaded.diagnostics).empty());
  }
}

class Disk : public testing::Test {
 protected:
  void SetUp() override {
    // One of its own each: tests run side by side.
    const std::string test = testing::UnitTest::GetInstance()->current_test_info()->name();
    folder = fs::path(TRAMMEL_BUILD_DIR) / "tests" / ("disk-" + test);
    fs::remove_all(folder);
    fs::create_directories(folder / "job");
  }
  void TearDown() override { fs::remove_all(folder); }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder / name, std::ios::binary) << text;
  }
  fs::path folder;
  DiskFiles disk;
};

TEST_F(Disk, AFileOf100MBIsRefusedByItsSize) {
  write("job/cart.toml", "x");
  fs::resize_file(folder / "job/cart.toml", 100u << 20);
  const auto start = std::chrono::steady_clock::now();
  const auto said = load_cart(disk, (folder / "job/cart.toml").string()).diagnostics;
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  EXPECT_EQ(code_of(said), "file-too-big");
  EXPECT_LT(took.count(), 0.05);
}

TEST_F(Disk, ALinkDoesNotLeadOutOfTheFolder) {
  write("cart.toml", front_cart);
  write("job/own.toml", front_cart);
  fs::create_symlink(folder / "cart.toml", folder / "job/cart.toml");
  fs::create_symlink("own.toml", folder / "job/same.toml");
  const std::string head = "format = \"trammel job 1\"\nname = \"x\"\n";
  write("job/job.toml", head + "cart = \"cart.toml\"\n");
  EXPECT_EQ(code_of(load_job(disk, (folder / "job").string()).diagnostics), "path-leaves-folder");
  write("job/job.toml", head + "cart = \"same.toml\"\n");
  EXPECT_TRUE(load_job(disk, (folder / "job").string()).value);
  // A folder beside it whose name begins alike is not below it.
  fs::create_directories(folder / "job2");
  write("job2/cart.toml", front_cart);
  fs::create_symlink(folder / "job2", folder / "job/sub");
  write("job/job.toml", head + "cart = \"sub/cart.toml\"\n");
  EXPECT_EQ(code_of(load_job(disk, (folder / "job").string()).diagnostics), "path-leaves-folder");
}

TEST_F(Disk, ADeviceIsNotAFile) { EXPECT_TRUE(std::holds_alternative<FileFault>(disk.read("/dev/zero", ""))); }

}  // namespace
}  // namespace trammel
