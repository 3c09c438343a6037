// The rear axle's readings, turns and links handed to the alignment room in that room's own types.
//
// What a link's length does to the axle's steer and shift: central differences of its poses over 0.1 mm, the spread by
// moving each point by its uncertainty (5 mm where it has none). Only links with an adjuster.
#pragma once

#include "assess/front_adjusters.h"
#include "setup/rear_axle.h"

namespace trammel {

struct JobRear {
  setup::RearTask task;
  std::vector<FittedAdjuster> adjusters;  // in the task's order; `part` is the link's name
  std::vector<Angle> bolts;               // where each eccentric bolt stands
  std::vector<setup::RearEvent> events;
  bool leaf_springs = false;
  std::vector<Message> notes;
};

// Nothing where the job neither read the rear axle nor wants a thrust angle.
std::optional<JobRear> job_rear(const Job& job, const Cart& cart, const CartModel& model);

}  // namespace trammel
