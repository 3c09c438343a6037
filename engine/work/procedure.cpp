#include "work/procedure.h"

#include <algorithm>

namespace trammel::work {

Procedure with_accessories(Procedure procedure, const std::vector<std::string>& chosen) {
  std::erase_if(procedure.steps, [&](const Step& s) {
    return !s.accessory.empty() && std::find(chosen.begin(), chosen.end(), s.accessory) == chosen.end();
  });
  return procedure;
}

}  // namespace trammel::work
