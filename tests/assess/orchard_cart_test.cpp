// A kit of full size on a cart of its own layout and drive (invented): everything that a kit can say is in it, all its
// variants rehearse clean, and its order is planned for one and for two.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <iostream>
#include <set>

#include "assess/assess.h"
#include "assess/order_of_work.h"
#include "assess/procedure.h"
#include "assess/rehearsal.h"
#include "shop/open.h"

namespace trammel {
namespace {

Job job(const std::string& file) { return *read_kit_or_job(TRAMMEL_SOURCE_DIR "/examples/orchard-cart/" + file).value; }

// What tells one fastener from another on the bench: thread with its pitch, class, kind of nut, surface, torque.
std::string type_of(const FastenerLine& f) {
  std::string type = f.thread.empty() ? f.stack : f.thread + " " + f.strength;
  for (const char* kind : {"prevailing", "castle", "jam", "flange nut", "wheel nut", "u-bolt", "thread "})
    if (f.stack.find(kind) != std::string::npos) type += " " + std::string(kind);
  type += " " + f.surface;
  if (f.torque_asked) type += " " + std::to_string(f.torque_asked->si);
  return type;
}

TEST(OrchardCart, IsAKitOfFullSize) {
  const Job kit = job("bough-kit.toml");
  const Kit& k = kit.kits.front().kit;
  const Assessment a = assess_kit(kit);
  std::set<std::string> types;
  bool metric = false, inch = false;
  for (const FastenerLine& f : a.fasteners) {
    types.insert(type_of(f));
    metric |= f.thread.starts_with("M");
    inch |= f.thread.find("UN") != std::string::npos;
  }
  std::cout << k.step.size() << " steps, " << k.fastener.size() << " fasteners of " << types.size() << " types\n";
  EXPECT_GE(k.step.size(), 70U);
  EXPECT_GE(types.size(), 30U);
  EXPECT_TRUE(metric && inch);
}

TEST(OrchardCart, UsesEveryKindOfWordThatAKitHas) {
  const Job both = job("job.toml");
  const work::Procedure p = job_procedure(both).procedure;
  std::set<work::Verb> verbs;
  std::set<work::Sides> sides;
  std::set<work::Load> loads;
  bool optional = false, any_time = false, repeated = false, two = false, under = false, hold = false, fresh = false,
       scrap = false, kept = false, prop = false;
  for (const work::Step& s : p.steps) {
    for (const work::Deed& d : s.deeds) verbs.insert(d.verb);
    sides.insert(s.sides);
    for (const work::ApplyLoad& l : s.loads) loads.insert(l.load);
    for (const work::Tighten& t : s.tighten) fresh |= t.fresh;
    for (const work::Remove& r : s.removes) {
      scrap |= r.scrap;
      kept |= !r.kept_at.empty();
    }
    for (const std::string& c : s.sets) prop |= c.ends_with(" on jack");
    optional |= s.optional;
    any_time |= s.any_time;
    repeated |= !s.repeat_until.empty();
    two |= s.people > 1;
    under |= s.person_under;
    hold |= s.hold_point;
  }
  EXPECT_EQ(verbs.size(), work::verb_words.size());
  EXPECT_TRUE(sides.contains(work::Sides::once) && sides.contains(work::Sides::each));
  for (const work::Load l : {work::Load::on_stands, work::Load::on_wheels, work::Load::rolled,
                             work::Load::driven_capped, work::Load::released})
    EXPECT_TRUE(loads.contains(l)) << work::word(l);
  EXPECT_TRUE(optional && any_time && repeated && two && under && hold && fresh && scrap && kept && prop);

  std::set<std::string> words;
  for (const KitUse& use : both.kits)
    for (const KitFastener& f : use.kit.fastener) {
      if (f.bush) words.insert(f.bush->value);
      if (f.cure) words.insert("cure");
      if (f.grease) words.insert("grease");
      if (f.set_by) words.insert("set by");
      if (f.torque_limit) words.insert("slot");
      if (f.pivot) words.insert("pivot");
      if (!f.passes.empty()) words.insert("passes");
      if (f.retorque) words.insert("again");
      if (f.second_person) words.insert("second person");
      if (f.shares) words.insert("shares");
      if (f.accessory) words.insert(f.accessory->value);
      if (f.duty) words.insert(f.duty->value);
      if (f.reuse) words.insert(f.reuse->value);
    }
  EXPECT_THAT(
      words, testing::IsSupersetOf({"bonded", "greased", "cure", "grease", "set by", "slot", "pivot", "passes", "again",
                                    "second person", "shares", "winch", "tow bar", "wheel", "body", "battery", "new"}));
}

TEST(OrchardCart, EveryVariantRehearsesClean) {
  for (const char* file : {"bough-kit.toml", "job.toml", "bare-job.toml"}) {
    const RehearsedJob r = rehearse(job(file));
    EXPECT_EQ(r.variants.size(), 4U) << file;
    EXPECT_TRUE(r.complete) << file;
    for (const RehearsedFinding& f : r.found)
      ADD_FAILURE() << file << ": " << f.finding.message.code << " " << f.finding.subject;
  }
}

TEST(OrchardCart, TwoKitsThatClashAreStopped) {
  const Assessment a = assess(job("clash-job.toml"));
  EXPECT_EQ(a.verdict, Verdict::no_go);
  EXPECT_TRUE(std::any_of(a.findings.begin(), a.findings.end(), [](const Finding& f) {
    return f.message.code == "kits-conflict" && f.outcome == Outcome::stop;
  }));
}

// The trestle's foot goes under the bracket's outer bolt before that is final: its bolt takes the other's place.
TEST(OrchardCart, TheTrestleComesInBehindTheBrackets) {
  const Assessment a = assess(job("job.toml"));
  const auto at = [&](const std::string& id) {
    return std::find_if(a.steps.begin(), a.steps.end(), [&](const StepLine& s) { return s.id == id; }) -
           a.steps.begin();
  };
  EXPECT_EQ(at("trestle-legs"), at("brackets-on") + 2);
  EXPECT_LT(at("trestle-legs"), at("brackets-final"));
  EXPECT_LT(at("trestle-bar"), at("second-look"));
  for (const StepLine& s : a.steps) EXPECT_TRUE(s.faults.empty()) << s.id;
}

class Planned : public testing::TestWithParam<int> {};

TEST_P(Planned, KeepsWhatWaitsForWhatAndShowsItsBound) {
  const Job both = job("job.toml");
  const Assessment a = assess(both);
  const OrderOfWork o = order_of_work(both, a, GetParam());
  ASSERT_EQ(o.steps.size(), a.steps.size());
  std::vector<const PlannedStep*> at(a.steps.size(), nullptr);
  for (const PlannedStep& s : o.steps) at[s.step] = &s;
  constexpr Time slack = 1e-6 * units::second;
  for (const PlannedStep& s : o.steps) {
    ASSERT_NE(at[s.step], nullptr);
    for (const std::size_t before : s.waits_for) EXPECT_LE(at[before]->end, s.start + slack);
    // Nobody does two things at once.
    for (const PlannedStep& other : o.steps)
      if (&other != &s && (other.technician == s.technician || other.technician == 2 || s.technician == 2)) {
        EXPECT_TRUE(other.end <= s.start + slack || s.end <= other.start + slack)
            << a.steps[s.step].id << " and " << a.steps[other.step].id;
      }
  }
  EXPECT_TRUE(o.steps.back().unfinished.loose.empty());
  EXPECT_LE(o.bound, o.total + slack);
  EXPECT_LE(o.tool_bound, o.tool_changes);
  EXPECT_LE(o.tool_changes, o.tool_changes_as_given);
  std::cout << GetParam() << " technicians: " << o.total.in(units::hour) << " h, at least " << o.bound.in(units::hour)
            << " h; tools change hands " << o.tool_changes << " times, at least " << o.tool_bound
            << (o.proven ? ", proven" : "") << "\n";
}
INSTANTIATE_TEST_SUITE_P(OrchardCart, Planned, testing::Values(1, 2));

}  // namespace
}  // namespace trammel
