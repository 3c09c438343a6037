// Where on the cart something is: side, end and number, and how a step picks instances out of a group.
//
// Model: a group (fastener F8, part "wheel") has instances, each with words: side, end, number, another word.
//   A place word that is absent means "not told apart": it agrees with either side, either end.
// Frame: left and right as the driver sits; front is +x, left is +y (ISO 8855).
// Law 1: `agree` is symmetric. Law 2: an empty selector picks every instance of its group.
#pragma once

#include <string>
#include <vector>

namespace trammel::work {

enum class Side : unsigned char { none, left, right };
enum class End : unsigned char { none, front, rear };

constexpr bool agree(Side a, Side b) { return a == Side::none || b == Side::none || a == b; }
constexpr bool agree(End a, End b) { return a == End::none || b == End::none || a == b; }
constexpr Side mirrored(Side s) { return s == Side::left ? Side::right : s == Side::right ? Side::left : Side::none; }

// One instance of a group: (F8, left, rear, stud 2). `word` holds any other brace word ("upper").
struct Instance {
  std::string group;
  Side side = Side::none;
  End end = End::none;
  int number = 0;  // 0: not numbered
  std::string word;
  friend bool operator==(const Instance&, const Instance&) = default;
};

// "F8 left rear 2": the name by which ledgers and people call an instance.
std::string name(const Instance& instance);

// What a step names: a group, perhaps narrowed. "F8 rear" is every rear instance of F8.
struct Selector {
  std::string id;
  Side side = Side::none;
  End end = End::none;
  int number = 0;
  std::string word;
  friend bool operator==(const Selector&, const Selector&) = default;
};

// True where the instance is among those the selector names (its group is not compared).
bool picks(const Selector& selector, const Instance& instance);

}  // namespace trammel::work
