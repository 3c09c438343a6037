// What the commands print as JSON: one document, SI values at full precision with their kind.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "assess/assessment.h"
#include "messages/catalogue.h"

namespace trammel::cli {

using Json = nlohmann::ordered_json;

inline const char* word_of(Outcome o) {
  return o == Outcome::stop ? "stop" : o == Outcome::condition ? "condition" : o == Outcome::note ? "note" : "met";
}
inline const char* word_of(Verdict v) {
  return v == Verdict::go ? "go" : v == Verdict::go_with_conditions ? "go with conditions" : "no-go";
}
inline const char* word_of(Basis b) {
  return b == Basis::measured ? "measured" : b == Basis::kit ? "kit" : b == Basis::assumed ? "assumed" : "computed";
}
// The SI unit a kind's `value` is in.
const char* unit_of(Kind kind);

Json json_of(const Number& n);
Json json_of(const std::optional<Number>& n);
Json json_of(const Message& m);
Json json_of(const Place& p);
Json json_of(const Finding& f);

void print_json(const Json& document);

}  // namespace trammel::cli
