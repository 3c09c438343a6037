// What must hold between the keys of a file, beyond the shape of each.
#pragma once

#include <set>
#include <string_view>

#include "job/job.h"
#include "job/overlay.h"
#include "job/survey.h"
#include "jobfile/values.h"

namespace trammel {

// A file says what it is: "trammel cart 1".
void check_format(const Node& root, std::string_view wanted, ReadContext& context);

// Layouts have what they need, points lie where they can.
void check_cart(const Node& root, const Cart& cart, ReadContext& context);

// The same for what changes have left: only points that stand in `file`, and gaps that a change has opened.
void check_changed_cart(const Cart& cart, const Change& last, ReadContext& context);

void check_kit(const Node& root, const Kit& kit, ReadContext& context);
void check_job(const Node& root, const Job& job, ReadContext& context);
void check_survey(const SurveyFile& survey, ReadContext& context);

// Reads `[[change]]` on a cart as the kits before left it; the cart is changed along.
std::vector<Change> read_changes(const Node& root, Cart& cart, ListNames names, ReadContext& context);

// Readings, adjustments, signed steps and torques in the order written.
std::vector<Event> read_events(const Node& root, ReadContext& context);

}  // namespace trammel
