// The short parts of `trammel plan`: order and times, quote, re-torque list, the card for going on.
#pragma once

#include "assess/order_of_work.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "measure/text.h"

namespace trammel::cli {

void print_order(const Terminal& t, const Assessment& a, const OrderOfWork& order);
void print_quote(const Terminal& t, const Quote& quote);
void print_retorque(const Terminal& t, const Assessment& a);
void print_resume(const Terminal& t, const Assessment& a, const PrintStyle& style);
Json json_of(const Assessment& a, const OrderOfWork& order);
Json json_of(const Quote& quote);
Json json_of(const ResumeCard& card);

}  // namespace trammel::cli
