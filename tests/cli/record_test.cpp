// A step signed, torques entered and an entry undone, on a copy of the load cart, from command to file to card.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

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
// What the job could not be read with afterwards is not written.
TEST(RecordCommands, what_cannot_be_read_again_is_not_written) {
  const fs::path job = fs::temp_directory_path() / "trammel-unread-test";
  fs::remove_all(job);
  fs::copy(TRAMMEL_SOURCE_DIR "/examples/load-cart", job);
  const std::string at = job.string(), by = " --who 'A. Reed' --when 2026-04-21T09:30", file = at + "/job.toml";
  const std::string before = read_file(file);
  for (const std::string entry :
       {"torque " + at + " F3 '-50 N·m'", "torque " + at + " F3 '0 N·m'",
        "torque " + at + " F3 '50 N·m' --except 'left front 2=-7 N·m'", "torque " + at + " F8 --turned '-20 deg'",
        "decide " + at + " F3 'less' --torque '5000 N·m'"}) {
    const Ran ran = run(entry + by);
    EXPECT_EQ(ran.status, 2) << entry << ran.out;
    EXPECT_FALSE(ran.err.empty() && ran.out.empty()) << entry;
    EXPECT_EQ(read_file(file), before) << entry;
  }
  EXPECT_LE(run("plan " + at).status, 1);
}

// Words with no torque in them do not answer a torque that is too great, and who decides is told.
TEST(RecordCommands, a_decision_that_answers_nothing_says_so) {
  const fs::path job = fs::temp_directory_path() / "trammel-answers-test";
  fs::remove_all(job);
  fs::copy(TRAMMEL_SOURCE_DIR "/examples/load-cart", job);
  const fs::path kit = job / "raising-kit.toml";
  std::string text = read_file(kit);
  const std::string asked = "torque = \"50 N·m\"";
  const std::size_t at = text.find(asked, text.find("id = \"F3\""));
  ASSERT_NE(at, std::string::npos);
  std::ofstream(kit) << text.replace(at, asked.size(), "torque = \"100 N·m\"");
  const auto decide = [&](const std::string& words) {
    return run("decide " + job.string() + " F3 '" + words + "' --who 'P. Varga' --when 2026-04-21T09:30");
  };
  const Ran nothing = decide("go on as it is");
  EXPECT_EQ(nothing.status, 1);
  EXPECT_NE(nothing.out.find("does not answer torque-above-proof"), std::string::npos) << nothing.out;
  const Ran torque = decide("50 N·m, by the maker");
  EXPECT_EQ(torque.out.find("does not answer"), std::string::npos) << torque.out;
}

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

  const Ran read =
      run("measure " + at + " toe-front='847.0 mm' toe_rear='851.6 mm' toe_diameter='508 mm' repeats=4" + by);
  EXPECT_LE(read.status, 1) << read.err;
  EXPECT_NE(read_file(file).find("repeats = 4"), std::string::npos);
  EXPECT_LE(run("turned " + at + " left_tie_rod='+0.5 flats'" + by).status, 1);
  EXPECT_NE(read_file(file).find("left_tie_rod = \"+0.5 flats\""), std::string::npos);

  // What was left out is added to its entry, and shows there.
  const Ran bare_torque = run("torque " + at + " 'R2' '45 N·m'" + by);
  EXPECT_EQ(bare_torque.status, 1);
  EXPECT_NE(bare_torque.out.find("--wrench ID"), std::string::npos) << bare_torque.out;
  const std::string number = bare_torque.out.substr(6, bare_torque.out.find(':') - 6);
  EXPECT_EQ(run("add " + at + " " + number + " --wrench W1" + by).status, 0);
  EXPECT_NE(read_file(file).find("[[addition]]"), std::string::npos);

  const std::string last = read_file(file);
  EXPECT_EQ(run("measure " + at + " toe_front=847" + by).status, 2);
  EXPECT_EQ(run("measure " + at + " toe_fornt='847 mm'" + by).status, 2);
  EXPECT_EQ(run("measure " + at + " toe_front='847 mm' toe_rear='851 mm' toe_diameter='508 mm'").status,
            2);  // by nobody
  EXPECT_EQ(run("turned " + at + " tie" + by).status, 2);
  // No such adjuster, stud, exception, time or bolt: nothing is written.
  EXPECT_EQ(run("turned " + at + " drag_link='+1 flats'" + by).status, 2);
  const Ran stud = run("torque " + at + " 'R8 left rear 9' '85 N·m' --wrench W2" + by);
  EXPECT_EQ(stud.status, 2);
  EXPECT_NE(stud.err.find("R8 left rear"), std::string::npos) << stud.err;
  const Ran bare = run("torque " + at + " R8 '85 N·m' --wrench W2 --except 'left rear 2'" + by);
  EXPECT_EQ(bare.status, 2);
  EXPECT_NE(bare.err.find("left rear 2 says no value"), std::string::npos) << bare.err;
  EXPECT_EQ(run("torque " + at + " R8 '85 N·m' --wrench W2 --except 'left rear 9=70 N·m'" + by).status, 2);
  EXPECT_EQ(run("torque " + at + " R8 '85 N·m' --wrench W2 --who 'A. Reed' --when yesterday").status, 2);
  EXPECT_EQ(run("found " + at + " 'R2 left' substituted --by 'a longer one'" + by).status, 2);
  EXPECT_EQ(run("found " + at + " 'R2 left' substituted" + by).status, 2);
  EXPECT_EQ(run("add " + at + " 1" + by).status, 2);
  EXPECT_EQ(run("add " + at + " 999 --wrench W2" + by).status, 2);
  EXPECT_EQ(run("decide " + at + " F99 'new bolt'" + by).status, 2);
  EXPECT_EQ(run("decide " + at + " F4 'new bolt'").status, 2);
  EXPECT_EQ(read_file(file), last);
  fs::remove_all(job);
}

// Planned on from where an interrupted job stands: what is signed is not planned again, what is signed next is gone
// from the plan, and what is struck comes back; with the bound that the plan was held against.
TEST(RecordCommands, an_interrupted_job_is_planned_from_where_it_stands) {
  const fs::path job = fs::temp_directory_path() / "trammel-go-on-test";
  fs::remove_all(job);
  fs::copy(TRAMMEL_SOURCE_DIR "/examples/shuttle", job);
  const std::string at = (job / "interrupted-job.toml").string(), by = " --who 'A. Reed' --when 2026-05-12T08:00";

  using Step = std::pair<std::string, std::string>;  // id and side
  struct Plan {
    std::set<Step> done, planned;
    std::vector<std::string> order;
    nlohmann::json all;
  };
  const auto plan = [&](const std::string& more = "") {
    Plan p;
    p.all = nlohmann::json::parse(run("plan " + at + " --json" + more).out);
    const auto named = [](const nlohmann::json& s) {
      return Step(s["id"].get<std::string>(), s["side"].get<std::string>());
    };
    for (const auto& s : p.all["steps"])
      if (s.value("done", false)) p.done.insert(named(s));
    for (const auto& s : p.all["order"]["steps"]) {
      EXPECT_TRUE(p.planned.insert(named(s)).second) << "planned twice: " << s["id"];
      p.order.push_back(s["id"]);
    }
    // Each step is either done or planned, and in the plan nothing comes before what it waits for.
    EXPECT_EQ(p.done.size() + p.planned.size(), p.all["steps"].size());
    for (const Step& s : p.done) EXPECT_FALSE(p.planned.contains(s)) << s.first;
    std::set<int> ahead;
    for (const auto& s : p.all["order"]["steps"]) {
      for (const int w : s["waits_for"]) {
        const auto& before = p.all["steps"][static_cast<std::size_t>(w) - 1];
        EXPECT_TRUE(ahead.contains(w) || before.value("done", false)) << s["id"] << " waits for " << w;
      }
      ahead.insert(s["number"].get<int>());
    }
    return p;
  };

  const Plan first = plan();
  EXPECT_EQ(first.done.size(), 24u);
  EXPECT_EQ(first.order.front(), "rear-down");
  // Alone, the hours are the steps' own; the order is held against the fewest changes of tools that any could have.
  EXPECT_LE(first.all["order"]["tool_changes_bound"], first.all["order"]["tool_changes"]);
  EXPECT_LE(first.all["order"]["tool_changes"], first.all["order"]["tool_changes_as_given"]);
  EXPECT_EQ(first.all["order"]["proven"], true);
  const std::string said = run("plan " + at + " --brief").out;
  EXPECT_NE(said.find("46 steps"), std::string::npos) << said;
  EXPECT_NE(said.find("24 are signed and left out"), std::string::npos) << said;
  EXPECT_NE(said.find("No allowed order needs fewer"), std::string::npos) << said;
  // Two technicians: from there too, with its bound, and no slower than one.
  const Plan two = plan(" --people 2");
  EXPECT_EQ(two.planned, first.planned);
  EXPECT_LE(two.all["order"]["bound_s"], two.all["order"]["total_s"]);
  EXPECT_LT(two.all["order"]["total_s"], first.all["order"]["total_s"]);

  // One step further.
  EXPECT_LE(run("sign " + at + " rear-down" + by).status, 1);
  const Plan next = plan();
  EXPECT_TRUE(next.done.contains({"rear-down", ""}));
  EXPECT_EQ(next.planned.size() + 1, first.planned.size());
  EXPECT_LT(next.all["order"]["total_s"], first.all["order"]["total_s"]);
  EXPECT_EQ(next.all["resume"]["rear"], "on wheels");
  // Struck again, the plan is the one of before.
  EXPECT_LE(run("undo " + at + " 27 --why 'not lowered after all'" + by).status, 1);
  const Plan back = plan();
  EXPECT_EQ(back.all["order"], first.all["order"]);
  // What undoes a signed step brings it back: a spring seat found slack.
  EXPECT_LE(run("found " + at + " 'R2 left rear 1' slack --why 'turns by hand'" + by).status, 1);
  const Plan again = plan();
  EXPECT_EQ(again.planned.size(), back.planned.size() + 1);
  EXPECT_TRUE(again.planned.contains({"rear-seats", "left"}));
  fs::remove_all(job);
}

}  // namespace
}  // namespace trammel::test
