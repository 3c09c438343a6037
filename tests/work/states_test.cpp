// Laws of fastener_state.h and load.h.
#include <gtest/gtest.h>

#include "work/load.h"

namespace trammel::work {
namespace {
using S = FastenerState;
constexpr S ladder[] = {S::out, S::nut_off, S::slack, S::finger_tight, S::snug, S::part_tight, S::final, S::verified};
constexpr S off_ladder[] = {S::seized, S::damaged, S::disputed, S::substituted};
constexpr Load loads[] = {Load::jacked, Load::on_stands,     Load::on_wheels,
                          Load::rolled, Load::driven_capped, Load::released};

TEST(FastenerStates, LadderIsOrdered) {
  for (std::size_t a = 0; a < std::size(ladder); ++a)
    for (std::size_t b = 0; b < std::size(ladder); ++b) EXPECT_EQ(below(ladder[a], ladder[b]), a < b) << a << " " << b;
  EXPECT_FALSE(below(S::locked, S::verified));
  EXPECT_FALSE(below(S::verified, S::locked));
}

TEST(FastenerStates, Law1OffLadderIsBelowAllButOut) {
  for (S s : off_ladder) {
    for (S least : ladder) EXPECT_EQ(below(s, least), least != S::out) << word(s);
  }
}

TEST(FastenerStates, Law2TighteningNeverLowersSlackeningNeverRaises) {
  for (S from : ladder)
    for (S to : ladder) {
      EXPECT_GE(rung(tightened(from, to)), rung(from));
      EXPECT_LE(rung(slackened(from, to)), rung(from));
    }
  for (S s : {S::seized, S::damaged, S::disputed}) {
    EXPECT_EQ(tightened(s, S::final), s);
    EXPECT_EQ(slackened(s, S::out), s);
  }
  EXPECT_EQ(tightened(S::substituted, S::final), S::final);
}

TEST(FastenerStates, Law3CheckedOnlyWhenFinal) {
  EXPECT_EQ(tightened(S::part_tight, S::verified), S::part_tight);
  EXPECT_EQ(tightened(S::snug, S::locked), S::snug);
  EXPECT_EQ(tightened(S::final, S::verified), S::verified);
}

TEST(FastenerStates, WordsReadBack) {
  for (int i = 0; i <= static_cast<int>(S::substituted); ++i) {
    const S s = static_cast<S>(i);
    EXPECT_EQ(read_fastener_state(word(s)), s);
  }
  EXPECT_EQ(read_fastener_state("finger-tight"), S::finger_tight);
  EXPECT_EQ(read_fastener_state("part tight"), S::part_tight);
  EXPECT_FALSE(read_fastener_state("tight"));
  for (Load l : loads) EXPECT_EQ(read_load(word(l)), l);
  EXPECT_FALSE(read_load("airborne"));
}

TEST(LeastStatesOfLoads, Law1And2ForEveryGivenPair) {
  for (Duty duty : {Duty::general, Duty::wheel, Duty::body})
    for (Load given : loads)
      for (S s : ladder) {
        GivenLeast g{};
        g[static_cast<std::size_t>(given)] = s;
        const LeastStates least = resolve_least(duty, g);
        for (std::size_t i = 3; i < load_count; ++i) EXPECT_GE(rung(least[i]), rung(least[i - 1]));
        EXPECT_GE(rung(least.back()), rung(S::final));
        // What is given is what is asked, unless a load before it asks more.
        if (given <= Load::on_wheels) {
          EXPECT_EQ(least_for(least, given), s);
        } else {
          EXPECT_GE(rung(least_for(least, given)), given == Load::released ? rung(S::final) : rung(s));
        }
      }
}

TEST(LeastStatesOfLoads, WheelsAskSnugThenFinal) {
  const LeastStates wheel = default_least(Duty::wheel);
  EXPECT_EQ(least_for(wheel, Load::on_stands), S::out);
  EXPECT_EQ(least_for(wheel, Load::on_wheels), S::snug);
  EXPECT_EQ(least_for(wheel, Load::rolled), S::final);
  GivenLeast g{};
  g[static_cast<std::size_t>(Load::on_wheels)] = S::final;
  EXPECT_EQ(least_for(resolve_least(Duty::general, g), Load::rolled), S::final);
}

}  // namespace
}  // namespace trammel::work
