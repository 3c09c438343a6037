#include "assess/kit_places.h"

namespace trammel {

KitPlaces::KitPlaces(const Job& job) {
  for (const KitUse& use : job.kits) {
    const auto list = [&](const std::string& owner, const char* key, const std::vector<Text>& texts) {
      for (const Text& t : texts) listed_by_[owner + ", " + key].push_back(&t);
    };
    const auto one = [&](const std::string& owner, const char* key, const std::optional<Text>& text) {
      if (text) listed_by_[owner + ", " + key].push_back(&*text);
    };
    for (const Text& t : use.kit.given) listed_by_["given"].push_back(&t);
    for (const KitStep& s : use.kit.step) {
      steps_.emplace(s.id.value, s.id.place);
      for (const Text& proof : s.proves) proofs_[proof.value] = s.id.place;
      const std::string owner = "step " + s.id.value;
      list(owner, "needs", s.needs);
      list(owner, "slacken", s.slacken);
      list(owner, "removes", s.removes);
      list(owner, "fits", s.fits);
      list(owner, "tighten", s.tighten);
      list(owner, "undoes", s.undoes);
      list(owner, "gives", s.gives);
      list(owner, "ends", s.ends);
      one(owner, "after", s.after);
      one(owner, "before", s.before);
    }
    for (const KitFastener& f : use.kit.fastener) {
      fasteners_.emplace(f.id.value, f.id.place);
      list("fastener " + f.id.value, "holds", f.holds);
      one("fastener " + f.id.value, "shares", f.shares);
    }
    for (const Part& p : use.kit.part) {
      parts_.emplace(p.id.value, p.id.place);
      one("part " + p.id.value, "replaces", p.replaces);
    }
    for (const Proof& p : use.kit.proof) {
      proofs_.emplace(p.id.value, p.id.place);
      const std::string owner = "proof " + p.id.value;
      list(owner, "voided_by_slackening", p.voided_by_slackening);
      list(owner, "voided_by_removing", p.voided_by_removing);
      list(owner, "only_while", p.only_while);
      list(owner, "guards", p.guards);
    }
  }
}

Place KitPlaces::of(const work::Fault& f) const {
  if (const auto list = listed_by_.find(f.other); list != listed_by_.end())
    for (const Text* t : list->second)
      if (t->value.find(f.subject) != std::string::npos) return t->place;
  const auto in = [](const std::map<std::string, Place>& places, const std::string& name) {
    const auto at = places.find(name);
    return at == places.end() ? nullptr : &at->second;
  };
  if (const Place* step = in(steps_, f.step)) return *step;
  // "R3 left" is R3's; a part's name may be several words.
  if (const Place* fastener = in(fasteners_, f.subject.substr(0, f.subject.find(' ')))) return *fastener;
  if (const Place* proof = in(proofs_, f.subject)) return *proof;
  Place longest;
  std::size_t length = 0;
  for (const auto& [id, place] : parts_)
    if (f.subject.starts_with(id) && id.size() > length) longest = place, length = id.size();
  return longest;
}

}  // namespace trammel
