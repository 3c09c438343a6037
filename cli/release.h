// What stands in the way of giving the cart back, told alike by plan, release and after an entry.
#pragma once

#include <string>

#include "assess/assessment.h"
#include "cli/terminal.h"
#include "cli/words.h"

namespace trammel::cli {

void print_refused(const Terminal& t, const Assessment& a, const PrintStyle& style);
// Where the work stands, in a sentence.
std::string release_line(const Assessment& a);

}  // namespace trammel::cli
