// What was left out of an entry and written down afterwards, put where it belongs. What stands there is never replaced.
#pragma once

#include <vector>

#include "job/job.h"

namespace trammel {

struct AdditionFault {
  int number = 0;         // of the addition
  const char* code = "";  // of what is wrong with it
  std::string what;       // the key that does not go there, or the entry's number
};

struct CompletedEvents {
  std::vector<Event> events;  // as in Job::events, each with what standing additions give it
  std::vector<AdditionFault> faults;
};
CompletedEvents completed_events(const Job& job);

}  // namespace trammel
