// What the job's own entries say was done: signed steps, torques, what was found and undos, as entries of the ledger,
// and what is odd about them.
//
// A torque counts as final within the window about what the kit asks, as a pass where it meets an earlier pass, and as
// part-tight below. Above the window the fastener is disputed until it is entered again. A later entry stands over an
// earlier one; an undo strikes what it names. Nothing is changed in silence: whatever is not as asked is a finding.
#pragma once

#include "assess/assessment.h"
#include "work/ledger.h"

namespace trammel {

struct Record {
  std::vector<work::Event> events;  // for work::fold
  std::vector<int> entry_of;        // of each, the job's entry that it comes from
  std::vector<Finding> findings;
  std::vector<RecordLine> lines;                              // one for each entry of work, in the order written
  std::map<std::string, std::vector<TorqueReached>> reached;  // by fastener id, by instance; the last that stands
};

// Whether such a finding of the record stays open until somebody has decided.
bool wants_decision(const std::string& code);

Record record_of(const Job& job, const work::Roster& roster);

}  // namespace trammel
