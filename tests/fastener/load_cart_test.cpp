// The load cart's joints: invented numbers of the demo, so that the room and the demo agree.
#include <gtest/gtest.h>

#include "fastener/ask.h"
#include "fastener/worst.h"

namespace trammel::fastener {
namespace {

Judgement judged(std::string_view text) {
  const auto r = read_ask(text);
  EXPECT_TRUE(std::holds_alternative<Question>(r)) << text;
  if (!std::holds_alternative<Question>(r)) return {};
  const auto& q = std::get<Question>(r);
  return judge(q.joint, q.ask);
}

// Per cent of proof at the stated K. The demo's band is +-30 %; a torque wrench's alphaA 1.8 is +-29 %.
TEST(LoadCart, ShareOfProof) {
  struct Row {
    const char* ask;
    int nominal, low, high;  // per cent, 0 where the demo gives none
  };
  for (const Row& r : {Row{"M6 8.8 9 N·m K 0.2", 64, 45, 84},
                       {"M8 8.8 25 N·m K 0.2", 74, 52, 96},
                       {"M8 8.8 22 N·m K 0.2", 65, 0, 0},
                       {"M10 8.8 50 N·m K 0.2", 74, 52, 97},
                       {"M10 8.8 45 N·m light oil K 0.18", 74, 0, 0},
                       {"M10 8.8 35 N·m K 0.2", 52, 0, 0},
                       {"M12 8.8 60 N·m K 0.2", 51, 36, 66},
                       {"M12x1.5 8.8 85 N·m K 0.18", 77, 54, 100}}) {
    const auto j = judged(r.ask);
    ASSERT_TRUE(j.proof) << r.ask;
    EXPECT_NEAR(100.0 * j.proof->nominal, r.nominal, 0.7) << r.ask;
    if (r.low) {
      EXPECT_NEAR(100.0 * j.proof->low, r.low, 1.8) << r.ask;
      EXPECT_NEAR(100.0 * j.proof->high, r.high, 1.8) << r.ask;
    }
  }
}

// Every torque of the demo's joint table stands below proof, looks like no slip, and has a wrench for its head.
TEST(LoadCart, NothingThatCannotBeRight) {
  for (const char* ask :
       {"M8 8.8 22 N·m AF 13 dry zinc", "M10 8.8 50 N·m AF 16 dry zinc", "M14x1.5 8.8 50 N·m AF 21 dry",
        "wheel stud M12x1.5 8.8, disc 6 mm, wheel nut 10 cone 60 deg; 85 N·m; AF 18; dry",
        "u-bolt M10 8.8, pad 12 mm, nut 8; 45 N·m; AF 16; light oil",
        "bolt M12x80 8.8, eye 60 mm, lock nut 8; 60 N·m; plus running; AF 18; dry", "M10 8.8 35 N·m AF 16 dry",
        "M8 8.8 25 N·m AF 13 dry", "M6 8.8 9 N·m AF 10 dry"}) {
    const auto j = judged(ask);
    for (Flag f : {Flag::torque_above_proof, Flag::looks_like_factor_12, Flag::wrench_fits_no_head,
                   Flag::wrench_not_tabled, Flag::nut_weaker_than_bolt, Flag::class_missing, Flag::torque_missing})
      EXPECT_FALSE(j.has(f)) << ask << ": " << name(f);
  }
  // A jam nut of a rod is held by its own torque, far below what the thread could bear.
  EXPECT_TRUE(judged("M14x1.5 8.8 50 N·m AF 21 dry").has(Flag::torque_too_low));
}

}  // namespace
}  // namespace trammel::fastener
