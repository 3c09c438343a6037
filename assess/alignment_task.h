// A job's adjusters, tolerances, tools and readings handed to the alignment room in that room's own types.
#pragma once

#include <optional>
#include <vector>

#include "assess/finding.h"
#include "assess/models.h"
#include "setup/alignment.h"

namespace trammel {

struct JobAlignment {
  setup::AlignmentTask task;
  std::vector<setup::Event> events;
  std::vector<Message> notes;  // what was assumed for want of better
};

// Nothing where the front axle is no mechanism whose adjusters could be known.
std::optional<JobAlignment> job_alignment(const Job& job, const Cart& cart, const CartModel& model);

}  // namespace trammel
