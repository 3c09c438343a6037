#include <algorithm>
#include <array>
#include <map>
#include <random>
#include <set>

#include "assess/procedure.h"
#include "assess/rehearsal.h"
#include "messages/catalogue.h"
#include "work/conflict.h"

namespace trammel {
namespace {

// A whole number below n, the same on every machine.
std::size_t below(std::mt19937_64& random, std::size_t n) {
  return n == 0 ? 0 : static_cast<std::size_t>(random() % n);
}

bool swap_sides(std::vector<Text>& texts) {
  bool any = false;
  for (Text& t : texts)
    for (const auto& [from, to] : {std::pair<std::string, std::string>{" left", " right"}, {" right", " left"}})
      if (const auto at = t.value.find(from); at != std::string::npos) {
        t.value.replace(at, from.size(), to);
        any = true;
        break;
      }
  return any;
}

// One mistake of a kind; false where the kit has no room for it.
bool make(const std::string& kind, Kit& kit, std::mt19937_64& random, std::string& where) {
  auto& steps = kit.step;
  if (kind.starts_with("spoil-torque") || kind.starts_with("spoil-size")) {
    if (kit.fastener.empty()) return false;
    KitFastener& f = kit.fastener[below(random, kit.fastener.size())];
    where = f.id.value;
    if (kind == "spoil-size") {
      if (!f.across_flats) return false;
      static constexpr std::array<double, 4> off = {-2e-3, -1e-3, 1e-3, 3e-3};
      f.across_flats->value = f.across_flats->value + Length::from_si(off[below(random, off.size())]);
      return true;
    }
    static constexpr std::array<double, 6> wrong = {12.0, 1.0 / 12.0, 1.3558, 1.0 / 1.3558, 2.0, 0.5};
    if (!f.torque) return false;
    f.torque->value = f.torque->value * wrong[below(random, wrong.size())];
    if (!f.passes.empty()) f.passes.back().value = f.torque->value;
    return true;
  }
  if (steps.size() < 3) return false;
  const std::size_t i = below(random, steps.size());
  where = steps[i].id.value;
  const auto at = [&](std::size_t n) { return steps.begin() + static_cast<std::ptrdiff_t>(n); };
  if (kind == "spoil-tool") {
    if (steps[i].tools.empty()) return false;
    const std::size_t k = below(random, steps[i].tools.size());
    where += ", " + steps[i].tools[k].value;
    steps[i].tools.erase(steps[i].tools.begin() + static_cast<std::ptrdiff_t>(k));
  } else if (kind == "spoil-drop") {
    steps.erase(at(i));
  } else if (kind == "spoil-swap") {
    const std::size_t k = below(random, steps.size());
    if (k == i) return false;
    where += " and " + steps[k].id.value;
    std::swap(steps[i], steps[k]);
  } else if (kind == "spoil-double") {
    KitStep again = steps[i];
    again.id.value += "-again";
    steps.insert(at(i + 1 + below(random, steps.size() - i)), again);
  } else if (kind == "spoil-move") {
    const std::size_t k = below(random, steps.size());
    if (k == i) return false;
    KitStep moved = steps[i];
    steps.erase(at(i));
    steps.insert(at(std::min(k, steps.size())), moved);
  } else {  // spoil-side
    KitStep& s = steps[i];
    if (s.sides && s.sides->value == "each") {
      s.sides->value = below(random, 2) == 0 ? "left" : "right";
      return true;
    }
    const bool tighten = swap_sides(s.tighten), fits = swap_sides(s.fits);
    return tighten || fits;
  }
  return true;
}

std::set<std::string> keys(const RehearsedJob& r) {
  std::set<std::string> all;
  for (const RehearsedFinding& f : r.found)
    all.insert(f.finding.message.code + "|" + f.finding.subject + "|" + trammel::word(f.finding.message, {}));
  return all;
}

// Whether a step gives any rule something to read.
bool only_words(const KitStep& s) {
  return s.slacken.empty() && s.tighten.empty() && s.removes.empty() && s.fits.empty() && s.work.empty() &&
         s.gives.empty() && s.ends.empty() && s.proves.empty() && s.undoes.empty() && s.loads.empty();
}

bool same_end(const work::Walk& a, const work::Walk& b) {
  const work::State &x = a.end(), &y = b.end();
  return x.fasteners == y.fasteners && x.parts == y.parts && x.proofs == y.proofs && x.conditions == y.conditions;
}

// Whether the steps that changed places share nothing that either writes (conflict.h): then no rule tells the two
// orders apart.
bool share_nothing(const work::Walk& a, const work::Walk& b) {
  const auto name = [](const work::Walk& w, std::size_t i) {
    const work::ExpandedStep& x = w.roster.order[i];
    return std::pair(w.roster.procedure.steps[x.step].id, x.side);
  };
  std::map<std::pair<std::string, work::Side>, std::size_t> there;
  for (std::size_t i = 0; i < b.roster.order.size(); ++i) there[name(b, i)] = i;
  const auto touching = work::conflicts(a.roster);
  for (std::size_t i = 0; i < a.roster.order.size(); ++i)
    for (std::size_t k = i + 1; k < a.roster.order.size(); ++k)
      if (touching[i][k] != 0 && there[name(a, i)] > there[name(a, k)]) return false;
  return true;
}

// What the judge knows of a mistake that no finding speaks of. It does not say that the mistake does no harm.
std::string reason(const Spoilt& spoilt, const Job& clean) {
  if (spoilt.kind == "spoil-torque") return "spoil-within-joint";
  if (spoilt.kind == "spoil-size") return "spoil-not-turned";
  if (spoilt.kind == "spoil-tool") return "spoil-tool-unasked";
  if (spoilt.kind == "spoil-drop" || spoilt.kind == "spoil-double")
    for (const KitUse& use : clean.kits)
      for (const KitStep& s : use.kit.step)
        if (s.id.value == spoilt.where && only_words(s)) return "spoil-only-words";
  const work::Walk a = work::walk(job_procedure(clean).procedure), b = work::walk(job_procedure(spoilt.job).procedure);
  if (!same_end(a, b)) return "spoil-other-end";
  if (spoilt.kind == "spoil-swap" || spoilt.kind == "spoil-move")
    return share_nothing(a, b) ? "spoil-order-free" : "spoil-order-met";
  return "spoil-same-end";
}

}  // namespace

std::vector<Spoilt> spoil(const Job& job, std::size_t count, std::uint64_t seed) {
  static constexpr std::array<const char*, 8> kinds = {"spoil-drop", "spoil-swap",   "spoil-double", "spoil-move",
                                                       "spoil-side", "spoil-torque", "spoil-size",   "spoil-tool"};
  std::vector<Spoilt> all;
  std::mt19937_64 random(seed);
  if (job.kits.empty()) return all;
  for (std::size_t tries = 0; all.size() < count && tries < 50 * count; ++tries) {
    Spoilt s{kinds[tries % kinds.size()], {}, job};
    Kit& kit = s.job.kits[below(random, job.kits.size())].kit;
    if (make(s.kind, kit, random, s.where)) all.push_back(std::move(s));
  }
  return all;
}

std::vector<SpoiltOutcome> rehearse_spoilt(const Job& job, std::size_t count, std::uint64_t seed) {
  const std::set<std::string> clean = keys(rehearse(job));
  std::vector<SpoiltOutcome> all;
  for (const Spoilt& s : spoil(job, count, seed)) {
    SpoiltOutcome o{s.kind, s.where, false, {}};
    for (const std::string& k : keys(rehearse(s.job)))
      if (!clean.contains(k)) {
        o.caught = true;
        o.by = k.substr(0, k.find('|'));
        break;
      }
    if (!o.caught) o.by = reason(s, job);
    all.push_back(std::move(o));
  }
  return all;
}

}  // namespace trammel
