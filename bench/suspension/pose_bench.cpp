// One pose of one side of a double wishbone, cold, with all that is read from it; the peer is Simbody's lockAt +
// projectQ with a secant on the arm's angle, from the fitted pose, on the same poses of the same cart.
// The poses: 64 of rise -60..60 mm with rack -30..30 mm on the invented cart of the file format.
#include <benchmark/benchmark.h>

#include <thread>

#include "suspension/clearance/tyre_gap.h"
#include "suspension/corners.h"
#include "suspension/geometry/many_poses.h"
#include "suspension/geometry/wheel_geometry.h"
#include "suspension/linkage/live_axle.h"
#include "suspension/multibody_witness.h"
#include "suspension/plain_newton.h"

namespace {

using namespace trammel;
using namespace trammel::suspension;

constexpr int poses = 64;
double rise_of(int i) { return -0.06 + 0.12 * (i % 8) / 7; }
double rack_of(int i) { return -0.03 + 0.06 * (i / 8) / 7; }

// Folds every output in, so that none is left out of the work.
double folded(const CornerPose<double>& p, const WheelGeometry<double>& g) {
  return p.lower_ball_joint.z + p.upper_ball_joint.y + p.knuckle_end.x + p.hub_centre.y + g.camber.si() + g.toe.si() +
         g.caster.si() + g.steering_axis_inclination.si() + g.steering_axis_offset_at_ground.si() +
         g.caster_trail.si() + g.half_track.si() + g.roll_centre_height.si() + g.camber_rate.si() + g.toe_rate.si() +
         g.motion_ratio;
}

void one_pose(benchmark::State& state) {
  const CornerLinkage<double> linkage(corners::invented());
  int i = 0;
  double sum = 0;
  for (auto _ : state) {
    const auto p = linkage.pose(Length::from_si(rise_of(i)), Length::from_si(rack_of(i)));
    sum += folded(p, wheel_geometry(p.wheel(), p.per_rise, Length::from_si(0.3), p.spring_per_rise));
    i = (i + 1) % poses;
  }
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(one_pose);

// The same by a plain Newton in Eigen.
void one_pose_plain_newton(benchmark::State& state) {
  const plain::Newton newton(corners::invented());
  int i = 0;
  double sum = 0;
  for (auto _ : state) {
    WheelPose<double> wheel;
    Twist<double> per_rise;
    if (!newton.pose(rise_of(i), rack_of(i), wheel, per_rise)) state.SkipWithError("did not settle");
    const auto g = wheel_geometry(wheel, per_rise, Length::from_si(0.3));
    for (const double x : row(g)) sum += x;
    i = (i + 1) % poses;
  }
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(one_pose_plain_newton);

// Lanes: 0 one at a time, 1 AVX2, 2 AVX-512; time is per pose.
void many_poses_at_once(benchmark::State& state) {
  const auto set = static_cast<Instructions>(state.range(0));
  if (set > best_instructions()) return state.SkipWithError("this processor has no such instructions");
  const CornerPoints<double> p = corners::invented();
  constexpr int count = 16384;
  std::vector<CornerCoordinates> at;
  for (int i = 0; i < count; ++i)
    at.push_back({Length::from_si(rise_of(i % poses)), Length::from_si(rack_of(i % poses))});
  double sum = 0;
  for (auto _ : state) {
    const ManyPoses many = many_poses(p, Length::from_si(0.3), at, set);
    sum += many.rows[count / 3][1];
  }
  benchmark::DoNotOptimize(sum);
  state.counters["a_pose"] =
      benchmark::Counter(count, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(many_poses_at_once)->Arg(0)->Arg(1)->Arg(2)->UseRealTime();

// 10,000 samples of a sweep of 25 poses, medians and 95 % bands of every output; threads as told.
void sampled_sweep_10000(benchmark::State& state) {
  const CornerPoints<double> p = corners::invented();
  std::vector<Length> u;
  each_point(p, [&](CornerPoint, const Vector3<double>&) { u.push_back(Length::from_si(0.003)); });
  std::vector<CornerCoordinates> at;
  for (int i = 0; i < 25; ++i) at.push_back({Length::from_si(-0.06 + 0.005 * i), {}});
  const int threads = static_cast<int>(state.range(0));
  double sum = 0;
  for (auto _ : state) {
    const SampledSweep sweep = sampled_sweep(p, u, Length::from_si(0.3), at, 1);
    std::vector<SweepTally> parts(threads, SweepTally(sweep));
    std::vector<std::thread> running;
    for (int t = 0; t < threads; ++t)
      running.emplace_back([&, t] { parts[t].take(sweep, 10000 * t / threads, 10000 * (t + 1) / threads); });
    for (std::thread& t : running) t.join();
    for (int t = 1; t < threads; ++t) parts[0].add(parts[t]);
    for (int i = 0; i < 25; ++i)
      for (int k = 0; k < outputs; ++k)
        for (const double share : {0.025, 0.5, 0.975})
          sum += parts[0].quantile(sweep, i, static_cast<Output>(k), share);
  }
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(sampled_sweep_10000)->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

void one_pose_by_simbody(benchmark::State& state) {
  const CornerPoints<double> p = corners::invented();
  const auto plain = [](const Vector3<double>& v) { return witness::Point{v.x, v.y, v.z}; };
  witness::Wishbone other({plain(p.lower_arm.front_bush), plain(p.lower_arm.rear_bush), plain(p.lower_arm.ball_joint),
                           plain(p.upper_arm.front_bush), plain(p.upper_arm.rear_bush), plain(p.upper_arm.ball_joint),
                           plain(p.rack_end), plain(p.knuckle_end), plain(p.hub_centre)});
  int i = 0;
  double sum = 0;
  for (auto _ : state) {
    other.start();
    const witness::CornerPose w = other.at_rise(rise_of(i), rack_of(i), 1e-10);
    if (!w.ok) state.SkipWithError("the peer found no pose");
    sum += w.hub[1] + w.knuckle_end[0];
    i = (i + 1) % poses;
  }
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(one_pose_by_simbody)->Unit(benchmark::kMicrosecond);

void fit_one_side(benchmark::State& state) {
  const CornerPoints<double> p = corners::invented();
  for (auto _ : state) {
    CornerLinkage<double> linkage(p);
    benchmark::DoNotOptimize(linkage);
  }
}
BENCHMARK(fit_one_side);

void adjuster_rates_at_a_pose(benchmark::State& state) {
  const CornerLinkage<double> linkage(corners::invented());
  const auto p = linkage.pose(Length::from_si(0.02));
  for (auto _ : state) {
    auto t = linkage.twists(p, Held::wheel);
    benchmark::DoNotOptimize(t);
  }
}
BENCHMARK(adjuster_rates_at_a_pose);

void pose_beyond_reach(benchmark::State& state) {
  const CornerLinkage<double> linkage(corners::invented());
  for (auto _ : state) {
    auto p = linkage.pose(Length::from_si(-0.4));
    benchmark::DoNotOptimize(p);
  }
}
BENCHMARK(pose_beyond_reach);

void gap_of_a_point(benchmark::State& state) {
  const TyreShape tyre{Length::from_si(0.25), Length::from_si(0.2), Length::from_si(0.03)};
  const TyrePlace place{{0, 0.46, 0.25}, {0.02, 0.9996, -0.02}};
  double x = 0, sum = 0;
  for (auto _ : state) {
    x = x < 0.3 ? x + 0.001 : 0;
    sum += tyre_gap(tyre, place, Vector3<double>{x, 0.4, 0.55}).gap.si();
  }
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(gap_of_a_point);

void live_axle_four_links(benchmark::State& state) {
  LiveAxlePoints p;
  p.location = AxleLocation::four_links_and_track_bar;
  p.axle_centre = {-1.855, 0, 0.26};
  p.half_track = Length::from_si(0.47);
  p.links = {{{-1.35, 0.35, 0.28}, {-1.83, 0.35, 0.22}},
             {{-1.35, -0.35, 0.28}, {-1.83, -0.35, 0.22}},
             {{-1.45, 0.25, 0.42}, {-1.82, 0.25, 0.38}},
             {{-1.45, -0.25, 0.42}, {-1.82, -0.25, 0.38}}};
  p.track_bar = {{-1.92, 0.32, 0.33}, {-1.92, -0.33, 0.30}};
  for (auto _ : state) {
    auto a = live_axle_pose(p, Length::from_si(0.04), Angle::from_si(0.05));
    benchmark::DoNotOptimize(a);
  }
}
BENCHMARK(live_axle_four_links)->Unit(benchmark::kMicrosecond);

}  // namespace
