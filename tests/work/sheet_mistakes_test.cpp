// The kinds of mistake that a kit's sheet of steps makes, each in the smallest work that can hold it. Invented; the
// whole sheet is in tests/cases/rehearse.
#include <gtest/gtest.h>

#include <functional>
#include <iostream>

#include "work/builder.h"
#include "work/rehearse.h"
#include "work/words.h"

namespace trammel::work {
namespace {

// A rear end as it is raised: damper by two bolts, a front eye, a vent hose, jam nuts, wheels, a terminal.
Procedure rear_end() {
  Procedure p;
  p.name = "rear end";
  using enum PartKind;
  using enum PartSource;
  p.parts = {part("wheel", "{left,right}.rear", wheel, on_cart),
             part("damper", "{left,right}.rear", suspension, on_cart),
             part("longer damper", "{left,right}.rear", suspension, in_pack, "damper"),
             part("vent hose", "rear", body, on_cart), part("lip", "{left,right}.front", body, on_cart)};
  p.fasteners = {fastener("F8", "wheel nut, {left,right}.rear.1..4", {"wheel"}, Duty::wheel),
                 fastener("R3", "front eye, {left,right}.rear"),
                 fastener("R4", "damper lower, {left,right}.rear", {"damper", "longer damper"}),
                 fastener("R5", "damper upper, {left,right}.rear", {"damper", "longer damper"}),
                 fastener("F6", "jam nut, {left,right}.front"),
                 fastener("B1", "lip screw, {left,right}.front.1..3", {"lip"}, Duty::body),
                 fastener("E1", "terminal, 1..2", {}, Duty::battery)};
  p.fasteners[0].least[static_cast<std::size_t>(Load::released)] = FastenerState::verified;
  p.fasteners[1].new_each_time = true;
  p.fasteners[1].only_final = Support::on_wheels;
  p.fasteners[1].least[static_cast<std::size_t>(Load::on_wheels)] = FastenerState::snug;
  p.driven = End::rear;
  write_steps(
      p, {{.id = "7", .sets = {"front chocked"}},
          {.id = "8", .slacken = {"E1 slack"}, .sets = {"pack isolated"}},
          {.id = "10", .slacken = {"F8 slack"}},
          {.id = "11", .needs = {"front chocked"}, .loads = {"rear jacked", "rear on stands"}},
          {.id = "12", .slacken = {"F8 out"}, .removes = {"wheel"}},
          {.id = "13", .sets = {"axle on jack"}},
          {.id = "14", .removes = {"vent hose"}},
          {.id = "15", .slacken = {"R4 out", "R5 out"}, .removes = {"damper scrap"}},
          {.id = "16", .slacken = {"R3 slack"}},
          {.id = "23", .fits = {"longer damper", "vent hose"}, .tighten = {"R4 final", "R5 final", "R3 snug new"}},
          {.id = "24", .clears = {"axle on jack"}},
          {.id = "25", .proves = {"cable slack at droop"}, .tools = {"rule"}, .evidence = "5 mm"},
          {.id = "26", .fits = {"wheel"}, .tighten = {"F8 snug"}},
          {.id = "26b", .sets = {"rear chocked"}, .loads = {"rear on wheels"}},
          {.id = "27", .tighten = {"F8 final"}},
          {.id = "34", .slacken = {"F6 slack"}, .tighten = {"F6 snug"}},
          {.id = "37",
           .needs = {"26b done"},
           .slacken = {"B1 out"},
           .removes = {"lip"},
           .fits = {"lip"},
           .tighten = {"B1 final"},
           .work = {"cut lip, 30 mm"}},
          {.id = "39", .sets = {"settled"}, .loads = {"rolled"}},
          {.id = "36", .needs = {"settled"}, .proves = {"tyre gap"}, .tools = {"feeler block"}, .evidence = "15 mm"},
          {.id = "40", .tighten = {"R3 final"}},
          {.id = "41", .slacken = {"F6 slack"}, .tighten = {"F6 final"}},
          {.id = "41b", .sets = {"chocked"}},
          {.id = "41c", .loads = {"rear on stands"}},
          {.id = "42", .tighten = {"E1 final"}, .clears = {"pack isolated"}},
          {.id = "42b", .loads = {"rear on wheels"}},
          {.id = "44", .tighten = {"F8 verified"}},
          {.id = "43", .loads = {"driven"}},
          {.id = "45", .loads = {"released"}}});
  Proof droop{"cable slack at droop"}, gap{"tyre gap"};
  droop.only_while = {read_need("not axle on jack", p), read_need("rear on stands", p)};
  gap.only_while = {read_need("settled", p)};
  p.proofs = {droop, gap};
  return p;
}

void drop(Procedure& p, const std::string& id) {
  std::erase_if(p.steps, [&](const Step& s) { return s.id == id; });
}
void move_behind(Procedure& p, const std::string& id, const std::string& other) {
  Step s = step(p, id);
  drop(p, id);
  const auto at = std::find_if(p.steps.begin(), p.steps.end(), [&](const Step& x) { return x.id == other; });
  p.steps.insert(at + 1, s);
}

TEST(SheetMistakes, TheMendedSheetHasNone) {
  const Rehearsal r = rehearse(rear_end());
  EXPECT_TRUE(r.found.empty()) << list(r.walk);
}

TEST(SheetMistakes, EachIsFoundWhereItIs) {
  struct Row {
    const char* what;
    FaultKind kind;
    std::string step, subject;
    std::function<void(Procedure&)> act;
  };
  using F = FaultKind;
  const std::vector<Row> rows = {
      {"upper damper bolts never taken out", F::part_still_fastened, "15", "R5 left rear",
       [](Procedure& p) { step(p, "15").slacken.pop_back(); }},
      {"the old damper is never said to come off", F::part_not_off, "23", "longer damper left rear",
       [](Procedure& p) { step(p, "15").removes.clear(); }},
      {"front eyes slackened and never snug when the wheels take it", F::below_least_state, "26b", "R3 left rear",
       [](Procedure& p) { step(p, "23").tighten.pop_back(); }},
      {"the same, rolled on", F::below_least_state, "39", "R3 right rear",
       [](Procedure& p) { step(p, "23").tighten.pop_back(); }},
      {"new eye nuts never fitted", F::new_nut_missing, "40", "R3 left rear",
       [](Procedure& p) { step(p, "23").tighten.back().fresh = false; }},
      {"the axle's jack never taken away", F::support_forgotten, "26b", "axle on jack",
       [](Procedure& p) { drop(p, "24"); }},
      {"a droop check with the axle on the jack", F::check_in_wrong_state, "25", "cable slack at droop",
       [](Procedure& p) { move_behind(p, "24", "25"); }},
      {"a hose released and never put back", F::part_off_never_refitted, "", "vent hose rear",
       [](Procedure& p) { step(p, "23").fits.pop_back(); }},
      {"jam nuts loose when it is rolled", F::below_least_state, "39", "F6 left front",
       [](Procedure& p) { step(p, "34").tighten.clear(); }},
      {"a sweep before pressures and settling", F::check_in_wrong_state, "36", "tyre gap",
       [](Procedure& p) {
         step(p, "36").needs.clear();
         move_behind(p, "36", "34");
       }},
      {"second person after the first drive", F::second_look_late, "43", "F8 left rear 1",
       [](Procedure& p) { move_behind(p, "44", "43"); }},
      {"power back with the driven wheels on the floor and no chock", F::power_up_unheld, "42", "42",
       [](Procedure& p) {
         drop(p, "41c");
         drop(p, "41b");
       }},
      {"power back with the driven wheels chocked on the floor", F::power_up_on_the_floor, "42", "rear",
       [](Procedure& p) { drop(p, "41c"); }},
      {"front chocks freed before the rear ones stand", F::nothing_holds, "11", "front",
       [](Procedure& p) {
         step(p, "10").clears = {"front chocked"};
         step(p, "11").needs.clear();
       }},
      {"the wheels chocked in the air", F::chock_holds_nothing, "26", "rear chocked",
       [](Procedure& p) { step(p, "26").sets = {"rear chocked"}; }},
      {"lip off with its screws in", F::part_still_fastened, "37", "B1 left front 1",
       [](Procedure& p) { step(p, "37").slacken.clear(); }},
      {"lip back without its screws", F::slackened_never_finished, "", "B1 left front 1",
       [](Procedure& p) { step(p, "37").tighten.clear(); }},
      {"a terminal loosened with the pack on", F::battery_live, "8", "E1",
       [](Procedure& p) {
         step(p, "8").sets.clear();
         step(p, "42").clears.clear();
       }},
      {"wheels off before stands", F::support_missing, "12", "wheel left rear",
       [](Procedure& p) { step(p, "11").loads.pop_back(); }},
  };
  for (const Row& row : rows) {
    Procedure p = rear_end();
    row.act(p);
    const Rehearsal r = rehearse(p);
    const bool found = std::any_of(r.found.begin(), r.found.end(), [&](const Uncovered& u) {
      return u.fault.kind == row.kind && u.fault.step == row.step &&
             std::find(u.subjects.begin(), u.subjects.end(), row.subject) != u.subjects.end();
    });
    EXPECT_TRUE(found) << row.what << "; got\n" << list(r.walk);
  }
  std::cout << "kinds of mistake of a kit's sheet: " << rows.size() << ", all found\n";
}

}  // namespace
}  // namespace trammel::work
