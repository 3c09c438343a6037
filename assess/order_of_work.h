// The order of the steps that are still to do, for one or two technicians, with hours and a quote.
//
// Rules and method: work/conflict.h and work/plan.h. Alone on the cart: a step that lifts, lowers or moves it, and one
// that drills or cuts, or with a caution of crush, stored energy, battery or cutting. Times are the kit's; each is
// taken as known to 20 %, and 10 % that all share (standard uncertainty, assumed).
#pragma once

#include "assess/assessment.h"

namespace trammel {

struct PlannedStep {
  std::size_t step = 0;  // in Assessment::steps
  int technician = 0;    // 0, 1; 2: both
  Time start, end, can_wait;
  Time waited;                         // nobody works before it
  std::string cures;                   // for the thread locker of this fastener
  std::vector<std::size_t> waits_for;  // in Assessment::steps, only what no other implies
  Unfinished unfinished;               // with the steps done in this order
};

struct OrderOfWork {
  int technicians = 1;
  std::vector<PlannedStep> steps;  // by start; what is signed is left out
  Time total, total_u, bound;      // total with what is waited
  Time waited;                     // while thread locker cures
  int tool_changes = 0, tool_bound = 0, tool_changes_as_given = 0, end_changes = 0;
  bool proven = false;
  std::size_t untimed = 0, signed_already = 0;
  std::vector<std::size_t> for_two;      // ask for more people than there are, with no word on what one does instead
  std::vector<std::size_t> out_of_turn;  // signed before what they wait for
};
OrderOfWork order_of_work(const Job& job, const Assessment& assessment, int technicians);

int technicians_of(const Job& job);
// The one order in which a job is worked, printed and gone on with: for the shop's technicians. What is loose after
// each step and what comes next follow it.
struct Context;
void order_steps(Context& c);

struct Quote {
  struct Row {
    std::string what;
    int count = 1;
    double price = 0.0, sum = 0.0;
  };
  std::string currency;
  Time work, work_u;  // technician-hours of the whole job
  std::optional<double> rate, labour, labour_u, total, total_u;
  std::vector<Row> parts;  // with markup
  double markup = 0.0;
};
// Nothing where the job has no shop with a rate or prices.
std::optional<Quote> quote(const Job& job, const Assessment& assessment);

}  // namespace trammel
