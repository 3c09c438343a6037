// An independent, short and slow judge of a procedure: is there anything wrong with it at all?
//
// It shares only the plain data of procedure.h and step.h with the engine: states, sides, loads and rules are worked
// out again here, by name and by hand, so that a slip in the walk does not excuse itself.
#pragma once

#include <optional>
#include <string>

#include "work/procedure.h"

namespace trammel::work {

// What is wrong first, in a few words; nothing where all is well.
std::optional<std::string> judge(const Procedure& procedure);

}  // namespace trammel::work
