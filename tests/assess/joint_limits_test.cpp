// What binds, runs out of angle or meets: on the example jobs, each limit met as shipped and broken by one change.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "assess/shuttle.h"

namespace trammel::test {
namespace {

template <class Q>
Valued<Q> kit(Q q) {
  return {q, {}, Basis::kit, {}};
}
PointValue at(double x, double y, double z) {
  PointValue p;
  p.value = {x * units::mm, y * units::mm, z * units::mm};
  p.basis = Basis::measured;
  return p;
}
const Finding* about(const std::vector<Finding>& all, const std::string& subject) {
  for (const Finding& f : all)
    if (f.subject == subject) return &f;
  return nullptr;
}

TEST(JointLimits, TheShuttlesJointsAreMetAndNamed) {
  const auto found = of_code(assess(shuttle()), "joint-angle");
  ASSERT_EQ(found.size(), 5u);
  for (const Finding& f : found) {
    EXPECT_EQ(f.outcome, Outcome::met) << f.subject;
    EXPECT_TRUE(f.before && f.value && f.value->u) << f.subject;
    EXPECT_GT(f.value->si, 0.01);
  }
  // The cradle takes arms and rack down together: longer arms lean their joints less.
  EXPECT_LT(about(found, "front lower ball joint")->value->si, about(found, "front lower ball joint")->before->si);
}

TEST(JointLimits, ARackLeftBehindLeansTheRod) {
  const auto good = of_code(assess(shuttle()), "joint-angle"), left = of_code(assess(cheaper_shuttle()), "joint-angle");
  for (const char* joint : {"front tie rod, inner joint", "front tie rod, outer joint"})
    EXPECT_GT(about(left, joint)->value->si, about(good, joint)->value->si + 0.1) << joint;
  EXPECT_EQ(about(left, "front tie rod, outer joint")->outcome, Outcome::condition);
}

TEST(JointLimits, AShortSwingStopsTheJob) {
  Job job = shuttle();
  job.cart.front->left->lower_arm->joint->swing = kit(9.0 * units::degree);
  const auto found = of_code(assess(job), "joint-angle");
  const Finding* f = about(found, "front lower ball joint");
  ASSERT_TRUE(f);
  EXPECT_EQ(f->outcome, Outcome::stop);
  ASSERT_TRUE(f->cure);
  EXPECT_EQ(f->cure->code, "cure-joint-by");
}

// A kit that tells how the stud stands after it is believed: the same lean, shifted by what it tells.
TEST(JointLimits, ALeanThatTheKitGives) {
  Job job = shuttle();
  job.cart.front->left->upper_arm->joint->lean = kit(-6.0 * units::degree);
  const Angle turned = Angle::from_si(about(of_code(assess(job), "joint-angle"), "front upper ball joint")->value->si);
  const Angle plain =
      Angle::from_si(about(of_code(assess(shuttle()), "joint-angle"), "front upper ball joint")->value->si);
  EXPECT_NE(turned.in(units::degree), plain.in(units::degree));
}

// Two-hand reckoning on a trailing axle's plug: 90 mm behind the axle's line, turned by 6.3 deg.
TEST(JointLimits, OilOfATurnedAxle) {
  EXPECT_EQ(worst(assess(load_cart()), "oil-level"), Outcome::met);
  Job job = load_cart();
  for (auto& k : job.kits)
    for (Change& change : k.kit.change)
      if (change.path == "rear.left.leaf.wedge") change.value = kit(3.0 * units::degree);
  const Assessment a = assess(job);
  const Finding level = of_code(a, "oil-level").at(0);
  EXPECT_EQ(level.outcome, Outcome::condition);
  const double turn = of_code(a, "axle-turned").at(0).value->si;
  EXPECT_NEAR(level.value->si, std::abs(-0.090 * std::sin(turn) + (0.205 - 0.217) * (std::cos(turn) - 1)), 1e-6);
}

TEST(JointLimits, StopsWithoutTheirExtension) {
  EXPECT_EQ(worst(assess(load_cart()), "bump-stop-late"), Outcome::met);
  Job job = load_cart();
  for (auto& k : job.kits)
    std::erase_if(k.kit.change, [](const Change& c) { return c.path == "rear.left.bump_stop.chassis"; });
  const Finding f = of_code(assess(job), "bump-stop-late").at(0);
  EXPECT_EQ(f.outcome, Outcome::condition);
  ASSERT_TRUE(f.cure);
  EXPECT_EQ(f.cure->code, "cure-bump-stop-longer");
  // The missing extension of 50 mm is what is asked for, less the 2 mm to spare.
  EXPECT_NEAR(std::get<Number>(f.cure->arguments.at(0).second).si, 0.048, 0.001);
}

// A spacer alone lets the wheel down; what the arm carries goes with it.
TEST(JointLimits, ASpacerLetsTheWheelDown) {
  const auto with = [](double mm) {
    Job job = shuttle();
    // The kit's cradle, arms and hub stay as they were: only the spacer is fitted.
    for (auto& k : job.kits) std::erase_if(k.kit.change, [](const Change& c) { return c.path.starts_with("front."); });
    Change change;
    change.path = "front.left.spring.spacer";
    change.value = kit(mm * units::mm);
    job.kits.at(0).kit.change.push_back(change);
    return assess(job);
  };
  const Assessment some = with(20);
  const Finding f = of_code(some, "spacer-lift").at(0);
  EXPECT_EQ(f.outcome, Outcome::note);
  // Motion ratio of the shuttle's front spring by its points: about 0.5.
  EXPECT_NEAR(f.value->si, 0.020 / 0.5, 0.010);
  // All that stands on the raised cart knows it: the body's rise, and where the joints are.
  EXPECT_NEAR(about(of_code(some, "body-rise"), "front")->value->si, f.value->si, 1e-9);
  const auto joint = [](const Assessment& a) { return a.front_after.points.at("left.lower_arm.ball_joint").z.si(); };
  EXPECT_NEAR(joint(with(0)) - joint(some), f.value->si, 0.003);
  EXPECT_TRUE(of_code(with(0), "spacer-lift").empty());
  // More than the arms have: a stop, named.
  EXPECT_EQ(of_code(with(149), "spring-too-long").at(0).outcome, Outcome::stop);
}

// A half shaft on a swing axle's wheel: as the wheel rises straight about a level arm the angle is asin(rise / length).
TEST(JointLimits, HalfShaftOfATrailingArm) {
  Job job;
  Cart& cart = job.cart;
  cart.wheelbase = kit(1750.0 * units::mm);
  Axle rear;
  rear.layout.value = "trailing arm";
  rear.loaded_radius = kit(265.0 * units::mm);
  rear.bump = kit(60.0 * units::mm);
  rear.droop = kit(60.0 * units::mm);
  Corner left;
  left.arm = WheelArm{at(-1350, 470, 265), at(-1350, 240, 265)};
  left.hub = Hub{at(-1750, 470, 265), kit(Angle{}), kit(Angle{})};
  left.half_shaft = HalfShaft{at(-1750, 130, 265), at(-1750, 430, 265), kit(12.0 * units::degree),
                              kit(290.0 * units::mm), kit(305.0 * units::mm)};
  rear.left = left;
  cart.rear = rear;
  const Assessment a = assess(job);
  const Finding f = of_code(a, "half-shaft-angle").at(0);
  // The joint rises 60 mm and goes forward by what its arc of 400 mm takes; 300 mm lie across.
  const double forward = 0.4 - std::sqrt(0.4 * 0.4 - 0.06 * 0.06);
  const double expected = std::atan2(std::hypot(0.06, forward), 0.3);
  std::cout << "worst half shaft angle: " << std::abs(f.value->si - expected) << " rad\n";
  EXPECT_NEAR(f.value->si, expected, 1e-9);
  EXPECT_EQ(f.outcome, Outcome::met);
  EXPECT_EQ(worst(a, "half-shaft-out"), Outcome::stop);  // 306 mm at its longest
  EXPECT_EQ(worst(a, "half-shaft-in"), Outcome::met);
}

}  // namespace
}  // namespace trammel::test
