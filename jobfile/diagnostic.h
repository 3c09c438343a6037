// What is wrong in a file that a person wrote: a code, its place, the line and a caret.
//
// All faults of meaning of a run are collected; nothing is repaired and nothing is left out in silence.
// Words live in messages/en/files.toml.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/value.h"
#include "messages/message.h"

namespace trammel {

struct Diagnostic {
  Message message;
  Place place;                       // line and column from 1, in characters; 0 where the whole file is meant
  std::string line;                  // the source line
  int length = 1;                    // characters under the caret
  std::string nearest;               // nearest known word
  std::vector<std::string> choices;  // what is accepted here
  std::optional<Message> hint;       // what probably happened: "millimetres typed as inches"
  std::optional<Place> other;        // the first place, where something stands twice
};

// `file:line:column: text`, then the line and a caret under the fault, each ended by a newline.
std::string render(const Diagnostic& diagnostic);
std::string render(const std::vector<Diagnostic>& diagnostics);

}  // namespace trammel
