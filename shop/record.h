// Adds an entry to a job's record: a step signed, a torque reached, a fastener found otherwise, an entry undone. The
// file is only ever added to.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "assess/assessment.h"
#include "jobfile/diagnostic.h"

namespace trammel {

struct EntryAsked {
  std::string path;
  std::string who, when;  // when empty: now, by the shop's clock
  std::string why, evidence, wrench;
  std::string second;              // sign: who took the second look
  std::string instead;             // sign: what one who works alone did in its place
  std::string turned;              // torque: how far it moved at a later check, "20 deg"
  std::string by;                  // found: what stands in
  bool fresh = false;              // torque: with a new nut or bolt
  std::string torque, answers;     // decide: what is asked from then on; the code that it answers
  std::string done_by, done_when;  // add: who did it and when, of an entry that does not say
};

struct EntryMade {
  std::vector<Diagnostic> diagnostics;
  std::optional<Message> fault;      // nothing was written
  std::vector<std::string> entries;  // as they stand in the file now
  int first_number = 0, last_number = 0;
  std::vector<Finding> findings;  // what the record says of these entries
  std::unique_ptr<Assessment> after;
  bool ok() const { return !fault && after; }
};

EntryMade sign_step(const EntryAsked& asked, const std::string& step, const std::string& side);
// A torque, or what was measured where the kit sets it by that. Exceptions of a group: "left front 2=70 N·m".
EntryMade enter_torque(const EntryAsked& asked, const std::string& fastener, const std::string& reached,
                       const std::vector<std::string>& exceptions);
// "R3 left", "seized".
EntryMade enter_found(const EntryAsked& asked, const std::string& fastener, const std::string& state);
// "left_camber_gap=3.5 mm at top over 280 mm" and so on, by the keys of `[[reading]]`; "left_upper_arm=+4 flats", by
// those of `[[adjustment]]`.
EntryMade enter_reading(const EntryAsked& asked, const std::vector<std::string>& values);
EntryMade enter_turns(const EntryAsked& asked, const std::vector<std::string>& moves);
// What was decided about a fastener, or about "alignment", by whom.
EntryMade enter_decision(const EntryAsked& asked, const std::string& about, const std::string& decided);
EntryMade undo_entry(const EntryAsked& asked, const std::string& number);
// What an earlier entry lacks: a wrench, evidence, a second look …
EntryMade add_to_entry(const EntryAsked& asked, const std::string& number);

}  // namespace trammel
