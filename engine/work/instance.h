// A group's place text, expanded to its instances.
//
// Model: the tail of the text after its last comma outside braces is a list of words set apart by dots or spaces.
//   {a,b} stands for each of its words in turn; 1..4 (bare or in braces) for each number; several multiply,
//   the first varying slowest. left, right, front, rear are places; a number is the number; any other
//   braced word is kept as the instance's word; other words are the trade's and do not multiply.
//   "steering arm to knuckle, {left,right}.{front,rear}" gives four; "stud, rear.1..4" four numbered.
// A word one slip away from a place ("raer", "{left,rigth}") is none of the trade's: it is refused, unless it stands
// alone and is a word that the trade has ("gear", "lift").
// Range: at most 256 instances. A text without braces, ranges or place words gives one instance.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "work/place.h"

namespace trammel::work {

enum class ExpandFault : unsigned char {
  none,
  unbalanced_brace,
  empty_choice,
  bad_range,
  twice_a_side,
  repeated,
  too_many,
  misspelt_place
};

struct Expansion {
  std::vector<Instance> instances;  // empty where there is a fault
  ExpandFault fault = ExpandFault::none;
  std::size_t at = 0;        // offset in the text of what cannot be read
  std::string_view nearest;  // misspelt_place: the place that was meant
};

Expansion expand_braces(std::string_view group, std::string_view text);

}  // namespace trammel::work
