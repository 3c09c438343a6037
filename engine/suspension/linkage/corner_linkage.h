// One wheel of an independent axle: from its rise to the pose of its knuckle.
//
// Model: rigid arms, knuckle and tie rod, ideal joints. Coordinates: the lower arm's angle q about its bush
// line (0 as fitted, positive up), the shift of the tie rod's inner end along +y, and changes of length (m).
//   lower joint B   on its circle at q
//   upper guide     an arm: where its circle meets the sphere about B; a strut: the damper's line, fast to the
//                   knuckle, passes the top mount P, so that P stands sqrt(|BP|^2 - h^2) up that line, h the line's
//                   distance from B; the arm itself: the kingpin turns with it
//   knuckle end     where its circle about the steering axis meets the sphere about the tie rod's inner end
// Each meeting has two branches; the fitted one is kept by its sign, stored when the points are read. The
// solve for a wheel-centre rise is Newton on q with the exact dz/dq; where that comes near the end of a
// branch it is done again as a continuation from the fitted pose whose steps shrink as a reach closes, so
// that no step passes a gap and the furthest rise is found. Velocities are exact.
// Frame: cart, left wheel; a right wheel is read as its mirror image and its rack shift changes sign.
// Ignores: bush and tyre compliance, play. A spring's foot stays where it is on an arm when its length changes.
// Range: points that pass check(); arm turned less than 90 degrees. Error: 1e-14 m in rise, 1e-12 m in points; within
// a micrometre of the end of the travel 1e-7 m.
// Law 1: no rise, no rack, no change: the fitted points.   Law 2: left and right mirror.
// Law 3: a longer upper arm moves the top of the wheel out. Law 4: no pose off the fitted branch, never NaN.
// Source: meeting of circle and sphere as in Rill & Castro, Road Vehicle Dynamics, 2nd ed. (CRC 2020), ch. 5;
// velocity analysis as in Norton, Design of Machinery, ch. 6, in three dimensions.
#pragma once

#include "suspension/linkage/circle.h"
#include "suspension/linkage/corner_points.h"
#include "suspension/linkage/outcome.h"
#include "suspension/linkage/scalar.h"
#include "suspension/linkage/wheel_pose.h"

namespace trammel::suspension {

enum class Held { wheel, arm };  // what is kept while a length changes: wheel-centre height, or lower-arm angle

template <class T = double>
struct CornerPose {
  PoseOutcome outcome;
  // Joints; of a strut the upper one is its top mount, of a trailing arm there are none of the first four.
  Vector3<T> lower_ball_joint, upper_ball_joint, knuckle_end, rack_end;
  Vector3<T> hub_centre, spin_axis, steering_axis;
  Vector3<T> spring_foot, damper_foot;     // zero where there is none
  T spring_length{}, damper_length{};      // likewise
  Twist<T> per_rise;                       // the wheel's motion per metre of wheel-centre rise
  T spring_per_rise{}, damper_per_rise{};  // compression per metre of wheel-centre rise: the motion ratio
  T half_tan{};                            // tan(q / 2)
  T rack{};                                // as asked for, in the left image
  Vector3<T> drift;                        // likewise
  LengthChanges<T> change;                 // as asked for
  bool steered = true;

  AngleOf<T> arm_angle() const;
  WheelPose<T> wheel() const { return {hub_centre, spin_axis, lower_ball_joint, steering_axis, steered}; }
};

// The wheel's motion per metre of each of these.
template <class T = double>
struct CornerTwists {
  Twist<T> rack, upper_arm, lower_arm, tie_rod, strut_top;
};

template <class T = double>
class CornerLinkage {
 public:
  CornerLinkage() = default;
  // Points of the left side, or of a right side mirrored. Points that fail check() make a mechanism whose
  // every pose says bad_geometry.
  explicit CornerLinkage(const CornerPoints<T>& fitted);

  bool usable() const { return usable_; }
  const CornerPoints<T>& fitted() const { return fitted_; }

  // The wheel centre `rise` above its fitted height, whatever the changes do. `drift`: what the tie rod's inner end
  // moves besides `rack` along y, in metres (a relay's arms turn about their shafts).
  CornerPose<T> pose(LengthOf<T> rise, LengthOf<T> rack = {}, const LengthChanges<T>& change = {},
                     const Vector3<T>& drift = {}) const;
  // The same without branches or fallback, for scalars of several lanes: false where any lane is not comfortable.
  bool quick_pose(LengthOf<T> rise, LengthOf<T> rack, CornerPose<T>& pose) const;
  // The lower arm turned by `arm_angle` from its fitted place.
  CornerPose<T> pose_at_arm(AngleOf<T> arm_angle, LengthOf<T> rack = {}, const LengthChanges<T>& change = {},
                            const Vector3<T>& drift = {}) const;
  // Exact derivatives at a pose that is ok.
  CornerTwists<T> twists(const CornerPose<T>& pose, Held held) const;
  // The end of the travel upward or downward, which the outcome of a pose beyond it would name.
  PoseOutcome reach(bool upward, LengthOf<T> rack = {}, const LengthChanges<T>& change = {}) const;

 private:
  struct Setup;    // circles and lengths of one rack shift and one set of changes
  struct Station;  // one evaluation at q
  // The knuckle about its steering axis: directions in the fitted frame, and what hangs on them.
  struct Frame {
    Vector3<T> u, e, f;  // along the steering axis, towards the knuckle end, square to both
    T length{};          // between the joints
    T end_along{}, end_radius{};
    Vector3<T> hub, spin;  // in u, e, f
  };
  Frame frame(const Vector3<T>& axis, const T& length) const;
  Frame strut_frame(const Vector3<T>& slid) const;
  Setup setup(const T& rack, const Vector3<T>& drift, const LengthChanges<T>& change) const;
  bool too_short(const Setup& s) const;
  Station station(const Setup& s, const T& half_tan) const;
  Twist<T> twist(const Setup& s, const Station& at, const Vector3<T>& lower_velocity, const Vector3<T>& upper_own,
                 const T& rack_rate, const T& tie_rod_rate) const;
  CornerPose<T> finish(const Setup& s, const Station& at, const T& rack, const Vector3<T>& drift,
                       const LengthChanges<T>& change) const;
  void measure(const SpringPoints<T>& given, const Vector3<T>& local, const Setup& s, const Station& at,
               Vector3<T>& foot, T& length, T& per_arm) const;
  Vector3<T> mount_local(const SpringPoints<T>& given) const;
  CornerPose<T> failed(const PoseOutcome& outcome) const;
  // Continuation from q = 0; ends at the target height or at the end of the branch.
  PoseOutcome follow(const Setup& s, double target_z, bool upward, T& half_tan) const;
  bool near_fit(const T& rack, const LengthChanges<T>& change) const;
  PoseOutcome fitted_angle_outcome(const T& rack, const Vector3<T>& drift, const LengthChanges<T>& change) const;

  CornerPoints<T> fitted_;
  Arm<T> lower_, upper_;
  Circle<T> lower_circle_, upper_circle_;
  T tie_rod_length_{};
  Vector3<T> end_fit_, hub_fit_, spin_fit_;  // from the lower joint as fitted, in the cart frame
  Vector3<T> slide_foot_, slide_;            // strut: foot of the square from B to the damper's line, its direction
  T slide_off2_{};                           // and the square of that foot's distance
  Frame frame_;                              // as fitted; constant but for a strut
  Vector3<T> hub_arm_, spin_arm_, kingpin_;  // the arm as guide: as the arm sees them
  Vector3<T> spring_local_, damper_local_;   // of the feet, as the part that carries them sees them
  double upper_branch_ = 1, tie_branch_ = 1, rise_sign_ = 1;
  T rate_at_fit_{}, curve_at_fit_{};  // dz/dq and d2z/dq2 of the hub centre as fitted
  bool usable_ = false;
};

}  // namespace trammel::suspension

#include "suspension/linkage/corner_kernel.h"
#include "suspension/linkage/corner_solve.h"
