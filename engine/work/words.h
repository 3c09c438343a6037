// The short texts of a step list, read: "F8 rear part_tight", "front on stands", "knuckle fitted", "torque of F3".
//
// A selector is an id and then any of left, right, front, rear, a number, another word. The id is the longest known
// id that the text begins with; where none is known, what is left when place words at its end are taken off.
// A need is read in this order: a support; a condition that a step sets or the procedure is given; a known part
// with on, fitted, off or removed; a known step, perhaps with done; a known fastener with a state; a known proof;
// else a condition by its whole text (which walk.h then calls unknown, where nothing sets it).
// "not " before a condition asks that it does not hold. A target may end with `new`: a new nut or bolt.
// A deed is a verb, a thing and, after a comma, how: "drill wing lip, 6.5 mm".
// A removal may end with `scrap`; what follows a comma says where the part is kept.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "work/procedure.h"

namespace trammel::work {

struct Target {
  Selector fastener;
  std::optional<FastenerState> state;
  bool fresh = false;  // "R3 snug new"
};

Selector read_selector(std::string_view text, const std::vector<std::string>& known = {});
Target read_target(std::string_view text, const std::vector<std::string>& known = {});  // "F3 left final"
std::optional<Selector> read_torque_of(std::string_view text, const std::vector<std::string>& known = {});
Remove read_removal(std::string_view text, const std::vector<std::string>& known = {});  // "hub left, bag 2"
Need read_need(std::string_view text, const Procedure& names);
std::optional<ApplyLoad> read_applied_load(std::string_view text);  // "rear on wheels", "rolled"
std::optional<Deed> read_deed(std::string_view text);
std::optional<Sides> read_sides(std::string_view text);

// In the words that read back as them: "R4 left rear", "not axle on jack", "F3 left final".
std::string words_of(const Selector& selector);
std::string words_of(const Need& need);

std::vector<std::string> fastener_ids(const Procedure& procedure);
std::vector<std::string> part_ids(const Procedure& procedure);

}  // namespace trammel::work
