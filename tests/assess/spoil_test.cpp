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
  EXPECT_TRUE(r.found.empty()) << list(r);
  const auto wrong = work::judge(job_procedure(job()).procedure);
  EXPECT_FALSE(wrong) << *wrong;
}

TEST_P(Kits, EveryMistakeThatTheJudgeSeesIsFound) {
  int faulty = 0, caught = 0, found = 0, made = 0;
  std::map<std::string, int> only_here;
  for (const Spoilt& s : spoil(job(), 100, 20261125)) {
    ++made;
    const RehearsedJob r = rehearse(s.job);
    found += !r.found.empty();
    const auto wrong = work::judge(job_procedure(s.job).procedure);
    if (!wrong) {
      if (!r.found.empty()) ++only_here[r.found.front().finding.message.code];
      continue;
    }
    ++faulty;
    caught += !r.found.empty();
    EXPECT_FALSE(r.found.empty()) << s.kind << " " << s.where << ": " << *wrong;
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
