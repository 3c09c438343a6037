#include "work/deed.h"

#include <algorithm>
#include <span>

namespace trammel::work {
namespace {

using enum ToolKind;
constexpr std::array drills = {drill, drill_bit};
constexpr std::array cutters = {cutter, file, drill_bit};
constexpr std::array riveters = {rivet_tool, hammer};
constexpr std::array straps = {strap, rope};
constexpr std::array lifters = {jack, hoist};
constexpr std::array turners = {wrench, socket, ratchet, hex_key, screwdriver, torque_tool, pliers, hand};
constexpr std::array weights = {ballast};

std::span<const ToolKind> kinds_for(Verb verb) {
  switch (verb) {
    case Verb::drill:
      return drills;
    case Verb::cut:
      return cutters;
    case Verb::rivet:
      return riveters;
    case Verb::strap:
      return straps;
    case Verb::lower:
    case Verb::raise:
      return lifters;
    case Verb::adjust:
      return turners;
    case Verb::load:
      return weights;
    case Verb::grease:
    case Verb::bleed:
    case Verb::route:
    case Verb::label:
    case Verb::choose:
    case Verb::read:
      break;
  }
  return {};
}

}  // namespace

std::optional<Verb> read_verb(std::string_view word) {
  const auto it = std::find(verb_words.begin(), verb_words.end(), word);
  if (it == verb_words.end()) return std::nullopt;
  return static_cast<Verb>(it - verb_words.begin());
}

std::string condition_of(const Deed& deed) {
  static constexpr std::array<std::string_view, verb_words.size()> done = {
      "drilled", "cut",      "riveted", "greased", "bled",     "routed", "labelled",
      "chosen",  "strapped", "lowered", "raised",  "adjusted", "loaded", "read"};
  return deed.what + " " + std::string(done[static_cast<std::size_t>(deed.verb)]);
}

bool wants_tool(const Deed& deed) {
  return deed.verb == Verb::read ? quantity_in(deed.what).has_value() : !kinds_for(deed.verb).empty();
}

bool serves(ToolKind kind, const Deed& deed) {
  if (deed.verb == Verb::read) {
    const auto what = quantity_in(deed.what);
    return what && reads(kind, *what);
  }
  const auto kinds = kinds_for(deed.verb);
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

}  // namespace trammel::work
