// Every kind of fault in words: each part that its kind tells stands in the line, and nothing else does.
#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "assess/work_words.h"
#include "messages/catalogue.h"

namespace trammel {
namespace {

// The {names} of a line.
std::set<std::string> names_in(std::string_view line) {
  std::set<std::string> names;
  for (std::size_t at = 0; (at = line.find('{', at)) != std::string_view::npos;) {
    if (line.substr(at, 2) == "{{") {
      at += 2;
      continue;
    }
    const std::size_t end = line.find('}', at);
    names.emplace(line.substr(at + 1, end - at - 1));
    at = end;
  }
  return names;
}

work::Fault filled(work::FaultKind kind) {
  work::Fault f;
  f.kind = kind;
  const std::string_view told = work::tells(kind);
  if (told.find("step") != std::string_view::npos) f.step = "STEP";
  if (told.find("subject") != std::string_view::npos) f.subject = "SUBJECT";
  if (told.find("load") != std::string_view::npos) f.load = work::Load::rolled;
  if (told.find("state") != std::string_view::npos) f.state = work::FastenerState::finger_tight;
  if (told.find("least") != std::string_view::npos) f.least = work::FastenerState::part_tight;
  if (told.find("other") != std::string_view::npos) f.other = "OTHER";
  return f;
}

TEST(FaultWords, EachKindTellsWhatItFillsAndNoMore) {
  for (std::size_t k = 0; k < work::fault_kinds; ++k) {
    const auto kind = static_cast<work::FaultKind>(k);
    const work::Fault fault = filled(kind);
    ASSERT_TRUE(whole(fault)) << work::word(kind);
    const Message m = fault_message(fault);
    const MessageEntry* entry = find_message(m.code);
    ASSERT_NE(entry, nullptr) << m.code;
    std::set<std::string> told;
    std::istringstream words{std::string(work::tells(kind))};
    for (std::string w; words >> w;) told.insert(w);
    std::set<std::string> said = names_in(entry->line);
    said.erase("nearest");  // a clause of its own, or nothing
    said.erase("beneath");  // put in by the rehearsal
    EXPECT_EQ(said, told) << m.code;
    // Nothing doubled, nothing empty.
    const std::string line = word(m);
    EXPECT_EQ(line.find("  "), std::string::npos) << line;
    EXPECT_EQ(line.find("\"\""), std::string::npos) << line;
    for (const char* once : {"STEP", "SUBJECT", "OTHER", "rolled", "finger-tight", "part-tight"})
      if (const auto at = line.find(once); at != std::string::npos) {
        EXPECT_EQ(line.find(once, at + 1), std::string::npos) << line;
      }
  }
}

TEST(FaultWords, ANearWordIsOfferedOnlyWhereThereIsOne) {
  work::Fault f = filled(work::FaultKind::unknown_guard);
  EXPECT_EQ(word(fault_message(f)), "OTHER: \"SUBJECT\" is neither a load nor a step");
  f.nearest = "driven";
  EXPECT_EQ(word(fault_message(f)), "OTHER: \"SUBJECT\" is neither a load nor a step, perhaps \"driven\" is meant");
}

}  // namespace
}  // namespace trammel
