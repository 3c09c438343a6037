// Numbered places as a person lists them: "left rear 1", "left rear 2", "left rear 3" are "left rear 1–3".
#pragma once

#include <string>
#include <vector>

namespace trammel {

// In the order given; two neighbours or more are one run.
std::vector<std::string> place_runs(const std::vector<std::string>& places);

}  // namespace trammel
