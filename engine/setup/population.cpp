#include "setup/population.h"

#include <array>
#include <cmath>

#include "setup/study_corner.h"

namespace trammel::setup {

namespace {

using suspension::CornerLinkage;

// Change of length for one turn: M14x1.5 with both hands, M10x1.5 at one end.
const Length arm_a_turn = 3.0 * units::mm, rod_a_turn = 1.5 * units::mm;

// Camber and toe where the arm and the rod are turned so far; what cannot be reached moves no further.
Effect change(const CornerLinkage<double>& corner, Angle arm, Angle rod) {
  suspension::LengthChanges<double> lengths;
  lengths.upper_arm = arm.in(units::turn)*arm_a_turn;
  lengths.tie_rod = rod.in(units::turn)*rod_a_turn;
  const auto pose = corner.pose({}, {}, lengths);
  if (!pose.outcome.ok()) return {};
  const Vector3<double>& n = pose.spin_axis;
  return {Angle::from_si(-std::asin(n.z)), Angle::from_si(std::atan2(n.x, n.y))};
}

// Mean effect and spread over carts of this fleet.
void learn_effects(AlignmentTask& task, const Fleet& fleet, Generator& g) {
  std::array<std::array<double, 5>, 2> sum{};  // c, t, cc, tt, ct
  constexpr int draws = 1000;
  for (int i = 0; i < draws; ++i) {
    const CornerLinkage<double> corner(disturbed(disturbed(study_corner(), fleet.design, g), fleet.points, g));
    for (int k = 0; k < 2; ++k) {
      const Effect e = change(corner, k == 0 ? units::turn : Angle{}, k == 1 ? units::turn : Angle{});
      const double c = e.camber.si(), t = e.toe.si();
      const double values[5] = {c, t, c * c, t * t, c * t};
      for (int v = 0; v < 5; ++v) sum[k][v] += values[v] / draws;
    }
  }
  for (const Side side : {Side::left, Side::right})
    for (int k = 0; k < 2; ++k) {
      const auto& s = sum[k];
      const double uc = std::sqrt(std::max(0.0, s[2] - s[0] * s[0])), ut = std::sqrt(std::max(0.0, s[3] - s[1] * s[1]));
      Adjuster a;
      a.side = side;
      a.name = k == 0 ? "upper_arm" : "tie_rod";
      a.own = {Angle::from_si(s[0]), Angle::from_si(s[1])};
      a.own_spread = {Angle::from_si(uc), Angle::from_si(ut), uc * ut > 0.0 ? (s[4] - s[0] * s[1]) / (uc * ut) : 0.0};
      task.adjusters.push_back(std::move(a));
    }
  // Both sides of a cart are of one design; each point of each side is off by itself.
  const double design = fleet.design.si() * fleet.design.si(), points = fleet.points.si() * fleet.points.si();
  if (design > 0.0) task.alike = design / (design + points);
}

// A steering arm of 115 mm, known as well as the points are: a turn of the rod is pitch / arm.
void beam_effects(AlignmentTask& task, const Fleet& fleet) {
  const Length arm = 115.0 * units::mm;
  const Angle turned = Angle::from_si(rod_a_turn / arm);
  const Angle spread = turned * (std::sqrt(2.0) * fleet.points / arm);
  Adjuster rod;
  rod.side = Side::right;
  rod.name = "tie_rod";
  rod.own.toe = turned;
  rod.own_spread.toe = spread;
  // The drag link steers the left wheel, and the tie rod carries the right one along.
  Adjuster drag;
  drag.side = Side::left;
  drag.name = "drag_link";
  drag.own.toe = turned;
  drag.other.toe = -turned;
  drag.own_spread.toe = drag.other_spread.toe = spread;
  task.adjusters = {rod, drag};
}

}  // namespace

Population::Population(const Fleet& fleet, Generator& g) : fleet_(fleet) {
  AlignmentTask& t = task_;
  t.toe_diameter = 508.0 * units::mm;
  if (!fleet.beam) t.tolerance.camber = {-0.25 * units::degree, 0.25 * units::degree};
  t.tolerance.total_toe = {3.0 * units::mm, 6.0 * units::mm};
  t.tolerance.toe_difference = {-1.0 * units::mm, 1.0 * units::mm};
  t.instruments.tape.sd = fleet.tape_sd;
  t.instruments.tape_step.sd = fleet.tape_step;
  t.instruments.square_true.sd = {};
  t.instruments.square_base.sd = {};
  t.instruments.floor.sd = {};
  t.instruments.steering_wheel.sd = 0.05 * units::degree;
  t.handling = standing_on(fleet.floor);
  t.steering_ratio = {14.0, 0.0};
  if (fleet.beam)
    beam_effects(t, fleet);
  else
    learn_effects(t, fleet, g);
}

TrueCart Population::draw(Generator& g) const {
  const Length d = task_.toe_diameter;
  const auto within = [&](double reach) { return reach * (2.0 * uniform(g) - 1.0); };
  WheelAngles start;
  const Angle total = toe_angle(4.5 * units::mm + within(40.0) * units::mm, d);
  const Angle difference = toe_angle(within(10.0) * units::mm, d);
  start.left_toe = 0.5 * total + difference;
  start.right_toe = 0.5 * total - difference;
  if (fleet_.beam) return draw_cart(task_, start, g);
  start.left_camber = within(3.0) * units::degree;
  start.right_camber = within(3.0) * units::degree;

  TrueCart cart;
  cart.start = start;
  cart.steering_ratio = 14.0;
  const auto design = disturbed(study_corner(), fleet_.design, g);
  const CornerLinkage<double> left(disturbed(design, fleet_.points, g)), right(disturbed(design, fleet_.points, g));
  cart.linkage = [left, right](const std::vector<Angle>& n) {
    const Effect l = change(left, n[0], n[1]), r = change(right, n[2], n[3]);
    return WheelAngles{l.camber, r.camber, l.toe, r.toe};
  };
  return cart;
}

}  // namespace trammel::setup
