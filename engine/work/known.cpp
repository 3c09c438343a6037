#include "work/known.h"

#include <algorithm>

namespace trammel::work {

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
  for (std::string_view tail : {" on jack", " on stand", " on stands"})
    if (c.size() > tail.size() && c.ends_with(tail) && c != "front on jack" && c != "rear on jack")
      return {Known::prop, End::none, std::string(c.substr(0, c.size() - tail.size()))};
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
