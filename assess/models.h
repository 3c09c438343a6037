// A cart's plain data handed to the suspension room in that room's own types.
//
// The cart frame stays with the body: it was taken on the ground as the cart first stood, and a kit's changes
// are told in it. After a kit the ground therefore lies where the wheels put it: ground = hub height less
// loaded radius, negative by as much as the body has risen there.
#pragma once

#include <memory>
#include <optional>

#include "job/job.h"
#include "messages/message.h"
#include "suspension/geometry/axle.h"
#include "suspension/linkage/corner_settle.h"
#include "suspension/linkage/spring_change.h"

namespace trammel {

struct AxleModel {
  std::shared_ptr<const suspension::AxleMechanism>
      mechanism;                     // none: where the wheels stand is known, not how they move
  Vector3<double> left_hub;          // metres, cart frame
  Length radius{};                   // loaded
  std::optional<Length> half_track;  // as given, else from the hub
  // On leaf springs: what shackles, blocks and wedges have done, and how much longer the shackles are, left and right.
  std::optional<suspension::ChangedAxle> changed;
  std::array<Length, 2> shackle_longer{};
  std::vector<suspension::PointFault> faults;  // besides those of the mechanism
  std::vector<suspension::PointFault> check() const;
  // Of an independent axle whose springs are longer, left and right: where spacers have put its parts.
  std::array<std::optional<suspension::SettledCorner>, 2> settled;
  // A part fixed to the axle, or to the lower or only arm, told as the cart first stood: where it is with the wheels at
  // rest.
  Vector3<double> carried(const Vector3<double>& part) const;
  Length ground() const { return Length::from_si(left_hub.z) - radius; }
};

// Nothing where the axle is not there or lacks what its layout needs.
std::optional<AxleModel> axle_model(const std::optional<Axle>& axle, bool steers);

struct CartModel {
  std::optional<AxleModel> front, rear;
  Length wheelbase{};
};
CartModel cart_model(const Cart& cart);

// A fault of an axle's points, worded.
Message point_fault(const std::string& axle, const suspension::PointFault& fault);

}  // namespace trammel
