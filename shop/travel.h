// An axle of a cart file or a job, ready to be moved through the poses that somebody asks for.
#pragma once

#include <memory>
#include <string>
#include <vector>

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
};

TravelAnswer axle_to_move(const TravelAsked& asked);

}  // namespace trammel
