#include "assess/set_by.h"

namespace trammel {
namespace {

TextRules rules_of(char decimal_sign) {
  TextRules rules;
  rules.decimal_sign = decimal_sign;
  return rules;
}
std::optional<double> read(const std::string& text, Kind kind, const TextRules& rules) {
  const ReadResult result = read_quantity(text, kind, rules);
  const auto* written = std::get_if<Written>(&result);
  return written ? std::optional(written->number.si) : std::nullopt;
}

}  // namespace

std::optional<SetRange> set_range(const std::string& set_by, char decimal_sign) {
  const TextRules rules = rules_of(decimal_sign);
  const std::size_t to = set_by.find(" to ");
  if (to == std::string::npos) return std::nullopt;
  // The number before "to", with a unit of its own or with that of the number after it.
  const std::string upper = set_by.substr(to + 4), before = set_by.substr(0, to);
  const std::size_t unit_at = upper.find(' ');
  const std::string unit = unit_at == std::string::npos ? "" : upper.substr(unit_at);
  for (const Kind kind : {Kind::length, Kind::angle, Kind::torque, Kind::force}) {
    const auto high = read(upper, kind, rules);
    if (!high) continue;
    for (std::size_t at = 0; at < before.size(); ++at) {
      if (at > 0 && before[at - 1] != ' ') continue;
      auto low = read(before.substr(at), kind, rules);
      if (!low) low = read(before.substr(at) + unit, kind, rules);
      if (low && *low <= *high) return SetRange{kind, *low, *high};
    }
  }
  return std::nullopt;
}

SetRead read_set(const std::string& set_by, const std::string& entered, char decimal_sign) {
  const auto range = set_range(set_by, decimal_sign);
  if (!range) return entered.find_first_not_of(' ') == std::string::npos ? SetRead::unreadable : SetRead::in_range;
  const auto value = read(entered, range->kind, rules_of(decimal_sign));
  if (!value) return SetRead::unreadable;
  const double grain = 1e-9 * range->high_si;
  return *value < range->low_si - grain || *value > range->high_si + grain ? SetRead::outside : SetRead::in_range;
}

}  // namespace trammel
