// A cart's wheels, tyres and body handed to the clearance room in that room's own types. Private to assess.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "assess/models.h"
#include "assess/tyres.h"
#include "suspension/clearance/clearance_map.h"
#include "suspension/clearance/trim.h"

namespace trammel {

// Chords of the arc through three points; the points themselves where they lie in one line.
std::vector<Vector3<double>> arc_through(const Vector3<double>& a, const Vector3<double>& b, const Vector3<double>& c);

// A place of the body that a tyre might touch, on one side of the cart.
struct ClearanceFeature {
  std::string name, key;  // key: the path of what was measured
  suspension::Side side = suspension::Side::left;
  suspension::BodyFeature shape;
  std::vector<Input> inputs;
  std::optional<suspension::Lip> lip;  // of a panel that may be cut back
  int mirror_of = -1;                  // the feature on the other side whose mirror image it is, one of those before it
};
// Those nearer to this axle than to the other one.
std::vector<ClearanceFeature> clearance_features(const Cart& cart, const std::string& axle_name, const AxleModel& model,
                                                 double other_x);

struct ClearanceTyre {
  suspension::TyreShape shape;
  Length radius_u{};
  std::vector<Input> inputs;
  suspension::TyreOfSize of_size;  // another size, made alike
};
std::optional<ClearanceTyre> clearance_tyre(const std::optional<Axle>& axle, const AxleModel& model,
                                            const std::string& axle_name);

struct ClearanceAxle {
  suspension::WheelPlaces left, right;
  std::function<suspension::WheelPlaces(std::shared_ptr<const suspension::AxleMechanism>, suspension::Side)> by;
  std::vector<Length> point_u;  // one a point of the mechanism
  suspension::PoseGrid grid;
  bool steers = false;
  bool symmetric = false;  // the right wheel moves as the left one's mirror image
  const suspension::WheelPlaces& of(suspension::Side side) const {
    return side == suspension::Side::left ? left : right;
  }
};
// Nothing where it is not known how this layout moves.
std::optional<ClearanceAxle> clearance_axle(const Axle& axle, const AxleModel& model);

}  // namespace trammel
