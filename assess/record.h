// What the job's own entries say was done: signed steps, torques, what was found and decided, as entries of the ledger,
// and what is odd about them.
//
// What is asked of a fastener and which reading counts: work/asked.h. A torque counts where it is what is asked then,
// by a wrench and a person that are named (entry_terms.h); below it is part-tight, above it is disputed until it is
// decided and entered anew. Each signature that makes a fastener final wants a torque of its own, made since the
// fastener was last loosened, before the signature or after it. What is set by a measure wants that instead. What
// stands in for a fastener is judged as a joint: what it does not take is no longer asked. A decision with a torque
// replaces what is asked from there on. Struck entries count for nothing; nothing is changed in silence: whatever is
// not as asked is a finding, which a later entry may put right.
#pragma once

#include <map>
#include <set>

#include "assess/assessment.h"
#include "work/ledger.h"

namespace trammel {

struct Record {
  std::vector<work::Event> events;  // for work::fold, of the entries that stand
  std::vector<int> entry_of;        // of each, the job's entry that it comes from
  work::Ledger ledger;              // after all of them
  std::vector<Finding> findings;
  std::vector<RecordLine> lines;                              // one for each entry of work, in the order written
  std::map<std::string, std::vector<TorqueReached>> reached;  // by fastener id, by instance; the last that stands
  std::map<std::pair<std::string, std::string>, BookedStep> booked;  // by step and side; a step done once has no side
};

// Whether such a finding of the record stays open until somebody has decided.
bool wants_decision(const std::string& code);

// `disputed`: fasteners whose torque the fastener room stops.
Record record_of(const Job& job, const work::Roster& roster, const std::set<std::string>& disputed);

}  // namespace trammel
