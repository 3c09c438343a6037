#include "work/procedure.h"

#include <algorithm>
#include <array>

namespace trammel::work {

std::string condition_of(const Deed& deed) {
  constexpr std::array<const char*, 8> done = {"drilled", "cut",    "riveted",  "greased",
                                               "bled",    "routed", "labelled", "chosen"};
  return deed.what + " " + done[static_cast<std::size_t>(deed.verb)];
}

std::vector<std::string> accessories(const Procedure& p) {
  std::vector<std::string> out;
  const auto take = [&](const auto& list) {
    for (const auto& x : list)
      if (!x.accessory.empty() && std::find(out.begin(), out.end(), x.accessory) == out.end())
        out.push_back(x.accessory);
  };
  take(p.steps);
  take(p.parts);
  take(p.fasteners);
  return out;
}

Procedure with_accessories(Procedure p, const std::vector<std::string>& chosen) {
  const auto not_chosen = [&](const auto& x) {
    return !x.accessory.empty() && std::find(chosen.begin(), chosen.end(), x.accessory) == chosen.end();
  };
  // What names a part that is not there names it no more.
  for (const Part& part : p.parts) {
    if (!not_chosen(part)) continue;
    for (Fastener& f : p.fasteners) std::erase(f.holds, part.id);
    for (Part& other : p.parts)
      if (other.replaces == part.id) other.replaces.clear();
  }
  std::erase_if(p.steps, not_chosen);
  std::erase_if(p.parts, not_chosen);
  std::erase_if(p.fasteners, not_chosen);
  return p;
}

}  // namespace trammel::work
