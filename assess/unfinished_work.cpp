#include "assess/unfinished_work.h"

#include <map>

#include "assess/context.h"
#include "assess/work_words.h"
#include "work/unfinished.h"

namespace trammel {
namespace {

std::string may_bear(std::optional<work::Load> not_before) {
  if (!not_before) return load_word(work::Load::released);
  if (*not_before == work::Load::jacked) return "nothing";
  return load_word(static_cast<work::Load>(static_cast<int>(*not_before) - 1));
}

}  // namespace

Unfinished unfinished_work(const Job& job, const work::Roster& roster, const work::State& state) {
  std::map<std::string, std::string> at;
  for (const KitUse& use : job.kits)
    for (const KitFastener& f : use.kit.fastener) at[f.id.value] = without_places(f.at.value);
  const work::Unfinished found = work::unfinished(roster, state);
  Unfinished out;
  out.may_be = load_word(found.most);
  out.up = found.up;
  for (const std::size_t part : found.places) out.off.push_back(roster.parts[part].name);
  for (const work::LooseItem& item : found.loose) {
    if (!work::below(item.state, work::FastenerState::final)) continue;
    const work::FastenerEntry& e = roster.fasteners[item.fastener];
    out.loose.push_back(
        {e.instance.group, place_of(e), state_word(item.state), at[e.instance.group], may_bear(item.not_before)});
  }
  return out;
}

}  // namespace trammel
