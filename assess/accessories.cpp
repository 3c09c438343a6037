#include "assess/accessories.h"

#include <algorithm>
#include <set>

#include "work/procedure.h"
#include "work/words.h"

namespace trammel {
namespace {

// What is left out, by its names; what stays, so that a longer name is not taken for a shorter one.
struct Names {
  std::set<std::string> fasteners, parts, words;  // words: steps, conditions, proofs
  std::vector<std::string> all_fasteners, all_parts;
  std::set<std::string> kept_words;

  bool fastener(const Text& t) const {
    return fasteners.contains(work::read_target(t.value, all_fasteners).fastener.id);
  }
  bool part(const Text& t) const { return parts.contains(work::read_removal(t.value, all_parts).part.id); }
  bool word(const std::string& text) const { return words.contains(text) && !kept_words.contains(text); }
  bool need(const Text& t) const {
    const std::string& text = t.value;
    if (text.starts_with("not ")) return word(text.substr(4));
    if (text.ends_with(" done") && word(text.substr(0, text.size() - 5))) return true;
    return word(text) || fastener(t) || part(t);
  }
  bool undone(const Text& t) const {
    const auto torque = work::read_torque_of(t.value, all_fasteners);
    return torque ? fasteners.contains(torque->id) : word(t.value);
  }
};

void take_words(const KitStep& s, std::set<std::string>& into) {
  into.insert(s.id.value);
  for (const Text& t : s.gives) into.insert(t.value);
  for (const Text& t : s.proves) into.insert(t.value);
  for (const Text& t : s.work)
    if (const auto deed = work::read_deed(t.value)) into.insert(work::condition_of(*deed));
}

template <class Out>
Names names_of(const Job& job, Out out) {
  Names n;
  for (const KitUse& use : job.kits) {
    for (const KitFastener& f : use.kit.fastener) {
      n.all_fasteners.push_back(f.id.value);
      if (out(f.accessory)) n.fasteners.insert(f.id.value);
    }
    for (const Part& p : use.kit.part) {
      n.all_parts.push_back(p.id.value);
      if (out(p.accessory)) n.parts.insert(p.id.value);
    }
    for (const KitStep& s : use.kit.step) take_words(s, out(s.accessory) ? n.words : n.kept_words);
    for (const Text& t : use.kit.given) n.kept_words.insert(t.value);
  }
  return n;
}

// A step that comes after one that is left out comes after the one before that, and likewise before.
template <class Out>
void stand_in_for_anchors(Job& job, Out out) {
  const auto stand_in = [&](const std::string& id, bool after) -> std::optional<std::string> {
    for (const KitUse& use : job.kits) {
      const auto& steps = use.kit.step;
      const auto at = std::find_if(steps.begin(), steps.end(), [&](const KitStep& s) { return s.id.value == id; });
      if (at == steps.end()) continue;
      const auto kept = [&](const KitStep& s) { return !out(s.accessory); };
      if (after) {
        const auto found = std::find_if(std::make_reverse_iterator(at + 1), steps.rend(), kept);
        return found == steps.rend() ? std::nullopt : std::optional(found->id.value);
      }
      const auto found = std::find_if(at, steps.end(), kept);
      return found == steps.end() ? std::nullopt : std::optional(found->id.value);
    }
    return id;  // nowhere: said by the rehearsal
  };
  const auto mend = [&](std::optional<Text>& anchor, bool after) {
    if (!anchor) return;
    const auto id = stand_in(anchor->value, after);
    if (id)
      anchor->value = *id;
    else
      anchor.reset();
  };
  for (KitUse& use : job.kits)
    for (KitStep& s : use.kit.step) {
      mend(s.after, true);
      mend(s.before, false);
    }
}

}  // namespace

Job with_accessories(Job job, const std::vector<std::string>& chosen) {
  const auto left_out = [&](const std::string& name) {
    return !name.empty() && std::find(chosen.begin(), chosen.end(), name) == chosen.end();
  };
  const auto out = [&](const std::optional<Text>& accessory) { return accessory && left_out(accessory->value); };
  const Names gone = names_of(job, out);
  if (gone.fasteners.empty() && gone.parts.empty() && gone.words.empty() &&
      std::none_of(job.kits.begin(), job.kits.end(), [&](const KitUse& use) {
        return std::any_of(use.kit.change.begin(), use.kit.change.end(),
                           [&](const Change& c) { return left_out(c.accessory); });
      }))
    return job;

  const auto fastener = [&](const Text& t) { return gone.fastener(t); };
  const auto part = [&](const Text& t) { return gone.part(t); };
  const auto need = [&](const Text& t) { return gone.need(t); };
  stand_in_for_anchors(job, out);
  for (KitUse& use : job.kits) {
    Kit& kit = use.kit;
    const auto belongs = [&](const auto& x) { return out(x.accessory); };
    std::erase_if(kit.change, [&](const Change& c) { return left_out(c.accessory); });
    std::erase_if(kit.part, belongs);
    std::erase_if(kit.fastener, belongs);
    std::erase_if(kit.step, belongs);

    for (KitFastener& f : kit.fastener) std::erase_if(f.holds, part);
    for (Part& p : kit.part)
      if (p.replaces && part(*p.replaces)) p.replaces.reset();
    // A check that only steps left out would have made is left out with them.
    std::erase_if(kit.proof, [&](const Proof& p) { return gone.word(p.id.value); });
    for (Proof& p : kit.proof) {
      std::erase_if(p.guards, [&](const Text& t) { return gone.word(t.value); });
      std::erase_if(p.voided_by_slackening, fastener);
      std::erase_if(p.voided_by_removing, part);
      std::erase_if(p.only_while, need);
    }
    for (KitStep& s : kit.step) {
      for (auto* list : {&s.tighten, &s.slacken}) std::erase_if(*list, fastener);
      for (auto* list : {&s.removes, &s.fits}) std::erase_if(*list, part);
      std::erase_if(s.needs, need);
      std::erase_if(s.ends, [&](const Text& t) { return gone.word(t.value); });
      std::erase_if(s.undoes, [&](const Text& t) { return gone.undone(t); });
    }
  }
  return job;
}

Job as_fitted(Job job) {
  std::vector<std::string> chosen;
  for (const Text& t : job.accessories) chosen.push_back(t.value);
  return with_accessories(std::move(job), chosen);
}

}  // namespace trammel
