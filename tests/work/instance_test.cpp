// Brace texts to instances.
#include "work/instance.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace trammel::work {
namespace {

std::vector<std::string> names(std::string_view text) {
  std::vector<std::string> out;
  const Expansion e = expand_braces("F3", text);
  EXPECT_EQ(e.fault, ExpandFault::none) << text;
  for (const Instance& i : e.instances) out.push_back(name(i));
  return out;
}
using Names = std::vector<std::string>;

TEST(Instances, FourCornersFirstChoiceSlowest) {
  EXPECT_EQ(names("steering arm to knuckle, {left,right}.{front,rear}"),
            (Names{"F3 left front", "F3 left rear", "F3 right front", "F3 right rear"}));
}

TEST(Instances, NumbersAndOtherWords) {
  EXPECT_EQ(names("wheel stud, rear.left.1..3"), (Names{"F3 left rear 1", "F3 left rear 2", "F3 left rear 3"}));
  EXPECT_EQ(names("stud 1..2"), (Names{"F3 1", "F3 2"}));
  EXPECT_EQ(names("stud {1..2}"), (Names{"F3 1", "F3 2"}));
  EXPECT_EQ(names("shackle, {left, right}.rear.{upper,lower}"),
            (Names{"F3 left rear upper", "F3 left rear lower", "F3 right rear upper", "F3 right rear lower"}));
  EXPECT_EQ(names("battery terminal"), (Names{"F3"}));
  EXPECT_EQ(names(""), (Names{"F3"}));
}

TEST(Instances, PlaceWordsCountInTheTailOnly) {
  EXPECT_EQ(names("rear bush of the lower arm, {left,right}.front"), (Names{"F3 left front", "F3 right front"}));
  EXPECT_EQ(names("track bar bracket, rear"), (Names{"F3 rear"}));
}

TEST(Instances, EightLugsOnFourWheels) { EXPECT_EQ(names("nut, {left,right}.{front,rear}.1..8").size(), 32u); }

TEST(Instances, WhatCannotBeReadIsAFault) {
  const auto fault = [](std::string_view text) {
    const Expansion e = expand_braces("F", text);
    EXPECT_TRUE(e.instances.empty() == (e.fault != ExpandFault::none));
    return e.fault;
  };
  EXPECT_EQ(fault("x, {left,right"), ExpandFault::unbalanced_brace);
  EXPECT_EQ(fault("x, left}"), ExpandFault::unbalanced_brace);
  EXPECT_EQ(fault("x, {left,{right}}"), ExpandFault::unbalanced_brace);
  EXPECT_EQ(fault("x, {left,}"), ExpandFault::empty_choice);
  EXPECT_EQ(fault("x, {}"), ExpandFault::empty_choice);
  EXPECT_EQ(fault("x, 4..1"), ExpandFault::bad_range);
  EXPECT_EQ(fault("x, 1..100000"), ExpandFault::bad_range);
  EXPECT_EQ(fault("x, {left,right}.left"), ExpandFault::twice_a_side);
  EXPECT_EQ(fault("x, {left,left}"), ExpandFault::repeated);
  EXPECT_EQ(fault("x, {left,right}.{front,rear}.1..100"), ExpandFault::too_many);
}

TEST(Instances, AnEmptySelectorPicksAllAndWordsNarrow) {
  const auto all = expand_braces("W", "nut, {left,right}.{front,rear}.1..4").instances;
  const auto count = [&](const Selector& s) {
    return std::count_if(all.begin(), all.end(), [&](const Instance& i) { return picks(s, i); });
  };
  EXPECT_EQ(count({"W"}), 16);
  EXPECT_EQ(count({"W", Side::left}), 8);
  EXPECT_EQ(count({"W", Side::left, End::rear}), 4);
  EXPECT_EQ(count({"W", Side::left, End::rear, 3}), 1);
  EXPECT_EQ(count({"W", Side::none, End::none, 9}), 0);
}

TEST(Instances, AWordThatIsNearlyAPlaceIsNone) {
  for (const auto& [text, meant] : {std::pair{"damper lower, rear.{left,rigth}", "right"},
                                    {"damper lower, raer.{left,right}", "rear"},
                                    {"wheel nut, {frnt,rear}.{left,right}.1..4", "front"},
                                    {"hub, leftt", "left"}}) {
    const Expansion e = expand_braces("F1", text);
    EXPECT_EQ(e.fault, ExpandFault::misspelt_place) << text;
    EXPECT_EQ(e.nearest, meant) << text;
  }
  // The trade has words of its own.
  for (const char* text : {"reduction gear, rear", "tail lift, {left,right}", "track bar, rear.{frame,axle}",
                           "bush, rear.{left,right}.{outer,inner}"})
    EXPECT_EQ(expand_braces("F1", text).fault, ExpandFault::none) << text;
}

}  // namespace
}  // namespace trammel::work
