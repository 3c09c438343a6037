// A safety judgement: a code with its numbers. Its words live in messages/.
//
// A limit that is met is a finding too (outcome met), so that a verdict shows every limit it stood on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/value.h"
#include "messages/message.h"

namespace trammel {

enum class Outcome { met, note, condition, stop };

// A ratio to be shown in per cent.
inline Number share(double ratio) { return {Kind::share, ratio, std::nullopt}; }
inline Number share(double ratio, double u) { return {Kind::share, ratio, u}; }

// A value a finding stands on.
struct Input {
  std::string what;  // the key's path, "front.tyre.load_index", or a plain name
  std::optional<Number> number;
  Basis basis = Basis::assumed;
  Place place;
};

struct Finding {
  enum class Sense { at_most, at_least };
  Outcome outcome = Outcome::note;
  Message message;
  std::string subject;                                 // what it is about: "F3", "front axle", "step fit-arms left"
  std::string load_case;                               // the load it holds for, empty where it does not depend on one
  std::optional<Number> before, value, limit, margin;  // before the kits, after them; margin positive is good
  Sense sense = Sense::at_most;
  std::string source;             // citation of the limit or model, or "common practice, no source"
  Basis basis = Basis::computed;  // the weakest basis among the inputs
  std::vector<Input> inputs;
  std::optional<Message> cure;  // the cheapest change known to turn it
  Place place;
};

enum class Verdict { go, go_with_conditions, no_go };

}  // namespace trammel
