#include "work/known.h"

#include <algorithm>

#include "measure/nearest.h"

namespace trammel::work {
namespace {
constexpr std::array<std::string_view, 3> prop_tails = {" on jack", " on stand", " on stands"};
}

Meaning meaning_of(std::string_view c) {
  if (c == "chocked") return {Known::chocks, End::none, {}};
  if (c == "front chocked") return {Known::chocks, End::front, {}};
  if (c == "rear chocked") return {Known::chocks, End::rear, {}};
  if (c == "parking brake on") return {Known::parking_brake, End::none, {}};
  if (c == "brake released") return {Known::brake_released, End::none, {}};
  if (c == "pack isolated" || c == "engine isolated") return {Known::isolated, End::none, {}};
  for (std::size_t i = 0; i < isolation_words.size(); ++i)
    if (c == isolation_words[i])
      return {static_cast<Known>(static_cast<std::size_t>(Known::key_out) + i), End::none, {}};
  for (std::string_view tail : prop_tails)
    if (c.size() > tail.size() && c.ends_with(tail) && c != "front on jack" && c != "rear on jack")
      return {Known::prop, End::none, std::string(c.substr(0, c.size() - tail.size()))};
  return {};
}

bool guards_the_drive(std::string_view proof) {
  for (std::string_view w : {"camber", "toe", "alignment"})
    if (proof == w) return true;
  return proof.find("brake") != std::string_view::npos || proof.find("steering") != std::string_view::npos;
}

std::string nearly_known(std::string_view c) {
  if (meaning_of(c).known != Known::word || c == floor_level) return {};
  static constexpr std::array<std::string_view, 8> words = {"chocked",          "front chocked",  "rear chocked",
                                                            "parking brake on", "brake released", floor_level,
                                                            "pack isolated",    "engine isolated"};
  for (std::string_view known : words)
    if (one_slip_from(c, known)) return std::string(known);
  for (std::string_view known : isolation_words)
    if (one_slip_from(c, known)) return std::string(known);
  // A prop in more words: "axle on trolley jack".
  for (std::string_view noun : {" jack", " stand", " stands"})
    if (const std::size_t on = c.find(" on "); c.ends_with(noun) && on != std::string_view::npos && on > 0)
      if (const std::string_view part = c.substr(0, on); part != "front" && part != "rear")
        return std::string(part) + " on" + std::string(noun);
  // The two words at the end of a prop; a thing may lie on a rack.
  const std::size_t last = c.rfind(' '),
                    before = last == std::string_view::npos || last == 0 ? last : c.rfind(' ', last - 1);
  if (before == std::string_view::npos) return {};
  const std::string_view noun = c.substr(last + 1);
  if (noun == "rack" || noun == "back" || noun == "pack") return {};
  for (std::string_view tail : prop_tails)
    if (one_slip_from(c.substr(before + 1), tail.substr(1)))
      return std::string(c.substr(0, before)) + std::string(tail);
  return {};
}

std::optional<Proof> known_reading(std::string_view proof) {
  static constexpr std::array<std::string_view, 5> names = {"ride heights", "ride height", "camber", "toe",
                                                            "alignment"};
  if (std::find(names.begin(), names.end(), proof) == names.end()) return std::nullopt;
  Need level, standing;
  level.subject.id = floor_level;
  standing.kind = Need::Kind::support;
  standing.support = Support::on_wheels;
  Proof p;
  p.id = proof;
  p.voided_by_lifting = true;
  p.only_while = {level, standing};
  return p;
}

}  // namespace trammel::work
