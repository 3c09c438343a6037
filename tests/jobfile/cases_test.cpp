// Each folder below tests/cases/bad is a test: the files of a job, a cart or a kit, and in expected.txt what is said
// of them. A code's own folder bears its name. TRAMMEL_UPDATE_CASES=1 writes expected.txt anew.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>

#include "jobfile/files_for_tests.h"
#include "jobfile/load.h"
#include "messages/catalogue.h"

namespace trammel {
namespace {

namespace fs = std::filesystem;

const fs::path cases = fs::path(TRAMMEL_SOURCE_DIR) / "tests/cases/bad";

std::vector<fs::path> case_folders() {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(cases)) out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<Diagnostic> diagnostics_of(const fs::path& folder) {
  FolderFiles files(folder.string());
  const auto check = [](auto loaded) {
    EXPECT_FALSE(loaded.value) << "a value came back beside a diagnostic";
    return loaded.diagnostics;
  };
  if (fs::exists(folder / "job.toml")) return check(load_job(files, "job.toml"));
  if (fs::exists(folder / "cart.toml")) return check(load_cart(files, "cart.toml"));
  if (fs::exists(folder / "survey.toml")) return check(load_survey(files, "survey.toml"));
  return check(load_kit(files, "kit.toml"));
}

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(Cases, EachSaysWhatIsExpected) {
  const bool update = std::getenv("TRAMMEL_UPDATE_CASES") != nullptr;
  ASSERT_GE(case_folders().size(), 60u);
  for (const fs::path& folder : case_folders()) {
    const std::string said = render(diagnostics_of(folder));
    EXPECT_FALSE(said.empty()) << folder;
    if (update) std::ofstream(folder / "expected.txt", std::ios::binary) << said;
    EXPECT_EQ(said, text_of(folder / "expected.txt")) << folder.filename();
  }
}

TEST(Cases, EveryCodeHasAFolderThatShowsIt) {
  // Shown only with files that no folder can hold, or only beside another message; tested elsewhere.
  const std::set<std::string_view> elsewhere = {"file-too-big",      "file-unreadable", "more-faults",  "splice-inline",
                                                "splice-unreadable", "stands-first",    "did-you-mean", "is-accepted"};
  for (const MessageEntry& entry : all_messages()) {
    if (entry.room != "files" || elsewhere.count(entry.code)) continue;
    const fs::path folder = cases / std::string(entry.code);
    ASSERT_TRUE(fs::exists(folder)) << "no case for " << entry.code;
    const auto said = diagnostics_of(folder);
    const bool shown = std::any_of(said.begin(), said.end(), [&](const Diagnostic& d) {
      return d.message.code == entry.code || (d.hint && d.hint->code == entry.code);
    });
    EXPECT_TRUE(shown) << entry.code << " is not among what its case says";
  }
}

TEST(Cases, NoMessageLeavesAGapForAValue) {
  for (const fs::path& folder : case_folders())
    for (const Diagnostic& d : diagnostics_of(folder)) {
      ASSERT_NE(find_message(d.message.code), nullptr) << d.message.code;
      const std::string line = word(d.message);
      for (const char* gap :
           {"{key}", "{text}", "{part}", "{table}", "{file}", "{found}", "{what}", "{word}", "{path}"})
        EXPECT_EQ(line.find(gap), std::string::npos) << d.message.code << ": " << line;
    }
}

}  // namespace
}  // namespace trammel
