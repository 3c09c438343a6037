// The shortest way to each fault, and steps that may come at any time, against walkers that try every order.
#include <gtest/gtest.h>

#include <iostream>
#include <random>
#include <set>

#include "work/builder.h"
#include "work/every_order.h"
#include "work/hauler.h"
#include "work/order.h"
#include "work/rehearse.h"

namespace trammel::work {
namespace {

// Some of the hauler's steps, with a slip now and then.
Procedure reduced(std::mt19937& random) {
  Procedure p = hauler();
  const std::size_t keep = 5 + random() % 6;
  while (p.steps.size() > keep) p.steps.erase(p.steps.begin() + static_cast<std::ptrdiff_t>(random() % p.steps.size()));
  for (Step& s : p.steps) {
    s.stage.clear();
    if (random() % 4 == 0) s.evidence.clear();
    if (random() % 5 == 0) s.loads.clear();
    if (random() % 6 == 0) s.sides = Sides::left;
    if (random() % 3 == 0) std::erase_if(s.needs, [&](const Need&) { return random() % 2 == 0; });
  }
  return p;
}

TEST(Shortest, Law4NoOrderShowsAFaultSooner) {
  std::mt19937 random(5);
  std::size_t kits = 0, faults = 0, sets = 0, sooner = 0;
  while (kits < 150) {
    const Procedure p = reduced(random);
    const Roster r = make_roster(p);
    if (r.order.size() > 16) continue;
    ++kits;
    const EveryOrder all = every_order(r);
    sets += all.sets;
    EXPECT_EQ(all.states, all.sets) << "a set of steps has one state, whatever their order";
    const Rehearsal told = rehearse(p);
    std::set<FaultKey> walked;
    for (const Fault& f : told.walk.faults)
      if (f.at) walked.insert(key(f));
    // Law 2: every order has just these.
    std::set<FaultKey> met;
    for (const auto& [k, depth] : all.depth) met.insert(k);
    EXPECT_EQ(met, walked);
    for (const Uncovered& u : told.found) {
      if (!u.fault.at || u.branch != Branch::as_listed) continue;
      ++faults;
      ASSERT_TRUE(all.depth.contains(key(u.fault)));
      EXPECT_EQ(u.least_steps, all.depth.at(key(u.fault))) << word(u.fault.kind) << " " << u.fault.step;
      sooner += u.least_steps < *u.fault.at + 1;
    }
  }
  std::cout << "kits: " << kits << ", sets of steps tried: " << sets << ", faults: " << faults
            << ", of them sooner than in the list: " << sooner << "\n";
  EXPECT_GT(faults, 300u);
  EXPECT_GT(sooner, 20u);
}

// Free steps by hand: every order of the list in which only they move, each walked whole.
void every_place(const Procedure& p, std::set<FaultKey>& found) {
  std::vector<std::size_t> order(p.steps.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto bound_in_order = [&] {
    std::size_t last = 0;
    for (std::size_t i : order) {
      if (p.steps[i].any_time) continue;
      if (i < last) return false;
      last = i;
    }
    return true;
  };
  do {
    if (!bound_in_order()) continue;
    Procedure q = p;
    q.steps.clear();
    for (std::size_t i : order) q.steps.push_back(p.steps[i]);
    bool allowed = true;
    for (const Precedence& e : broken_precedences(q)) allowed = allowed && !q.steps[e.first].any_time;
    if (!allowed) continue;
    const Walk w = walk(q);
    for (const Fault& f : w.faults)
      allowed = allowed && !(f.kind == FaultKind::need_not_met && p.steps[*make_roster(p).step(f.step)].any_time);
    if (!allowed) continue;
    for (const Fault& f : w.faults) found.insert(key(f));
  } while (std::next_permutation(order.begin(), order.end()));
}

TEST(Shortest, FreeStepsTogetherAgainstEveryPermutation) {
  std::mt19937 random(9);
  std::size_t kits = 0, told = 0, coupled = 0, free = 0;
  while (kits < 80) {
    Procedure p = reduced(random);
    while (p.steps.size() > 6) p.steps.pop_back();
    for (Step& s : p.steps)
      if (s.sides == Sides::each) s.sides = Sides::once;
    for (int k = 0; k < 3; ++k) p.steps[random() % p.steps.size()].any_time = true;
    ++kits;
    std::set<FaultKey> wanted;
    every_place(p, wanted);
    const Rehearsal r = rehearse(p);
    EXPECT_TRUE(r.complete);
    free += r.free;
    coupled += r.coupled;
    std::set<FaultKey> have;
    for (const Fault& f : r.walk.faults) have.insert(key(f));
    for (const Uncovered& u : r.found)
      for (const Fault& f : u.beneath) have.insert(key(f)), ++told;
    for (const FaultKey& k : wanted)
      EXPECT_TRUE(have.contains(k)) << word(std::get<0>(k)) << " in " << std::get<1>(k) << " of " << std::get<3>(k);
  }
  std::cout << "kits: " << kits << ", free steps: " << free << ", coupled: " << coupled
            << ", faults of another order: " << told << "\n";
  EXPECT_GT(told, 50u);
}

TEST(Shortest, ManyFreeStepsThatShareNothingKeepTheirPlaces) {
  Procedure p;
  p.name = "labels";
  std::vector<StepText> steps;
  for (int i = 0; i < 30; ++i)
    steps.push_back(
        {.id = "label-" + std::to_string(i), .work = {"label place " + std::to_string(i)}, .any_time = true});
  steps.push_back({.id = "drive", .loads = {"driven"}});
  write_steps(p, steps);
  const Rehearsal r = rehearse(p);
  EXPECT_EQ(r.free, 30u);
  EXPECT_EQ(r.coupled, 0u);
  EXPECT_TRUE(r.complete);
  EXPECT_TRUE(r.found.empty()) << list(r.walk);
}

// Free steps that tighten a screw each, and free steps that fit a part each: parts may stand in for one another.
Procedure many(bool parts) {
  Procedure p;
  p.name = "many";
  std::vector<StepText> steps = {{.id = "begin"}};
  for (int i = 0; i < 14; ++i) {
    const std::string id = "L" + std::to_string(i);
    if (parts)
      p.parts.push_back(part(id, "rear", PartKind::body, PartSource::in_pack));
    else
      p.fasteners.push_back(fastener(id, "screw", {}, Duty::body));
    steps.push_back({.id = "step-" + std::to_string(i),
                     .fits = parts ? Texts{id} : Texts{},
                     .tighten = parts ? Texts{} : Texts{id + " final"},
                     .any_time = true});
  }
  steps.push_back({.id = "drive", .loads = {"driven"}});
  steps.push_back({.id = "release", .loads = {"released"}});
  write_steps(p, steps);
  return p;
}

TEST(Shortest, ManyCoupledFreeStepsAreEachFound) {
  // Each may come after the cart is given back. What tightens its own screw is tried by itself; what moves parts, with
  // all others that do, or in pairs where that is too much.
  for (const bool parts : {false, true}) {
    const Rehearsal r = rehearse(many(parts), {.most_states = 500});
    EXPECT_EQ(r.coupled, 14u);
    EXPECT_EQ(r.complete, !parts);
    EXPECT_EQ(r.found.size(), 14u);
    for (const Uncovered& u : r.found) {
      ASSERT_EQ(u.fault.kind, FaultKind::not_ordered);
      ASSERT_FALSE(u.beneath.empty());
      EXPECT_EQ(u.beneath.front().kind, FaultKind::release_refused);
    }
  }
}

}  // namespace
}  // namespace trammel::work
