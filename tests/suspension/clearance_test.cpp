// The least gap to a tyre: closed forms, and FCL, an independent general-purpose collision library.
#include <gtest/gtest.h>

#include <fcl/narrowphase/distance.h>

#include <iostream>
#include <random>

#include "suspension/clearance/tyre_gap.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
Length m(double si) { return Length::from_si(si); }

const TyreShape tyre{m(0.25), m(0.2), m(0.03)};
const TyrePlace upright{{0, 0, 0}, {0, 1, 0}};

double gap(const V& p) { return tyre_gap(tyre, upright, p).gap.si(); }
double gap(const Solid& s) { return tyre_gap(tyre, upright, s).gap.si(); }

TEST(TyreGap, ClosedForms) {
  EXPECT_NEAR(gap(V{0, 0, 0.30}), 0.05, 1e-15);                   // above the tread
  EXPECT_NEAR(gap(V{0.18, 0.05, 0.24}), 0.05, 1e-15);             // the tread is round
  EXPECT_NEAR(gap(V{0, 0.15, 0.1}), 0.05, 1e-15);                 // beside the wall
  EXPECT_NEAR(gap(V{0, -0.15, 0}), 0.05, 1e-15);                  // on the spin axis
  EXPECT_NEAR(gap(V{0, 0.07 + 0.03, 0.22 + 0.04}), 0.02, 1e-15);  // off the shoulder: 3-4-5 less its radius
  EXPECT_NEAR(gap(V{0, 0.09, 0.2}), -0.01, 1e-15);                // 10 mm inside the wall
  EXPECT_NEAR(gap(V{0, 0, 0.24}), -0.01, 1e-15);                  // 10 mm inside the tread
  TyreShape grown = tyre;
  grown.growth = m(0.005);
  grown.centre_offset = m(0.02);
  EXPECT_NEAR(tyre_gap(grown, upright, V{0, 0.02, 0.30}).gap.si(), 0.045, 1e-15);
  EXPECT_NEAR(tyre_gap(grown, upright, V{0, -0.15, 0.1}).gap.si(), 0.07, 1e-15);
  // The nearest place is on the tyre and that far away.
  const TyreGap g = tyre_gap(tyre, upright, V{0.1, 0.13, 0.26});
  EXPECT_NEAR(norm(g.on_body - g.on_tyre), g.gap.si(), 1e-15);
  EXPECT_NEAR(tyre_gap(tyre, upright, g.on_tyre).gap.si(), 0, 1e-15);
}

// A spring beside the wall, a rail over the tread, a rod askew under the tread, a box's corner at the shoulder.
TEST(TyreGap, ClosedFormsOfParts) {
  EXPECT_NEAR(gap(Solid::round({0, -0.16, -0.1}, {0, -0.16, 0.2}, m(0.02))), 0.04, 1e-9);
  EXPECT_NEAR(gap(Solid::round({-0.5, 0.3, 0.3}, {0.5, 0.3, 0.3}, m(0.05))),
              std::hypot(0.3 - 0.07, 0.3 - 0.22) - 0.05 - 0.03, 1e-9);
  EXPECT_NEAR(gap(Solid::round({0, 0, 0.30}, {0, 0, 0.60}, m(0.04))), 0.05, 1e-9);  // flat end over the tread
  EXPECT_NEAR(gap(Solid::box({-0.5, -0.5, 0.31}, {0.5, 0.5, 0.4})), 0.06, 1e-9);
  EXPECT_NEAR(gap(Solid::box({-0.3, 0.14, -0.3}, {0.3, 0.3, 0.3})), 0.04, 1e-9);
  EXPECT_NEAR(gap(Solid::box({0.1, 0.10, 0.26}, {-0.1, 0.4, 0.6})), std::hypot(0.03, 0.04) - 0.03, 1e-9);
  // Within the shoulder's radius of the core: the depth is told; deeper, that it is at least so.
  const TyreGap shallow = tyre_gap(tyre, upright, Solid::box({-0.3, 0.09, -0.3}, {0.3, 0.3, 0.3}));
  EXPECT_NEAR(shallow.gap.si(), -0.01, 1e-9);
  EXPECT_FALSE(shallow.deeper);
  const TyreGap deep = tyre_gap(tyre, upright, Solid::box({-0.3, 0.02, -0.3}, {0.3, 0.3, 0.3}));
  EXPECT_NEAR(deep.gap.si(), -0.03, 1e-12);
  EXPECT_TRUE(deep.deeper);
}

struct Random {
  std::mt19937_64 engine;
  double operator()(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine); }
  V point(double reach) { return {(*this)(-reach, reach), (*this)(-reach, reach), (*this)(-reach, reach)}; }
  Solid any() {
    const V a = point(0.6), b = a + point(0.4);
    switch (engine() % 4) {
      case 0:
        return Solid::point(a);
      case 1:
        return Solid::edge(a, b);
      case 2:
        return Solid::round(a, b, m((*this)(0.01, 0.1)));
      default:
        return Solid::box(a, b);
    }
  }
};

TEST(TyreGap, EdgeIsTheLeastOfItsPoints) {
  Random random{std::mt19937_64(11)};
  for (int i = 0; i < 200; ++i) {
    const V a = random.point(0.5), b = random.point(0.5);
    const double g = gap(Solid::edge(a, b));
    double least = 1e9;
    for (int k = 0; k <= 2000; ++k) least = std::min(least, gap(a + (k / 2000.0) * (b - a)));
    EXPECT_LE(g, least + 1e-12);
    EXPECT_GE(g, least - 1e-3);
  }
}

TEST(TyreGap, Law1_ThickerSkinLowersTheGapByAsMuch) {
  Random random{std::mt19937_64(13)};
  for (int i = 0; i < 500; ++i) {
    const Solid s = random.any();
    TyreShape skinned = tyre;
    skinned.skin = m(random(0, 0.02));
    const TyreGap plain = tyre_gap(tyre, upright, s), less = tyre_gap(skinned, upright, s);
    EXPECT_NEAR(plain.gap.si() - less.gap.si(), skinned.skin.si(), 1e-14);
  }
}

TEST(TyreGap, Law2_CheapBoundIsNeverAboveTheGap) {
  Random random{std::mt19937_64(14)};
  int tight = 0;
  for (int i = 0; i < 5000; ++i) {
    const Solid s = random.any();
    const PlacedTyre placed(tyre, upright);
    const TyreGap g = placed.gap(s);
    if (g.deeper) continue;
    const double bound = placed.cheap_bound_m(s);
    EXPECT_LE(bound, g.gap.si() + 1e-9);
    tight += bound > g.gap.si() - 0.02;
  }
  EXPECT_GT(tight, 1500);  // and of use
}

// The nearest place is on the solid, and a plane square to the way there has the whole solid beyond it: the gap is
// bounded from above and below without a second method.
TEST(TyreGap, PartsProveTheirOwnGap) {
  Random random{std::mt19937_64(16)};
  double above = 0, below = 0;
  for (int i = 0; i < 20000; ++i) {
    const Solid s = random.any();
    const PlacedTyre placed(tyre, {random.point(0.6), unit(V{random(-0.5, 0.5), 1, random(-0.5, 0.5)})});
    const TyreGap g = placed.gap(s);
    if (g.deeper || g.gap.si() < -0.029) continue;
    V slope;
    const double here = placed.gap_m(g.on_body, slope);
    above = std::max(above, std::abs(here - g.gap.si()));
    if (g.gap.si() > 0.001) below = std::max(below, g.gap.si() - (here + dot(slope, s.furthest(-slope) - g.on_body)));
  }
  std::cout << "worst gap against its own bounds: " << above << " m, " << below << " m\n";
  EXPECT_LE(above, 1e-9);
  EXPECT_LE(below, 1e-5);
}

TEST(TyreGap, MirrorsForEverySolid) {
  Random random{std::mt19937_64(15)};
  for (int i = 0; i < 300; ++i) {
    const TyrePlace place{random.point(0.2), unit(V{random(-0.5, 0.5), 1, random(-0.5, 0.5)})};
    const TyrePlace other{mirrored(place.hub_centre), mirrored(place.spin_axis)};
    const Solid s = random.any();
    Solid t = s;
    t.from = mirrored(s.from);
    t.to = mirrored(s.to);
    EXPECT_NEAR(tyre_gap(tyre, place, s).gap.si(), tyre_gap(tyre, other, t).gap.si(), 1e-9);
  }
}

Eigen::Vector3d eigen(const V& v) { return {v.x, v.y, v.z}; }
fcl::Transform3d standing(const V& axis, const V& at) {
  fcl::Transform3d pose = fcl::Transform3d::Identity();
  pose.linear() = Eigen::Quaterniond::FromTwoVectors(Eigen::Vector3d::UnitZ(), eigen(axis)).toRotationMatrix();
  pose.translation() = eigen(at);
  return pose;
}

// A solid as FCL has it. Points and edges are balls and capsules of 1 mm, which is given back.
constexpr double thin = 1e-3;
fcl::CollisionObjectd other_library(const Solid& s, double& given_back) {
  given_back = 0;
  switch (s.kind) {
    case Solid::Kind::point:
      given_back = thin;
      return {std::make_shared<fcl::Sphered>(thin), standing({0, 0, 1}, s.from)};
    case Solid::Kind::edge:
      given_back = thin;
      return {std::make_shared<fcl::Capsuled>(thin, norm(s.to - s.from)), standing(s.to - s.from, s.middle())};
    case Solid::Kind::round:
      return {std::make_shared<fcl::Cylinderd>(s.radius.si(), norm(s.to - s.from)),
              standing(s.to - s.from, s.middle())};
    case Solid::Kind::box:
      break;
  }
  return {std::make_shared<fcl::Boxd>(2 * norm(s.half_edge[0]), 2 * norm(s.half_edge[1]), 2 * norm(s.half_edge[2])),
          standing({0, 0, 1}, s.middle())};
}

// FCL: the core against the solid, less the shoulder radius; its own error is about 7e-6 m.
TEST(TyreGap, AgreesWithACollisionLibrary) {
  Random random{std::mt19937_64(12)};
  const auto core = std::make_shared<fcl::Cylinderd>(0.25 - 0.03, 0.2 - 0.06);
  double worst[4] = {};
  int count[4] = {};
  for (int i = 0; i < 8000; ++i) {
    const V axis = unit(V{random(-0.5, 0.5), 1, random(-0.5, 0.5)}), hub = random.point(0.6);
    const Solid s = random.any();
    const double ours = tyre_gap(tyre, {hub, axis}, s).gap.si();
    if (ours < 0.005) continue;
    const fcl::CollisionObjectd wheel(core, standing(axis, hub));
    double given_back;
    const fcl::CollisionObjectd body = other_library(s, given_back);
    fcl::DistanceRequestd request;
    request.distance_tolerance = 1e-9;
    fcl::DistanceResultd result;
    fcl::distance(&wheel, &body, request, result);
    const int kind = static_cast<int>(s.kind);
    worst[kind] = std::max(worst[kind], std::abs(result.min_distance + given_back - 0.03 - ours));
    ++count[kind];
  }
  const char* names[] = {"points", "edges", "round parts", "boxes"};
  for (int kind = 0; kind < 4; ++kind) {
    std::cout << "worst gap against FCL: " << worst[kind] << " m of " << count[kind] << " " << names[kind] << "\n";
    EXPECT_GE(count[kind], 800);
    EXPECT_LE(worst[kind], 7e-6);
  }
}

}  // namespace
}  // namespace trammel::suspension
