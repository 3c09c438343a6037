// The laws of assess/accessories.h, on the orchard cart's kits.
#include "assess/accessories.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "assess/assess.h"
#include "assess/procedure.h"
#include "job/accessories.h"
#include "jobfile/json.h"
#include "shop/open.h"

namespace trammel {
namespace {

using testing::ElementsAre;

Job job(const char* file) {
  return *read_kit_or_job(std::string(TRAMMEL_SOURCE_DIR "/examples/orchard-cart/") + file).value;
}

template <class List>
bool has(const List& list, const std::string& id) {
  return std::any_of(list.begin(), list.end(), [&](const auto& x) { return x.id.value == id; });
}

TEST(Accessories, AreFoundInTheOrderNamed) {
  EXPECT_THAT(accessories_of(job("job.toml")), ElementsAre("tow bar", "winch"));
}

TEST(Accessories, Law1AllOfThemLeaveTheJobAsItIs) {
  const Job all = job("job.toml");
  EXPECT_EQ(to_json(with_accessories(all, {"winch", "tow bar"})), to_json(all));
}

TEST(Accessories, Law2ChoosingAgainChangesNothing) {
  const Job once = with_accessories(job("job.toml"), {"winch"});
  EXPECT_EQ(to_json(with_accessories(once, {"winch"})), to_json(once));
  EXPECT_EQ(to_json(with_accessories(once, {"winch", "tow bar"})), to_json(once));
}

// What names something of an accessory that is left out names it no more.
TEST(Accessories, TheSecondLookNamesOnlyWhatIsThere) {
  const Job bare = with_accessories(job("job.toml"), {});
  const Kit& kit = bare.kits.front().kit;
  EXPECT_FALSE(has(kit.fastener, "W1"));
  EXPECT_FALSE(has(kit.part, "K20"));
  EXPECT_FALSE(has(kit.step, "winch-on"));
  for (const Change& change : kit.change) EXPECT_TRUE(change.accessory.empty());
  for (const KitStep& step : kit.step)
    for (const Text& t : step.tighten) {
      EXPECT_FALSE(t.value.starts_with("W") || t.value.starts_with("T")) << step.id.value << ": " << t.value;
    }
  EXPECT_TRUE(job_procedure(bare).findings.empty());
}

// The cart's weight follows what is fitted, and what is not fitted is told.
TEST(Accessories, TheJobSaysWhichItGets) {
  const Job with = job("job.toml"), without = job("bare-job.toml");
  EXPECT_EQ(as_fitted(with).kits.front().kit.part.size(), with.kits.front().kit.part.size());
  const auto left_out = [](const Assessment& a) {
    return std::count_if(a.findings.begin(), a.findings.end(),
                         [](const Finding& f) { return f.message.code == "accessories-left-out"; });
  };
  EXPECT_EQ(left_out(assess(with)), 0);
  EXPECT_EQ(left_out(assess(without)), 1);
}

}  // namespace
}  // namespace trammel
