// Which entries of a job stand: an undo strikes what it names, be it a reading, a turn, a signature, a torque, a
// decision or another undo. What is struck stays in the file and counts for nothing.
#pragma once

#include <vector>

#include "job/job.h"

namespace trammel {

// By place in Job::events.
std::vector<unsigned char> struck_entries(const Job& job);
// Those that are not struck, in their order.
std::vector<const Event*> standing_events(const Job& job);

}  // namespace trammel
