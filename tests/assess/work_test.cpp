// The kits' steps, spoilt one way at a time: the walk must say so. Invented kits.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "assess/place_runs.h"
#include "assess/shuttle.h"

namespace trammel::test {
namespace {

KitStep& step(Job& job, const std::string& id) {
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step)
      if (s.id.value == id) return s;
  throw std::logic_error("no step " + id);
}
void drop(Job& job, const std::string& id) {
  for (KitUse& use : job.kits) std::erase_if(use.kit.step, [&](const KitStep& s) { return s.id.value == id; });
}
bool says(const Job& job, const std::string& code) { return worst(assess(job), code) == Outcome::stop; }

TEST(ShuttleWork, as_shipped_nothing_is_left_loose) {
  const Assessment a = assess(shuttle());
  EXPECT_EQ(of_code(a, "work-walked").size(), 1u);
  ASSERT_FALSE(a.steps.empty());
  EXPECT_TRUE(a.steps.back().unfinished.loose.empty());
  for (const StepLine& s : a.steps) EXPECT_TRUE(s.faults.empty()) << s.id;
}

TEST(ShuttleWork, a_step_left_out_is_found) {
  for (const auto& [id, code] :
       {std::pair{"bushes-final", "work-slackened-never-finished"}, std::pair{"rear-up", "work-need-not-met"},
        std::pair{"front-wheels-final", "work-slackened-never-finished"},
        std::pair{"brake", "work-proof-never-made"}, std::pair{"earth", "work-part-never-fitted"},
        std::pair{"cradle-final", "work-below-least-state"}, std::pair{"hoop-on", "work-part-never-fitted"}}) {
    Job job = shuttle();
    drop(job, id);
    EXPECT_TRUE(says(job, code)) << id << " " << code << "\n" << text_of(assess(job)).substr(0, 1500);
  }
}

TEST(ShuttleWork, a_bush_made_final_on_the_stands_is_found) {
  Job job = shuttle();
  step(job, "arms-on").tighten[0].value = "F2 final";
  EXPECT_TRUE(says(job, "work-torqued-in-wrong-state"));
}

TEST(ShuttleWork, one_side_only_is_found) {
  Job job = shuttle();
  step(job, "coils-on").sides->value = "left";
  const Assessment a = assess(job);
  EXPECT_EQ(a.verdict, Verdict::no_go);
}

TEST(ShuttleWork, a_lift_after_the_alignment_voids_it) {
  Job job = shuttle();
  KitStep up = step(job, "front-up"), down = step(job, "front-down");
  up.id.value = "front-up-again";
  down.id.value = "front-down-again";
  auto& steps = job.kits[0].kit.step;
  const auto brake = std::find_if(steps.begin(), steps.end(), [](const KitStep& s) { return s.id.value == "brake"; });
  steps.insert(steps.insert(brake, down), up);
  EXPECT_FALSE(says(job, "work-proof-voided-not-repeated"));  // it is read once more after the drive
  drop(job, "align-check");
  EXPECT_TRUE(says(job, "work-proof-voided-not-repeated"));
}

TEST(ShuttleWork, the_cover_comes_in_right_behind_the_cradle_and_holds_its_bolts_back) {
  const Assessment a = assess(shuttle());
  const auto at = [&](const std::string& id) {
    return std::find_if(a.steps.begin(), a.steps.end(), [&](const StepLine& s) { return s.id == id; }) -
           a.steps.begin();
  };
  EXPECT_EQ(at("hoop-on"), at("fit-cradle") + 1);
  Job job = shuttle();
  step(job, "hoop-on").after->value = "cradle-final";
  EXPECT_EQ(assess(job).verdict, Verdict::no_go);
}

TEST(ShuttleWork, its_motor_brake_is_let_go_before_it_is_rolled_and_back_on_before_it_is_driven) {
  Job job = shuttle();
  step(job, "settle").gives.clear();
  EXPECT_TRUE(says(job, "work-brake-against-rolling"));
  job = shuttle();
  step(job, "align").ends.clear();
  EXPECT_TRUE(says(job, "work-brake-left-released"));
}

TEST(ShuttleWork, power_comes_back_with_the_driven_wheels_in_the_air) {
  Job job = shuttle();
  step(job, "rear-up-again").loads.clear();
  EXPECT_TRUE(says(job, "work-need-not-met"));
  step(job, "power-up").needs.pop_back();
  step(job, "power-up").gives = {Text{"rear chocked", {}}};
  EXPECT_EQ(worst(assess(job), "work-power-up-on-the-floor"), Outcome::condition);
}

// Each part that comes off is held by a fastener that the same step, or one before it, takes out.
TEST(ShuttleWork, an_old_part_does_not_come_off_with_its_bolts_in) {
  for (const char* id : {"rear-wheels-off", "rear-strip", "rear-bar-off", "front-wheels-off", "front-knuckles-off",
                         "front-arms-off", "front-cradle-off"}) {
    Job job = shuttle();
    step(job, id).slacken.clear();
    EXPECT_TRUE(says(job, "work-part-still-fastened")) << id;
  }
}

TEST(ShuttleWork, signed_steps_make_the_ledger) {
  Job job = shuttle();
  for (const char* id : {"receive", "baseline", "isolate", "rear-up"})
    job.events.push_back(Signed{Text{id, {}}, Text{"A. Tester", {}}, {}, {}, {}, {}, {}});
  const Assessment a = assess(job);
  EXPECT_TRUE(a.steps[0].done);
  EXPECT_FALSE(a.steps[4].done);
  EXPECT_FALSE(a.release_refused.empty());
}

// Ride heights, camber and toe bring rules of their own; a kit's proof of that name adds to them.
TEST(KnownReadings, are_taken_on_a_level_floor_and_again_after_the_last_lift) {
  const auto voided = [](const Job& job) {
    std::set<std::string> all;
    for (const Finding& f : of_code(assess_kit(job), "work-proof-voided-not-repeated")) all.insert(f.subject);
    return all;
  };
  Job job = load_cart();
  EXPECT_TRUE(voided(job).empty());
  EXPECT_TRUE(of_code(assess_kit(job), "work-floor-unknown").empty());
  drop(job, "toe-check");
  EXPECT_EQ(voided(job), (std::set<std::string>{"camber", "ride heights", "toe"}));
  // The kit may take the lifting away, for one of them.
  for (Proof& p : job.kits.front().kit.proof)
    if (p.id.value == "toe") p.voided_by_lifting = Flag{false, {}};
  EXPECT_EQ(voided(job), (std::set<std::string>{"camber", "ride heights"}));

  // Nothing said of the floor: told once a step, and no stop.
  job = load_cart();
  step(job, "receive").gives.clear();
  const Assessment a = assess_kit(job);
  EXPECT_EQ(of_code(a, "work-floor-unknown").size(), 3u);  // heights, align, toe-check
  EXPECT_EQ(worst(a, "work-floor-unknown"), Outcome::condition);
  job.kits.front().kit.given.push_back(Text{"floor level", {}});
  EXPECT_TRUE(of_code(assess_kit(job), "work-floor-unknown").empty());

  // What the kit asks for comes on top.
  Proof camber;
  camber.id = Text{"camber", {}};
  camber.only_while = {Text{"pack isolated", {}}};
  job.kits.front().kit.proof.push_back(camber);
  EXPECT_EQ(of_code(assess_kit(job), "work-check-in-wrong-state").size(), 1u);  // toe-check, with the power back
  step(job, "receive").gives.clear();
  job.kits.front().kit.given.pop_back();
  EXPECT_EQ(of_code(assess_kit(job), "work-floor-unknown").size(), 3u);
}

TEST(PlaceRuns, NeighboursAreOneRun) {
  using Names = std::vector<std::string>;
  EXPECT_EQ(place_runs({"left rear 1", "left rear 2", "left rear 3", "right rear 1", "right rear 3"}),
            (Names{"left rear 1–3", "right rear 1", "right rear 3"}));
  EXPECT_EQ(place_runs({"left front", "right front", ""}), (Names{"left front", "right front", ""}));
  EXPECT_EQ(place_runs({"1", "2", "upper 2", "upper 3"}), (Names{"1–2", "upper 2–3"}));
}

}  // namespace
}  // namespace trammel::test
