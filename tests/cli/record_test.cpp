// A step signed, torques entered and an entry undone, on a copy of the load cart, from command to file to card.
#include <gtest/gtest.h>

#include <filesystem>

#include "cli/run.h"

namespace trammel::test {
namespace {

namespace fs = std::filesystem;

TEST(RecordCommands, entries_are_only_ever_added) {
  const fs::path job = fs::temp_directory_path() / "trammel-record-test";
  fs::remove_all(job);
  fs::copy(TRAMMEL_SOURCE_DIR "/examples/load-cart", job);
  const std::string at = job.string(), by = " --who 'A. Reed' --when 2026-04-21T09:30", file = at + "/job.toml";
  const std::string before = read_file(file);

  // Five readings and turns stand in the job already.
  EXPECT_LE(run("sign " + at + " rear-wheels-on --side left" + by).status, 1);
  const Ran torque = run("torque " + at + " 'F8 rear' '85 N·m' --except 'left rear 2=70 N·m' --wrench W2" + by);
  EXPECT_EQ(torque.status, 1) << torque.out;
  EXPECT_NE(torque.out.find("70"), std::string::npos);
  EXPECT_NE(torque.out.find("not final"), std::string::npos) << torque.out;
  const std::string after = read_file(file);
  EXPECT_EQ(after.substr(0, before.size()), before);

  const Ran undo = run("undo " + at + " 8 --why slip" + by);
  EXPECT_LE(undo.status, 1) << undo.err;
  EXPECT_EQ(read_file(file).substr(0, after.size()), after);
  const Ran card = run("plan " + at + " --resume");
  EXPECT_NE(card.out.find("rear-wheels-on left, by A. Reed, 2026-04-21T09:30 (entry 6)"), std::string::npos)
      << card.out;

  // What cannot be read is not written.
  const std::string last = read_file(file);
  EXPECT_EQ(run("torque " + at + " F8 85" + by).status, 2);
  EXPECT_EQ(run("undo " + at + " 99" + by).status, 2);
  EXPECT_EQ(run("sign " + at + " no-such-step" + by).status, 2);
  EXPECT_EQ(read_file(file), last);
  fs::remove_all(job);
}

}  // namespace
}  // namespace trammel::test
