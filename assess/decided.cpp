#include "assess/decided.h"

#include <algorithm>

#include "assess/joint_asked.h"
#include "assess/standing.h"
#include "measure/text.h"

namespace trammel {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
bool part_of_a_word(char c) {
  return digit(c) || c == '.' || c == ',' || c == '/' || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

}  // namespace

std::optional<Torque> torque_in_words(const std::string& text, char decimal_sign) {
  TextRules rules;
  rules.decimal_sign = decimal_sign;
  std::optional<Torque> found;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (!digit(text[at]) || (at > 0 && part_of_a_word(text[at - 1]))) continue;
    // "50-55 N·m" names no one torque.
    const bool dash = at > 1 && (text[at - 1] == '-' || text.compare(at - std::min<std::size_t>(at, 3), 3, "–") == 0);
    if (dash) return std::nullopt;
    // A number and the one or two words after it, without the sentence's own marks.
    std::optional<Torque> here;
    std::size_t end = at;
    for (int words = 0; words < 3 && end < text.size(); ++words) {
      end = std::min(text.find(' ', end + 1), text.size());
      std::string piece = text.substr(at, end - at);
      while (!piece.empty() && std::string_view(",.;:)!").find(piece.back()) != std::string_view::npos)
        piece.pop_back();
      const ReadResult read = read_quantity(piece, Kind::torque, rules);
      if (const auto* written = std::get_if<Written>(&read)) here = Torque::from_si(written->number.si);
    }
    if (here && found && *found != *here) return std::nullopt;
    if (here) found = here;
  }
  return found;
}

std::optional<Torque> torque_of(const Decision& decision, const Job& job) {
  if (decision.torque) return decision.torque->value;
  return torque_in_words(decision.decided.value, job.decimal_sign && job.decimal_sign->value == "," ? ',' : '.');
}

std::optional<Torque> torque_decided(const Job& job, const KitFastener& f) {
  const std::vector<const Decision*> decisions = decisions_about(job, f.id.value);
  if (decisions.empty()) return std::nullopt;
  const auto kits = ask_of(f).torque;
  const auto own = kits ? strain(f, f.stack.value, *kits) : std::nullopt;
  const bool in_dispute = own && std::any_of(own->stops.begin(), own->stops.end(), cured_by_torque);
  std::optional<Torque> torque;
  for (const Decision* d : decisions)
    if (d->torque || in_dispute)
      if (const auto t = torque_of(*d, job)) torque = t;
  return torque;
}

std::vector<const Decision*> decisions_about(const Job& job, const std::string& id) {
  std::vector<const Decision*> all;
  for (const Event* event : standing_events(job))
    if (const auto* d = std::get_if<Decision>(event); d && d->about.value == id) all.push_back(d);
  return all;
}

}  // namespace trammel
