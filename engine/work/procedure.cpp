#include "work/procedure.h"

#include <array>

namespace trammel::work {

std::string condition_of(const Deed& deed) {
  constexpr std::array<const char*, 8> done = {"drilled", "cut",    "riveted",  "greased",
                                               "bled",    "routed", "labelled", "chosen"};
  return deed.what + " " + done[static_cast<std::size_t>(deed.verb)];
}

}  // namespace trammel::work
