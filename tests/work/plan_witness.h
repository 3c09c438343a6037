// The same two planning problems, stated to a general solver of finite domains (Gecode).
#pragma once

#include <optional>

#include "work/plan.h"

namespace trammel::work {

// Least seconds in which two technicians can do all tasks of whole minutes; nothing where not proven within the time.
std::optional<long long> least_seconds_for_two(const PlanAsked& asked, double time_limit_s);
// Least changes over all orders for one technician, ends weighing `end_weight`; every task must name its place.
std::optional<long long> least_weighted_changes(const PlanAsked& asked, int end_weight, double time_limit_s);

}  // namespace trammel::work
