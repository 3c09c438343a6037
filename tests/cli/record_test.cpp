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

// What is found, decided, read and turned, on a copy of the shuttle.
TEST(RecordCommands, what_is_found_decided_read_and_turned) {
  const fs::path job = fs::temp_directory_path() / "trammel-decide-test";
  fs::remove_all(job);
  fs::copy(TRAMMEL_SOURCE_DIR "/examples/shuttle", job);
  const std::string at = job.string(), by = " --who 'A. Reed' --when 2026-05-11T09:30", file = at + "/job.toml";

  // Found wrong it holds the cart back until a decision, its new state and its torque are there.
  EXPECT_EQ(run("found " + at + " 'R8 left rear 3' damaged --why 'thread hurt'" + by).status, 1);
  const auto held = [&] { return run("release " + at + " --json").out.find("record-damaged") != std::string::npos; };
  EXPECT_TRUE(held());
  EXPECT_LE(run("found " + at + " 'R8 left rear 3' out --why 'new stud'" + by).status, 1);
  EXPECT_LE(run("torque " + at + " R8 '85 N·m' --wrench W2" + by).status, 1);
  EXPECT_TRUE(held());
  EXPECT_EQ(run("decide " + at + " 'R8 left rear 3' 'new stud'" + by).status, 0);
  EXPECT_FALSE(held());

  // A torque with an exception speaks for the others alone.
  EXPECT_EQ(run("torque " + at + " F4 '60 N·m' --except 'left front upper=68 N·m' --wrench W2" + by).status, 0);
  EXPECT_NE(read_file(file).find("except = [\"left front upper\"]"), std::string::npos);

  const Ran read = run("measure " + at + " toe-front='847.0 mm' toe_rear='851.6 mm' toe_diameter='508 mm' repeats=4");
  EXPECT_LE(read.status, 1) << read.err;
  EXPECT_NE(read_file(file).find("repeats = 4"), std::string::npos);
  EXPECT_LE(run("turned " + at + " left_tie_rod='+0.5 flats'").status, 1);
  EXPECT_NE(read_file(file).find("left_tie_rod = \"+0.5 flats\""), std::string::npos);

  const std::string last = read_file(file);
  EXPECT_EQ(run("measure " + at + " toe_front=847").status, 2);
  EXPECT_EQ(run("measure " + at + " toe_fornt='847 mm'").status, 2);
  EXPECT_EQ(run("turned " + at + " tie").status, 2);
  EXPECT_EQ(run("decide " + at + " F99 'new bolt'" + by).status, 2);
  EXPECT_EQ(run("decide " + at + " F4 'new bolt'").status, 2);
  EXPECT_EQ(read_file(file), last);
  fs::remove_all(job);
}

}  // namespace
}  // namespace trammel::test
