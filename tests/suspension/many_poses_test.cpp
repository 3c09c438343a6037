// Poses several lanes wide against the plain kernel, and sampled sweeps against a plain sort and the linear spread.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>

#include "suspension/corners.h"
#include "suspension/geometry/many_poses.h"

namespace trammel::suspension {
namespace {

Length m(double si) { return Length::from_si(si); }
const Length radius = m(0.3);

std::vector<Instructions> sets() {
  std::vector<Instructions> all{Instructions::plain};
  if (best_instructions() != Instructions::plain) all.push_back(Instructions::avx2);
  if (best_instructions() == Instructions::avx512) all.push_back(Instructions::avx512);
  return all;
}
std::vector<CornerCoordinates> poses(const CornerPoints<double>& p) {
  std::vector<CornerCoordinates> all;
  for (int i = 0; i < 25; ++i) all.push_back({m(-0.06 + 0.005 * i), m(p.steered ? 0.02 * std::sin(i) : 0)});
  return all;
}
std::vector<Length> even_u(const CornerPoints<double>& p, double u) {
  std::vector<Length> all;
  each_point(p, [&](CornerPoint, const Vector3<double>&) { all.push_back(m(u)); });
  return all;
}

TEST(ManyPoses, EqualThePlainOnes) {
  std::mt19937_64 random(31);
  for (const Instructions set : sets()) {
    double worst = 0;
    int compared = 0;
    for (int n = 0; n < 40; ++n)
      for (const auto& p : {corners::random(random), corners::strut(random), corners::swing_axle(random),
                            corners::trailing_arm(random)}) {
        const auto at = poses(p);
        const ManyPoses plain = many_poses(p, radius, at, Instructions::plain), wide = many_poses(p, radius, at, set);
        for (std::size_t i = 0; i < at.size(); ++i) {
          ASSERT_EQ(plain.reached[i], wide.reached[i]);
          if (!plain.reached[i]) continue;
          for (int k = 0; k < outputs; ++k)
            worst = std::max(worst,
                             std::abs(plain.rows[i][k] - wide.rows[i][k]) / std::max(1.0, std::abs(plain.rows[i][k])));
          ++compared;
        }
      }
    std::cout << "worst of " << compared << " poses, " << lanes(set) << " lanes wide, against one at a time: " << worst
              << "\n";
    EXPECT_LE(worst, 1e-12);
    EXPECT_GT(compared, 3000);
  }
}

// Poses beyond reach are refused by every set alike.
TEST(ManyPoses, RefuseWhatThePlainOneRefuses) {
  const auto p = corners::invented();
  std::vector<CornerCoordinates> at;
  for (int i = 0; i < 37; ++i) at.push_back({m(-0.5 + 0.03 * i), {}});
  for (const Instructions set : sets()) {
    const ManyPoses many = many_poses(p, radius, at, set);
    const CornerLinkage<double> linkage(p);
    for (std::size_t i = 0; i < at.size(); ++i) EXPECT_EQ(bool(many.reached[i]), linkage.pose(at[i].rise).outcome.ok());
  }
}

// The tally's quantiles: the same for any split and any width, near the linear spread at small u, and a larger u shows
// where linear propagation ends.
TEST(SampledSweep, AgreesWithLinearPropagation) {
  std::mt19937_64 random(32);
  double worst_sd = 0, worst_width = 0;
  for (const auto& p : {corners::invented(), corners::strut(random, 0), corners::swing_axle(random, 0)}) {
    const auto u = even_u(p, 0.001);
    const SampledSweep sweep = sampled_sweep(p, u, radius, poses(p), 5);
    constexpr std::int64_t samples = 20000;
    SweepTally whole(sweep), first(sweep), rest(sweep);
    whole.take(sweep, 0, samples, Instructions::plain);
    first.take(sweep, 0, 7001);
    rest.take(sweep, 7001, samples);
    first.add(rest);
    const auto linear = linear_spread(p, u, radius, sweep.poses);
    for (int i = 0; i < static_cast<int>(sweep.poses.size()); ++i) {
      EXPECT_EQ(whole.missed(i), 0);
      for (int k = 0; k < outputs; ++k) {
        const Output output = static_cast<Output>(k);
        const double low = whole.quantile(sweep, i, output, 0.025), high = whole.quantile(sweep, i, output, 0.975);
        worst_width = std::max(
            worst_width, std::abs(first.quantile(sweep, i, output, 0.975) - high) / std::max(linear[i][k], 1e-12));
        if (linear[i][k] < 1e-9) continue;
        // The 95 % band of a normal law is 2 x 1.96 wide.
        worst_sd = std::max(worst_sd, std::abs((high - low) / (2 * 1.959964 * linear[i][k]) - 1));
      }
    }
  }
  std::cout << "worst half-width of a 95 % band over 20000 samples against linear propagation at u = 1 mm: "
            << 100 * worst_sd << " %; worst difference by split and width " << worst_width << " u\n";
  EXPECT_LE(worst_sd, 0.05);  // sampling alone gives 1 %, curvature over 1 mm the rest
  EXPECT_LE(worst_width, 1e-3);
}

// Quantiles in bins against a sort of the same samples.
TEST(SampledSweep, QuantilesAgreeWithASort) {
  const auto p = corners::invented();
  const SampledSweep sweep = sampled_sweep(p, even_u(p, 0.002), radius, {{m(0.02), m(0.01)}}, 9);
  SweepTally all(sweep);
  std::vector<double> toe;
  for (int i = 0; i < 2000; ++i) {
    SweepTally one(sweep);
    one.take(sweep, i, i + 1, Instructions::plain);
    toe.push_back(one.quantile(sweep, 0, Output::toe, 1.0));
    all.add(one);
  }
  std::sort(toe.begin(), toe.end());
  const double bin = (sweep.high[0][1] - sweep.low[0][1]) / 1024;
  for (const double share : {0.025, 0.5, 0.975})
    EXPECT_NEAR(all.quantile(sweep, 0, Output::toe, share), toe[static_cast<std::size_t>(share * 2000)], 3 * bin);
}

}  // namespace
}  // namespace trammel::suspension
