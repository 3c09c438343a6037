// The answer to "what now?": accept, adjust, measure or diagnose.
//
//   accept    P(all in tolerance) >= accept_probability, no reading left in doubt
//   diagnose  something is out with that probability and no adjuster reaches it, or the threads end first: no turns
//   adjust    turning promises fewer minutes to acceptance than reading again (next_step.h)
//   measure   another reading promises fewer; which, how many, or that this tape cannot decide
// While a pass is open (the last reading was taken before the roll): touch up, or jam, roll and read.
// Source: JCGM 106:2012 8.3 (guarded acceptance by conformance probability); ISO 14253-1:2017 (decision rule) (from
// memory). Law 1: accept exactly where p >= the limit and nothing is flagged. Law 2: diagnose never carries turns.
#pragma once

#include "setup/diagnosis.h"
#include "setup/next_step.h"
#include "setup/prescription.h"

namespace trammel::setup {

enum class Verdict { accept, adjust, measure, diagnose };

enum class Reason {
  in_tolerance,
  turning_helps,
  reading_helps,
  reading_in_doubt,
  never_read,
  cannot_be_decided_with_these_instruments,
  touch_up,
  jam_roll_and_read,
  no_adjuster,
  adjuster_out_of_range
};

// The shape of `align --json`, and what the sheets need besides.
struct Answer {
  Verdict verdict = Verdict::measure;
  Reason reason = Reason::never_read;
  AlignmentState state;
  Length toe_diameter;
  double probability_in_tolerance = 0.0;
  std::vector<PrescribedTurn> turns;
  Expected after;                      // without turns: the state as it stands
  int more_readings = 0;               // of what is read most; 0 where none is asked for or none would do
  NextStep next;                       // what to read; with turns: what to do once they are made
  std::vector<Aspect> to_read;         // what the next reading must tell
  std::vector<Aspect> out;             // out of tolerance with the accept probability
  std::vector<Aspect> not_adjustable;  // no adjuster moves it
  std::vector<Suspect> suspects;       // with diagnose
  std::vector<ReadingFlag> flags;      // a slip found over all entries first (blunder.h)
  bool steering_ratio_assumed = false;
};

Answer align(const AlignmentTask& task, const std::vector<Event>& events, const Way& way = {});
Answer judge(const AlignmentTask& task, const Belief& belief, const Way& way = {});

}  // namespace trammel::setup
