// The steps of a job's kits rehearsed in every order that they allow, and told as findings; and seeded mistakes in a
// kit.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "assess/assessment.h"
#include "assess/finding.h"
#include "job/job.h"
#include "work/rehearse.h"

namespace trammel {

struct RehearsedFinding {
  Finding finding;
  std::vector<std::string> trace;  // steps that matter, the last is where it shows
  std::size_t least_steps = 0;     // steps done by then, at the least
  std::vector<std::string> again;  // later steps at which it shows again until it is mended
  std::string variant;             // with these accessories; empty: with all, or there are none
};

struct RehearsedJob {
  std::size_t steps = 0, sides_written_out = 0, fasteners = 0, parts = 0, branches = 0, states = 0;
  std::vector<std::string> variants;  // each walked: "without accessories", "with cover"
  bool complete = true;
  std::vector<RehearsedFinding> found;
};

// One rehearsal's findings, worded by code; `job` gives the places in the files.
std::vector<RehearsedFinding> rehearsed(const Job& job, const work::Rehearsal& rehearsal);
// All variants by accessory, what the kits' words make unreadable, and what the fasteners' own judge stops.
RehearsedJob rehearse(const Job& job);

// What the fasteners' own judge makes of one fastener; empty where there is none of that id.
FastenerLine fastener_line(const Job& job, const std::string& id);

// One mistake put into one kit of a job.
struct Spoilt {
  std::string kind, where;  // code of the kind, "rear-down" or "F3"
  Job job;
};
// `count` mistakes, drawn by the seed: steps dropped, exchanged, doubled, moved; sides exchanged; torques and sizes
// wrong; a tool left off a step's list; a letter of a word wrong.
std::vector<Spoilt> spoil(const Job& job, std::size_t count, std::uint64_t seed);

struct SpoiltOutcome {
  std::string kind, where;
  bool caught = false;
  std::string by;  // code of the first new finding, or why the mistake does no harm
};
std::vector<SpoiltOutcome> rehearse_spoilt(const Job& job, std::size_t count, std::uint64_t seed);

}  // namespace trammel
