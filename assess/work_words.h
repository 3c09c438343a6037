// Faults, states and loads of the work room in the words of kit files, as messages take them. Private to assess.
#pragma once

#include <string>
#include <string_view>

#include "assess/finding.h"
#include "work/fault.h"
#include "work/roster.h"

namespace trammel {

std::string plain(std::string_view word);   // on_wheels: "on wheels"
std::string dashed(std::string_view word);  // part_tight: "part-tight"
std::string state_word(work::FastenerState state);
std::string load_word(work::Load load);
// "left front 2": an instance's name without its fastener's id.
std::string place_of(const work::FastenerEntry& entry);
const char* side_word(work::Side side);
// ", perhaps \"rear chocked\" is meant"; empty where nothing is near.
std::string meant(std::string_view nearest);
Message fault_message(const work::Fault& fault);
Outcome fault_outcome(const work::Fault& fault);

}  // namespace trammel
