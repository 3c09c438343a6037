#include "job/accessories.h"

#include <algorithm>

namespace trammel {

std::vector<std::string> accessories_of(const Job& job) {
  std::vector<std::string> all;
  const auto take = [&](const std::string& name) {
    if (!name.empty() && std::find(all.begin(), all.end(), name) == all.end()) all.push_back(name);
  };
  const auto take_each = [&](const auto& list) {
    for (const auto& x : list)
      if (x.accessory) take(x.accessory->value);
  };
  for (const KitUse& use : job.kits) {
    take_each(use.kit.step);
    take_each(use.kit.part);
    take_each(use.kit.fastener);
    for (const Change& change : use.kit.change) take(change.accessory);
  }
  return all;
}

}  // namespace trammel
