// A slip in one reading of a job, found after the fact: which entry, which value, which slip.
//
// The events' evidence, the density of all that was read as the joint Gaussian foretells it, is compared between
// "all sound" and "this one slip", one slip at a time, each with its prior chance a stop:
//   gap at the wrong edge 1 %, a gauge's or the steering wheel's sign 1 %, front and rear exchanged 0.5 %
//   tape misread by 1/16, 1/8, 1/4, 1/2, 1 in, 10, 50 or 100 mm, either way: 2 % together (once among the repeats)
//   not rolled after turning, so that the reading carries the scrub: 2 %
//   unlikely, anything else: 0.5 %, uniform over +-6 deg of camber, +-100 mm of toe, +-30 deg of steering wheel
// `sound` and the slips' probabilities sum to 1. So a first reading's slip is found when a later stop contradicts it.
// Looked for only where some reading lies more than `worth_a_look` standard deviations from what was expected.
// Ignores: two slips at once. The chances are assumed, our own. Source: Bayes' rule; Jeffreys, Theory of Probability
// (1961) 5 (from memory).
// Law 1: mirrored events give mirrored slips.
#pragma once

#include "setup/alignment.h"

namespace trammel::setup {

struct Blunder {
  std::size_t event = 0;  // index in the events
  ReadingItem item = ReadingItem::left_camber;
  Suspicion kind = Suspicion::unlikely;
  double probability = 0.0;
};

struct Blunders {
  double sound = 1.0;             // the chance that nothing slipped
  std::vector<Blunder> suspects;  // of one entry, value and kind each, likeliest first, those above 1 %
  bool any() const { return sound < 0.5 && !suspects.empty(); }
};

constexpr double worth_a_look = 2.4;

Blunders find_blunders(const AlignmentTask& task, const std::vector<Event>& events);
// The events with that value set aside, or the reading taken as one before the roll: what to fold instead.
std::vector<Event> without(const Blunder& blunder, std::vector<Event> events);
// The slip told as the flags of a belief are.
ReadingFlag flag_of(const AlignmentTask& task, const std::vector<Event>& events, const Blunder& blunder);

}  // namespace trammel::setup
