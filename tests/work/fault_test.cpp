// Every kind of fault: a small procedure with the fault seeded fires it; its clean twin has no fault at all.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <iostream>
#include <map>
#include <set>

#include "work/builder.h"
#include "work/rehearse.h"
#include "work/words.h"

namespace trammel::work {
namespace {

// One axle, one arm a side, one wheel a side: the least that shows every rule.
Procedure small() {
  Procedure p;
  p.name = "small";
  p.given = {"level floor"};
  p.parts = {part("wheel", "{left,right}.rear", PartKind::wheel, PartSource::on_cart),
             part("arm", "{left,right}.rear", PartKind::suspension, PartSource::on_cart),
             part("long arm", "{left,right}.rear", PartKind::suspension, PartSource::in_pack, "arm")};
  p.fasteners = {fastener("N", "wheel nut, {left,right}.rear.1..2", {"wheel"}, Duty::wheel),
                 fastener("P", "arm pivot, {left,right}.rear", {"arm", "long arm"}),
                 fastener("G", "guard screw, {left,right}", {}, Duty::body)};
  p.fasteners[1].only_final = Support::on_wheels;
  p.proofs = {Proof{"settled", true, {}, {}}};
  write_steps(
      p, {
             {.id = "chock", .needs = {"level floor"}, .sets = {"chocked"}},
             {.id = "lift", .needs = {"chocked"}, .slacken = {"N slack"}, .loads = {"rear jacked", "rear on stands"}},
             {.id = "strip",
              .sides = "each",
              .needs = {"rear on stands"},
              .slacken = {"N out", "P out"},
              .removes = {"wheel", "arm scrap"},
              .person_under = true},
             {.id = "build",
              .sides = "each",
              .needs = {"wheel off"},
              .fits = {"long arm", "wheel"},
              .tighten = {"P snug", "N snug"}},
             {.id = "guard", .sides = "each", .slacken = {"G slack"}, .tighten = {"G final"}},
             {.id = "lower", .loads = {"rear on wheels"}},
             {.id = "nuts", .sides = "each", .tighten = {"N final"}},
             {.id = "settle", .proves = {"settled"}, .loads = {"rolled"}},
             {.id = "finish", .needs = {"settled"}, .tighten = {"P final"}, .undoes = {"toe"}},
             {.id = "toe", .needs = {"P final", "finish done"}, .proves = {"toe"}},
             {.id = "check", .tighten = {"N verified"}},
             {.id = "drive", .needs = {"toe"}, .loads = {"driven"}},
             {.id = "release", .loads = {"released"}},
         });
  return p;
}

void drop(Procedure& p, const std::string& id) {
  std::erase_if(p.steps, [&](const Step& s) { return s.id == id; });
}
void move_before(Procedure& p, const std::string& id, const std::string& other) {
  Step s = step(p, id);
  drop(p, id);
  const auto at = std::find_if(p.steps.begin(), p.steps.end(), [&](const Step& x) { return x.id == other; });
  p.steps.insert(at, s);
}

struct Seed {
  const char* what;
  FaultKind kind;
  std::string subject;
  std::function<void(Procedure&)> act;
};

const std::vector<Seed>& seeds() {
  using F = FaultKind;
  static const std::vector<Seed> list = {
      {"two fasteners of one id", F::duplicate_id, "N", [](Procedure& p) { p.fasteners.push_back(p.fasteners[0]); }},
      {"two steps of one id", F::duplicate_id, "drive", [](Procedure& p) { step(p, "check").id = "drive"; }},
      {"tightens what is not listed", F::unknown_fastener, "Q",
       [](Procedure& p) { step(p, "nuts").tighten[0].fastener.id = "Q"; }},
      {"holds what is not listed", F::unknown_part, "leg", [](Procedure& p) { p.fasteners[0].holds.push_back("leg"); }},
      {"removes what is not listed", F::unknown_part, "leg",
       [](Procedure& p) { step(p, "strip").removes[0].part.id = "leg"; }},
      {"waits for no known step", F::unknown_step, "polish",
       [](Procedure& p) { step(p, "toe").needs[1].subject.id = "polish"; }},
      {"waits for what nothing sets", F::unknown_condition, "moon full",
       [](Procedure& p) { step(p, "chock").needs[0].subject.id = "moon full"; }},
      {"needs a step misspelt", F::unknown_condition, "finsh done",
       [](Procedure& p) { step(p, "toe").needs.push_back(read_need("finsh done", p)); }},
      {"asks that what nothing sets is absent", F::unknown_condition, "not arm on jack",
       [](Procedure& p) { step(p, "toe").needs.push_back(read_need("not arm on jack", p)); }},
      {"ends what nothing sets", F::unknown_condition, "moon full",
       [](Procedure& p) { step(p, "toe").clears = {"moon full"}; }},
      {"guards what is neither load nor step", F::unknown_guard, "drivn",
       [](Procedure& p) { p.proofs[0].guards = {"drivn"}; }},
      {"shares with a kit that is not there", F::shares_nothing, "Z left",
       [](Procedure& p) { p.fasteners[2].shares = {"Z", Side::left}; }},
      {"chocks by a letter less", F::nearly_known, "choked", [](Procedure& p) { step(p, "drive").sets = {"choked"}; }},
      {"a jack by a letter less", F::nearly_known, "arm on jak",
       [](Procedure& p) { step(p, "build").sets = {"arm on jak"}; }},
      {"a jack in more words", F::nearly_known, "arm on trolley jack",
       [](Procedure& p) { step(p, "build").sets = {"arm on trolley jack"}; }},
      {"comes after a step that is not there", F::unknown_step, "polish",
       [](Procedure& p) { step(p, "toe").after = "polish"; }},
      {"comes after what stands behind it", F::anchor_not_kept, "drive",
       [](Procedure& p) { step(p, "toe").after = "drive"; }},
      {"names a word that no instance has", F::names_nothing, "N rigth",
       [](Procedure& p) { step(p, "nuts").tighten[0].fastener.word = "rigth"; }},
      {"may be driven slack", F::least_lowered, "P",
       [](Procedure& p) { p.fasteners[1].least[static_cast<std::size_t>(Load::driven_capped)] = FastenerState::slack; }},
      {"may be handed over slack", F::released_lowered, "P",
       [](Procedure& p) { p.fasteners[1].least[static_cast<std::size_t>(Load::released)] = FastenerState::slack; }},
      {"proves what it undoes", F::undone_and_proved, "toe",
       [](Procedure& p) { step(p, "toe").undoes = {"toe"}; }},
      {"handed over without a drive", F::never_driven, "release", [](Procedure& p) { drop(p, "drive"); }},
      {"clamped before it has rolled", F::not_settled, "P left rear",
       [](Procedure& p) { step(p, "settle").loads.clear(); }},
      {"made snug while it is final", F::tighter_already, "N left rear 1",
       [](Procedure& p) {
         step(p, "check").tighten.insert(step(p, "check").tighten.begin(), {{"N"}, FastenerState::snug});
       }},
      {"toe undone and driven before it is read", F::check_too_late, "toe",
       [](Procedure& p) {
         step(p, "drive").needs.clear();
         move_before(p, "drive", "toe");
       }},
      {"names a front that is not there", F::names_nothing, "N front",
       [](Procedure& p) { step(p, "nuts").tighten[0].fastener.end = End::front; }},
      {"left step naming right", F::wrong_side, "N",
       [](Procedure& p) {
         step(p, "nuts").sides = Sides::left;
         step(p, "nuts").tighten[0].fastener.side = Side::right;
       }},
      {"no steps", F::no_steps, "small", [](Procedure& p) { p.steps.clear(); }},
      {"condition set too late", F::need_not_met, "chocked", [](Procedure& p) { move_before(p, "lift", "chock"); }},
      {"step needed comes later", F::need_not_met, "finish done", [](Procedure& p) { move_before(p, "toe", "finish"); }},
      {"part needed off is on", F::need_not_met, "wheel off", [](Procedure& p) { move_before(p, "build", "strip"); }},
      {"proof needed not made", F::need_not_met, "settled", [](Procedure& p) { move_before(p, "finish", "settle"); }},
      {"fastener needed final is snug", F::need_not_met, "P final", [](Procedure& p) { move_before(p, "toe", "finish"); }},
      {"support needed is the jack", F::need_not_met, "rear on stands", [](Procedure& p) { step(p, "lift").loads.pop_back(); }},
      {"wheel off without stands", F::support_missing, "wheel left rear",
       [](Procedure& p) { step(p, "lift").loads.clear(); }},
      {"wheel off on the jack alone", F::support_missing, "arm right rear",
       [](Procedure& p) { step(p, "lift").loads.pop_back(); }},
      {"under the cart on the jack alone", F::person_under_jack, "rear",
       [](Procedure& p) { step(p, "lift").loads.pop_back(); }},
      {"under the cart with nothing to hold it", F::person_under_unheld, "finish",
       [](Procedure& p) { step(p, "finish").person_under = true; }},
      {"arm off with its pivot in", F::part_still_fastened, "P left rear",
       [](Procedure& p) { step(p, "strip").slacken[1].to = FastenerState::slack; }},
      {"wheel off with its nuts never loosened", F::part_still_fastened, "N right rear 2",
       [](Procedure& p) {
         step(p, "lift").slacken.clear();
         step(p, "strip").slacken.erase(step(p, "strip").slacken.begin());
       }},
      {"new part where the old one is", F::part_not_off, "long arm left rear",
       [](Procedure& p) { step(p, "strip").removes.pop_back(); }},
      {"fitted twice", F::part_already_on, "wheel left rear",
       [](Procedure& p) { step(p, "strip").removes.erase(step(p, "strip").removes.begin()); }},
      {"fitted and never in the pack", F::part_fitted_never_supplied, "leg",
       [](Procedure& p) { step(p, "build").fits.push_back({"leg"}); }},
      {"scrap goes back on", F::part_is_scrap, "wheel left rear",
       [](Procedure& p) { step(p, "strip").removes[0].scrap = true; }},
      {"removed twice", F::part_not_on, "wheel left rear",
       [](Procedure& p) {
         step(p, "strip").removes.push_back({{"wheel"}});
         step(p, "build").removes.push_back({{"wheel"}});
       }},
      {"pivot final while hanging", F::torqued_in_wrong_state, "P left rear",
       [](Procedure& p) { step(p, "build").tighten[0].to = FastenerState::final; }},
      {"nuts on with no wheel", F::fastened_without_part, "N left rear 1",
       [](Procedure& p) { step(p, "build").fits.pop_back(); }},
      {"checked before final", F::checked_before_final, "N left rear 1",
       [](Procedure& p) { step(p, "nuts").tighten[0].to = FastenerState::verified; }},
      {"pivot slack when the wheels take it", F::below_least_state, "P left rear",
       [](Procedure& p) { step(p, "build").tighten[0].to = FastenerState::slack; }},
      {"pivot pulled on the wheels", F::below_least_state, "P left rear",
       [](Procedure& p) {
         step(p, "nuts").slacken.push_back({{"P"}, FastenerState::out});
       }},
      {"nuts by finger on the ground", F::wheel_on_ground_loose, "N right rear 2",
       [](Procedure& p) { step(p, "build").tighten[1].to = FastenerState::finger_tight; }},
      {"rolled before the nuts are final", F::wheel_on_ground_loose, "N left rear 1",
       [](Procedure& p) { move_before(p, "settle", "nuts"); }},
      {"lowered without a wheel", F::wheel_missing, "wheel left rear",
       [](Procedure& p) { step(p, "build").fits.pop_back(); }},
      {"rolled on stands", F::not_on_wheels, "rear", [](Procedure& p) { drop(p, "lower"); }},
      {"tightened with nothing", F::tool_not_named, "nuts", [](Procedure& p) { step(p, "nuts").tools.clear(); }},
      {"given back with a snug pivot", F::release_refused, "P left rear",
       [](Procedure& p) { step(p, "finish").tighten.clear(); }},
      {"given back before toe", F::release_refused, "toe", [](Procedure& p) { move_before(p, "release", "toe"); }},
      {"right nuts forgotten", F::side_missed, "N right rear 1",
       [](Procedure& p) { step(p, "nuts").sides = Sides::left; }},
      {"proof made on one side only", F::side_missed, "toe", [](Procedure& p) { step(p, "toe").sides = Sides::left; }},
      {"a nut loosened and never final", F::slackened_never_finished, "N left rear 1",
       [](Procedure& p) { step(p, "nuts").tighten.clear(); }},
      {"second look forgotten", F::never_checked, "N left rear 1",
       [](Procedure& p) {
         p.fasteners[0].least[static_cast<std::size_t>(Load::released)] = FastenerState::verified;
         drop(p, "check");
       }},
      {"left on its stands", F::end_off_wheels, "rear",
       [](Procedure& p) {
         drop(p, "lower");
         drop(p, "release");
       }},
      {"a new screw never final", F::fastener_never_final, "M",
       [](Procedure& p) {
         p.fasteners.push_back(fastener("M", "new screw"));
         step(p, "nuts").tighten.push_back({{"M"}, FastenerState::snug});
       }},
      {"torque voided and not repeated", F::slackened_never_finished, "P left rear",
       [](Procedure& p) { step(p, "check").undoes_torque.push_back({"P"}); }},
      {"toe voided and not repeated", F::proof_voided_not_repeated, "toe",
       [](Procedure& p) { step(p, "check").undoes.push_back("toe"); }},
      {"lifted again after settling", F::proof_voided_not_repeated, "settled",
       [](Procedure& p) {
         step(p, "check").loads = {{Load::jacked, End::rear}, {Load::on_wheels, End::rear}};
       }},
      {"proof never made", F::proof_never_made, "settled", [](Procedure& p) { step(p, "settle").proves.clear(); }},
      {"wheel left on the floor", F::part_off_never_refitted, "wheel left rear",
       [](Procedure& p) { step(p, "build").fits.pop_back(); }},
      {"more in the pack than there are places", F::pack_count, "long arm", [](Procedure& p) { p.parts[2].count = 3; }},
      {"two steps that wait for one another", F::never_reachable, "chock",
       [](Procedure& p) {
         Need n;
         n.kind = Need::Kind::step_done;
         n.subject.id = "release";
         step(p, "chock").needs.push_back(n);
         n.subject.id = "chock";
         step(p, "release").needs.push_back(n);
       }},
      {"the old nut goes back on", F::new_nut_missing, "N left rear 1",
       [](Procedure& p) { p.fasteners[0].new_each_time = true; }},
      {"a wrench of another size", F::tool_fits_no_head, "N",
       [](Procedure& p) {
         p.fasteners[0].head = 19.0 * units::mm;
         step(p, "nuts").tools = {"wrench 17 mm"};
       }},
      {"a torque wrench that stops short", F::tool_out_of_range, "N",
       [](Procedure& p) {
         p.fasteners[0].torque = Torque::from_si(85);
         step(p, "nuts").tools = {"torque wrench 10–60 N·m"};
       }},
      {"a wrench that is spelt wrong", F::tool_misspelt, "torqe wrench 40–200 N·m",
       [](Procedure& p) { step(p, "nuts").tools = {"torqe wrench 40–200 N·m"}; }},
      {"a wrench whose size cannot be read", F::tool_unread, "wrench 18",
       [](Procedure& p) { step(p, "nuts").tools = {"wrench 18"}; }},
      {"a torque without a wrench that shows it", F::torque_tool_missing, "N",
       [](Procedure& p) {
         p.fasteners[0].torque = Torque::from_si(85);
         step(p, "nuts").tools = {"wrench 18 mm"};
       }},
      {"a torque wrench without its range", F::torque_range_missing, "N",
       [](Procedure& p) {
         p.fasteners[0].torque = Torque::from_si(85);
         step(p, "nuts").tools = {"torque wrench"};
       }},
      {"a lift without a jack", F::prop_tool_missing, "jack",
       [](Procedure& p) { step(p, "lift").tools = {"4 stands"}; }},
      {"a strap that nobody lays out", F::deed_without_tool, "strap arm",
       [](Procedure& p) {
         step(p, "strip").deeds = {{Verb::strap, "arm", "to the saddle"}};
       }},
      {"a pressure read with a rule", F::deed_without_tool, "read tyre pressures",
       [](Procedure& p) {
         step(p, "toe").deeds = {{Verb::read, "tyre pressures", ""}};
         step(p, "toe").tools = {"rule"};
       }},
      {"a torque wrench and nothing to put on it", F::wrench_missing, "N",
       [](Procedure& p) {
         p.fasteners[0].head = 19.0 * units::mm;
         step(p, "nuts").tools = {"torque wrench 40–200 N·m"};
       }},
      {"loosened with a jack alone", F::wrench_missing, "N",
       [](Procedure& p) {
         p.fasteners[0].head = 19.0 * units::mm;
         step(p, "lift").tools = {"jack", "2 stands"};
       }},
      {"a bolt that turns with its nut", F::one_wrench_for_two, "P",
       [](Procedure& p) {
         p.fasteners[1].head = 18.0 * units::mm;
         p.fasteners[1].two_ended = true;
         step(p, "finish").tools = {"torque wrench 40–200 N·m", "wrench 18 mm"};
       }},
      {"a split pin spread with a wrench", F::pin_tool_missing, "P",
       [](Procedure& p) { p.fasteners[1].pinned = true; }},
      {"a check that only forbids", F::check_only_forbids, "no hammer on the taper",
       [](Procedure& p) { step(p, "toe").evidence = "no hammer on the taper"; }},
      {"a size that nothing in hand measures", F::measure_without_tool, "3 mm",
       [](Procedure& p) {
         step(p, "toe").evidence = "toe-in 3 mm";
         step(p, "toe").tools = {"wrench 18 mm", "chalk"};
       }},
      {"a size that the rule is too coarse for", F::measure_too_fine, "0.1 mm",
       [](Procedure& p) {
         step(p, "toe").evidence = "play 0.1 to 0.3 mm";
         step(p, "toe").tools = {"rule"};
       }},
      {"a check with nothing to meet", F::check_proves_nothing, "toe",
       [](Procedure& p) { step(p, "toe").evidence.clear(); }},
      {"a check in a state that shows nothing", F::check_in_wrong_state, "toe",
       [](Procedure& p) {
         p.proofs.push_back({"toe", false, {}, {}, {}, {}});
         Need n;
         n.subject.id = "chocked";
         p.proofs.back().only_while = {n};
       }},
      {"toe read with nothing said of the floor", F::floor_unknown, "toe",
       [](Procedure& p) {
         p.proofs.push_back(*known_reading("toe"));
         p.proofs.back().voided_by_lifting = false;
       }},
      {"arm in with no bolt that holds it", F::part_held_by_nothing, "long arm",
       [](Procedure& p) { p.fasteners[1].holds = {"arm"}; }},
      {"drilled twice", F::done_twice, "lip drilled",
       [](Procedure& p) {
         step(p, "strip").deeds = {{Verb::drill, "lip", ""}};
         step(p, "build").deeds = {{Verb::drill, "lip", ""}};
       }},
      {"cut before anything is looked at", F::cut_before_look, "lip",
       [](Procedure& p) {
         step(p, "guard").deeds = {{Verb::cut, "lip", ""}};
       }},
      {"negative off before the switch", F::battery_out_of_order, "negative off",
       [](Procedure& p) { step(p, "chock").sets.push_back("negative off"); }},
      {"switch on before the lead is back", F::battery_out_of_order, "switch off",
       [](Procedure& p) {
         step(p, "chock").sets.insert(step(p, "chock").sets.end(), {"switch off", "negative off"});
         step(p, "lower").clears = {"switch off"};
       }},
      {"fuel shut with the key in", F::battery_out_of_order, "fuel shut",
       [](Procedure& p) {
         step(p, "chock").sets.push_back("fuel shut");
         step(p, "guard").sets.push_back("key out");
       }},
      {"key tried with the plug lead on", F::battery_out_of_order, "start tried",
       [](Procedure& p) {
         step(p, "chock").sets.insert(step(p, "chock").sets.end(), {"key out", "negative off", "start tried"});
         step(p, "guard").sets.push_back("plug lead off");
       }},
      {"engine called isolated before the key is tried", F::battery_out_of_order, "engine isolated",
       [](Procedure& p) {
         step(p, "chock")
             .sets.insert(step(p, "chock").sets.end(),
                          {"key out", "fuel shut", "plug lead off", "negative off", "engine isolated"});
       }},
      {"fuel open before the battery's lead is on", F::battery_out_of_order, "fuel shut",
       [](Procedure& p) {
         step(p, "chock").sets.insert(step(p, "chock").sets.end(), {"fuel shut", "negative off"});
         step(p, "lower").clears = {"fuel shut"};
       }},
      {"driven with the fuel shut", F::driven_isolated, "drive",
       [](Procedure& p) { step(p, "chock").sets.push_back("fuel shut"); }},
      {"battery work with the pack on", F::caution_live, "guard",
       [](Procedure& p) { step(p, "guard").hazards = {"battery"}; }},
      {"terminal loosened with the pack on", F::battery_live, "B",
       [](Procedure& p) {
         p.fasteners.push_back(fastener("B", "terminal", {}, Duty::battery));
         step(p, "guard").slacken.push_back({{"B"}, FastenerState::slack});
         step(p, "guard").tighten.push_back({{"B"}, FastenerState::final});
       }},
      {"power back with free wheels", F::power_up_unheld, "drive",
       [](Procedure& p) {
         step(p, "chock").sets.push_back("pack isolated");
         step(p, "drive").clears = {"pack isolated"};
       }},
      {"power back with the driven wheels chocked on the floor", F::power_up_on_the_floor, "rear",
       [](Procedure& p) {
         p.driven = End::rear;
         step(p, "chock").sets.push_back("pack isolated");
         step(p, "finish").sets = {"rear chocked"};
         step(p, "finish").clears = {"pack isolated"};
       }},
      {"driven with the pack off", F::driven_isolated, "drive",
       [](Procedure& p) { step(p, "chock").sets.push_back("pack isolated"); }},
      {"lifted with nothing under the other wheels", F::nothing_holds, "front",
       [](Procedure& p) { step(p, "chock").sets = {"rear chocked"}; }},
      {"the brake acts on the wheels that go up", F::brake_holds_nothing, "front",
       [](Procedure& p) {
         p.brakes = {ParkingBrake::none, ParkingBrake::wheels};
         step(p, "chock").sets = {"parking brake on"};
         step(p, "lift").needs.clear();
       }},
      {"a chock under a lifted wheel", F::chock_holds_nothing, "rear chocked",
       [](Procedure& p) { step(p, "strip").sets = {"rear chocked"}; }},
      {"rolled against a brake that is on by itself", F::brake_against_rolling, "rear",
       [](Procedure& p) {
         p.brakes = {ParkingBrake::none, ParkingBrake::power_off_shaft};
       }},
      {"driven with that brake still let go", F::brake_left_released, "rear",
       [](Procedure& p) {
         p.brakes = {ParkingBrake::none, ParkingBrake::power_off_shaft};
         step(p, "settle").sets = {"brake released"};
       }},
      {"a jack left under the arm", F::support_forgotten, "arm on jack",
       [](Procedure& p) { step(p, "build").sets = {"arm on jack"}; }},
      {"an arm off with the jack still under it", F::support_under_moving_part, "arm",
       [](Procedure& p) { step(p, "lift").sets = {"arm on jack"}; }},
      {"second look after the drive", F::second_look_late, "N left rear 1",
       [](Procedure& p) {
         p.fasteners[0].least[static_cast<std::size_t>(Load::released)] = FastenerState::verified;
         move_before(p, "drive", "check");
       }},
      {"toe read after the drive that it guards", F::check_too_late, "toe",
       [](Procedure& p) {
         p.proofs.push_back({"toe", false, {}, {}, {}, {"driven"}});
         step(p, "drive").needs.clear();
         move_before(p, "drive", "toe");
       }},
      {"arm left in the pack", F::part_never_fitted, "long arm left rear",
       [](Procedure& p) { step(p, "build").fits.erase(step(p, "build").fits.begin()); }},
  };
  return list;
}

TEST(Faults, TheCleanTwinHasNone) {
  const Walk w = walk(small());
  EXPECT_TRUE(w.faults.empty()) << list(w);
  EXPECT_TRUE(w.release.granted());
}

TEST(Faults, EverySeedFires) {
  for (const Seed& s : seeds()) {
    Procedure p = small();
    s.act(p);
    const Walk w = walk(p);
    EXPECT_TRUE(has(w, s.kind, s.subject)) << s.what << ": wanted " << word(s.kind) << " " << s.subject << "; got\n"
                                           << list(w);
  }
}

// What a message is made of is there: no "step : the cart is  while".
TEST(Faults, EachFillsWhatItsKindTells) {
  for (const Seed& s : seeds()) {
    Procedure p = small();
    s.act(p);
    for (const Uncovered& u : rehearse(p).found) EXPECT_TRUE(whole(u.fault)) << s.what << ": " << word(u.fault.kind);
  }
}

TEST(Faults, AMisspeltNameHasItsNearest) {
  Procedure p = small();
  step(p, "nuts").tighten[0].fastener.word = "rigth";
  step(p, "toe").needs.push_back(read_need("finsh done", p));
  p.proofs[0].guards = {"drivn"};
  std::map<FaultKind, std::string> nearest;
  for (const Fault& f : walk(p).faults) nearest.emplace(f.kind, f.nearest);
  EXPECT_EQ(nearest[FaultKind::names_nothing], "right");
  EXPECT_EQ(nearest[FaultKind::unknown_condition], "finish done");
  EXPECT_EQ(nearest[FaultKind::unknown_guard], "driven");
}

TEST(Faults, EveryKindIsSeeded) {
  std::set<FaultKind> seeded;
  for (const Seed& s : seeds()) seeded.insert(s.kind);
  using enum FaultKind;
  for (std::size_t k = 0; k < fault_kinds; ++k) {
    const auto kind = static_cast<FaultKind>(k);
    if (kind == not_ordered || kind == not_ordered_end || kind == needs_never_met) continue;  // rehearse_test.cpp
    EXPECT_TRUE(seeded.contains(kind)) << word(kind);
  }
  std::cout << "kinds of fault seeded: " << seeded.size() << ", seeds: " << seeds().size() << "\n";
}

TEST(Faults, OneSidedWorkThatIsMirroredByHandIsClean) {
  // An `each` step written as a left and a right step is the same work.
  Procedure p = small();
  Step left = step(p, "nuts");
  left.sides = Sides::left;
  Step right = left;
  right.id = "nuts-right";
  right.sides = Sides::right;
  step(p, "nuts") = left;
  const auto at = std::find_if(p.steps.begin(), p.steps.end(), [](const Step& s) { return s.id == "nuts"; });
  p.steps.insert(at + 1, right);
  const Walk w = walk(p);
  EXPECT_TRUE(w.faults.empty()) << list(w);
}

TEST(Faults, FaultCarriesStepSideStateAndLimit) {
  Procedure p = small();
  step(p, "build").tighten[1].to = FastenerState::finger_tight;
  const Walk w = walk(p);
  ASSERT_FALSE(w.faults.empty());
  const Fault& f = w.faults.front();
  EXPECT_EQ(f.kind, FaultKind::wheel_on_ground_loose);
  EXPECT_EQ(f.step, "lower");
  EXPECT_EQ(f.load, Load::on_wheels);
  EXPECT_EQ(f.state, FastenerState::finger_tight);
  EXPECT_EQ(f.least, FastenerState::snug);
}

}  // namespace
}  // namespace trammel::work
