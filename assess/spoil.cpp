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

// Words of a kit that rules read: names, places, needs, proofs, guards, joints. What is opaque in them is left alone:
// where a part is kept, how a deed is done.
std::vector<Text*> words_of(Kit& kit) {
  std::vector<Text*> all;
  const auto list = [&](std::vector<Text>& texts) {
    for (Text& t : texts) all.push_back(&t);
  };
  const auto one = [&](std::optional<Text>& text) {
    if (text) all.push_back(&*text);
  };
  for (KitFastener& f : kit.fastener) {
    all.push_back(&f.id);
    all.push_back(&f.at);
    all.push_back(&f.stack);
    one(f.surface);
    one(f.method);
    one(f.retorque);
    one(f.shares);
    list(f.holds);
  }
  for (Part& x : kit.part) {
    all.push_back(&x.id);
    one(x.at);
    one(x.replaces);
  }
  for (Proof& x : kit.proof) {
    all.push_back(&x.id);
    for (auto* texts : {&x.voided_by_slackening, &x.voided_by_removing, &x.only_while, &x.guards}) list(*texts);
  }
  for (KitStep& x : kit.step) {
    all.push_back(&x.id);
    one(x.after);
    one(x.before);
    for (auto* texts : {&x.needs, &x.gives, &x.ends, &x.tighten, &x.slacken, &x.work, &x.removes, &x.fits, &x.undoes,
                        &x.proves, &x.loads})
      list(*texts);
  }
  return all;
}

// One letter dropped, doubled or changed.
bool misspell(Text& text, std::mt19937_64& random) {
  const std::size_t opaque = text.value.find(", ");
  std::vector<std::size_t> letters;
  for (std::size_t i = 0; i < std::min(text.value.size(), opaque); ++i)
    if (const char c = text.value[i]; (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) letters.push_back(i);
  if (letters.empty()) return false;
  const std::size_t at = letters[below(random, letters.size())];
  char& letter = text.value[at];
  switch (below(random, 3)) {
    case 0:
      text.value.erase(at, 1);
      break;
    case 1:
      text.value.insert(at, 1, letter);
      break;
    default:
      letter = letter == 'z' || letter == 'Z' ? static_cast<char>(letter - 1) : static_cast<char>(letter + 1);
  }
  return true;
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
  if (kind == "spoil-word") {
    const std::vector<Text*> words = words_of(kit);
    if (words.empty()) return false;
    Text& word = *words[below(random, words.size())];
    where = word.value;
    if (!misspell(word, random)) return false;
    where += " -> " + word.value;
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

// What a rehearsal says, notes left out: they ask for nothing.
std::set<std::string> keys(const RehearsedJob& r) {
  std::set<std::string> all;
  for (const RehearsedFinding& f : r.found)
    if (f.finding.outcome == Outcome::stop || f.finding.outcome == Outcome::condition)
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

const KitFastener* fastener_of(const Job& job, const std::string& id) {
  for (const KitUse& use : job.kits)
    for (const KitFastener& f : use.kit.fastener)
      if (f.id.value == id) return &f;
  return nullptr;
}

// A wrong torque that raised no flag, by what the joint makes of it.
const char* torque_reason(const Job& spoilt, const std::string& id) {
  const FastenerLine line = fastener_line(spoilt, id);
  if (!line.of_proof) return "spoil-not-computed";
  const double share = (*line.of_proof)[1];
  return share <= 1.0 && share >= 0.30 ? "spoil-in-band" : "spoil-not-by-proof";
}

// A wrong size across flats that raised none: whether a step's wrench is held against it, and what fits it there.
const char* size_reason(const Job& spoilt, const std::string& id) {
  const KitFastener& f = *fastener_of(spoilt, id);
  const work::Roster r = work::make_roster(job_procedure(spoilt).procedure);
  bool turned = false, sized = false;
  for (std::size_t s = 0; s < r.procedure.steps.size(); ++s) {
    const work::Step& step = r.procedure.steps[s];
    const bool turns = std::any_of(step.slacken.begin(), step.slacken.end(),
                                   [&](const work::Slacken& x) { return x.fastener.id == id; }) ||
                       std::any_of(step.tighten.begin(), step.tighten.end(), [&](const work::Tighten& x) {
                         return x.fastener.id == id && rung(x.to) >= rung(work::FastenerState::snug);
                       });
    turned |= turns;
    for (const work::Tool& t : r.tools[s].all)
      sized |= turns && t.size && abs(*t.size - f.across_flats->value) <= 0.15 * units::mm;
  }
  return !turned ? "spoil-not-turned" : sized ? "spoil-wrench-fits" : "spoil-no-size";
}

// What the rehearsal knows of a mistake that no finding speaks of, each reason worked out from the spoilt kit itself.
// It does not say that the mistake does no harm.
std::string reason(const Spoilt& spoilt, const Job& clean) {
  if (spoilt.kind == "spoil-torque") return torque_reason(spoilt.job, spoilt.where);
  if (spoilt.kind == "spoil-size") return size_reason(spoilt.job, spoilt.where);
  if (spoilt.kind == "spoil-tool") return "spoil-tool-unasked";
  const work::Procedure before = job_procedure(clean).procedure, now = job_procedure(spoilt.job).procedure;
  if (spoilt.kind == "spoil-word" && before == now) return "spoil-same-reading";
  if (spoilt.kind == "spoil-drop" || spoilt.kind == "spoil-double")
    for (const KitUse& use : clean.kits)
      for (const KitStep& s : use.kit.step)
        if (s.id.value == spoilt.where && only_words(s)) return "spoil-only-words";
  const work::Walk a = work::walk(before), b = work::walk(now);
  if (!same_end(a, b)) return "spoil-other-end";
  if (spoilt.kind == "spoil-word") return "spoil-nobody-asks";
  if (spoilt.kind == "spoil-swap" || spoilt.kind == "spoil-move")
    return share_nothing(a, b) ? "spoil-order-free" : "spoil-order-met";
  return "spoil-same-end";
}

}  // namespace

std::vector<Spoilt> spoil(const Job& job, std::size_t count, std::uint64_t seed) {
  static constexpr std::array<const char*, 9> kinds = {"spoil-drop", "spoil-swap", "spoil-double",
                                                       "spoil-move", "spoil-side", "spoil-torque",
                                                       "spoil-size", "spoil-tool", "spoil-word"};
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
