// The least gap to a tyre: closed forms, and FCL, an independent general-purpose collision library.
#include <gtest/gtest.h>

#include <fcl/narrowphase/distance.h>

#include <iostream>
#include <random>

#include "suspension/clearance/sweep.h"
#include "suspension/corners.h"
#include "suspension/geometry/independent_axle.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }

const TyreShape tyre{m(0.25), m(0.2), m(0.03)};
const TyrePlace upright{{0, 0, 0}, {0, 1, 0}};

double gap(const V& p) { return tyre_gap(tyre, upright, p).gap.si(); }

TEST(TyreGap, ClosedForms) {
  EXPECT_NEAR(gap({0, 0, 0.30}), 0.05, 1e-15);                   // above the tread
  EXPECT_NEAR(gap({0.18, 0.05, 0.24}), 0.05, 1e-15);             // the tread is round
  EXPECT_NEAR(gap({0, 0.15, 0.1}), 0.05, 1e-15);                 // beside the wall
  EXPECT_NEAR(gap({0, -0.15, 0}), 0.05, 1e-15);                  // on the spin axis
  EXPECT_NEAR(gap({0, 0.07 + 0.03, 0.22 + 0.04}), 0.02, 1e-15);  // off the shoulder: 3-4-5 less its radius
  EXPECT_NEAR(gap({0, 0.09, 0.2}), -0.01, 1e-15);                // 10 mm inside the wall
  EXPECT_NEAR(gap({0, 0, 0.24}), -0.01, 1e-15);                  // 10 mm inside the tread
  TyreShape grown = tyre;
  grown.growth = m(0.005);
  grown.centre_offset = m(0.02);
  EXPECT_NEAR(tyre_gap(grown, upright, {0, 0.02, 0.30}).gap.si(), 0.045, 1e-15);
  EXPECT_NEAR(tyre_gap(grown, upright, {0, -0.15, 0.1}).gap.si(), 0.07, 1e-15);
  // The nearest place is on the tyre and that far away.
  const TyreGap g = tyre_gap(tyre, upright, {0.1, 0.13, 0.26});
  EXPECT_NEAR(norm(g.on_body - g.on_tyre), g.gap.si(), 1e-15);
  EXPECT_NEAR(tyre_gap(tyre, upright, g.on_tyre).gap.si(), 0, 1e-15);
}

TEST(TyreGap, EdgeIsTheLeastOfItsPoints) {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> d(-0.5, 0.5);
  for (int i = 0; i < 200; ++i) {
    const V a{d(random), d(random), d(random)}, b{d(random), d(random), d(random)};
    const TyreGap g = tyre_gap_to_edge(tyre, upright, a, b);
    double least = 1e9;
    for (int k = 0; k <= 2000; ++k) least = std::min(least, gap(a + (k / 2000.0) * (b - a)));
    EXPECT_LE(g.gap.si(), least + 1e-12);
    EXPECT_GE(g.gap.si(), least - 1e-3);
  }
}

// FCL: the smaller cylinder against a thin ball or capsule; its own error is about 7e-6 m.
TEST(TyreGap, AgreesWithACollisionLibrary) {
  std::mt19937_64 random(12);
  std::uniform_real_distribution<double> d(-0.6, 0.6), tilt(-0.5, 0.5);
  constexpr double thin = 1e-3;
  const auto core = std::make_shared<fcl::Cylinderd>(0.25 - 0.03, 0.2 - 0.06);
  double worst_point = 0, worst_edge = 0;
  int points = 0, edges = 0;
  for (int i = 0; i < 2000; ++i) {
    const V axis = unit(V{tilt(random), 1, tilt(random)}), hub{d(random), d(random), d(random)};
    fcl::Transform3d pose = fcl::Transform3d::Identity();
    pose.linear() =
        Eigen::Quaterniond::FromTwoVectors(Eigen::Vector3d::UnitZ(), Eigen::Vector3d(axis.x, axis.y, axis.z))
            .toRotationMatrix();
    pose.translation() = Eigen::Vector3d(hub.x, hub.y, hub.z);
    const fcl::CollisionObjectd wheel(core, pose);
    fcl::DistanceRequestd request;
    request.distance_tolerance = 1e-9;

    const V a{d(random), d(random), d(random)}, b{d(random), d(random), d(random)};
    fcl::Transform3d at = fcl::Transform3d::Identity();
    at.translation() = Eigen::Vector3d(a.x, a.y, a.z);
    fcl::DistanceResultd result;
    const TyreGap g = tyre_gap(tyre, {hub, axis}, a);
    if (g.gap.si() > 0.005) {
      fcl::distance(&wheel, std::make_unique<fcl::CollisionObjectd>(std::make_shared<fcl::Sphered>(thin), at).get(),
                    request, result);
      worst_point = std::max(worst_point, std::abs(result.min_distance + thin - 0.03 - g.gap.si()));
      ++points;
    }

    const V along = b - a, middle = 0.5 * (a + b);
    at.linear() =
        Eigen::Quaterniond::FromTwoVectors(Eigen::Vector3d::UnitZ(), Eigen::Vector3d(along.x, along.y, along.z))
            .toRotationMatrix();
    at.translation() = Eigen::Vector3d(middle.x, middle.y, middle.z);
    const TyreGap e = tyre_gap_to_edge(tyre, {hub, axis}, a, b);
    if (e.gap.si() > 0.005) {
      result = {};
      const fcl::CollisionObjectd rod(std::make_shared<fcl::Capsuled>(thin, norm(along)), at);
      fcl::distance(&wheel, &rod, request, result);
      worst_edge = std::max(worst_edge, std::abs(result.min_distance + thin - 0.03 - e.gap.si()));
      ++edges;
    }
  }
  std::cout << "worst gap against FCL: " << worst_point << " m of " << points << " points, " << worst_edge << " m of "
            << edges << " edges\n";
  EXPECT_GE(points, 1000);
  EXPECT_GE(edges, 500);
  EXPECT_LE(worst_point, 7e-6);
  EXPECT_LE(worst_edge, 7e-6);
}

// The sweep finds what a far finer grid finds, on both sides, less the skin.
TEST(Sweep, LeastGapOverTravelAndLock) {
  const CornerPoints<double> p = corners::invented();
  const CornerLinkage<double> linkage(p);
  SweepRange range{m(-0.06), m(0.06), m(-0.04), m(0.04)};
  const TyreShape shape{m(0.305), m(0.215), m(0.03), m(0.003)};
  const std::vector<BodyFeature> features{{{0.30, 0.33, 0.36}, {0.30, 0.33, 0.36}, m(0.002)},
                                          {{-0.28, 0.36, 0.5}, {-0.05, 0.40, 0.70}, m(0)},
                                          {{-0.33, 0.34, 0.25}, {-0.33, 0.34, 0.25}, m(0)}};
  const SweepResult r = sweep(IndependentAxle({p, {}, m(0.3)}), Side::left, shape, range, features);
  ASSERT_EQ(r.features.size(), 3u);
  EXPECT_EQ(r.poses, 81);
  EXPECT_EQ(r.unreachable, 0);
  for (std::size_t k = 0; k < features.size(); ++k) {
    double least = 1e9;
    for (int i = 0; i <= 120; ++i)
      for (int j = 0; j <= 80; ++j) {
        const auto at = linkage.pose(m(-0.06 + 0.001 * i), m(-0.04 + 0.001 * j));
        const TyrePlace place{at.hub_centre, at.spin_axis};
        least = std::min(least, tyre_gap_to_edge(shape, place, features[k].from, features[k].to).gap.si());
      }
    ASSERT_TRUE(r.features[k].found);
    EXPECT_LE(r.features[k].gap.si(), least - features[k].skin.si() + 1e-7);
    EXPECT_GE(r.features[k].gap.si(), least - features[k].skin.si() - 5e-4);
    // The pose named is the pose meant.
    const auto at = linkage.pose(r.features[k].rise, r.features[k].rack);
    const TyreGap again = tyre_gap_to_edge(shape, {at.hub_centre, at.spin_axis}, features[k].from, features[k].to);
    EXPECT_NEAR(again.gap.si() - features[k].skin.si(), r.features[k].gap.si(), 1e-12);
  }
  std::vector<BodyFeature> other = features;
  for (BodyFeature& f : other) {
    f.from = mirrored(f.from);
    f.to = mirrored(f.to);
  }
  const SweepResult right = sweep(IndependentAxle({p, mirrored(p), m(0.3)}), Side::right, shape, range, other);
  for (std::size_t k = 0; k < features.size(); ++k)
    EXPECT_NEAR(right.features[k].gap.si(), r.features[k].gap.si(), 1e-5);
  // A range beyond the linkage's reach is skipped and counted, not guessed.
  range.lowest = m(-0.4);
  EXPECT_GT(sweep(IndependentAxle({p, {}, m(0.3)}), Side::left, shape, range, features).unreachable, 0);
}

}  // namespace
}  // namespace trammel::suspension
