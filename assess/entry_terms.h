// What an entry of the record must say of itself before it counts for a release.
//
//   who     a name                                      of every entry
//   when    a day of the calendar, perhaps with the time (job/when.h); not before the job's date, nor before what an
//           earlier entry says of the same step or fastener
//   wrench  one of the shop's, where it lists any; within its range; its calibration not overdue on that day
// Second looks are another person's: names are compared without case, dots and blanks.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "job/when.h"
#include "messages/message.h"

namespace trammel {

struct EntryFault {
  const char* code = "";
  std::vector<std::pair<std::string, Argument>> more;
  std::optional<Place> place;  // the entry's own where there is none
};

bool says(const std::optional<Text>& text);  // is there and not blank
bool same_person(const std::string& a, const std::string& b);
// "entry 12 lacks this: `trammel add JOB 12 --wrench ID`"; `what` is the code of the words for it.
EntryFault lacking(const char* what, const char* option);

class EntryTerms {
 public:
  explicit EntryTerms(const Job& job);

  // `things`: names of the step or fasteners that the entry is about. Entries are asked in the order written.
  std::vector<EntryFault> who_and_when(int number, const std::optional<Text>& who, const std::optional<Text>& when,
                                       const std::vector<std::string>& things);
  std::vector<EntryFault> wrench(const TorqueEntry& entry) const;

 private:
  struct Told {
    int number = 0;
    When when;
    std::string text;
  };
  const Job& job_;
  std::optional<When> begun_;
  std::map<std::string, Told> latest_;
};

}  // namespace trammel
