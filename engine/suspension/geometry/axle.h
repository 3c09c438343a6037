// An axle of any layout: where it is asked to stand, and where its wheels then are.
//
// A layout hands over the poses and the rates of its two wheels; what reads camber or toe never knows the layout.
// Coordinates, the body held and level:
//   rise   of both wheel centres above their fitted height; where both wheels are on one body, of its centre
//   roll   positive with the left wheel up: adds plus and minus half-track times its tangent to the wheels' rises,
//          or turns the body that carries both
//   steer  shift along +y (left) of what the tie rods hang on: the rack, the relay, the drag link's end
//   changes of length; what is held meanwhile is the wheel centre's height, or the lower arm's angle
// Frame: cart. Law: all zero gives the fitted pose. A pose beyond reach says so and carries no numbers.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "suspension/geometry/wheel_geometry.h"
#include "suspension/linkage/corner_linkage.h"
#include "suspension/linkage/live_axle.h"
#include "suspension/linkage/point_fault.h"

namespace trammel::suspension {

struct AxleChanges {
  LengthChanges<double> left, right;  // of the arms and rods of one side
  std::vector<Length> links;          // of a live axle's links in order, then its track bar; missing ones are zero
};

struct AxleCoordinates {
  Length rise{};
  Angle roll{};
  Length steer{};
  AxleChanges changes{};
  Held held = Held::wheel;
};

// A point that moves with the wheel, named as in the files below its side.
struct MovedPoint {
  std::string_view name;
  Vector3<double> at;
};

struct SidePose {
  PoseOutcome outcome;             // numbers below may be used only where it is ok
  WheelPose<double> wheel;         // in the cart frame: a right wheel's spin axis points to -y
  WheelGeometry<double> geometry;  // contact and contact_rate in the cart frame
  std::vector<MovedPoint> points;
  std::optional<Vector3<double>> rod_inner_end;  // of the tie rod; of a beam: of the drag link, on its side
  Angle arm_angle{};                             // of the lower arm from its fitted place, positive up
  std::optional<Length> spring_length, damper_length;

  const Vector3<double>* point(std::string_view name) const;  // nothing where this layout has none of that name
};

struct AxlePose {
  Length rise{}, steer{};
  Angle roll{};
  SidePose left, right;
  std::optional<LiveAxlePose> body;  // where one body carries both wheels: how that body moves

  bool ok() const { return left.outcome.ok() && right.outcome.ok(); }
  const SidePose& side(Side s) const { return s == Side::left ? left : right; }
};

// One point as it was measured: "left.lower_arm.front_bush".
struct Hardpoint {
  std::string name;
  Vector3<double> at;
};

struct WheelAnglesRate {
  AnglePerLength camber{}, toe{};
};

// What the adjusters of one side do to its camber and toe at a pose: exact where the layout says so, else central
// differences of its poses over 10 um (error 1e-8 rad/m).
struct AdjusterRates {
  PoseOutcome outcome;
  Angle camber{}, toe{};                          // at the pose
  WheelAnglesRate upper_arm, lower_arm, tie_rod;  // per metre longer
  WheelAnglesRate strut_top;                      // per metre outward
  WheelAnglesRate rack;                           // per metre of steer, along +y of the cart
  WheelAnglesRate rise;                           // per metre of wheel-centre rise
};

class AxleMechanism {
 public:
  virtual ~AxleMechanism() = default;
  // Everything wrong with the points, named; where there is anything every pose says bad_geometry.
  virtual std::vector<PointFault> check() const = 0;
  virtual AxlePose pose(const AxleCoordinates& at) const = 0;
  // The pose over steer alone, at the rise and roll asked for: what does not depend on steer is found once.
  virtual std::function<AxlePose(Length steer)> over_steer(const AxleCoordinates& at) const;
  virtual SidePose side_pose(Side side, const AxleCoordinates& at) const { return pose(at).side(side); }
  virtual AdjusterRates adjuster_rates(Side side, const AxleCoordinates& at = {}) const;

  // The points as fitted, and the same axle with its points elsewhere, in the same order.
  virtual std::vector<Hardpoint> points() const = 0;
  virtual std::unique_ptr<const AxleMechanism> with_points(const std::vector<Hardpoint>& points) const = 0;

  // How far the body that carries both wheels stands turned against `before`, pinion nose up: see axle_turn.h.
  virtual std::optional<Angle> turned_since(const AxleMechanism& before) const;

  virtual Length loaded_radius() const = 0;
  virtual bool steered() const = 0;
  virtual bool one_body() const = 0;  // both wheels on one body: roll is a coordinate of its own
};

}  // namespace trammel::suspension
