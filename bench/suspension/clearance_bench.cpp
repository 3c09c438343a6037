// A clearance map: 41 x 41 poses of rise and steer against 200 points of the body, both sides, on one core, the poses
// made anew each time; the same with 200 edges and three rolls; the gap of a round part and a box. The peer is FCL:
// the core of the same tyre against the same points (balls of 1 mm) on every 40th pose and both sides, told per gap.
#include <benchmark/benchmark.h>
#include <fcl/narrowphase/distance.h>

#include <random>

#include "suspension/clearance/axle_places.h"
#include "suspension/clearance/clearance_map.h"
#include "suspension/corners.h"
#include "suspension/geometry/independent_axle.h"

namespace {

using namespace trammel;
using namespace trammel::suspension;
using V = Vector3<double>;

Length m(double si) { return Length::from_si(si); }
const TyreShape tyre{m(0.305), m(0.215), m(0.03), m(0.003)};

PoseGrid grid(int rolls) {
  PoseGrid g;
  g.lowest = m(-0.06), g.highest = m(0.06);
  g.rises = g.steers = 41;
  g.rolls = rolls;
  g.roll = 3.0 * units::degree;
  return g;
}

// Places of a wheel arch and of a footwell about the wheel, drawn by a seed, none inside the tyre at rest.
std::vector<V> places_about(int count) {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> x(-0.5, 0.5), y(0.15, 0.65), z(0.1, 0.8);
  const PlacedTyre at_rest(tyre, {{0, 0.45948, 0.29999}, {0, 1, 0}});
  std::vector<V> all;
  while (static_cast<int>(all.size()) < count)
    if (const V p{x(random), y(random), z(random)}; at_rest.gap_m(p) > 0.02) all.push_back(p);
  return all;
}
std::vector<BodyFeature> features(bool edges) {
  std::vector<BodyFeature> all;
  const std::vector<V> at = places_about(200);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const V along = at[(i + 1) % at.size()] - at[i];
    const Solid s = edges ? Solid::edge(at[i], at[i] + 0.1 * unit(along)) : Solid::point(at[i]);
    all.push_back({{s}, {}, MovesWith::body});
  }
  return all;
}

void map_of_both_sides(benchmark::State& state, bool edges, int rolls) {
  const auto axle = std::make_shared<IndependentAxle>(IndependentPoints{corners::invented(), std::nullopt, m(0.3)});
  std::vector<BodyFeature> left = features(edges), right = left;
  for (BodyFeature& f : right)
    for (Solid& s : f.pieces) s.from = mirrored(s.from), s.to = mirrored(s.to);
  double sum = 0;
  for (auto _ : state)
    for (const Side side : {Side::left, Side::right}) {
      const Stations all = stations(wheel_places(axle, side, m(0.04), {}, {}), grid(rolls));
      const ClearanceMap map = clearance_map(all, tyre, side == Side::left ? left : right);
      for (const MapCell& c : map.cells) sum += c.gap.si() + c.feature;
    }
  benchmark::DoNotOptimize(sum);
}
void map_41x41_200_points(benchmark::State& state) { map_of_both_sides(state, false, 1); }
void map_41x41_200_edges_3_rolls(benchmark::State& state) { map_of_both_sides(state, true, 3); }
BENCHMARK(map_41x41_200_points)->Unit(benchmark::kMillisecond);
BENCHMARK(map_41x41_200_edges_3_rolls)->Unit(benchmark::kMillisecond);

void map_gap_of_a_point_by_fcl(benchmark::State& state) {
  const auto axle = std::make_shared<IndependentAxle>(IndependentPoints{corners::invented(), std::nullopt, m(0.3)});
  const Stations all = stations(wheel_places(axle, Side::left, m(0.04), {}, {}), grid(1));
  const auto core = std::make_shared<fcl::Cylinderd>(tyre.radius.si() + tyre.growth.si() - tyre.shoulder_radius.si(),
                                                     tyre.width.si() - 2 * tyre.shoulder_radius.si());
  std::vector<fcl::CollisionObjectd> balls;
  for (const V& p : places_about(200)) {
    fcl::Transform3d at = fcl::Transform3d::Identity();
    at.translation() = Eigen::Vector3d(p.x, p.y, p.z);
    balls.emplace_back(std::make_shared<fcl::Sphered>(1e-3), at);
  }
  double sum = 0;
  std::size_t pose = 0, ball = 0;
  for (auto _ : state) {
    const TyrePlace& t = all.at[pose]->tyre;
    fcl::Transform3d at = fcl::Transform3d::Identity();
    at.linear() = Eigen::Quaterniond::FromTwoVectors(Eigen::Vector3d::UnitZ(),
                                                     Eigen::Vector3d(t.spin_axis.x, t.spin_axis.y, t.spin_axis.z))
                      .toRotationMatrix();
    at.translation() = Eigen::Vector3d(t.hub_centre.x, t.hub_centre.y, t.hub_centre.z);
    const fcl::CollisionObjectd wheel(core, at);
    fcl::DistanceRequestd request;
    fcl::DistanceResultd result;
    fcl::distance(&wheel, &balls[ball], request, result);
    sum += result.min_distance;
    if (++ball == balls.size()) ball = 0, pose = (pose + 40) % all.at.size();
  }
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(map_gap_of_a_point_by_fcl);

void gap_of_a_part(benchmark::State& state) {
  const PlacedTyre placed(tyre, {{0, 0.46, 0.3}, {0.1, 0.99, -0.02}});
  const Solid parts[] = {Solid::round({-0.1, 0.2, 0.2}, {0, 0.25, 0.6}, m(0.05)),
                         Solid::box({0.35, 0.2, 0.2}, {0.6, 0.3, 0.5})};
  double sum = 0;
  int i = 0;
  for (auto _ : state) sum += placed.gap(parts[i ^= 1]).gap.si();
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(gap_of_a_part);

}  // namespace
