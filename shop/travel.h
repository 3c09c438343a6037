// An axle of a cart file or a job moved through the poses that somebody asks for.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "jobfile/diagnostic.h"
#include "messages/message.h"
#include "suspension/geometry/travel.h"

namespace trammel {

struct TravelAsked {
  std::string path, axle;
  bool before_the_kits = false;
  std::vector<Length> rises, racks;
  std::vector<Angle> rolls;
  suspension::AxleChanges changes;
  suspension::Held held = suspension::Held::wheel;
};

struct TravelAnswer {
  std::vector<Diagnostic> diagnostics;
  std::vector<Message> faults;  // why the axle cannot be moved
  std::variant<std::monostate, suspension::Travel, suspension::AxleTravel> travel;
};

TravelAnswer move_axle(const TravelAsked& asked);

}  // namespace trammel
