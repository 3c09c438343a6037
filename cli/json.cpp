#include "cli/json.h"

#include <cstdio>

namespace trammel::cli {

const char* unit_of(Kind kind) {
  switch (kind) {
    case Kind::length:
      return "m";
    case Kind::area:
      return "m2";
    case Kind::angle:
      return "rad";
    case Kind::turns:
      return "turn";
    case Kind::mass:
      return "kg";
    case Kind::force:
      return "N";
    case Kind::torque:
      return "N.m";
    case Kind::speed:
      return "m/s";
    case Kind::pressure:
      return "Pa";
    case Kind::power:
      return "W";
    case Kind::temperature:
      return "K";
    case Kind::time:
      return "s";
    case Kind::stiffness:
      return "N/m";
    case Kind::ratio:
    case Kind::share:
      return "1";
    case Kind::money:
      return "money";
    case Kind::pitch:
      return "m/turn";
  }
  return "1";
}

Json json_of(const Number& n) {
  Json j = {{"value", n.si}, {"unit", unit_of(n.kind)}};
  if (n.u) j["u"] = *n.u;
  return j;
}
Json json_of(const std::optional<Number>& n) { return n ? json_of(*n) : Json(nullptr); }

Json json_of(const Message& m) { return {{"code", m.code}, {"text", word(m)}}; }

Json json_of(const Place& p) {
  if (p.file.empty()) return nullptr;
  return {{"file", p.file}, {"line", p.line}, {"column", p.column}};
}

Json json_of(const Finding& f) {
  Json j = {
      {"outcome", word_of(f.outcome)}, {"code", f.message.code}, {"text", word(f.message)}, {"subject", f.subject}};
  if (!f.load_case.empty()) j["load"] = f.load_case;
  if (f.before) j["before"] = json_of(*f.before);
  if (f.value) j["value"] = json_of(*f.value);
  if (f.limit) {
    j["limit"] = json_of(*f.limit);
    j["sense"] = f.sense == Finding::Sense::at_most ? "at most" : "at least";
    j["margin"] = json_of(f.margin);
  }
  j["source"] = f.source;
  j["basis"] = word_of(f.basis);
  Json inputs = Json::array();
  for (const Input& i : f.inputs) {
    Json one = {{"what", i.what}, {"basis", word_of(i.basis)}};
    if (i.number) one["number"] = json_of(*i.number);
    if (!i.place.file.empty()) one["place"] = json_of(i.place);
    inputs.push_back(std::move(one));
  }
  j["inputs"] = std::move(inputs);
  if (f.cure) j["cure"] = json_of(*f.cure);
  if (!f.place.file.empty()) j["place"] = json_of(f.place);
  return j;
}

void print_json(const Json& document) {
  const std::string text = document.dump(2) + "\n";
  std::fwrite(text.data(), 1, text.size(), stdout);
}

}  // namespace trammel::cli
