#include "jobfile/write.h"

#include <fmt/format.h>

#include <cmath>

#include "job/member.h"
#include "measure/text.h"

namespace trammel {

namespace {

std::optional<double> read_back(const std::string& text, Kind kind, char decimal_sign) {
  TextRules rules;
  rules.decimal_sign = decimal_sign;
  rules.flats_per_turn = 1;
  const ReadResult read = read_quantity(text, kind, rules);
  const auto* written = std::get_if<Written>(&read);
  return written ? std::optional(written->number.si) : std::nullopt;
}

std::string with_sign(std::string number, char decimal_sign) {
  for (char& c : number)
    if (c == '.') c = decimal_sign;
  return number;
}

// The shortest decimal number of a unit that reads back exactly.
std::optional<std::string> exact_decimal(double si, Kind kind, const std::string& unit, char decimal_sign) {
  const auto scale = read_back("1 " + unit, kind, decimal_sign);
  if (!scale || *scale == 0) return std::nullopt;
  si += 0.0;  // a zero has no sign
  const auto exact = [&](double count, int digits) -> std::optional<std::string> {
    const std::string number = fmt::format("{:.{}g}", count, digits);
    if (number.find('e') != std::string::npos) return std::nullopt;
    std::string text = with_sign(number, decimal_sign) + " " + unit;
    if (read_back(text, kind, decimal_sign) == si) return text;
    return std::nullopt;
  };
  const double count = si / *scale;
  for (int digits = 1; digits <= 17; ++digits)
    if (auto text = exact(count, digits)) return text;
  return std::nullopt;
}

// A number with all its bits, as the fraction that it is in binary: for values no person wrote.
std::optional<std::string> exact_binary(double si, Kind kind, const std::string& unit, char decimal_sign) {
  int exponent = 0;
  auto whole = static_cast<long long>(std::ldexp(std::frexp(std::abs(si), &exponent), 53));
  int halvings = 53 - exponent;
  while (whole != 0 && whole % 2 == 0) {
    whole /= 2;
    --halvings;
  }
  if (halvings < 1 || halvings > 59) return std::nullopt;
  const std::string text = fmt::format("{}{}/{} {}", si < 0 ? "-" : "", whole, 1LL << halvings, unit);
  if (read_back(text, kind, decimal_sign) == si) return text;
  return std::nullopt;
}

// "33 9/16 in" where the length is that fraction exactly, to a 64th.
std::optional<std::string> exact_fraction(double si, char decimal_sign) {
  const double parts = std::round(si / 0.0254 * 64);
  if (parts < 1 || parts > 1e6) return std::nullopt;
  long long num = static_cast<long long>(parts), den = 64;
  while (num % 2 == 0 && den > 1) {
    num /= 2;
    den /= 2;
  }
  const long long whole = num / den, rest = num % den;
  std::string text = whole > 0 || rest == 0 ? std::to_string(whole) : "";
  if (rest > 0) text += fmt::format("{}{}/{}", text.empty() ? "" : " ", rest, den);
  text += " in";
  if (read_back(text, Kind::length, decimal_sign) == si) return text;
  return std::nullopt;
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\')
      out.append("\\").append(1, c);
    else if (c == '\n')
      out += "\\n";
    else if (c == '\t')
      out += "\\t";
    else if (byte < 0x20 || byte == 0x7F)
      out += fmt::format("\\u{:04X}", byte);
    else
      out += c;
  }
  return out + "\"";
}

// Writes the lines of one entry, key by key as a person would.
class EntryWriter {
 public:
  EntryWriter(char decimal_sign, std::string_view end_of_line) : sign_(decimal_sign), end_(end_of_line) {}

  template <class M>
  void field(const Key& key, const M& member) {
    if constexpr (is_optional<M>) {
      if (member) field(key, *member);
    } else if (const auto text = written(key, member)) {
      out_.append(key.name).append(" = ").append(*text).append(end_);
    } else {
      whole_ = false;
    }
  }
  void field(const Key& key, const std::vector<Text>& texts) {
    std::string list;
    for (const Text& text : texts) list += (list.empty() ? "" : ", ") + quoted(text.value);
    if (!texts.empty()) out_.append(key.name).append(" = [").append(list).append("]").append(end_);
  }
  std::optional<std::string> take() { return whole_ ? std::optional(std::move(out_)) : std::nullopt; }

 private:
  std::optional<std::string> written(const Key&, const Flag& flag) const { return flag.value ? "true" : "false"; }
  std::optional<std::string> with_u(double si, std::optional<double> u, Kind kind) const {
    auto text = exact_text(si, kind, sign_);
    const auto more = u ? exact_text(*u, kind, sign_) : std::nullopt;
    if (!text || (u && !more)) return std::nullopt;
    return u ? *text + " ± " + *more : *text;
  }

  template <class Q>
  std::optional<std::string> written(const Key& key, const Valued<Q>& v) const {
    const auto u = v.u ? std::optional(si_of(*v.u)) : std::nullopt;
    const auto text = with_u(si_of(v.value), u, kind_of<Valued<Q>>(key));
    if (!text || v.basis == Basis::measured) return text ? std::optional(quoted(*text)) : std::nullopt;
    const std::string_view basis = words::bases[static_cast<std::size_t>(v.basis)];
    return fmt::format("{{ value = {}, basis = \"{}\" }}", quoted(*text), basis);
  }
  std::optional<std::string> written(const Key&, const Text& text) const { return quoted(text.value); }
  std::optional<std::string> written(const Key&, const Count& count) const { return std::to_string(count.value); }
  std::optional<std::string> written(const Key&, const AdjusterMove& move) const {
    if (move.unit == AdjusterMove::Unit::length || move.unit == AdjusterMove::Unit::angle) {
      const auto text =
          exact_text(move.amount, move.unit == AdjusterMove::Unit::length ? Kind::length : Kind::angle, sign_);
      return text ? std::optional(quoted((move.amount > 0 ? "+" : "") + *text)) : std::nullopt;
    }
    const char* unit = move.unit == AdjusterMove::Unit::flats ? "flats" : "turn";
    auto text = exact_decimal(move.amount, Kind::turns, unit, sign_);
    if (!text) text = exact_binary(move.amount, Kind::turns, unit, sign_);
    if (!text) return std::nullopt;
    return quoted((move.amount > 0 ? "+" : "") + *text);
  }
  std::optional<std::string> written(const Key&, const SquareGap& gap) const {
    const auto u = gap.u ? std::optional(gap.u->si()) : std::nullopt;
    const auto text = with_u(gap.gap.si(), u, Kind::length), over = exact_text(gap.over.si(), Kind::length, sign_);
    if (!text || !over) return std::nullopt;
    const char* end = gap.at == SquareGap::At::top ? "top" : "bottom";
    return quoted(fmt::format("{} at {} over {}", *text, end, *over));
  }

  char sign_;
  std::string_view end_;
  std::string out_;
  bool whole_ = true;
};

}  // namespace

std::optional<std::string> exact_text(double si, Kind kind, char decimal_sign) {
  if (!std::isfinite(si)) return std::nullopt;
  std::optional<std::string> best;
  const auto offer = [&](std::optional<std::string> text) {
    if (text && (!best || text->size() < best->size())) best = std::move(text);
  };
  for (const std::string& unit : accepted_units(kind)) {
    offer(exact_decimal(si, kind, unit, decimal_sign));
    if (best && best->size() <= 12) return best;  // short enough for a person
  }
  if (kind == Kind::length) offer(exact_fraction(si, decimal_sign));
  for (const std::string& unit : accepted_units(kind))
    if (!best) offer(exact_binary(si, kind, unit, decimal_sign));
  return best;
}

std::string_view list_of(const Event& event) {
  static constexpr std::string_view names[] = {"reading", "adjustment", "rear_reading", "rear_adjustment",
                                               "signed",  "torque",     "decision",     "found",
                                               "undo",    "addition"};
  return names[event.index()];
}

std::optional<std::string> entry_text(const Event& event, char decimal_sign, std::string_view end_of_line) {
  EntryWriter writer(decimal_sign, end_of_line);
  std::visit([&](const auto& e) { walk_fields(writer, e); }, event);
  const auto lines = writer.take();
  if (!lines) return std::nullopt;
  return fmt::format("[[{}]]{}{}", list_of(event), end_of_line, *lines);
}

}  // namespace trammel
