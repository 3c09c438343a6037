// A job's adjusters, tolerances, tools and readings handed to the alignment room in that room's own types.
#pragma once

#include <optional>
#include <vector>

#include "assess/finding.h"
#include "assess/front_adjusters.h"
#include "assess/models.h"
#include "setup/alignment.h"

namespace trammel {

struct JobAlignment {
  setup::AlignmentTask task;
  std::vector<FittedAdjuster> adjusters;  // in the task's order
  std::vector<Angle> bolts;               // where each eccentric bolt stands by what was written down
  setup::Floor floor = setup::Floor::bare;
  bool beam = false;
  std::vector<setup::Event> events;
  std::vector<int> stop_of;    // for each event, which stop of reading it is or follows, counted from 1
  std::vector<Message> notes;  // what was assumed for want of better
};

// The key of an adjustment: "left_upper_arm", "tie_rod".
std::string key_of(const FittedAdjuster& adjuster);

// Nothing where the front axle is no mechanism whose adjusters could be known.
std::optional<JobAlignment> job_alignment(const Job& job, const Cart& cart, const CartModel& model);

}  // namespace trammel
