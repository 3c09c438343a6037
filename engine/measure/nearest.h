// The nearest known word to a mistyped one, for "did you mean".
//
// Distance: optimal string alignment (insert, drop, change, swap neighbours: 1 each; change of case
// alone: 1/4). A word is near where its distance is at most a third of the longer length, and at
// least one edit is allowed from two letters up. Ties keep the earlier word of the list.
// Range: words up to 64 bytes; longer ones have no neighbour.
// Source: Damerau, Comm. ACM 7(3) 1964, 171-176, for the four slips; the cut-off is our own.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace trammel {

// In quarters of an edit.
int edit_distance_quarters(std::string_view a, std::string_view b);

// Empty where none is near. The view points into `words`.
std::string_view nearest(std::string_view word, std::span<const std::string_view> words);
std::string_view nearest(std::string_view word, std::span<const std::string> words);

// One slip of four letters or more away from it: too near to be a word of its own.
bool one_slip_from(std::string_view word, std::string_view known);

}  // namespace trammel
