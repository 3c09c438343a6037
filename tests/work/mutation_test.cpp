// Seeded mistakes in a clean procedure: whatever the independent judge calls faulty, the walk must find.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <iostream>
#include <map>
#include <random>

#include "work/builder.h"
#include "work/hauler.h"
#include "work/judge.h"

namespace trammel::work {
namespace {

struct Mutant {
  std::string kind, where;
  Procedure procedure;
};

// Every single mistake of every kind that the procedure has room for.
std::vector<Mutant> single_mutants(const Procedure& clean) {
  std::vector<Mutant> out;
  const auto add = [&](const char* kind, const std::string& where, const std::function<void(Procedure&)>& act) {
    Mutant m{kind, where, clean};
    act(m.procedure);
    out.push_back(std::move(m));
  };
  for (std::size_t i = 0; i < clean.steps.size(); ++i) {
    const Step& s = clean.steps[i];
    const auto at = static_cast<std::ptrdiff_t>(i);
    add("drop step", s.id, [&](Procedure& p) { p.steps.erase(p.steps.begin() + at); });
    for (std::size_t j = i + 1; j < clean.steps.size(); ++j)
      add("swap steps", s.id + " and " + clean.steps[j].id, [&](Procedure& p) { std::swap(p.steps[i], p.steps[j]); });
    for (Sides sides : {Sides::left, Sides::right})
      if (s.sides != sides) add("wrong side", s.id, [&](Procedure& p) { p.steps[i].sides = sides; });
    for (std::size_t k = 0; k < s.tighten.size(); ++k) {
      const auto at_k = static_cast<std::ptrdiff_t>(k);
      add("drop a tighten", s.id, [&](Procedure& p) { p.steps[i].tighten.erase(p.steps[i].tighten.begin() + at_k); });
      for (int to = 0; to < rung(s.tighten[k].to); ++to)
        add("lower the state", s.id, [&](Procedure& p) { p.steps[i].tighten[k].to = static_cast<FastenerState>(to); });
      for (int to = rung(s.tighten[k].to) + 1; to <= rung(FastenerState::verified); ++to)
        add("raise the state", s.id, [&](Procedure& p) { p.steps[i].tighten[k].to = static_cast<FastenerState>(to); });
      for (Side side : {Side::left, Side::right})
        add("one side's fasteners", s.id, [&](Procedure& p) { p.steps[i].tighten[k].fastener.side = side; });
      for (End end : {End::front, End::rear})
        add("other end's fasteners", s.id, [&](Procedure& p) { p.steps[i].tighten[k].fastener.end = end; });
      add("one fastener of a set", s.id, [&](Procedure& p) { p.steps[i].tighten[k].fastener.number = 2; });
      for (const Fastener& f : clean.fasteners)
        if (f.id != s.tighten[k].fastener.id)
          add("other fastener", s.id, [&](Procedure& p) { p.steps[i].tighten[k].fastener.id = f.id; });
    }
    for (std::size_t k = 0; k < s.slacken.size(); ++k) {
      add("drop a slacken", s.id,
          [&](Procedure& p) { p.steps[i].slacken.erase(p.steps[i].slacken.begin() + static_cast<std::ptrdiff_t>(k)); });
      add("slacken by half", s.id, [&](Procedure& p) { p.steps[i].slacken[k].to = FastenerState::snug; });
    }
    for (std::size_t k = 0; k < s.loads.size(); ++k)
      add("drop a support", s.id,
          [&](Procedure& p) { p.steps[i].loads.erase(p.steps[i].loads.begin() + static_cast<std::ptrdiff_t>(k)); });
    if (!s.loads.empty())
      add("other end's support", s.id, [&](Procedure& p) {
        for (ApplyLoad& l : p.steps[i].loads) l.end = l.end == End::front ? End::rear : End::front;
      });
    for (std::size_t k = 0; k < s.fits.size(); ++k)
      add("drop a refit", s.id,
          [&](Procedure& p) { p.steps[i].fits.erase(p.steps[i].fits.begin() + static_cast<std::ptrdiff_t>(k)); });
    for (std::size_t k = 0; k < s.removes.size(); ++k)
      add("drop a removal", s.id,
          [&](Procedure& p) { p.steps[i].removes.erase(p.steps[i].removes.begin() + static_cast<std::ptrdiff_t>(k)); });
    if (!s.proves.empty()) add("drop a proof", s.id, [&](Procedure& p) { p.steps[i].proves.clear(); });
    if (!s.sets.empty()) add("drop a condition", s.id, [&](Procedure& p) { p.steps[i].sets.clear(); });
    if (!s.tools.empty()) add("drop the tools", s.id, [&](Procedure& p) { p.steps[i].tools.clear(); });
    for (std::size_t j = i + 1; j <= clean.steps.size(); ++j)
      add("do it again later", s.id, [&](Procedure& p) {
        Step again = p.steps[i];
        again.id += "-again";
        p.steps.insert(p.steps.begin() + static_cast<std::ptrdiff_t>(j), again);
      });
  }
  return out;
}

struct Tally {
  int all = 0, faulty = 0, caught = 0, only_walk = 0;
};

void weigh(const Mutant& m, std::map<std::string, Tally>& tallies) {
  Tally& t = tallies[m.kind];
  ++t.all;
  const auto wrong = judge(m.procedure);
  const Walk w = walk(m.procedure);
  if (wrong) {
    ++t.faulty;
    t.caught += !w.faults.empty();
    EXPECT_FALSE(w.faults.empty()) << "survivor: " << m.kind << " in " << m.where << ": " << *wrong;
  } else if (!w.faults.empty()) {
    ++t.only_walk;
  }
  // A release that the judge would refuse is never granted without a word.
  for (FastenerState s : w.end().fasteners) EXPECT_FALSE(w.release.granted() && below(s, FastenerState::final));
}

void print(const std::map<std::string, Tally>& tallies) {
  Tally sum;
  for (const auto& [kind, t] : tallies) {
    std::cout << "  " << kind << ": " << t.caught << " caught of " << t.faulty << " faulty, " << t.all << " made, "
              << t.only_walk << " found by the walk alone\n";
    sum.all += t.all, sum.faulty += t.faulty, sum.caught += t.caught, sum.only_walk += t.only_walk;
  }
  std::cout << "mutants caught/faulty/made: " << sum.caught << "/" << sum.faulty << "/" << sum.all << "\n";
}

TEST(Mutation, JudgeAndWalkAgreeOnTheCleanProcedure) {
  EXPECT_FALSE(judge(hauler())) << *judge(hauler());
  EXPECT_TRUE(walk(hauler()).faults.empty());
}

TEST(Mutation, EverySingleMistakeThatTheJudgeSeesIsFound) {
  std::map<std::string, Tally> tallies;
  for (const Mutant& m : single_mutants(hauler())) weigh(m, tallies);
  print(tallies);
  int faulty = 0;
  for (const auto& [kind, t] : tallies) faulty += t.faulty;
  EXPECT_GT(faulty, 500);
}

TEST(Mutation, TwoMistakesDoNotHideEachOther) {
  // Two at once, fixed seed: the second is made on the first's procedure.
  std::map<std::string, Tally> tallies;
  std::mt19937 random(20261125);
  const std::vector<Mutant> first = single_mutants(hauler());
  for (int n = 0; n < 40; ++n) {
    const Mutant& a = first[random() % first.size()];
    const std::vector<Mutant> second = single_mutants(a.procedure);
    for (int k = 0; k < 25; ++k) {
      Mutant m = second[random() % second.size()];
      m.where = a.kind + " in " + a.where + ", then " + m.kind + " in " + m.where;
      m.kind = "two mistakes";
      weigh(m, tallies);
    }
  }
  print(tallies);
}

}  // namespace
}  // namespace trammel::work
