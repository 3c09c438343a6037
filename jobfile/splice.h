// Adds an entry at the end of a job file's text. Every byte that stood there stays as it was.
//
// Law 1: the new text starts with the old one.
// Law 2: read back, the events are those of the old text and then the new one, equal to the last bit.
// A value that no text can give to the last bit is refused; whatever a person wrote can be given.
// A text that cannot be read, or whose list is written inline so that nothing can follow it, is refused.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "job/job.h"
#include "jobfile/diagnostic.h"

namespace trammel {

struct Spliced {
  std::string text;  // the old text where there is a diagnostic
  std::vector<Diagnostic> diagnostics;
};

Spliced append_event(const std::string& text, const Event& event, const std::string& file = "job.toml");
// One entry as typed, "left_upper_arm" and "+4 flats" for each key; `list` as list_of() names it.
struct TypedEntry {
  std::optional<Event> event;
  std::vector<Diagnostic> diagnostics;
};
TypedEntry read_entry(const std::string& list, const std::vector<std::pair<std::string, std::string>>& keys,
                      const std::optional<Text>& decimal_sign);

Spliced append_reading(const std::string& text, const Reading& reading);
Spliced append_adjustment(const std::string& text, const Adjustment& adjustment);
Spliced append_signed(const std::string& text, const Signed& step);
Spliced append_torque(const std::string& text, const TorqueEntry& torque);
Spliced append_decision(const std::string& text, const Decision& decision);

}  // namespace trammel
