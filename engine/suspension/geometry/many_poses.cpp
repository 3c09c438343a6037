#include "suspension/geometry/many_poses.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "suspension/geometry/lanes.h"

namespace trammel::suspension {
namespace {

static_assert(outputs == outputs_a_row);

std::vector<double> coordinates(const CornerPoints<double>& points) {
  std::vector<double> all;
  each_point(points, [&](CornerPoint, const Vector3<double>& at) {
    for (const double x : {at.x, at.y, at.z}) all.push_back(x);
  });
  return all;
}
CornerPoints<double> with_coordinates(CornerPoints<double> points, const double* next, int stride) {
  each_point(points, [&](CornerPoint, Vector3<double>& at) {
    for (double* x : {&at.x, &at.y, &at.z}) {
      *x = *next;
      next += stride;
    }
  });
  return points;
}

bool plain_row(const CornerLinkage<double>& linkage, double radius, double rise, double rack, OutputRow& out) {
  const auto pose = linkage.pose(Length::from_si(rise), Length::from_si(rack));
  if (!pose.outcome.ok()) return false;
  out = row(wheel_geometry(pose.wheel(), pose.per_rise, Length::from_si(radius), pose.spring_per_rise));
  return true;
}

void run(Instructions set, const Block& block) {
#ifdef TRAMMEL_LANES
  if (set == Instructions::avx512) return block_avx512(block);
  if (set == Instructions::avx2) return block_avx2(block);
#else
  static_cast<void>(set);
#endif
  std::fill_n(block.good, block.rows, false);
}

// A normal deviate that depends on nothing but its three numbers.
std::uint64_t mixed(std::uint64_t x) {  // splitmix64, Steele, Lea & Flood, OOPSLA 2014
  x += 0x9e3779b97f4a7c15ull;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ull;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebull;
  return x ^ (x >> 31);
}
// Two at a time.
std::array<double, 2> deviates(std::uint64_t seed, std::int64_t sample, int pair) {
  const std::uint64_t a =
      mixed(mixed(seed ^ mixed(static_cast<std::uint64_t>(sample))) + static_cast<std::uint64_t>(pair));
  const std::uint64_t b = mixed(a);
  const double u = (static_cast<double>(a >> 11) + 0.5) * 0x1p-53, v = static_cast<double>(b >> 11) * 0x1p-53;
  const double r = std::sqrt(-2.0 * std::log(u)), t = 2.0 * std::numbers::pi * v;
  return {r * std::cos(t), r * std::sin(t)};
}

}  // namespace

Instructions best_instructions() {
#ifdef TRAMMEL_LANES
  static const Instructions best =
      __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("fma") ? Instructions::avx512
      : __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma")  ? Instructions::avx2
                                                                         : Instructions::plain;
  return best;
#else
  return Instructions::plain;
#endif
}
int lanes(Instructions set) { return set == Instructions::avx512 ? 8 : set == Instructions::avx2 ? 4 : 1; }

OutputRow row(const WheelGeometry<double>& g) {
  return {g.camber.si(),
          g.toe.si(),
          g.caster.si(),
          g.steering_axis_inclination.si(),
          g.steering_axis_offset_at_ground.si(),
          g.caster_trail.si(),
          g.half_track.si(),
          g.roll_centre_height.si(),
          g.camber_rate.si(),
          g.toe_rate.si(),
          g.motion_ratio};
}

ManyPoses many_poses(const CornerPoints<double>& points, Length loaded_radius, std::span<const CornerCoordinates> poses,
                     Instructions set) {
  const std::size_t n = poses.size();
  ManyPoses result{std::vector<OutputRow>(n), std::vector<char>(n, 0)};
  const CornerLinkage<double> linkage(points);
  const int width = lanes(set);
  const auto one = [&](std::size_t i) {
    result.reached[i] = plain_row(linkage, loaded_radius.si(), poses[i].rise.si(), poses[i].rack.si(), result.rows[i]);
  };
  if (width == 1) {
    for (std::size_t i = 0; i < n; ++i) one(i);
    return result;
  }

  // Every lane has the same points. The poses are dealt out to the lanes, a few rows of them at a time so that what is
  // worked on stays near; the last pose fills up the last row.
  constexpr std::size_t most_rows = 128;
  const std::size_t rows = std::min(most_rows, (n + width - 1) / width);
  std::vector<double> spread, rises(rows * width), racks(rows * width), out(rows * width * outputs);
  for (const double x : coordinates(points)) spread.insert(spread.end(), width, x);
  const auto good = std::make_unique<bool[]>(rows);
  for (std::size_t first = 0; first < n; first += rows * width) {
    const std::size_t here = std::min(rows * width, n - first), used = (here + width - 1) / width;
    for (std::size_t i = 0; i < used * width; ++i) {
      const CornerCoordinates& at = poses[first + std::min(i, here - 1)];
      rises[i] = at.rise.si();
      racks[i] = at.rack.si();
    }
    run(set, {&points, spread.data(), rises.data(), racks.data(), static_cast<int>(used), loaded_radius.si(),
              out.data(), good.get()});
    for (std::size_t i = 0; i < here; ++i) {
      const std::size_t r = i / width, lane = i % width;
      if (!good[r]) {
        one(first + i);
        continue;
      }
      for (int k = 0; k < outputs; ++k) result.rows[first + i][k] = out[(r * outputs + k) * width + lane];
      result.reached[first + i] = 1;
    }
  }
  return result;
}

std::vector<OutputRow> linear_spread(const CornerPoints<double>& points, std::span<const Length> u,
                                     Length loaded_radius, std::span<const CornerCoordinates> poses, Instructions set) {
  std::vector<OutputRow> sum(poses.size(), OutputRow{});
  std::vector<double> at = coordinates(points);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double step = 0.1 * u[i / 3].si();
    if (!(step > 0.0)) continue;
    const double was = at[i];
    at[i] = was + step;
    const ManyPoses above = many_poses(with_coordinates(points, at.data(), 1), loaded_radius, poses, set);
    at[i] = was - step;
    const ManyPoses below = many_poses(with_coordinates(points, at.data(), 1), loaded_radius, poses, set);
    at[i] = was;
    for (std::size_t p = 0; p < poses.size(); ++p)
      for (int k = 0; above.reached[p] && below.reached[p] && k < outputs; ++k) {
        const double change = 5.0 * (above.rows[p][k] - below.rows[p][k]);
        sum[p][k] += change * change;
      }
  }
  for (OutputRow& r : sum)
    for (double& x : r) x = std::sqrt(x);
  return sum;
}

SampledSweep sampled_sweep(const CornerPoints<double>& points, std::vector<Length> u, Length loaded_radius,
                           std::vector<CornerCoordinates> poses, std::uint64_t seed) {
  constexpr double wide = 8.0;
  SampledSweep s{points, std::move(u), loaded_radius, std::move(poses), {}, {}, seed};
  const ManyPoses nominal = many_poses(points, loaded_radius, s.poses);
  const std::vector<OutputRow> spread = linear_spread(points, s.u, loaded_radius, s.poses);
  s.low = s.high = nominal.rows;
  for (std::size_t p = 0; p < s.poses.size(); ++p)
    for (int k = 0; k < outputs; ++k) {
      const double half = std::max(wide * spread[p][k], 1e-12);
      s.low[p][k] -= half;
      s.high[p][k] += half;
    }
  return s;
}

SweepTally::SweepTally(const SampledSweep& sweep)
    : counts_(sweep.poses.size() * outputs * bins, 0), missed_(sweep.poses.size(), 0) {}

void SweepTally::take(const SampledSweep& sweep, std::int64_t first, std::int64_t last, Instructions set) {
  const int width = lanes(set), poses = static_cast<int>(sweep.poses.size());
  const std::vector<double> nominal = coordinates(sweep.points);
  std::vector<double> points(nominal.size() * width), rises(poses * width), racks(poses * width);
  std::vector<double> out(static_cast<std::size_t>(poses) * outputs * width);
  std::vector<OutputRow> scale(poses);
  for (int p = 0; p < poses; ++p) {
    std::fill_n(rises.begin() + p * width, width, sweep.poses[p].rise.si());
    std::fill_n(racks.begin() + p * width, width, sweep.poses[p].rack.si());
    for (int k = 0; k < outputs; ++k) scale[p][k] = bins / (sweep.high[p][k] - sweep.low[p][k]);
  }
  const auto good = std::make_unique<bool[]>(poses);
  const auto count = [&](int pose, int k, double value) {
    const double place = (value - sweep.low[pose][k]) * scale[pose][k];
    const int bin = place > 0.0 ? place < bins ? static_cast<int>(place) : bins - 1 : 0;
    ++counts_[(static_cast<std::size_t>(pose) * outputs + k) * bins + bin];
  };

  for (std::int64_t sample = first; sample < last; sample += width) {
    const int here = static_cast<int>(std::min<std::int64_t>(width, last - sample));
    for (int lane = 0; lane < width; ++lane)
      for (std::size_t i = 0; i < nominal.size(); i += 2) {
        const auto d = deviates(sweep.seed, sample + std::min(lane, here - 1), static_cast<int>(i / 2));
        points[i * width + lane] = nominal[i] + sweep.u[i / 3].si() * d[0];
        if (i + 1 < nominal.size()) points[(i + 1) * width + lane] = nominal[i + 1] + sweep.u[(i + 1) / 3].si() * d[1];
      }
    run(set, {&sweep.points, points.data(), rises.data(), racks.data(), poses, sweep.loaded_radius.si(), out.data(),
              good.get()});
    for (int p = 0; p < poses; ++p)
      if (good[p])
        for (int k = 0; k < outputs; ++k)
          for (int lane = 0; lane < here; ++lane)
            count(p, k, out[(static_cast<std::size_t>(p) * outputs + k) * width + lane]);
    if (std::all_of(good.get(), good.get() + poses, [](bool b) { return b; })) continue;

    // What was not comfortable, one lane at a time.
    for (int lane = 0; lane < here; ++lane) {
      const CornerLinkage<double> linkage(with_coordinates(sweep.points, points.data() + lane, width));
      OutputRow r;
      for (int p = 0; p < poses; ++p) {
        if (good[p]) continue;
        if (!plain_row(linkage, sweep.loaded_radius.si(), sweep.poses[p].rise.si(), sweep.poses[p].rack.si(), r))
          ++missed_[p];
        else
          for (int k = 0; k < outputs; ++k) count(p, k, r[k]);
      }
    }
  }
}

void SweepTally::add(const SweepTally& other) {
  for (std::size_t i = 0; i < counts_.size(); ++i) counts_[i] += other.counts_[i];
  for (std::size_t i = 0; i < missed_.size(); ++i) missed_[i] += other.missed_[i];
}

double SweepTally::quantile(const SampledSweep& sweep, int pose, Output output, double share) const {
  const int k = static_cast<int>(output);
  const std::uint32_t* counts = counts_.data() + (static_cast<std::size_t>(pose) * outputs + k) * bins;
  std::int64_t total = 0;
  for (int i = 0; i < bins; ++i) total += counts[i];
  const double wanted = share * static_cast<double>(total);
  double below = 0.0;
  for (int i = 0; i < bins; ++i) {
    if (below + counts[i] >= wanted && counts[i] > 0)
      return sweep.low[pose][k] +
             (sweep.high[pose][k] - sweep.low[pose][k]) * (i + (wanted - below) / counts[i]) / bins;
    below += counts[i];
  }
  return sweep.high[pose][k];
}

}  // namespace trammel::suspension
