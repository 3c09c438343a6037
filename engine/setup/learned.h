// What finished jobs on the same kind of cart teach about its adjusters.
//
// Effects of one cart e = m + d:  m what carts of this kind have in common,  d this cart's own.
//   prior   m ~ N(m0, (1 - b) S),  d ~ N(0, b S)     S what the geometry or the class leaves open, b `between_carts`
//   a job   its readings and turns make of e ~ N(m, V + bS) the posterior (m1, P), wheels and tools its own
//   then    m += K (m1 - m),  V -= K (V + bS - P) K^T,  K = V (V + bS)^-1       one job after another
//   next    e ~ N(m, V + bS): never surer than the carts differ
// Slips that were found in a job are set aside there first (blunder.h). Left and right of one cart are kept with their
// correlation. Ignores: jobs that taught one another in their turn. b is assumed, our own.
// Source: joint Gaussian, JCGM 102:2011; hierarchical normal model, Gelman et al., Bayesian Data Analysis, 3rd ed., ch.
// 5 (from memory). Law 1: no job, no change. Law 2: the spread never grows, and never falls below sqrt(b) of S's.
// Law 3: the order of the jobs is of no account where the model is linear.
#pragma once

#include <span>

#include "setup/alignment.h"

namespace trammel::setup {

constexpr double between_carts = 0.5;

struct FinishedJob {
  AlignmentTask task;  // the same adjusters in the same order
  std::vector<Event> events;
};

// The task with what the jobs teach as its prior; how many of them could be used.
int learn_from(AlignmentTask& task, std::span<const FinishedJob> jobs);

}  // namespace trammel::setup
