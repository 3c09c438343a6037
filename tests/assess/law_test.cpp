// The laws of assess.h, and that every finding can be said in words.
#include <gtest/gtest.h>

#include <set>

#include "assess/finding_group.h"
#include "assess/shuttle.h"
#include "messages/catalogue.h"

namespace trammel::test {
namespace {

TEST(AssessLaws, law_1_the_same_job_gives_the_same_findings) {
  EXPECT_EQ(text_of(assess(shuttle())), text_of(assess(shuttle())));
}

TEST(AssessLaws, law_2_without_kits_nothing_differs_from_before) {
  Job job = shuttle();
  job.kits.clear();
  const Assessment a = assess(job);
  int compared = 0;
  for (const Finding& f : a.findings)
    if (f.before && f.value) {
      EXPECT_NEAR(f.before->si, f.value->si, 1e-12 * std::max(1.0, std::abs(f.value->si)))
          << f.message.code << " " << f.subject;
      ++compared;
    }
  EXPECT_GT(compared, 15);
  EXPECT_EQ(a.before.height->si(), a.after.height->si());
  for (const LoadCaseResult& c : a.load_cases) EXPECT_NEAR(c.before.cg.z.si(), c.after.cg.z.si(), 1e-12);
}

TEST(AssessLaws, verdict_is_that_of_the_gravest_finding) {
  for (const Job& job : {shuttle(), cheaper_shuttle()}) {
    const Assessment a = assess(job);
    bool stop = false, condition = false;
    for (const Finding& f : a.findings)
      stop |= f.outcome == Outcome::stop, condition |= f.outcome == Outcome::condition;
    EXPECT_EQ(a.verdict, stop ? Verdict::no_go : condition ? Verdict::go_with_conditions : Verdict::go);
    EXPECT_LE(a.sentences.size(), 3u);
  }
}

// What must be acted on is told once, no case of it is lost, and what is told in full is the worst of its kind.
TEST(AssessLaws, findings_of_one_kind_stand_together_with_the_worst_in_front) {
  for (const Job& job : {shuttle(), cheaper_shuttle()}) {
    const Assessment a = assess(job);
    const auto share = [](const Finding& f) {
      return f.margin && f.limit && f.limit->si != 0.0 ? f.margin->si / std::abs(f.limit->si) : 0.0;
    };
    std::multiset<const Finding*> told;
    for (const FindingGroup& group : to_act_on(a.findings)) {
      told.insert(group.worst);
      for (const Finding* other : group.others) {
        told.insert(other);
        EXPECT_EQ(other->message.code, group.worst->message.code);
        EXPECT_EQ(other->outcome, group.worst->outcome);
        EXPECT_GE(share(*other), share(*group.worst)) << other->message.code;
      }
    }
    std::multiset<const Finding*> wanted;
    for (const Finding& f : a.findings)
      if (f.outcome == Outcome::stop || f.outcome == Outcome::condition || says_not_computed(f)) wanted.insert(&f);
    EXPECT_EQ(told, wanted);
    EXPECT_GT(wanted.size(), 5u);
  }
}

// A message without its words, or with a value that was not handed over, shows a code or a brace.
TEST(AssessWords, every_finding_is_worded_whole) {
  Job bare = shuttle();
  bare.site.reset();
  bare.cart.drive.reset();
  bare.cart.front->left->spring.reset();
  bare.cart.mass.clear();
  Job broken = shuttle();
  broken.kits[0].kit.step.erase(broken.kits[0].kit.step.begin() + 20);
  for (KitFastener& f : broken.kits[0].kit.fastener) {
    f.torque.reset();
    f.passes.clear();
    f.surface.reset();
  }
  for (const Job& job : {shuttle(), cheaper_shuttle(), bare, broken}) {
    const Assessment a = assess(job);
    EXPECT_FALSE(a.findings.empty());
    for (const Finding& f : a.findings) {
      ASSERT_NE(find_message(f.message.code), nullptr) << f.message.code;
      EXPECT_EQ(word(f.message).find('{'), std::string::npos) << word(f.message);
      EXPECT_EQ(word(f.message).find("nan"), std::string::npos) << word(f.message);
      EXPECT_FALSE(f.source.empty()) << f.message.code;
      if (f.cure) {
        ASSERT_NE(find_message(f.cure->code), nullptr) << f.cure->code;
        EXPECT_EQ(word(*f.cure).find('{'), std::string::npos) << word(*f.cure);
      }
    }
    if (!a.align) continue;
    for (const Message& m : a.align->notes) EXPECT_EQ(word(m).find('{'), std::string::npos) << word(m);
  }
}

TEST(AssessWords, what_cannot_be_computed_is_named) {
  Job job = shuttle();
  job.cart.mass.clear();
  for (KitUse& use : job.kits) std::erase_if(use.kit.change, [](const Change& c) { return c.act == Change::Act::add; });
  job.cart.drive.reset();
  const Assessment a = assess(job);
  const auto missing = of_code(a, "not-computed");
  ASSERT_GE(missing.size(), 2u);
  std::string all;
  for (const Finding& f : missing) all += word(f.message) + "\n";
  EXPECT_NE(all.find("mass"), std::string::npos) << all;
  EXPECT_NE(all.find("drive.top_speed"), std::string::npos) << all;
  EXPECT_TRUE(a.load_cases.empty());
}

}  // namespace
}  // namespace trammel::test
