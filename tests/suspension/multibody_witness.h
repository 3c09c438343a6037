// Linkages solved by Simbody, an independent general-purpose multibody library.
// Plain C++17 and plain numbers: the one source file behind it is built as that library needs
// (C++17, assertions on), apart from the rest.
#pragma once

#include <array>
#include <memory>

namespace witness {

using Point = std::array<double, 3>;

struct Corner {
  Point lower_front, lower_rear, lower_ball, upper_front, upper_rear, upper_ball, rack_end, knuckle_end, hub;
};
struct CornerPose {
  Point lower_ball, upper_ball, knuckle_end, hub;
  bool ok = false;
};

// The lower arm is a body on a pin, the knuckle hangs on it by a ball, the upper arm is two rods, the tie rod
// one more to a sliding rack.
class Wishbone {
 public:
  explicit Wishbone(const Corner& corner);
  ~Wishbone();
  void start();  // back to the fitted pose
  void lengthen(double upper_arm, double tie_rod);
  // Lower arm locked at an angle, rack locked at a shift, the rest projected onto the constraints.
  CornerPose at_arm(double angle, double rack, double accuracy = 1e-13);
  // The same with a secant on the angle until the hub is at `rise`.
  CornerPose at_rise(double rise, double rack, double accuracy = 1e-13);

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

// One arm on a pin. A strut: the knuckle hangs on it by a ball, and a line fast to the knuckle passes the top mount.
// A swing axle: the knuckle turns on the arm about its kingpin. Both have a tie rod to a sliding rack; a trailing arm's
// hub is fast to the arm.
struct ArmCorner {
  enum Kind { strut, swing_axle, trailing_arm } kind;
  Point bush, other_bush, lower, top, strut_lower, rack_end, knuckle_end, hub, spin;  // spin: a point on the spin axis
};
struct ArmCornerPose {
  Point lower, top, knuckle_end, hub, spin;
  bool ok = false;
};
class ArmLed {
 public:
  explicit ArmLed(const ArmCorner& corner);
  ~ArmLed();
  ArmCornerPose walk(double angle, double rack);  // from the fitted pose in small steps

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

struct Rod {
  Point chassis, axle;
};
struct AxlePlace {
  double x = 0, y = 0, yaw = 0, pitch = 0;
  bool ok = false;
};
// A rigid axle on four rods: three links and a track bar.
class Axle {
 public:
  Axle(const Point& centre, const std::array<Rod, 4>& rods);
  ~Axle();
  AxlePlace at(double rise, double roll);  // reached from the fitted pose in small steps

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

// The same axle as a steered beam: knuckles on pins, a tie rod between them, a drag link from the left one to a
// pitman arm, or to a block that slides along y where the shaft has no length.
struct Steering {
  std::array<Point, 2> king_pin_top, king_pin_bottom, tie_rod_end, hub;  // left, right
  Point frame_end, ball, pivot, shaft;
};
struct SteeredPlace {
  std::array<Point, 2> tie_rod_end, hub;
  Point ball;
  bool ok = false;
};
class Beam {
 public:
  Beam(const Point& centre, const std::array<Rod, 4>& rods, const Steering& steering);
  ~Beam();
  void lengthen(double tie_rod, double drag_link);
  SteeredPlace at(double rise, double roll, double shaft_turn_or_shift);

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

// A leaf spring in side view as the three-link equivalent: a link on the fixed eye, the seat, another link, the
// shackle as a rod; the links' turns against the seat are as the halves' lengths.
struct Leaf {
  Point fixed_eye, shackled_eye, shackle_pivot, seat, pin, other_pin;
  double half = 0, other_half = 0;
};
struct LeafPlace {
  Point seat, shackled_eye;
  bool ok = false;
};
LeafPlace leaf_at(const Leaf& leaf, double rise);

}  // namespace witness
