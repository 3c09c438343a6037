// A procedure rehearsed in every order that it allows, before the first bolt turns.
//
// Allowed orders: those that keep conflict.h's pairs. Steps that share nothing may change places, and every step still
// meets the same state, so one walk judges them all: what a step finds hangs only on what is done. A step with
// `any_time` is not held by its place: it is tried wherever its needs allow (free_steps.h); a fault that shows only so
// is told as not_ordered with the step that it should come before or after, and what goes wrong. Optional steps are
// left out each alone, in pairs and all together; a step repeated until something is met is done twice. Uncovered: like
// faults of one step in one line, with the steps that matter to it (the last that touched what it is about) and how
// many steps at least are done when it shows. Follows: the same fault of the same things at a later load, and the
// release that is refused for what the end shows. Law 1: the faults of the given order are among those found. Law 2:
// with no step free, optional or repeated, every allowed order has just these. Law 3: a clean rehearsal ends in a
// granted release, whichever branch is taken. Law 4: no allowed order shows a fault with fewer steps done than
// `least_steps`. Range: past `most_states` free steps are tried alone and in pairs only, and `complete` is false.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "work/walk.h"

namespace trammel::work {

// On which way through the work a fault shows.
enum class Branch : unsigned char { as_listed, other_order, left_out, repeated };

struct Uncovered {
  Fault fault;                        // of the first of its like
  std::vector<std::string> subjects;  // all of them
  Branch branch = Branch::as_listed;
  std::string branch_step;         // left out, repeated, or done at another time
  std::vector<std::string> trace;  // steps that matter, in order, "blocks left"; the last is where it shows
  std::size_t least_steps = 0;     // steps done when it first can show, this one counted; 0: structure or the end
  std::vector<Fault> beneath;      // not_ordered: what goes wrong in the other order
  // The place in `found` of the one that this only repeats: mend that, and this goes with it.
  std::optional<std::size_t> follows;
};

struct RehearsalLimits {
  std::size_t most_states = 20000;
};

struct Rehearsal {
  Walk walk;  // in the given order
  std::vector<Uncovered> found;
  std::size_t free = 0, coupled = 0;  // steps that may come at any time; those whose place matters
  std::size_t states = 0;             // met with these at other times
  std::size_t branches = 1;           // ways through the work that were walked
  bool complete = true;
};

Rehearsal rehearse(const Procedure& procedure, const RehearsalLimits& limits = {});

}  // namespace trammel::work
