// Many poses of one side at once: what corner_linkage.h and wheel_geometry.h say, several lanes of a processor wide.
//
// The kernels are the same text as for one pose, with a scalar of 4 (AVX2 with FMA) or 8 (AVX-512) lanes; each set of
// instructions has a source file of its own and the one to use is chosen when the program runs. Where a lane is
// uncomfortable (a reach below 0.02, an arm turned beyond 40 degrees) its block is done again one pose at a time by the
// plain kernel, so that outcomes and branches are the plain ones.
// Frame: the left wheel's, a right one as its mirror image. Error: 1e-12 (m, rad) against the plain kernel.
//
// A sampled sweep: every coordinate of every point off by a normal deviate of its own u, each sample taken through all
// poses, each output of each pose counted in bins between `low` and `high`. What is kept does not grow with the
// samples; counts of parts add up, so that a caller may share out the samples among threads in any way and get the same
// numbers. Deviates: sample i's k-th is a hash of (seed, i, k) through Box and Muller. Error of a quantile: a bin's
// width.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "suspension/geometry/wheel_geometry.h"
#include "suspension/linkage/corner_linkage.h"

namespace trammel::suspension {

enum class Instructions { plain, avx2, avx512 };
Instructions best_instructions();  // of this processor, as far as this build has them
int lanes(Instructions set);

// What is read from a pose, in SI: the places of an output's row.
enum class Output {
  camber,
  toe,
  caster,
  steering_axis_inclination,
  steering_axis_offset_at_ground,
  caster_trail,
  half_track,
  roll_centre_height,
  camber_rate,
  toe_rate,
  motion_ratio
};
inline constexpr int outputs = 11;
using OutputRow = std::array<double, outputs>;  // by Output
OutputRow row(const WheelGeometry<double>& g);

struct CornerCoordinates {
  Length rise{}, rack{};
};

// One row a pose; `reached` is false where there is none.
struct ManyPoses {
  std::vector<OutputRow> rows;
  std::vector<char> reached;
};
ManyPoses many_poses(const CornerPoints<double>& points, Length loaded_radius, std::span<const CornerCoordinates> poses,
                     Instructions set = best_instructions());

// First-order spread of every output of every pose (JCGM 100:2008 5.1.2), by central differences over u / 10. `u`: one
// a point, in the order of each_point().
std::vector<OutputRow> linear_spread(const CornerPoints<double>& points, std::span<const Length> u,
                                     Length loaded_radius, std::span<const CornerCoordinates> poses,
                                     Instructions set = best_instructions());

struct SampledSweep {
  CornerPoints<double> points;
  std::vector<Length> u;  // one a point, in the order of each_point()
  Length loaded_radius{};
  std::vector<CornerCoordinates> poses;
  std::vector<OutputRow> low, high;  // the bins' ends, one row a pose
  std::uint64_t seed = 0;
};
// Ends at eight times the linear spread about the nominal outputs.
SampledSweep sampled_sweep(const CornerPoints<double>& points, std::vector<Length> u, Length loaded_radius,
                           std::vector<CornerCoordinates> poses, std::uint64_t seed);

class SweepTally {
 public:
  explicit SweepTally(const SampledSweep& sweep);
  // Samples first <= i < last.
  void take(const SampledSweep& sweep, std::int64_t first, std::int64_t last, Instructions set = best_instructions());
  void add(const SweepTally& other);
  // Of one output at one pose; the share is of the samples that reached it. Beyond the bins: their end.
  double quantile(const SampledSweep& sweep, int pose, Output output, double share) const;
  std::int64_t missed(int pose) const { return missed_[pose]; }

 private:
  static constexpr int bins = 1024;
  std::vector<std::uint32_t> counts_;  // [pose][output][bin]
  std::vector<std::int64_t> missed_;
};

}  // namespace trammel::suspension
