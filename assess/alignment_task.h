// A job's adjusters, tolerances, tools and readings handed to the alignment room in that room's own types.
#pragma once

#include <optional>
#include <vector>

#include "assess/finding.h"
#include "assess/front_adjusters.h"
#include "assess/models.h"
#include "setup/next_step.h"

namespace trammel {

struct JobAlignment {
  setup::AlignmentTask task;
  std::vector<FittedAdjuster> adjusters;  // in the task's order
  std::vector<Angle> bolts;               // where each eccentric bolt stands by what was written down
  setup::Floor floor = setup::Floor::bare;
  bool beam = false, steered_by_link = false;  // a drag link that can be turned sets the steering wheel straight
  setup::Way way;                              // with this shop's own times
  std::vector<setup::Event> events;
  std::vector<int> stop_of;    // for each event, which stop of reading it is or follows, counted from 1
  std::vector<Message> notes;  // what was assumed for want of better
};

// The key of an adjustment: "left_upper_arm", "tie_rod".
std::string key_of(const FittedAdjuster& adjuster);
// What a turn may name on this job's front axle: "left_tie_rod"; nothing where the axle is not told.
std::optional<std::vector<std::string>> adjuster_keys(const Job& job);

// Nothing where the front axle is no mechanism whose adjusters could be known.
// `hub_lowered` is how far the kits put the front hub down against the body, for the ride heights.
std::optional<JobAlignment> job_alignment(const Job& job, const Cart& cart, const CartModel& model,
                                          Length hub_lowered = {});

}  // namespace trammel
