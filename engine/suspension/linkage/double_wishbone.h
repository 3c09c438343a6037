// A double wishbone with tie rod and rack: from a wheel's rise to the pose of its knuckle.
//
// Model: rigid arms, knuckle and tie rod, ideal joints. Coordinates: the lower arm's angle q about its bush
// line (0 as fitted, positive up), the rack's shift along +y, and changes of length (m).
//   lower ball joint   on its circle at q
//   upper ball joint   where the upper arm's circle meets the sphere about the lower ball joint
//   knuckle end        where its circle about the steering axis meets the sphere about the rack end
// Each meeting has two branches; the fitted one is kept by its sign, stored when the points are read. The
// solve for a wheel-centre rise is Newton on q with the exact dz/dq; where that comes near the end of a
// branch it is done again as a continuation from the fitted pose whose steps shrink as a reach closes, so
// that no step passes a gap and the furthest rise is found. Velocities are exact: rigid-body velocity
// analysis of the closed loops, for the rise, the rack and each length.
// Frame: cart, left wheel; a right wheel is read as its mirror image and its rack shift changes sign.
// Ignores: bush and tyre compliance, play, the rack's own bending. The spring's foot stays where it is on the
// arm when the arm's length changes.
// Range: points that pass check(); arm turned less than 90 degrees. Error: 1e-14 m in rise, 1e-12 m in points; within
// a micrometre of the end of the travel 1e-7 m.
// Law 1: no rise, no rack, no change: the fitted points.   Law 2: left and right mirror.
// Law 3: a longer upper arm moves the top of the wheel out. Law 4: no pose off the fitted branch, never NaN.
// Source: meeting of circle and sphere as in Rill & Castro, Road Vehicle Dynamics, 2nd ed. (CRC 2020), ch. 5;
// velocity analysis as in Norton, Design of Machinery, ch. 6, in three dimensions.
#pragma once

#include "suspension/linkage/circle.h"
#include "suspension/linkage/outcome.h"
#include "suspension/linkage/scalar.h"
#include "suspension/linkage/wheel_pose.h"
#include "suspension/linkage/wishbone_points.h"

namespace trammel::suspension {

enum class Held { wheel, arm };  // what is kept while a length changes: wheel-centre height, or lower-arm angle

template <class T = double>
struct WishbonePose {
  PoseOutcome outcome;
  Vector3<T> lower_ball_joint, upper_ball_joint, knuckle_end, rack_end, hub_centre, spin_axis, steering_axis;
  Vector3<T> spring_foot;   // on the lower arm; zero where there is no spring
  Twist<T> per_rise;        // the wheel's motion per metre of wheel-centre rise
  T spring_per_rise{};      // spring compression per metre of wheel-centre rise: the motion ratio
  T half_tan{};             // tan(q / 2)
  T rack{};                 // as asked for, in the left image
  LengthChanges<T> change;  // as asked for

  AngleOf<T> arm_angle() const;
  WheelPose<T> wheel() const { return {hub_centre, spin_axis, lower_ball_joint, steering_axis}; }
};

// The wheel's motion per metre of each of these.
template <class T = double>
struct WishboneTwists {
  Twist<T> rack, upper_arm, lower_arm, tie_rod;
};

template <class T = double>
class DoubleWishbone {
 public:
  DoubleWishbone() = default;
  // Points of the left side, or of a right side mirrored. Points that fail check() make a mechanism whose
  // every pose says bad_geometry.
  explicit DoubleWishbone(const WishbonePoints<T>& fitted);

  bool usable() const { return usable_; }
  const WishbonePoints<T>& fitted() const { return fitted_; }

  // The wheel centre `rise` above its fitted height, whatever the changes do.
  WishbonePose<T> pose(LengthOf<T> rise, LengthOf<T> rack = {}, const LengthChanges<T>& change = {}) const;
  // The lower arm turned by `arm_angle` from its fitted place.
  WishbonePose<T> pose_at_arm(AngleOf<T> arm_angle, LengthOf<T> rack = {}, const LengthChanges<T>& change = {}) const;
  // Exact derivatives at a pose that is ok.
  WishboneTwists<T> twists(const WishbonePose<T>& pose, Held held) const;
  // The end of the travel upward or downward, which the outcome of a pose beyond it would name.
  PoseOutcome reach(bool upward, LengthOf<T> rack = {}, const LengthChanges<T>& change = {}) const;

 private:
  struct Setup;    // circles and lengths of one rack shift and one set of changes
  struct Station;  // one evaluation at q
  Setup setup(const T& rack, const LengthChanges<T>& change) const;
  Station station(const Setup& s, const T& half_tan) const;
  Twist<T> twist(const Setup& s, const Station& at, const Vector3<T>& lower_velocity, const Vector3<T>& upper_own,
                 const T& rack_rate, const T& tie_rod_rate) const;
  WishbonePose<T> finish(const Setup& s, const Station& at, const T& rack, const LengthChanges<T>& change) const;
  WishbonePose<T> failed(PoseStatus status) const;
  // Continuation from q = 0; ends at the target height or at the end of the branch.
  PoseOutcome follow(const Setup& s, double target_z, bool upward, T& half_tan) const;
  bool near_fit(const T& rack, const LengthChanges<T>& change) const;
  PoseOutcome fitted_angle_outcome(const T& rack, const LengthChanges<T>& change) const;

  WishbonePoints<T> fitted_;
  Arm<T> lower_, upper_;
  Circle<T> lower_circle_, upper_circle_;
  T knuckle_length_{}, tie_rod_length_{};
  T end_along_{}, end_radius_{};       // of the knuckle end, along and off the steering axis
  Vector3<T> hub_local_, spin_local_;  // in the knuckle's frame
  T spring_out_{}, spring_side_{};     // of the spring's foot about the lower bush line
  Vector3<T> spring_base_;
  double upper_branch_ = 1, tie_branch_ = 1, rise_sign_ = 1;
  T rate_at_fit_{}, curve_at_fit_{};  // dz/dq and d2z/dq2 of the hub centre as fitted
  bool usable_ = false;
};

}  // namespace trammel::suspension

#include "suspension/linkage/double_wishbone_kernel.h"
#include "suspension/linkage/double_wishbone_solve.h"
