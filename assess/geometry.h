// What the judges of an axle's geometry share. Private to assess.
#pragma once

#include "assess/context.h"

namespace trammel {

// The travel over which an axle is judged; assumed where the file gives none.
struct TravelRange {
  Length lowest, highest;
  std::vector<Input> inputs;
};

TravelRange travel_range(const Axle& axle, const std::string& name);

// One end of the cart before and after the kits; the mechanisms are there and their points are sound.
struct JudgedAxle {
  std::string name;  // "front"
  const Axle& now;
  const AxleModel& model;
  std::shared_ptr<const suspension::AxleMechanism> was;  // where it is known
  TravelRange range;
  AxleTravel &before, &after;
};

void judge_bump_steer(Context& c, const JudgedAxle& axle);
void judge_damper(Context& c, const JudgedAxle& axle);
void note_steering_axis(Context& c, const JudgedAxle& axle);
void judge_axle_body(Context& c, const JudgedAxle& axle);  // one body that carries both wheels
void judge_springs(Context& c, const JudgedAxle& axle);    // its leaf springs, track bar and drag link
void judge_lines(Context& c, const JudgedAxle& axle);      // cables and hoses
void judge_joints(Context& c, const JudgedAxle& axle);     // what binds, runs out of angle or meets

}  // namespace trammel
