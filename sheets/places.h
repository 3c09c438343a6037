// Where on the cart a fastener's instance sits, as far as the words tell: which end and which side.
//
// The end follows from the stage of the steps that move the fastener, where all are of one end; else from
// the instance's own name. A kit's "{front,rear}" may mean the two bolts of one arm, so the stage goes first.
#pragma once

#include <string>
#include <vector>

#include "assess/assessment.h"
#include "sheets/words.h"

namespace trammel::sheets {

struct Spot {
  int end = 0;   // 1 front, -1 rear, 0 neither
  int side = 0;  // 1 left, -1 right, 0 neither
  friend auto operator<=>(const Spot&, const Spot&) = default;
};

Spot spot_of(const Assessment& assessment, const std::string& fastener, const std::string& instance);

// The instances of a fastener named in a list: "all 16" where there are many and none is missing.
std::string where_of(const Assessment& assessment, const Words& words, const std::string& fastener,
                     const std::vector<std::string>& instances);

// "left front, right front" of some instances; empty where the only one has no name.
std::string joined(const std::vector<std::string>& names, const std::string& between);

}  // namespace trammel::sheets
