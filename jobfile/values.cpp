#include "jobfile/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job/cart_shape.h"
#include "measure/nearest.h"

namespace trammel {

namespace {

std::string code_of(TextFault fault) {
  switch (fault) {
    case TextFault::empty:
      return "value-empty";
    case TextFault::not_a_number:
      return "number-unreadable";
    case TextFault::unit_missing:
      return "unit-missing";
    case TextFault::unit_unknown:
      return "unit-unknown";
    case TextFault::wrong_kind:
      return "unit-of-another-kind";
    case TextFault::ambiguous:
      return "two-meanings";
    case TextFault::decimal_sign:
      return "decimal-sign";
    case TextFault::zero_denominator:
      return "zero-denominator";
    case TextFault::out_of_range:
      return "number-out-of-range";
    case TextFault::trailing_text:
      return "trailing-text";
    case TextFault::negative_uncertainty:
      return "negative-uncertainty";
    case TextFault::flats_per_turn_unknown:
      return "unit-unknown";
    case TextFault::band_missing:
      return "band-missing";
  }
  return "number-unreadable";
}

bool within(double x, const Plausible& plausible) { return x >= plausible.low && x <= plausible.high; }

// "300 in" for each unit in which a number would be plausible; at most three.
std::vector<std::string> fitting(double count, Kind kind, const Plausible& plausible, const std::string& except) {
  std::vector<std::string> out;
  for (const std::string& unit : accepted_units(kind)) {
    const bool unlikely = unit == "arcsec" || unit == "rad" || unit == "mrad" || unit == "km" || unit == "mi";
    if (unit == except || unlikely || out.size() == 3) continue;
    const std::string text = fmt::format("{:.10g} {}", count, unit);
    const ReadResult read = read_quantity(text, kind);
    const auto* written = std::get_if<Written>(&read);
    if (written && within(written->number.si, plausible)) out.push_back(text);
  }
  return out;
}

bool is_inch_pound(std::string_view unit) {
  for (const char* part : {"in", "ft", "lb", "psi", "mph", "mi"})
    if (unit.find(part) != std::string_view::npos && unit != "min" && unit != "arcmin") return true;
  return false;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  std::string out;
  for (const auto& w : words) out.append(out.empty() ? "" : between).append(w);
  return out;
}

bool wants_text(const Node& node, const Key& key, ReadContext& context) {
  if (node.kind == Node::Kind::text) return true;
  context.report.at(node, "wrong-shape",
                    {{"key", std::string(key.name)}, {"wanted", "text"}, {"found", std::string(kind_name(node))}});
  return false;
}

// A bare number where a quantity is wanted: shows how to write it.
void report_bare_number(const Node& node, const Key& key, Kind kind, ReadContext& context) {
  const auto units = accepted_units(kind);
  std::vector<std::string> fits;
  if (key.plausible) fits = fitting(node.decimal, kind, *key.plausible, {});
  const std::string example =
      !fits.empty() ? fits.front() : fmt::format("{:.10g} {}", node.decimal, units.empty() ? "" : units.front());
  context.report.at(node, "number-without-unit", {{"key", std::string(key.name)}, {"example", example}}).choices =
      units;
}

std::string_view trimmed(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

}  // namespace

std::optional<Place> place_in_text(const Node& node, std::size_t offset, const Report& report) {
  std::string_view line = report.line(node.place);
  for (int column = 1; column < node.place.column && !line.empty(); ++column) {
    line.remove_prefix(1);
    while (!line.empty() && (line.front() & 0xC0) == 0x80) line.remove_prefix(1);
  }
  const bool quoted = !line.empty() && (line.front() == '"' || line.front() == '\'');
  if (!quoted || !line.substr(1).starts_with(node.text)) return std::nullopt;
  return moved(node.place, 1 + characters(std::string_view(node.text).substr(0, offset)));
}

Given unwrap(const Node& node, const std::string& key, ReadContext& context) {
  Given given{&node, context.basis, false};
  if (node.kind != Node::Kind::table) return given;
  static constexpr std::string_view known[] = {"value", "basis", "sure"};
  given.node = node.find("value");
  for (const Member& member : node.members) {
    if (member.key == "value") continue;
    if (member.key == "basis") {
      const Key basis{"basis", "", {}, {}, words::bases};
      if (const auto text = read_text(member.value, basis, context)) {
        const auto at = std::find(words::bases.begin(), words::bases.end(), text->value);
        given.basis = static_cast<Basis>(at - words::bases.begin());
      }
    } else if (member.key == "sure") {
      if (const auto flag = read_flag(member.value, Key{"sure", ""}, context)) given.sure = flag->value;
    } else {
      auto& fault = context.report.at(member, "unknown-key", {{"key", member.key}, {"table", "`" + key + "`"}});
      fault.nearest = nearest(member.key, known);
      if (fault.nearest.empty()) fault.choices.assign(std::begin(known), std::end(known));
    }
  }
  if (!given.node)
    context.report.at(node, "missing-key",
                      {{"key", "value"}, {"table", "`" + key + "`"}, {"what", "the value itself"}});
  return given;
}

void report_text_error(const Node& node, const std::string& key, Kind kind, const TextError& error, std::size_t shift,
                       ReadContext& context) {
  const std::size_t start = std::min(error.at + shift, node.text.size());
  const std::string part = node.text.substr(start, error.length);
  const auto place = place_in_text(node, start, context.report);
  const int length = place && error.length > 0 ? characters(part) : place ? 1 : node.length;
  Arguments arguments = {{"key", key},
                         {"text", node.text},
                         {"part", part.empty() ? node.text : part},
                         {"sign", std::string(1, context.rules.decimal_sign)}};
  auto& fault = context.report.add(code_of(error.fault), std::move(arguments), place.value_or(node.place), length);
  fault.nearest = error.nearest;
  fault.choices = error.choices;
  const bool about_units = error.fault == TextFault::unit_missing || error.fault == TextFault::unit_unknown ||
                           error.fault == TextFault::wrong_kind;
  if (fault.choices.empty() && about_units) fault.choices = accepted_units(kind);
}

void doubt_size(const Node& node, const std::string& key, const Number& number, const std::string& unit,
                const Plausible& plausible, ReadContext& context) {
  if (within(number.si, plausible)) return;
  // Bounds in the system of units that was written.
  PrintStyle style;
  style.systems = is_inch_pound(unit) ? Systems::inch : Systems::metric;
  const auto bound = [&](double si) { return print(Number{number.kind, si, {}}, style); };
  const std::string text = node.kind == Node::Kind::text ? node.text : print(number, style);
  auto& fault =
      context.report.at(node, "size-doubted",
                        {{"key", key}, {"text", text}, {"low", bound(plausible.low)}, {"high", bound(plausible.high)}});
  const ReadResult one = read_quantity("1 " + unit, number.kind);
  const auto* scale = std::get_if<Written>(&one);
  const auto fits = scale && scale->number.si != 0 ? fitting(number.si / scale->number.si, number.kind, plausible, unit)
                                                   : std::vector<std::string>{};
  if (!fits.empty())
    fault.hint = Message{"slip-unit", {{"fits", joined(fits, " or ")}}};
  else if (within(number.si / 10, plausible) || within(number.si * 10, plausible))
    fault.hint = Message{"slip-decimal", {}};
  else if (within(-number.si, plausible))
    fault.hint = Message{"slip-sign", {}};
}

std::optional<NumberGiven> read_number(const Node& node, const Key& key, Kind kind, ReadContext& context) {
  const std::string name(key.name);
  const Given given = unwrap(node, name, context);
  if (!given.node) return std::nullopt;
  const Node& value = *given.node;
  Number number{kind, 0, {}};
  std::string unit;
  if (value.kind == Node::Kind::integer || value.kind == Node::Kind::decimal) {
    if (kind != Kind::ratio) {
      report_bare_number(value, key, kind, context);
      return std::nullopt;
    }
    if (!std::isfinite(value.decimal)) {
      context.report.at(value, "number-out-of-range", {{"key", name}, {"part", "it"}});
      return std::nullopt;
    }
    number.si = value.decimal;
  } else {
    if (!wants_text(value, key, context)) return std::nullopt;
    ReadResult read = read_quantity(value.text, kind, context.rules);
    // A length for one turn may also be written as a length.
    if (kind == Kind::pitch && std::holds_alternative<TextError>(read) && value.text.find('/') == std::string::npos) {
      ReadResult length = read_quantity(value.text, Kind::length, context.rules);
      if (std::holds_alternative<Written>(length)) read = std::move(length);
    }
    if (const auto* error = std::get_if<TextError>(&read)) {
      report_text_error(value, name, kind, *error, 0, context);
      return std::nullopt;
    }
    const Written& written = std::get<Written>(read);
    number = written.number;
    unit = written.unit;
  }
  if (key.plausible && !given.sure) doubt_size(value, name, number, unit, *key.plausible, context);
  return NumberGiven{number, given.basis};
}

std::optional<PointValue> read_point_value(const Node& node, const Key& key, ReadContext& context) {
  const std::string name(key.name);
  const Given given = unwrap(node, name, context);
  if (!given.node) return std::nullopt;
  const Node& value = *given.node;
  if (value.kind != Node::Kind::text) {
    context.report.at(value, "point-wanted", {{"key", name}, {"found", std::string(kind_name(value))}});
    return std::nullopt;
  }
  const auto read = read_point(value.text, context.rules);
  if (const auto* error = std::get_if<TextError>(&read)) {
    report_text_error(value, name, Kind::length, *error, 0, context);
    return std::nullopt;
  }
  const auto& point = std::get<WrittenPoint>(read);
  PointValue out;
  out.value = {Length::from_si(point.x_si), Length::from_si(point.y_si), Length::from_si(point.z_si)};
  if (point.u_si) out.u = Length::from_si(*point.u_si);
  out.basis = given.basis;
  out.place = value.place;
  return out;
}

std::optional<Band> read_band_value(const Node& node, const Key& key, Kind kind, ReadContext& context) {
  if (node.kind == Node::Kind::integer || node.kind == Node::Kind::decimal) {
    report_bare_number(node, key, kind, context);
    return std::nullopt;
  }
  if (!wants_text(node, key, context)) return std::nullopt;
  const auto read = read_band(node.text, kind, context.rules);
  if (const auto* error = std::get_if<TextError>(&read)) {
    // Both ends can be read, yet not as a range.
    if (error->fault == TextFault::out_of_range && error->length == node.text.size()) {
      context.report.at(node, "band-reversed", {{"key", std::string(key.name)}});
      return std::nullopt;
    }
    report_text_error(node, std::string(key.name), kind, *error, 0, context);
    return std::nullopt;
  }
  return std::get<Band>(read);
}

std::optional<Text> read_text(const Node& node, const Key& key, ReadContext& context) {
  if (node.kind != Node::Kind::date && !wants_text(node, key, context)) return std::nullopt;
  const std::string name(key.name);
  if (!key.words.empty()) {
    if (std::find(key.words.begin(), key.words.end(), node.text) == key.words.end()) {
      auto& fault = context.report.at(node, "unknown-word", {{"key", name}, {"word", node.text}});
      fault.nearest = nearest(node.text, key.words);
      fault.choices.assign(key.words.begin(), key.words.end());
      return std::nullopt;
    }
  } else if (trimmed(node.text).empty()) {
    context.report.at(node, "value-empty", {{"key", name}});
    return std::nullopt;
  }
  return Text{node.text, node.place};
}

std::optional<Count> read_count(const Node& node, const Key& key, ReadContext& context) {
  const std::string name(key.name);
  if (node.kind != Node::Kind::integer) {
    context.report.at(
        node, "wrong-shape",
        {{"key", name}, {"wanted", "a whole number without quotes"}, {"found", std::string(kind_name(node))}});
    return std::nullopt;
  }
  const Plausible bounds = key.plausible.value_or(Plausible{0, 1e6});
  if (!within(node.decimal, bounds)) {
    context.report.at(node, "count-doubted",
                      {{"key", name},
                       {"value", std::to_string(node.integer)},
                       {"low", fmt::format("{:.0f}", bounds.low)},
                       {"high", fmt::format("{:.0f}", bounds.high)}});
    return std::nullopt;
  }
  return Count{static_cast<int>(node.integer), node.place};
}

std::optional<Flag> read_flag(const Node& node, const Key& key, ReadContext& context) {
  if (node.kind == Node::Kind::flag) return Flag{node.flag, node.place};
  context.report.at(node, "wrong-shape",
                    {{"key", std::string(key.name)},
                     {"wanted", "true or false without quotes"},
                     {"found", std::string(kind_name(node))}});
  return std::nullopt;
}

std::optional<AdjusterMove> read_move(const Node& node, const Key& key, ReadContext& context) {
  const std::string name(key.name);
  if (node.kind == Node::Kind::integer || node.kind == Node::Kind::decimal) {
    context.report
        .at(node, "number-without-unit", {{"key", name}, {"example", fmt::format("{:+.10g} flats", node.decimal)}})
        .choices = accepted_units(Kind::turns);
    return std::nullopt;
  }
  if (!wants_text(node, key, context)) return std::nullopt;
  // With one flat to the turn, an amount in flats comes back as it was written.
  TextRules rules = context.rules;
  rules.flats_per_turn = 1;
  ReadResult read = read_quantity(node.text, Kind::turns, rules);
  // Shims, slots and holes are told by length, an eccentric bolt by its angle.
  AdjusterMove::Unit unit = AdjusterMove::Unit::turns;
  for (const auto& [kind, as] :
       {std::pair{Kind::length, AdjusterMove::Unit::length}, std::pair{Kind::angle, AdjusterMove::Unit::angle}}) {
    if (std::holds_alternative<Written>(read)) break;
    ReadResult other = read_quantity(node.text, kind, rules);
    if (!std::holds_alternative<Written>(other)) continue;
    read = std::move(other);
    unit = as;
  }
  if (const auto* error = std::get_if<TextError>(&read)) {
    report_text_error(node, name, Kind::turns, *error, 0, context);
    return std::nullopt;
  }
  const Written& written = std::get<Written>(read);
  AdjusterMove move{written.number.si, unit, node.place};
  if (unit == AdjusterMove::Unit::turns && written.unit.starts_with("flat")) move.unit = AdjusterMove::Unit::flats;
  static constexpr double bounds[] = {20, 120, 0.08, 3.2};
  const double most = bounds[static_cast<int>(move.unit)];
  if (std::abs(move.amount) > most) {
    context.report.at(node, "turn-doubted", {{"key", name}, {"text", node.text}});
    return std::nullopt;
  }
  return move;
}

std::optional<SquareGap> read_gap(const Node& node, const Key& key, ReadContext& context) {
  const std::string name(key.name);
  if (node.kind != Node::Kind::text) {
    context.report.at(node, "gap-wanted", {{"key", name}});
    return std::nullopt;
  }
  const std::string_view text = node.text;
  const std::size_t over = text.rfind(" over ");
  const std::size_t at = text.substr(0, over).rfind(" at ");
  if (over == text.npos || at == text.npos) {
    context.report.at(node, "gap-wanted", {{"key", name}});
    return std::nullopt;
  }
  const std::string end(trimmed(text.substr(at + 4, over - at - 4)));
  if (end != "top" && end != "bottom") {
    static constexpr std::string_view ends[] = {"top", "bottom"};
    auto& fault = context.report.at(node, "unknown-word", {{"key", name}, {"word", end}});
    fault.nearest = nearest(end, ends);
    fault.choices = {"top", "bottom"};
    return std::nullopt;
  }
  const ReadResult gap = read_quantity(text.substr(0, at), Kind::length, context.rules);
  const ReadResult base = read_quantity(text.substr(over + 6), Kind::length, context.rules);
  if (const auto* error = std::get_if<TextError>(&gap)) report_text_error(node, name, Kind::length, *error, 0, context);
  if (const auto* error = std::get_if<TextError>(&base))
    report_text_error(node, name, Kind::length, *error, over + 6, context);
  if (gap.index() != 0 || base.index() != 0) return std::nullopt;
  const Written &read_gap = std::get<Written>(gap), &read_base = std::get<Written>(base);
  doubt_size(node, name, read_gap.number, read_gap.unit, Plausible{0.0, 0.08}, context);
  doubt_size(node, name, read_base.number, read_base.unit, Plausible{0.1, 0.7}, context);
  SquareGap out;
  out.gap = Length::from_si(read_gap.number.si);
  out.over = Length::from_si(read_base.number.si);
  out.at = end == "top" ? SquareGap::At::top : SquareGap::At::bottom;
  if (read_gap.number.u) out.u = Length::from_si(*read_gap.number.u);
  out.place = node.place;
  return out;
}

}  // namespace trammel
