// A hundred seeded mistakes in each shipped kit: whatever the independent judge of tests/work calls faulty, the
// rehearsal must find. The kits themselves rehearse clean.
#include <gtest/gtest.h>

#include <iostream>
#include <map>

#include "assess/procedure.h"
#include "assess/rehearsal.h"
#include "shop/open.h"
#include "work/judge.h"

namespace trammel {
namespace {

std::string list(const RehearsedJob& r) {
  std::string all;
  for (const RehearsedFinding& f : r.found) all += f.finding.message.code + " " + f.finding.subject + "\n";
  return all;
}

class Kits : public testing::TestWithParam<const char*> {
 protected:
  Job job() const { return *read_kit_or_job(std::string(TRAMMEL_SOURCE_DIR "/examples/") + GetParam()).value; }
};

TEST_P(Kits, RehearseCleanAndTheJudgeAgrees) {
  const RehearsedJob r = rehearse(job());
  EXPECT_FALSE(std::any_of(r.found.begin(), r.found.end(), [](const RehearsedFinding& f) {
    return f.finding.outcome != Outcome::note;
  })) << list(r);
  const auto wrong = work::judge(job_procedure(job()).procedure);
  EXPECT_FALSE(wrong) << *wrong;
}

TEST_P(Kits, EveryMistakeThatTheJudgeSeesIsFound) {
  int faulty = 0, caught = 0, found = 0, made = 0;
  std::map<std::string, int> only_here;
  // Caught: a finding that the clean kit does not have, and that asks for something.
  const std::vector<SpoiltOutcome> told = rehearse_spoilt(job(), 100, 20261125);
  for (const Spoilt& s : spoil(job(), 100, 20261125)) {
    const SpoiltOutcome& o = told.at(static_cast<std::size_t>(made++));
    ASSERT_EQ(o.where, s.where);
    found += o.caught;
    const auto wrong = work::judge(job_procedure(s.job).procedure);
    if (!wrong) {
      if (o.caught) ++only_here[o.by];
      continue;
    }
    ++faulty;
    caught += o.caught;
    EXPECT_TRUE(o.caught) << s.kind << " " << s.where << ": " << *wrong;
  }
  std::cout << GetParam() << ": caught/faulty/made " << caught << "/" << faulty << "/" << made << ", found in all "
            << found << "\n";
  for (const auto& [code, n] : only_here) std::cout << "  without the judge: " << code << " " << n << "\n";
  EXPECT_EQ(made, 100);
  EXPECT_GT(faulty, 20);
}

TEST_P(Kits, TheSameSeedGivesTheSameMistakes) {
  const auto a = rehearse_spoilt(job(), 20, 7), b = rehearse_spoilt(job(), 20, 7);
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_EQ(a[i].where + a[i].by, b[i].where + b[i].by);
}

INSTANTIATE_TEST_SUITE_P(Shipped, Kits,
                         testing::Values("shuttle/landing-kit.toml", "load-cart/raising-kit.toml",
                                         "orchard-cart/bough-kit.toml", "orchard-cart/job.toml", "first-job/kit.toml"),
                         [](const auto& kit) {
                           std::string name = kit.param;
                           std::string out;
                           for (char c : name)
                             if (std::isalnum(static_cast<unsigned char>(c))) out += c;
                           return out;
                         });

}  // namespace
}  // namespace trammel
