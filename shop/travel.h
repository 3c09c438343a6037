// An axle of a cart file or a job, ready to be moved through the poses that somebody asks for; each change of the job's
// kits alone; and the lengths to set on the bench.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "assess/bench_presets.h"
#include "jobfile/diagnostic.h"
#include "messages/message.h"
#include "suspension/geometry/travel.h"

namespace trammel {

struct TravelAsked {
  std::string path, axle;
  bool before_the_kits = false;
};

struct TravelAnswer {
  std::vector<Diagnostic> diagnostics;
  std::vector<Message> faults;                            // why the axle cannot be moved
  std::shared_ptr<const suspension::AxleMechanism> axle;  // none where there are any
  std::vector<Length> point_u;                            // of its points, in their order
  BenchPresets presets;                                   // of a job with its kits on
};

TravelAnswer axle_to_move(const TravelAsked& asked);

// What an axle's pictures are drawn from, of a file that axle_to_move could read: the job, or one of the cart alone.
Job job_to_draw(const TravelAsked& asked);

// The axle as it stood, with one change alone, with one kit alone, with all of them.
struct ChangedAxle {
  enum class What { stock, change, kit, all } what{};
  std::string path;                                       // of the change, or the kit's name
  std::string value;                                      // by or to what
  std::shared_ptr<const suspension::AxleMechanism> axle;  // none where it is no mechanism
  Length ground{};
};
struct EachChange {
  std::vector<Diagnostic> diagnostics;
  std::vector<Message> faults;
  std::vector<ChangedAxle> rows;
};
EachChange each_change(const TravelAsked& asked);

}  // namespace trammel
