// The words of every code: found, filled and never short of a value in silence.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "messages/catalogue.h"

namespace trammel {
namespace {

TEST(Catalogue, IsSortedAndEveryCodeIsFound) {
  const auto all = all_messages();
  ASSERT_FALSE(all.empty());
  EXPECT_TRUE(std::is_sorted(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.code < b.code; }));
  for (const MessageEntry& entry : all) EXPECT_EQ(find_message(entry.code), &entry);
  EXPECT_EQ(find_message("no-such-code"), nullptr);
  EXPECT_EQ(find_message(""), nullptr);
}

TEST(Catalogue, FillsTextsAndNumbers) {
  const Message twice{"name-twice", {{"name", "driver"}}};
  EXPECT_EQ(word(twice), "`driver` is used twice");
  PrintStyle metric;
  metric.systems = Systems::metric;
  const Message far{"point-far", {{"key", "centre"}, {"distance", Number{Kind::length, 7.5, {}}}}};
  EXPECT_EQ(word(far, metric),
            "`centre` lies " + print(Number{Kind::length, 7.5, {}}, metric) + " away along one axis");
}

TEST(Catalogue, AGapIsSeenAndAnUnknownCodeStandsAsItIs) {
  EXPECT_EQ(word({"name-twice", {}}), "`{name}` is used twice");
  EXPECT_EQ(word({"no-such-code", {}}), "no-such-code");
  EXPECT_EQ(help_text({"no-such-code", {}}), "");
}

TEST(Catalogue, DoubledBracesAreBraces) {
  EXPECT_NE(help_text({"size-doubted", {}}).find("`{ value = \"…\", sure = true }`"), std::string::npos);
}

// A value that holds braces is not filled a second time.
TEST(Catalogue, ValuesAreNotReadAgain) {
  EXPECT_EQ(word({"name-twice", {{"name", "{name}"}}}), "`{name}` is used twice");
}

}  // namespace
}  // namespace trammel
