// A tool's words, in every language of the list, and what a step's work asks of its tools. Words of the trade;
// invented.
#include "work/tool.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <iostream>
#include <map>
#include <set>

#include "reference/tool_readings.h"
#include "reference/tool_words.h"
#include "work/builder.h"
#include "work/step_tools.h"
#include "work/tool_text.h"

namespace trammel::work {
namespace {

// A word as a kit would have it: one that ends a longer word gets something in front.
std::string written(std::string_view word) {
  return word.starts_with('-') ? "Muster" + std::string(word.substr(1)) : std::string(word);
}
bool turns(ToolKind k) { return k == ToolKind::wrench || k == ToolKind::socket || k == ToolKind::hex_key; }

// Law 1.
TEST(ToolText, EveryWordOfEveryLanguageIsReadAsItsKindWithCountAndSize) {
  std::set<std::string_view> languages;
  std::size_t read = 0;
  for (const auto& row : reference::tool_words) {
    languages.insert(row.language);
    const ToolKind kind = tool_kind(row.kind);
    const bool tells_plural = row.plural != row.word;
    for (const bool plural : {false, true}) {
      const std::string word = written(plural ? row.plural : row.word);
      std::string loud = word;
      for (char& c : loud) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
      for (const std::string& text : {word, loud, folded(word), word + " with long handle", word + " mit Tasche"}) {
        EXPECT_EQ(read_tool(text).kind, kind) << text;
        EXPECT_EQ(read_tool(text).count, plural && tells_plural ? 2 : 1) << text;
        EXPECT_FALSE(slip_in(text)) << text;
        ++read;
      }
      EXPECT_EQ(read_tool("3 " + word).count, 3) << word;
      EXPECT_EQ(read_tool("both " + word).count, 2) << word;
      EXPECT_EQ(read_tool("drei " + word).count, 3) << word;
      for (const std::string& text : {word + " 16 mm", "16 mm " + word, "2 " + word + " 16 mm deep"}) {
        EXPECT_EQ(read_tool(text).kind, kind) << text;
        EXPECT_EQ(read_tool(text).size.has_value(), turns(kind)) << text;
        if (turns(kind)) { EXPECT_NEAR(read_tool(text).size->si(), 0.016, 1e-12) << text; }
      }
      if (kind != ToolKind::torque_tool) continue;
      for (const std::string& text :
           {word + " 40–200 N·m", "2 " + word + " 40-200 N·m", word + " 40 to 200 N·m", word + " 40 bis 200 N·m"}) {
        const Tool t = read_tool(text);
        ASSERT_TRUE(t.lowest && t.highest) << text;
        EXPECT_NEAR(t.lowest->si(), 40.0, 1e-9);
        EXPECT_NEAR(t.highest->si(), 200.0, 1e-9);
        EXPECT_FALSE(slip_in(text)) << text;
      }
    }
  }
  EXPECT_EQ(languages, (std::set<std::string_view>{"en", "de"}));
  std::cout << "texts read as their kind: " << read << ", languages: " << languages.size() << "\n";
}

TEST(ToolText, NoWordStandsForTwoKindsAndEachKindHasAWordInEachLanguage) {
  std::map<std::string, std::string_view> kinds;
  std::map<std::string_view, std::set<std::string_view>> by_language;
  for (const auto& row : reference::tool_words) {
    by_language[row.language].insert(row.kind);
    for (const std::string_view word : {row.word, row.plural}) {
      const auto [it, fresh] = kinds.emplace(folded(word), row.kind);
      EXPECT_TRUE(fresh || it->second == row.kind) << word;
    }
  }
  for (const auto& [language, has_kinds] : by_language) EXPECT_EQ(has_kinds.size(), tool_kinds - 1) << language;
}

TEST(ToolText, AsTechniciansWriteThem) {
  const auto kind = [](std::string_view text) { return read_tool(text).kind; };
  using enum ToolKind;
  EXPECT_EQ(kind("jack with wide saddle"), jack);
  EXPECT_EQ(kind("Rangierheber"), jack);
  EXPECT_EQ(kind("Reifenheber"), pry_bar);
  EXPECT_EQ(kind("2 Unterstellböcke"), stand);
  EXPECT_EQ(kind("sheet of steel"), other);
  EXPECT_EQ(kind("grease gun"), grease_gun);
  EXPECT_EQ(kind("impact wrench 1/2 in drive"), impact_tool);
  EXPECT_EQ(kind("tyre pressure gauge"), pressure_gauge);
  EXPECT_EQ(kind("flux capacitor"), unknown);
  EXPECT_NEAR(read_tool("insulated socket 3/4 in, 1/2 in drive").size->si(), 0.01905, 1e-9);
  EXPECT_NEAR(read_tool("1/2 in drive socket 16 mm").size->si(), 0.016, 1e-9);
  EXPECT_NEAR(read_tool("Ringschlüssel 5,5 mm").size->si(), 0.0055, 1e-9);
  EXPECT_NEAR(read_tool("Drehmomentschlüssel 1,5–6 N·m").lowest->si(), 1.5, 1e-9);
  EXPECT_NEAR(read_tool("torque wrench 30 to 150 lbf·ft").highest->si(), 150 * 1.3558179483, 1e-6);
  EXPECT_EQ(read_tool("2 wrenches 16 mm").count, 2);
  EXPECT_EQ(read_tool("16 mm wrench").count, 1);
  EXPECT_EQ(read_tool("chocks").count, 2);
}

// Law 4.
TEST(ToolText, ASlipIsNamedWithWhatWasMeant) {
  using K = ToolSlip::Kind;
  for (const auto& [text, slip, meant] : std::vector<std::tuple<std::string, K, std::string>>{
           {"torqe wrench 40–200 N·m", K::misspelt, "torque wrench 40–200 N·m"},
           {"wrnech 16 mm", K::misspelt, "wrench 16 mm"},
           {"Drehmomentschlüsel 10–60 N·m", K::misspelt, "Drehmomentschlüssel 10–60 N·m"},
           {"Ringschlüsel 16 mm", K::misspelt, "Ringschlüssel 16 mm"},
           {"wrench 18", K::unread, "wrench 18 mm"},
           {"torque wrench 40 N·m", K::unread, "torque wrench 40–200 N·m"},
           {"torque wrench 200–40 N·m", K::unread, "torque wrench 40–200 N·m"}}) {
    const auto found = slip_in(text);
    ASSERT_TRUE(found) << text;
    EXPECT_EQ(found->kind, slip) << text;
    EXPECT_EQ(found->meant, meant) << text;
  }
  for (const char* text : {"bracket", "work bench", "French chalk", "code scanner", "tongue pliers", "winch",
                           "1/2 in drive ratchet", "wrench", "torque wrench", "screwdriver PH2", "tape 5 m"})
    EXPECT_FALSE(slip_in(text)) << text;
}

RC_GTEST_PROP(ToolTextProperty, SizesAndRangesComeBack, ()) {
  const int half_mm = *rc::gen::inRange(8, 120);
  const int low = *rc::gen::inRange(1, 200), high = low + *rc::gen::inRange(1, 300);
  const std::string size = std::to_string(half_mm / 2) + (half_mm % 2 == 1 ? ".5" : "") + " mm";
  const int count = *rc::gen::inRange(2, 9);
  const Tool wrenches = read_tool(std::to_string(count) + " wrenches " + size);
  RC_ASSERT(wrenches.count == count);
  RC_ASSERT(std::abs(wrenches.size->si() - 0.5e-3 * half_mm) < 1e-12);
  const Tool torque = read_tool("torque wrench " + std::to_string(low) + "–" + std::to_string(high) + " N·m");
  RC_ASSERT(std::abs(torque.lowest->si() - low) < 1e-9 && std::abs(torque.highest->si() - high) < 1e-9);
}

// Law 2. Letters that no word of a tool is made of alone.
RC_GTEST_PROP(ToolTextProperty, AWordThatIsNotKnownIsNoFault, ()) {
  const auto letter = rc::gen::elementOf(std::string("bcdfgjkmvxz"));
  const std::string word = *rc::gen::container<std::string>(*rc::gen::inRange<std::size_t>(3, 16), letter);
  RC_ASSERT(read_tool(word).kind == ToolKind::unknown);
  RC_ASSERT(!slip_in(word) && !slip_in(word + " 16 mm") && !slip_in("2 " + word));
  Step s;
  s.id = "s";
  s.evidence = *rc::gen::elementOf(std::vector<std::string>{"within 0.3 mm", "below 1 V", "seen", "no " + word});
  s.deeds = {{*rc::gen::elementOf(std::vector<Verb>{Verb::strap, Verb::lower, Verb::adjust, Verb::load, Verb::drill}),
              "axle", ""}};
  s.tools = {word};
  if (*rc::gen::arbitrary<bool>()) s.tools.push_back("chalk");
  ReadTools known;
  const StepTools t = step_tools(s, known);
  RC_ASSERT(t.deeds_without.empty() && !t.unreadable && t.only_forbids.empty());
}

// A nut on a stud and a pinned bolt with its nut, turned in one step.
Procedure two_joints(const Texts& tools, FastenerState to = FastenerState::final) {
  Procedure p;
  p.name = "two joints";
  p.fasteners = {fastener("N", "nut, front"), fastener("P", "pivot, front")};
  p.fasteners[0].head = p.fasteners[1].head = 16.0 * units::mm;
  p.fasteners[1].two_ended = p.fasteners[1].pinned = true;
  write_steps(p, {{.id = "turn", .tighten = {"N final", "P final"}, .tools = tools}});
  for (Tighten& t : p.steps[0].tighten) t.to = to;
  return p;
}

TEST(StepToolsTest, WhatTurnsWantsAWrenchForEachEndAndPliersForAPin) {
  const auto faults = [](const Texts& tools, FastenerState to = FastenerState::final) {
    std::set<std::string> said;
    for (const Fault& f : walk(two_joints(tools, to)).faults)
      if (f.kind == FaultKind::wrench_missing || f.kind == FaultKind::one_wrench_for_two ||
          f.kind == FaultKind::pin_tool_missing || f.kind == FaultKind::tool_fits_no_head)
        said.insert(std::string(word(f.kind)) + " " + f.subject);
    return said;
  };
  using Set = std::set<std::string>;
  EXPECT_EQ(faults({"2 wrenches 16 mm", "pliers"}), Set{});
  EXPECT_EQ(faults({"zwei Ringschlüssel 16 mm", "Kombizange"}), Set{});
  EXPECT_EQ(faults({"torque wrench 10–60 N·m", "socket 16 mm", "wrench 16 mm", "pliers"}), Set{});
  EXPECT_EQ(faults({"torque wrench 10–60 N·m", "socket set", "pliers"}), Set{});
  EXPECT_EQ(faults({"torque wrench 10–60 N·m", "pliers"}), (Set{"wrench_missing N", "wrench_missing P"}));
  EXPECT_EQ(faults({"torque wrench 10–60 N·m", "socket 16 mm", "pliers"}), Set{"one_wrench_for_two P"});
  EXPECT_EQ(faults({"2 wrenches 16 mm"}), Set{"pin_tool_missing P"});
  EXPECT_EQ(faults({"2 wrenches 17 mm", "pliers"}), (Set{"tool_fits_no_head N", "tool_fits_no_head P"}));
  EXPECT_EQ(faults({"frobnicator"}), Set{});
  // By hand, and with nothing named at all, nothing is asked here.
  EXPECT_EQ(faults({"rule"}, FastenerState::finger_tight), Set{});
  EXPECT_EQ(faults({}), Set{});
}

TEST(StepToolsTest, EachVerbIsServedByItsKindsAlone) {
  using enum ToolKind;
  const std::map<Verb, std::set<ToolKind>> served = {
      {Verb::drill, {drill, drill_bit}},
      {Verb::cut, {cutter, file, drill_bit}},
      {Verb::rivet, {rivet_tool, hammer}},
      {Verb::strap, {strap, rope}},
      {Verb::lower, {jack, hoist}},
      {Verb::raise, {jack, hoist}},
      {Verb::load, {ballast}},
      {Verb::grease, {}},
      {Verb::bleed, {}},
      {Verb::route, {}},
      {Verb::label, {}},
      {Verb::choose, {}},
      {Verb::adjust, {wrench, socket, ratchet, hex_key, screwdriver, torque_tool, pliers, hand}}};
  EXPECT_EQ(served.size() + 1, verb_words.size()) << "all but read, which goes by its quantity";
  for (const auto& [verb, kinds] : served)
    for (std::size_t k = 1; k < tool_kinds; ++k) {
      const Deed d{verb, "thing", ""};
      EXPECT_EQ(serves(static_cast<ToolKind>(k), d), kinds.contains(static_cast<ToolKind>(k)))
          << verb_words[static_cast<std::size_t>(verb)] << " " << tool_kind_words[k];
      EXPECT_EQ(wants_tool(d), !kinds.empty());
    }
  for (const auto& row : reference::tool_readings)
    EXPECT_TRUE(reads(tool_kind(row.kind), *quantity_in(row.reads == "length" ? "height" : row.reads))) << row.kind;
  EXPECT_TRUE(serves(pressure_gauge, {Verb::read, "tyre pressure", ""}));
  EXPECT_TRUE(serves(pressure_gauge, {Verb::read, "Reifendruck", ""}));
  EXPECT_FALSE(serves(tape, {Verb::read, "tyre pressure", ""}));
  EXPECT_FALSE(wants_tool({Verb::read, "hour counter", ""}));
}

TEST(StepToolsTest, ACheckThatOnlyForbidsAToolShowsNothing) {
  for (const char* text : {"no hammer on threads", "No hammer", "no hammer, no pry bar", "never a hammer and no drift",
                           "kein Hammer auf dem Gewinde", "without a hammer", "no impact wrench used"})
    EXPECT_TRUE(only_forbids_tools(text)) << text;
  for (const char* text : {"no bare steel edge", "no bare edge, cables looked at", "no file marks",
                           "no jack under the axle", "no hammer on threads, taper free", "nothing metal above the pack",
                           "no wrench left on the engine", "hammer away", "no play", "no chocks at the wheels",
                           "keine blanke Kante", "no tool marks", "", "no", "bag and label 1"})
    EXPECT_FALSE(only_forbids_tools(text)) << text;
}

TEST(StepToolsTest, SizesOfACheckAreReadWithADecimalCommaToo) {
  const auto tools = [](const Texts& texts) {
    std::vector<Tool> all;
    for (const auto& t : texts) all.push_back(read_tool(t));
    return all;
  };
  EXPECT_FALSE(unreadable("Spiel 0,1 bis 0,3 mm", tools({"Fühlerlehre"})));
  const auto coarse = unreadable("Spiel 0,1 bis 0,3 mm", tools({"Stahllineal"}));
  ASSERT_TRUE(coarse && coarse->finest);
  EXPECT_EQ(coarse->asked, "0,1 mm");
  EXPECT_TRUE(unreadable("unter 1 V", tools({"Stahllineal"})));
  EXPECT_FALSE(unreadable("unter 1 V", tools({"Spannungsmesser"})));
}

}  // namespace
}  // namespace trammel::work
