// Standard sequences that a kit's steps call, by what drives the cart; and what a saw or a drill must not reach.
#include <algorithm>
#include <map>

#include "assess/context.h"
#include "work/words.h"

namespace trammel {
namespace {

const char* source = "own words, common practice, no source; the cart maker's instructions come first";

std::vector<Message> sequence(const std::string& called, const std::string& power) {
  const bool petrol = power == "petrol", off = called == "isolate";
  const std::string stem = off      ? petrol ? "isolate-petrol-" : "isolate-electric-"
                           : petrol ? "power-up-petrol-"
                                    : "power-up-electric-";
  std::vector<Message> points;
  for (int i = 1; i <= (petrol ? 6 : 8); ++i) points.push_back({stem + std::to_string(i), {}});
  if (power == "lithium") points.push_back({off ? "isolate-lithium" : "power-up-lithium", {}});
  return points;
}

// By what it does, or by its caution.
bool cuts(const KitStep& s) {
  const auto opens = [](const Text& t) {
    const auto deed = work::read_deed(t.value);
    return deed && (deed->verb == work::Verb::cut || deed->verb == work::Verb::drill);
  };
  return std::any_of(s.work.begin(), s.work.end(), opens) ||
         std::any_of(s.cautions.begin(), s.cautions.end(), [](const Text& t) { return t.value == "cutting"; });
}

}  // namespace

void judge_isolation(Context& c) {
  std::map<std::string, const KitStep*> told;
  for (const KitUse& use : c.job.kits)
    for (const KitStep& s : use.kit.step) told[s.id.value] = &s;
  const std::string power = c.before.drive && c.before.drive->power ? c.before.drive->power->value : "";

  const auto find = [&](const StepLine& s, const char* code, const Place& place, Outcome outcome) {
    Finding f;
    f.outcome = outcome;
    f.subject = "step " + s.id;
    f.message = {code, {{"step", s.id}}};
    f.source = source;
    f.basis = Basis::kit;
    f.place = place;
    c.add(std::move(f));
  };
  bool said_cut = false;
  for (std::size_t i = 0; i < c.out.steps.size(); ++i) {
    StepLine& s = c.out.steps[i];
    const auto found = told.find(s.id);
    if (found == told.end()) continue;
    const KitStep& given = *found->second;

    // Cutting and drilling: only with what is behind named.
    if (cuts(given)) {
      for (const KeepOut& k : c.before.keep_out)
        s.keep_out.push_back(k.name.value + (k.note ? ": " + k.note->value : ""));
      if (c.before.keep_out.empty() && !said_cut) find(s, "cut-without-keep-out", given.id.place, Outcome::condition);
      said_cut = true;
    }
    if (!given.calls) continue;
    if (power.empty()) {
      find(s, "isolation-power-unknown", given.calls->place, Outcome::condition);
      continue;
    }
    s.points = sequence(given.calls->value, power);
  }
}

}  // namespace trammel
