#include "assess/loose_items.h"

#include <map>

#include "assess/context.h"
#include "assess/work_words.h"
#include "work/walk.h"

namespace trammel {
namespace {

std::string may_bear(std::optional<work::Load> not_before) {
  if (!not_before) return load_word(work::Load::released);
  if (*not_before == work::Load::jacked) return "nothing";
  return load_word(static_cast<work::Load>(static_cast<int>(*not_before) - 1));
}

}  // namespace

std::vector<LooseItem> loose_items(const Job& job, const work::Roster& roster, const work::State& state) {
  std::map<std::string, std::string> at;
  for (const KitUse& use : job.kits)
    for (const KitFastener& f : use.kit.fastener) at[f.id.value] = without_places(f.at.value);
  std::vector<LooseItem> out;
  for (const work::LooseItem& item : work::loose_list(roster, state)) {
    if (!work::below(item.state, work::FastenerState::final)) continue;
    const work::FastenerEntry& e = roster.fasteners[item.fastener];
    out.push_back(
        {e.instance.group, place_of(e), state_word(item.state), at[e.instance.group], may_bear(item.not_before)});
  }
  return out;
}

}  // namespace trammel
