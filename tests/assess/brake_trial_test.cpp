// What a trial of the parking brake shows, against the pull that the site's steepest slope asks for. Figures by hand,
// m g sin(atan(slope)), derived; the carts are invented.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "assess/rehearsal.h"
#include "assess/shuttle.h"
#include "messages/catalogue.h"

namespace trammel::test {
namespace {

constexpr double g = 9.80665;
double along(double mass, double slope) { return mass * g * slope / std::sqrt(1.0 + slope * slope); }

KitStep& step(Job& job, const std::string& id) {
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step)
      if (s.id.value == id) return s;
  throw std::logic_error("no step " + id);
}
BrakeTrial on_slope(double slope, std::optional<double> load = std::nullopt) {
  BrakeTrial t{Text{"slope", {}}, Valued<double>{slope, {}, Basis::kit, {}}, {}, {}};
  if (load) t.load = Valued<Mass>{*load * units::kg, {}, Basis::kit, {}};
  return t;
}
BrakeTrial pulled(double newtons, double u = 0.0) {
  return {Text{"level pull", {}}, {}, {}, Valued<Force>{Force::from_si(newtons), Force::from_si(u), Basis::kit, {}}};
}
Finding trial(const Job& job, const std::string& id) {
  const Assessment a = assess(job);
  for (const char* code : {"trial-below-slope", "trial-covers", "not-computed"})
    for (const Finding& f : of_code(a, code))
      if (f.subject.find("step " + id) != std::string::npos) return f;
  throw std::logic_error("nothing said of " + id);
}
const StepLine& line(const Assessment& a, const std::string& id) {
  for (const StepLine& s : a.steps)
    if (s.id == id) return s;
  throw std::logic_error("no step " + id);
}

// The empty load cart weighs 612 kg as it came and 636 kg with its kit (tests/assess/load_cart_test.cpp), 950 kg at
// most; its rear tyre grows from 217 to 247 mm. The site has 15 %.
TEST(BrakeTrial, MildRampAndEmptyCartShowLessThanTheSiteAsks) {
  Job job = load_cart();
  step(job, "brakes").trial = on_slope(0.10);
  step(job, "baseline").trial = on_slope(0.10);
  const Finding after = trial(job, "brakes"), before = trial(job, "baseline");
  EXPECT_EQ(after.outcome, Outcome::condition);
  EXPECT_EQ(before.outcome, Outcome::condition);
  double worst = 0.0;
  const auto near = [&](double got, double want) {
    worst = std::max(worst, std::abs(got / want - 1.0));
    EXPECT_NEAR(got, want, 1e-3 * want);
  };
  near(after.value->si, along(636.0, 0.10));
  near(after.limit->si, along(950.0, 0.15));
  near(before.value->si, along(612.0, 0.10));
  near(before.limit->si, along(950.0, 0.15) * 247.0 / 217.0);
  std::cout << "worst pull by hand: " << 100.0 * worst << " %\n";
  EXPECT_NE(word(after.message, {}).find("45"), std::string::npos) << word(after.message, {});
}

TEST(BrakeTrial, TheSlopeItselfLoadedOrThatPullShowsEnough) {
  Job job = load_cart();
  const auto outcome = [&](const BrakeTrial& t) {
    step(job, "brakes").trial = t;
    return trial(job, "brakes").outcome;
  };
  EXPECT_EQ(outcome(on_slope(0.15)), Outcome::condition);         // empty
  EXPECT_EQ(outcome(on_slope(0.15, 310.0)), Outcome::condition);  // 946 kg
  EXPECT_EQ(outcome(on_slope(0.15, 320.0)), Outcome::met);
  EXPECT_EQ(outcome(pulled(1370.0)), Outcome::condition);
  EXPECT_EQ(outcome(pulled(1400.0)), Outcome::met);
  EXPECT_EQ(outcome(pulled(1400.0, 20.0)), Outcome::condition);  // the gauge cannot tell
}

// Where the kit leaves the pull to the site, the step prints it; where it does not, what it holds.
TEST(BrakeTrial, TheStepPrintsThePull) {
  Job job = load_cart();
  const Assessment a = assess(job);
  EXPECT_TRUE(of_code(a, "trial-below-slope").empty());
  const auto said = [](const StepLine& s) {
    std::string all;
    for (const Message& m : s.points) all += word(m, {}) + "\n";
    return all;
  };
  EXPECT_NE(said(line(a, "brakes")).find("1390 N (312 lbf), 142 kg"), std::string::npos) << said(line(a, "brakes"));
  EXPECT_NE(said(line(a, "baseline")).find("1580 N"), std::string::npos) << said(line(a, "baseline"));
  EXPECT_NE(said(line(a, "baseline")).find("smaller tyres"), std::string::npos);

  step(job, "brakes").trial = on_slope(0.10);
  EXPECT_NE(said(line(assess(job), "brakes")).find("1380 N"), std::string::npos);
  // A kit without its cart, and a cart without its site.
  const Assessment alone = assess_kit(job_of_kit(load_cart().kits.front().kit));
  EXPECT_NE(said(line(alone, "brakes")).find("9.8 N"), std::string::npos) << said(line(alone, "brakes"));
  EXPECT_TRUE(of_code(alone, "trial-below-slope").empty());
}

TEST(BrakeTrial, WithoutASiteItTellsWhatItCovers) {
  Job job = load_cart();
  job.site->slope.reset();
  step(job, "brakes").trial = on_slope(0.10);
  const Finding f = trial(job, "brakes");
  EXPECT_EQ(f.outcome, Outcome::note);
  // 636 kg on 10 % is 950 kg on 6.68 %; never rounded up.
  EXPECT_NE(word(f.message, {}).find("on 6 %"), std::string::npos) << word(f.message, {});
  EXPECT_EQ(trial(job, "baseline").message.code, "not-computed");
}

// Without a rated mass the heaviest load case stands for it; with neither nothing is guessed.
TEST(BrakeTrial, TheHeaviestLoadCaseStandsInForTheRatedMass) {
  Job job = load_cart();
  job.cart.ratings.reset();
  step(job, "brakes").trial = on_slope(0.10);
  const Finding f = trial(job, "brakes");
  EXPECT_NEAR(f.limit->si, along(636.0 + 2 * 85.0 + 144.0, 0.15), 2.0);
  EXPECT_EQ(f.outcome, Outcome::condition);
  job.load_case.clear();
  EXPECT_TRUE(of_code(assess(job), "trial-below-slope").empty());
}

TEST(BrakeTrial, ALevelPullWantsWhatShowsIt) {
  Job job = load_cart();
  std::erase_if(step(job, "brakes").tools, [](const Text& t) { return t.value == "pull gauge"; });
  for (const Job& tried : {job, job_of_kit(job.kits.front().kit)}) {
    const RehearsedJob r = rehearse(tried);
    ASSERT_EQ(r.found.size(), 1u);
    EXPECT_EQ(r.found.front().finding.message.code, "trial-without-gauge");
    EXPECT_EQ(r.found.front().finding.subject, "step brakes");
  }
  step(job, "brakes").tools.push_back(Text{"hanging scale 200 kg", {}});
  EXPECT_TRUE(rehearse(job).found.empty());
}

TEST(BrakeTrial, TheRehearsalSaysIt) {
  Job job = load_cart();
  step(job, "brakes").trial = on_slope(0.10);
  const RehearsedJob r = rehearse(job);
  ASSERT_EQ(r.found.size(), 1u);
  EXPECT_EQ(r.found.front().finding.message.code, "trial-below-slope");
}

}  // namespace
}  // namespace trammel::test
