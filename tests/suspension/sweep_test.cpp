// Sweep, map, steer stop, largest tyre and trim line: closed forms on wheels moved by hand, a far finer grid,
// and the laws told in the headers.
#include <gtest/gtest.h>

#include <iostream>
#include <random>

#include "suspension/clearance/axle_places.h"
#include "suspension/clearance/clearance_map.h"
#include "suspension/clearance/gap_spread.h"
#include "suspension/clearance/trim.h"
#include "suspension/corners.h"
#include "suspension/geometry/independent_axle.h"
#include "suspension/geometry/linked_axle.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }

// A left wheel that rises straight up and steers about an upright axis `arm` inboard of its middle, lock 40 deg.
constexpr double arm = 0.1, lock = 40 * units::degree.si();
WheelPlaces kingpin(const V& pin) {
  return [pin](Length rise, double steer, Angle roll) -> std::optional<WheelStation> {
    const double a = steer * lock;
    const V out{-std::sin(a), std::cos(a), 0};
    return WheelStation{rise, steer, roll, {pin + V{0, 0, rise.si()} + arm * out, out}, {}};
  };
}

std::shared_ptr<const AxleMechanism> invented() {
  return std::make_shared<IndependentAxle>(IndependentPoints{corners::invented(), std::nullopt, m(0.3)});
}
WheelPlaces corner(Side side) { return wheel_places(invented(), side, m(0.04), {}, {}); }
const TyreShape big{m(0.305), m(0.215), m(0.03), m(0.003)};
PoseGrid grid_of(double low, double high, int rises = 9, int steers = 9) {
  PoseGrid g;
  g.lowest = m(low), g.highest = m(high);
  g.rises = rises, g.steers = steers;
  return g;
}
BodyFeature feature(const Solid& s, double u = 0, MovesWith moves = MovesWith::body) { return {{s}, m(u), moves}; }
const std::vector<BodyFeature> body{
    feature(Solid::point({0.30, 0.33, 0.36})), feature(Solid::edge({-0.28, 0.36, 0.5}, {-0.05, 0.40, 0.70})),
    feature(Solid::point({-0.33, 0.34, 0.25})), feature(Solid::round({-0.2, 0.22, 0.1}, {0.1, 0.25, 0.6}, m(0.03))),
    feature(Solid::box({0.34, 0.2, 0.2}, {0.6, 0.3, 0.5}))};

TEST(WheelPlaces, SteersToTheLeftAtPlusOneAndMirrors) {
  const WheelPlaces left = corner(Side::left), right = corner(Side::right);
  const auto l = left(m(0.02), 1, {}), r = right(m(0.02), -1, {});
  ASSERT_TRUE(l && r);
  EXPECT_GT(steer_angle(l->tyre, Side::left).in(units::degree), 10);
  EXPECT_NEAR(steer_angle(l->tyre, Side::left).si(), -steer_angle(r->tyre, Side::right).si(), 1e-12);
  EXPECT_NEAR(norm(l->tyre.hub_centre - mirrored(r->tyre.hub_centre)), 0, 1e-12);
  // What stands on the arm goes with it: its ball joint, and on the other side likewise.
  const auto points = corners::invented();
  const CornerLinkage<double> linkage(points);
  const V joint = linkage.pose(m(0.02), m(0.04)).lower_ball_joint;
  EXPECT_NEAR(norm(l->carrier(points.lower_arm.ball_joint) - joint), 0, 1e-12);
  EXPECT_NEAR(norm(r->carrier(mirrored(points.lower_arm.ball_joint)) - mirrored(joint)), 0, 1e-12);
  EXPECT_NEAR(norm(l->carrier(points.lower_arm.front_bush) - points.lower_arm.front_bush), 0, 1e-12);
}

TEST(WheelPlaces, LiveAxleCarriesItsParts) {
  LiveAxlePoints p;
  p.location = AxleLocation::two_trailing_arms_and_track_bar;
  p.axle_centre = {-1.9, 0, 0.22};
  p.half_track = m(0.475);
  p.links = {{{-1.48, 0.33, 0.247}, {-1.9, 0.33, 0.219}}, {{-1.48, -0.33, 0.247}, {-1.9, -0.33, 0.219}}};
  p.track_bar = {{-1.955, 0.27, 0.251}, {-1.955, -0.30, 0.236}};
  const auto axle = std::make_shared<LinkedAxle>(p);
  const WheelPlaces left = wheel_places(axle, Side::left, {}, m(-0.06), m(0.06)),
                    right = wheel_places(axle, Side::right, {}, m(-0.06), m(0.06));
  const Angle roll = 2.0 * units::degree;
  const double lift = 0.475 * std::tan(roll.si());
  const auto l = left(m(0.01 + lift), 0, roll), r = right(m(0.01 - lift), 0, roll);
  ASSERT_TRUE(l && r);
  // Both tell of one axle, whose hubs its own motion carries.
  const V hub{-1.9, 0.475, 0.22};
  EXPECT_NEAR(norm(l->carrier(hub) - l->tyre.hub_centre), 0, 1e-12);
  EXPECT_NEAR(norm(r->carrier(hub) - l->tyre.hub_centre), 0, 1e-12);
  EXPECT_NEAR(norm(r->carrier(mirrored(hub)) - r->tyre.hub_centre), 0, 1e-12);
  EXPECT_NEAR(l->tyre.hub_centre.z - 0.22, 0.01 + lift, 3e-4);
  // The other wheel would be beyond its stop.
  EXPECT_FALSE(left(m(0.05), 0, -5.0 * units::degree).has_value());
}

// The sweep finds what a far finer grid finds, on both sides.
TEST(Sweep, LeastGapOverTravelAndLock) {
  const WheelPlaces places = corner(Side::left);
  const PoseGrid grid = grid_of(-0.06, 0.06);
  const auto least = least_gaps(places, grid, big, {}, body);
  const Stations fine = stations(places, grid_of(-0.06, 0.06, 121, 81));
  EXPECT_EQ(fine.unreachable, 0);
  double worst = 0;
  for (std::size_t k = 0; k < body.size(); ++k) {
    double expected = 1e9;
    for (const auto& s : fine.at) expected = std::min(expected, tyre_gap(big, s->tyre, body[k].pieces[0]).gap.si());
    ASSERT_TRUE(least[k].found);
    worst = std::max(worst, std::abs(least[k].gap().si() - expected));
    // The pose named is the pose meant.
    const auto& at = least[k].at;
    const auto again = places(at.rise, at.steer, at.roll);
    EXPECT_NEAR(tyre_gap(big, again->tyre, body[k].pieces[0]).gap.si(), least[k].gap().si(), 1e-12);
  }
  std::cout << "worst least gap against a fine grid: " << worst << " m\n";
  EXPECT_LE(worst, 1e-4);

  std::vector<BodyFeature> other = body;
  for (BodyFeature& f : other)
    for (Solid& s : f.pieces) s.from = mirrored(s.from), s.to = mirrored(s.to);
  const auto right = least_gaps(corner(Side::right), grid, big, {}, other);
  for (std::size_t k = 0; k < body.size(); ++k) EXPECT_NEAR(right[k].gap().si(), least[k].gap().si(), 1e-6);
  EXPECT_GT(stations(places, grid_of(-0.4, 0.06)).unreachable, 0);
}

TEST(Sweep, Law1_WiderRangeNeverRaisesTheLeastGap) {
  const WheelPlaces places = corner(Side::left);
  std::vector<double> last(body.size(), 1e9);
  for (const double reach : {0.01, 0.02, 0.03, 0.045, 0.06}) {
    const auto least = least_gaps(places, grid_of(-reach, reach), big, {}, body);
    for (std::size_t k = 0; k < body.size(); ++k) {
      EXPECT_LE(least[k].gap().si(), last[k] + 1e-4);
      last[k] = least[k].gap().si();
    }
  }
}

TEST(Sweep, UncertaintyOfPointAndTyre) {
  const WheelPlaces places = kingpin({0, 0.35, 0.25});
  PoseGrid straight = grid_of(0, 0, 1, 1);
  straight.right_lock = straight.left_lock = 0;
  // Above the tread the radius counts whole, beside the wall not at all.
  const auto least =
      least_gaps(places, straight, {m(0.25), m(0.2), m(0.03)}, m(0.003),
                 {feature(Solid::point({0, 0.45, 0.56}), 0.004), feature(Solid::point({0, 0.3, 0.3}), 0.004)});
  EXPECT_NEAR(least[0].gap().si(), 0.06, 1e-12);
  EXPECT_NEAR(least[0].u.si(), 0.005, 1e-12);
  EXPECT_NEAR(least[1].gap().si(), 0.05, 1e-12);
  EXPECT_NEAR(least[1].u.si(), 0.004, 1e-12);
}

// A spring whose lower end goes with the arm stays clear where a fixed one would not.
TEST(Sweep, PartsThatMove) {
  const WheelPlaces places = corner(Side::left);
  const auto points = corners::invented();
  const Solid coil = Solid::round(points.lower_arm.ball_joint + V{0, -0.1, 0.02}, {0, 0.2, 0.6}, m(0.02));
  const auto up = places(m(0.05), 0, {});
  const V foot = up->carrier(coil.from);
  EXPECT_GT(foot.z, coil.from.z + 0.02);
  const Solid whole = moved(coil, MovesWith::carrier, up->carrier),
              far = moved({coil.kind, coil.to, coil.from, coil.radius, {}}, MovesWith::far_end, up->carrier);
  EXPECT_EQ(whole.from, foot);
  EXPECT_EQ(far.to, foot);
  EXPECT_EQ(far.from, coil.to);
  EXPECT_NEAR(norm(whole.to - whole.from), norm(coil.to - coil.from), 1e-12);
}

// A spring about a strut: its lower end goes with the knuckle, on either side, as the linkage itself says.
TEST(Sweep, PartsThatSteer) {
  std::mt19937_64 random(9);
  double worst = 0;
  for (int i = 0; i < 20; ++i) {
    auto points = corners::strut(random);
    points.damper = points.spring;
    const auto axle = std::make_shared<IndependentAxle>(IndependentPoints{points, std::nullopt, m(0.3)});
    for (const Side side : {Side::left, Side::right}) {
      const WheelPlaces places = wheel_places(axle, side, m(0.03), m(-0.05), m(0.05));
      const auto right = [&](const V& p) { return side == Side::left ? p : mirrored(p); };
      for (const double rise : {-0.04, 0.0, 0.04})
        for (const double steer : {-1.0, 0.3, 1.0}) {
          const auto at = places(m(rise), steer, {});
          if (!at) continue;
          const bool with_y = norm(places(m(rise), 1.0, {})->tyre.spin_axis -
                                   axle->side_pose(side, {m(rise), {}, m(0.03)}).wheel.spin_axis) < 1e-9;
          const auto pose = axle->side_pose(side, {m(rise), {}, m(with_y ? 0.03 * steer : -0.03 * steer)});
          const V foot = at->knuckle(right(points.damper->foot));
          worst = std::max({worst, std::abs(norm(right(points.damper->chassis) - foot) - pose.damper_length->si()),
                            norm(at->knuckle(right(points.knuckle_end)) - *pose.point("tie_rod.knuckle_end"))});
        }
    }
  }
  std::cout << "worst place of a part that steers " << worst << " m\n";
  EXPECT_LT(worst, 1e-11);
}

TEST(Map, Law1_HoldsTheLeastOfEachPose) {
  const WheelPlaces places = corner(Side::left);
  const Stations all = stations(places, grid_of(-0.06, 0.06, 11, 13));
  const ClearanceMap map = clearance_map(all, big, body);
  ASSERT_EQ(map.cells.size(), 143u);
  for (int i = 0; i < 11; ++i)
    for (int j = 0; j < 13; ++j) {
      const auto& s = all.at[static_cast<std::size_t>(i * 13 + j)];
      double least = 1e9;
      int which = -1;
      for (std::size_t k = 0; k < body.size(); ++k) {
        const double g = tyre_gap(big, s->tyre, body[k].pieces[0]).gap.si();
        if (g < least) least = g, which = static_cast<int>(k);
      }
      EXPECT_NEAR(map.cell(i, j).gap.si(), least, 1e-12);
      EXPECT_EQ(map.cell(i, j).feature, which);
    }
  // A pose beyond reach is told as such.
  const ClearanceMap far = clearance_map(stations(places, grid_of(-0.4, 0.06, 5, 3)), big, body);
  EXPECT_EQ(far.cell(0, 0).feature, -1);
}

// An upright kingpin and a point ahead at hub height, in by `in` from the pin: at steer a the tyre's square front
// inner corner reaches in by R sin(a) + (W/2) cos(a) - arm cos(a), so the stop is known in closed form.
TEST(SteerStop, ClosedFormOfAFlatWall) {
  const V pin{0, 0.35, 0.25};
  const double R = 0.25, W = 0.18, wanted = 0.017;
  const TyreShape square{m(R), m(W), {}};
  // A wall inboard, straight along the cart, at hub height: a long edge.
  const double wall = 0.35 - 0.14;
  const std::vector<BodyFeature> rail{feature(Solid::edge({-1, wall, 0.25}, {1, wall, 0.25}))};
  const SteerStop stop = steer_stop(kingpin(pin), grid_of(0, 0, 1, 1), square, rail, m(wanted), Side::left, true);
  // The inner edge of the tyre is at pin + (arm - W/2) cos a - R sin a.
  const auto reach = [&](double a) { return (arm - W / 2) * std::cos(a) - R * std::sin(a) + 0.14; };
  double low = 0, high = lock;
  for (int i = 0; i < 60; ++i) (reach(0.5 * (low + high)) > wanted ? low : high) = 0.5 * (low + high);
  EXPECT_FALSE(stop.whole);
  EXPECT_EQ(stop.feature, 0);
  EXPECT_NEAR(stop.angle.si(), low, 1e-4);
  // The pose that is told beyond it comes too near by next to nothing.
  const double there = gap_at(kingpin(pin), stop.at, square, rail[0])->si();
  EXPECT_LT(there, wanted);
  EXPECT_GT(there, wanted - 1e-4);
  std::cout << "worst steer stop against its closed form: " << std::abs(stop.angle.si() - low) / units::degree.si()
            << " deg\n";
  // A wall further off is never reached; one too near is not cured.
  EXPECT_TRUE(steer_stop(kingpin(pin), grid_of(0, 0, 1, 1), square, rail, m(-0.2), Side::left, true).whole);
  EXPECT_TRUE(steer_stop(kingpin(pin), grid_of(0, 0, 1, 1), square, rail, m(0.2), Side::left, true).no_help);
}

// A flat roof over the tread: the radius that keeps the gap is what is left.
TEST(LargestTyre, ClosedFormsAndLaw2) {
  const WheelPlaces places = kingpin({0, 0.35, 0.25});
  const std::vector<BodyFeature> roof{feature(Solid::box({-1, -1, 0.6}, {1, 1, 0.7}))};
  const Stations all = stations(places, grid_of(-0.05, 0.05, 3, 3));
  const TyreOfSize plain = [](Length r, Length w) { return TyreShape{r, w, 0.1 * w, 0.01 * r}; };
  const auto r = largest_radius(all, plain, m(0.2), {m(0.1), m(0.4)}, roof, m(0.015));
  ASSERT_TRUE(r);
  EXPECT_NEAR(r->si() * 1.01, 0.6 - 0.3 - 0.015, 2e-5);
  const std::vector<BodyFeature> wall{feature(Solid::box({-1, 0.0, 0}, {1, 0.3, 0.5}))};
  PoseGrid straight = grid_of(-0.05, 0.05, 3, 1);
  straight.right_lock = straight.left_lock = 0;
  const Stations ahead = stations(places, straight);
  const auto w = widest(ahead, plain, m(0.25), {m(0.05), m(0.4)}, wall, m(0.015));
  ASSERT_TRUE(w);
  EXPECT_NEAR(w->si(), 2 * (0.45 - 0.3 - 0.015), 2e-5);
  EXPECT_FALSE(largest_radius(all, plain, m(0.2), {m(0.3), m(0.4)}, roof, m(0.015)));
  // At the largest tyre of a real sweep the least gap is the wanted one.
  const Stations real = stations(corner(Side::left), grid_of(-0.06, 0.06));
  const auto best = largest_radius(real, plain, m(0.2), {m(0.15), m(0.5)}, body, m(0.015));
  ASSERT_TRUE(best);
  double least = 1e9;
  for (const MapCell& c : clearance_map(real, plain(*best, m(0.2)), body).cells) least = std::min(least, c.gap.si());
  EXPECT_NEAR(least, 0.015, 2e-5);
}

// A wheel that only rises, straight ahead, beside a panel in its own plane: what must go lies within the circle of the
// tread's radius plus the gap about the raised hub.
Lip arch(double y, double radius, double z0, int parts = 16) {
  Lip lip;
  for (int i = 0; i <= parts; ++i) {
    const double a = M_PI * (0.05 + 0.9 * i / parts);
    lip.points.push_back({radius * std::cos(a), y, z0 + radius * std::sin(a)});
  }
  return lip;
}
TEST(Trim, ClosedFormOfAnArch) {
  const TyreShape square{m(0.25), m(0.2), {}};
  PoseGrid straight = grid_of(-0.04, 0.06, 11, 1);
  straight.right_lock = straight.left_lock = 0;
  const WheelPlaces places = kingpin({0, 0.35, 0.25});
  const Lip lip = arch(0.45, 0.29, 0.25, 64);
  const Trim t = trim_line(places, straight, square, lip, {m(0.02)});
  ASSERT_EQ(t.status, TrimStatus::ok);
  EXPECT_NEAR(t.out_of_plane.si(), 0, 1e-12);
  double worst = 0;
  for (const TrimRay& r : t.rays) {
    const V at = t.panel.place(r.cut_x(), r.cut_y());
    const double off = std::hypot(at.x, at.z - 0.31);  // from the hub at full bump
    if (r.cut.si() > 0)
      worst = std::max(worst, std::abs(off - 0.27));
    else
      EXPECT_GE(off, 0.27 - 1e-6);
  }
  std::cout << "worst cut against its closed form: " << worst << " m\n";
  EXPECT_LE(worst, 2e-6);
  EXPECT_NEAR(t.deepest.si(), 0.04, 1e-3);
}

TEST(Trim, Laws1And2_OnARealSweep) {
  const WheelPlaces places = corner(Side::left);
  const PoseGrid grid = grid_of(-0.06, 0.06, 9, 17);
  const Lip lip = arch(0.47, 0.33, 0.31);
  const Trim t = trim_line(places, grid, big, lip, {m(0.015)}), less = trim_line(places, grid, big, lip, {m(0.010)});
  ASSERT_EQ(t.status, TrimStatus::ok);
  ASSERT_TRUE(t.needed());
  const Stations fine = stations(places, grid_of(-0.06, 0.06, 41, 81));
  double least = 1e9;
  for (std::size_t i = 0; i < t.rays.size(); ++i) {
    const TrimRay& r = t.rays[i];
    EXPECT_FALSE(r.beyond);
    EXPECT_LE(less.rays[i].cut.si(), r.cut.si() + 1e-6);
    for (const double further : {0.0, 0.01, 0.03})
      for (const auto& s : fine.at)
        least = std::min(least,
                         PlacedTyre(big, s->tyre)
                             .gap_m(t.panel.place(r.cut_x() + further * r.inward_x, r.cut_y() + further * r.inward_y)));
  }
  std::cout << "worst gap left by a cut for 15 mm: " << least << " m\n";
  EXPECT_GE(least, 0.015 - 5e-5);
  EXPECT_LE(least, 0.015 + 1e-4);  // and no more than that was cut
  // Points of one line tell no panel; one more point of it does.
  Lip straight{{{-0.2, 0.47, 0.6}, {0, 0.47, 0.6}, {0.2, 0.47, 0.6}}, std::nullopt};
  EXPECT_EQ(trim_line(places, grid, big, straight, {m(0.015)}).status, TrimStatus::no_plane);
  straight.on_panel = V{0, 0.47, 0.8};
  EXPECT_EQ(trim_line(places, grid, big, straight, {m(0.015)}).status, TrimStatus::ok);
}

}  // namespace
}  // namespace trammel::suspension
