// Laws of weights, supports, drive, brakes and ramp, on random carts (rapidcheck, fixed seed from the build) and
// against independent statics.
#include <gtest/gtest.h>

#include <iostream>
#include <random>

#include "vehicle/brake.h"
#include "vehicle/centre_of_gravity.h"
#include "vehicle/drive.h"
#include "vehicle/envelope.h"
#include "vehicle/ride.h"
#include "vehicle/rolling_hold.h"
#include "vehicle/stability.h"
#include "vehicle/support.h"

namespace trammel::vehicle {
namespace {

using namespace trammel::units;
using Items = std::vector<MassItem<double>>;

constexpr Length wheelbase = 1.8 * metre;
const Footprint<double> footprint{wheelbase, 0.92 * metre, 0.98 * metre};

class RandomCarts : public testing::Test {
 protected:
  std::mt19937 random{20260101};
  double within(double low, double high) { return std::uniform_real_distribution<>(low, high)(random); }
  Items cart(double most_aside = 0.3) {
    Items items;
    for (int i = 0; i < 6; ++i)
      items.push_back({"part",
                       within(5, 200) * kg,
                       {within(-1.7, -0.1) * metre, within(-most_aside, most_aside) * metre, within(0.2, 1.2) * metre},
                       i == 0   ? Rides::front_unsprung
                       : i == 1 ? Rides::rear_unsprung
                                : Rides::sprung});
    return items;
  }
};

TEST_F(RandomCarts, LoadsSumAndBalanceAboutAnyPoint) {
  double worst = 0.0;
  for (int n = 0; n < 500; ++n) {
    const Items items = cart();
    const auto s = sum(items);
    const auto w = wheel_loads(s, footprint, within(0.2, 0.8));
    const double px = within(-3, 3), py = within(-2, 2);
    double mass = 0, about_y = 0, about_x = 0;
    for (const auto& i : items) {
      mass += i.mass.si();
      about_y += i.mass.si() * (i.at.x.si() - px);
      about_x += i.mass.si() * (i.at.y.si() - py);
    }
    const auto wheel = [&](Mass m, double x, double y) {
      mass -= m.si();
      about_y -= m.si() * (x - px);
      about_x -= m.si() * (y - py);
    };
    wheel(w.front_left, 0, 0.46);
    wheel(w.front_right, 0, -0.46);
    wheel(w.rear_left, -1.8, 0.49);
    wheel(w.rear_right, -1.8, -0.49);
    worst = std::max({worst, std::abs(mass), std::abs(about_y), std::abs(about_x)});
  }
  std::cout << "worst wheel balance " << worst << " kg or kg m\n";
  EXPECT_LT(worst, 1e-10);
}

// The front axle on the floor, a stand to each side behind.
std::array<Vector3<Length>, 3> rear_stands(Length x, Length half) { return {{{}, {x, half, {}}, {x, -half, {}}}}; }

TEST_F(RandomCarts, MirrorSwapsLeftAndRight) {
  for (int n = 0; n < 200; ++n) {
    const Items items = cart();
    Items other = items;
    for (auto& i : other) i.at = mirrored(i.at);
    const auto a = wheel_loads(sum(items), footprint, 0.4), b = wheel_loads(sum(other), footprint, 0.4);
    EXPECT_NEAR(a.front_left.si(), b.front_right.si(), 1e-9);
    EXPECT_NEAR(a.rear_left.si(), b.rear_right.si(), 1e-9);
    EXPECT_NEAR(rigid_threshold(sum(items).whole, footprint), rigid_threshold(sum(other).whole, footprint), 1e-12);
    const auto stands = rear_stands(-1.5 * metre, 0.3 * metre);
    const auto l = loads_on<double>(sum(items).whole, stands), r = loads_on<double>(sum(other).whole, stands);
    EXPECT_NEAR(l[1].even.si(), r[2].even.si(), 1e-9);
  }
}

TEST_F(RandomCarts, ScalesGiveBackTheCentreThatLoadedThem) {
  // The cart is weighed level and with its rear lifted: loads by moments on the turned cart, then solved backwards.
  double worst = 0.0;
  for (int n = 0; n < 500; ++n) {
    const auto s = sum(cart());
    const double share = within(0.2, 0.8), rf = within(0.2, 0.28), rr = within(0.2, 0.28), lean_by = within(0.1, 0.5);
    const auto level = level_centre(wheel_loads(s, footprint, share), footprint);
    worst = std::max(
        worst, norm(Vector3<double>{level.at.x.si() - s.whole.at.x.si(), level.at.y.si() - s.whole.at.y.si(), 0}));

    // Nose down by lean_by about the front wheel's centre: places along the level of every vertical load.
    const double c = std::cos(lean_by), sn = std::sin(lean_by);
    const auto along = [&](double x, double z) { return x * c + (z - rf) * sn; };
    const double cg = along(s.whole.at.x.si(), s.whole.at.z.si()), rear = along(-1.8, rr);
    const Mass front = s.whole.mass * (1.0 - cg / rear);
    const Length z = centre_height(level, wheelbase, rf * metre, rr * metre, LiftedEnd::rear, front, lean_by * radian);
    worst = std::max(worst, std::abs((z - s.whole.at.z).si()));
    // And with the front lifted instead.
    const auto back = [&](double x, double h) { return x * c - (h - rf) * sn; };
    const Mass behind = s.whole.mass * (back(s.whole.at.x.si(), s.whole.at.z.si()) / back(-1.8, rr));
    const Length other =
        centre_height(level, wheelbase, rf * metre, rr * metre, LiftedEnd::front, behind, lean_by * radian);
    worst = std::max(worst, std::abs((other - s.whole.at.z).si()));
  }
  std::cout << "worst centre of gravity from scales " << worst << " m\n";
  EXPECT_LT(worst, 1e-12);
}

TEST_F(RandomCarts, RaisingByNothingMovesNothing) {
  const Items items = cart();
  const Items same = raised(items, Raise<double>{{}, {}, {}, {}, wheelbase, 0.217 * metre});
  for (std::size_t i = 0; i < items.size(); ++i) EXPECT_EQ(items[i].at, same[i].at);
}

TEST_F(RandomCarts, EvenRiseLiftsTheCentreByItsSprungShare) {
  for (int n = 0; n < 100; ++n) {
    const Items items = cart();
    const auto a = sum(items);
    const auto b =
        sum(raised(items, Raise<double>{0.1 * metre, 0.1 * metre, 0.03 * metre, 0.02 * metre, wheelbase, 0.2 * metre}));
    const Length rise = (a.sprung.mass * (0.1 * metre) + a.front_unsprung.mass * (0.03 * metre) +
                         a.rear_unsprung.mass * (0.02 * metre)) /
                        a.whole.mass;
    EXPECT_NEAR((b.whole.at.z - a.whole.at.z - rise).si(), 0.0, 1e-13);
    EXPECT_NEAR((b.whole.at.x - a.whole.at.x).si(), 0.0, 1e-13);
    EXPECT_LT(rigid_threshold(b.whole, footprint), rigid_threshold(a.whole, footprint));
  }
}

TEST_F(RandomCarts, NoseUpLiftMovesWeightRearward) {
  // A body 20 mm higher in front than behind leans back by atan(20/1800): a part 0.6 m over the held height moves 6.7
  // mm.
  const Items items{{"part", 100.0 * kg, {-0.9 * metre, 0.0 * metre, 0.8 * metre}, Rides::sprung}};
  const auto at = raised(items, Raise<double>{0.07 * metre, 0.05 * metre, {}, {}, wheelbase, 0.2 * metre})[0].at;
  EXPECT_NEAR(at.x.in(mm), -900.0 - 600.0 * 20.0 / 1800.0, 0.1);
  EXPECT_NEAR(at.z.in(mm), 860.0, 0.1);
}

TEST_F(RandomCarts, WeightAddedLowLowersTheCentre) {
  const Footprint<double> even{wheelbase, 0.9 * metre, 0.9 * metre};
  for (int n = 0; n < 500; ++n) {
    const Items items = cart(0.0);
    Items more = items;
    const Length at = within(0.05, 1.5) * metre;
    more.push_back({"more", within(1, 300) * kg, {within(-1.7, -0.1) * metre, {}, at}, Rides::sprung});
    const auto a = sum(items).whole, b = sum(more).whole;
    EXPECT_EQ(at < a.at.z, b.at.z < a.at.z);
    EXPECT_EQ(at<a.at.z, rigid_threshold(b, even)> rigid_threshold(a, even));
  }
}

TEST(Balance, LoadCasesNameTheirRiders) {
  const auto rider = [](const char* name, Place p) { return Rider<double>{{name, 80.0 * kg, {}}, p}; };
  const std::vector<Rider<double>> riders{rider("d", Place::driver), rider("f", Place::front_seat),
                                          rider("r1", Place::rear_seat), rider("r2", Place::rear_seat),
                                          rider("bags", Place::cargo)};
  const auto cases = load_cases(riders);
  ASSERT_EQ(cases.size(), 5u);
  const std::size_t counts[] = {0, 1, 4, 4, 5};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_EQ(static_cast<std::size_t>(cases[i].load), i);
    EXPECT_EQ(cases[i].items.size(), counts[i]);
  }
  for (const auto& i : cases[3].items) EXPECT_NE(i.name, "f");
  EXPECT_EQ(load_cases(std::vector{rider("d", Place::driver)}).size(), 2u);
}

TEST(Balance, RatingsCountWhatIsKnown) {
  const WheelLoads<double> w{100.0 * kg, 110.0 * kg, 190.0 * kg, 180.0 * kg};
  Ratings r;
  r.gross = 600.0 * kg;
  r.rear_axle = 360.0 * kg;
  r.front_tyre = TyreRating{105.0 * kg, 30.0 * km_per_h};
  auto rows = against_ratings(w, r, 25.0 * km_per_h);
  ASSERT_EQ(rows.size(), 4u);
  EXPECT_NEAR(rows[0].margin.in(kg), 20.0, 1e-12);
  EXPECT_NEAR(rows[1].margin.in(kg), -10.0, 1e-12);
  EXPECT_EQ(rows[3].rated, Rated::front_right_tyre);
  EXPECT_NEAR(rows[3].margin.in(kg), -5.0, 1e-12);
  // Faster than the tyre's speed symbol: its load rating says nothing.
  EXPECT_EQ(against_ratings(w, r, 31.0 * km_per_h).size(), 2u);
}

TEST_F(RandomCarts, StandsBalanceAndPartsUnloadThem) {
  double worst = 0.0;
  for (int n = 0; n < 500; ++n) {
    const auto whole = sum(cart(0.1)).whole;
    const auto s = rear_stands(within(-1.7, -1.2) * metre, within(0.2, 0.4) * metre);
    const auto on = loads_on<double>(whole, s);
    const double px = within(-2, 2), py = within(-1, 1);
    const auto m = [&](Mass mass, Length x, Length y) {
      return Vector3<double>{mass.si(), mass.si() * (x.si() - px), mass.si() * (y.si() - py)};
    };
    auto off = m(whole.mass, whole.at.x, whole.at.y);
    for (int i = 0; i < 3; ++i) off -= m(on[i].even, s[i].x, s[i].y);
    worst = std::max(worst, norm(off));
    const LumpedMass<double> part{20.0 * kg, {s[1].x, s[1].y, 0.3 * metre}};
    const auto less = loads_on<double>(without(whole, part), s);
    for (int i = 0; i < 3; ++i)
      worst = std::max(worst, std::abs((on[i].even - less[i].even).si() - (i == 1 ? 20.0 : 0.0)));
  }
  std::cout << "worst stand balance " << worst << " kg or kg m\n";
  EXPECT_LT(worst, 1e-10);
}

TEST_F(RandomCarts, GradeAndTorqueAreInverse) {
  double worst = 0.0;
  for (int n = 0; n < 500; ++n) {
    const Driveline<double> d{within(8, 16), within(0.7, 0.95), within(0.2, 0.3) * metre, within(0, 0.05)};
    const Mass mass = within(300, 1200) * kg;
    const Torque t = within(5, 60) * Nm;
    const auto grade = grade_held(t, d, mass);
    if (!grade) continue;
    worst = std::max(worst, std::abs((torque_on_grade(*grade, d, mass) - t).si()));
    Driveline<double> bigger = d;
    bigger.radius = 1.1 * d.radius;
    EXPECT_LT(grade_held(t, bigger, mass).value(), *grade);
  }
  std::cout << "worst grade round trip " << worst << " N m\n";
  EXPECT_LT(worst, 1e-11);
  EXPECT_FALSE(grade_held(2000.0 * Nm, Driveline<double>{12, 0.9, 0.2 * metre, 0.02}, 300.0 * kg));
}

// A level pull and the slope that it stands for: the brake that holds the one holds the other. 3-4-5: 0.6 of the
// weight.
TEST_F(RandomCarts, ALevelPullAsksWhatItsSlopeAsks) {
  double worst = 0.0;
  for (int n = 0; n < 500; ++n) {
    const Mass mass = within(300, 1200) * kg;
    const Angle slope = within(0.01, 0.5) * radian;
    const auto held = hold_by_torque(slope_pull(mass, slope), mass);
    ASSERT_TRUE(held);
    worst = std::max(worst, std::abs((*held - slope).si()));
  }
  EXPECT_NEAR(slope_pull(500.0 * kg, Angle::from_si(std::atan2(3.0, 4.0))).si(), 0.6 * 500.0 * 9.80665, 1e-9);
  std::cout << "worst slope round trip " << worst << " rad\n";
  EXPECT_LT(worst, 1e-12);
}

TEST_F(RandomCarts, LockedStopIsTheOneThatGripAllows) {
  // Slides where the brake is stronger than grip: the deceleration is then the fixed point of b = mu N(b)/m - g sin.
  double worst = 0.0;
  for (int n = 0; n < 300; ++n) {
    const auto whole = sum(cart(0.0)).whole;
    const double mu = within(0.2, 0.8);
    const Angle down = within(-0.1, 0.15) * radian;
    const Braked braked = n % 3 == 0 ? Braked::front : n % 3 == 1 ? Braked::rear : Braked::all;
    const auto s = stop<double>(whole, wheelbase, braked, 1e6 * newton, 6.0 * m_per_s, down, mu);
    if (!s) continue;
    EXPECT_TRUE(s->locks);
    const Force load = braked_load(whole, wheelbase, braked, s->deceleration, down);
    const Acceleration b = mu * load / whole.mass - units::g * sin(down);
    worst = std::max(worst, std::abs((b - s->deceleration).si()));
    EXPECT_NEAR(s->distance.si(), 18.0 / s->deceleration.si(), 1e-9);
  }
  std::cout << "worst locked stop " << worst << " m/s2\n";
  EXPECT_LT(worst, 1e-10);
}

TEST(Balance, NoStopWhereTheHillPullsHarder) {
  const LumpedMass<double> whole{900.0 * kg, {-1.0 * metre, {}, 0.6 * metre}};
  EXPECT_FALSE(
      stop<double>(whole, wheelbase, Braked::rear, 1000.0 * newton, 5.0 * m_per_s, 10.0 * degree, std::nullopt));
}

TEST(Balance, ReactionTimeAddsItsDistance) {
  const LumpedMass<double> whole{900.0 * kg, {-1.0 * metre, {}, 0.6 * metre}};
  const auto s = stop<double>(whole, wheelbase, Braked::all, 1800.0 * newton, 5.0 * m_per_s, 0.0 * degree, std::nullopt,
                              0.8 * second);
  EXPECT_NEAR(s->distance.in(metre), 4.0 + 25.0 / 4.0, 1e-12);
  EXPECT_FALSE(s->locks);
}

TEST(Balance, FrontGrowsLightUphill) {
  const LumpedMass<double> whole{900.0 * kg, {-1.1 * metre, {}, 0.65 * metre}};
  EXPECT_NEAR(front_share_uphill(whole, wheelbase, 0.0 * degree, {}), 0.7 / 1.8, 1e-12);
  EXPECT_NEAR(front_share_uphill(whole, wheelbase, tip_back_angle(whole, wheelbase), {}), 0.0, 1e-12);
  EXPECT_LT(front_share_uphill(whole, wheelbase, 5.0 * degree, 0.1 * units::g),
            front_share_uphill(whole, wheelbase, 5.0 * degree, {}));
}

TEST(Balance, ChordOfACable) {
  // 3-4-5: 40 mm drop on a 30 mm chord across.
  const Vector3<Length> body{0.0 * mm, 0.0 * mm, 0.0 * mm}, before{30.0 * mm, 0.0 * mm, 0.0 * mm};
  EXPECT_NEAR(chord_growth(body, before, {30.0 * mm, 0.0 * mm, -40.0 * mm}).in(mm), 20.0, 1e-12);
  EXPECT_EQ(chord_growth(body, before, before), Length());
}

TEST_F(RandomCarts, RampLineTouchesTheTyre) {
  // The line through the point at the angle found passes the wheel's centre at just the radius.
  double worst = 0.0;
  for (int n = 0; n < 300; ++n) {
    const double d = within(0.3, 1.2), c = within(0.0, 0.2), r = within(0.2, 0.3);
    const double angle = ramp_angle(d * metre, c * metre, r * metre).si();
    const double away = (r - c) * std::cos(angle) + d * std::sin(angle);
    worst = std::max(worst, std::abs(away - r));
    EXPECT_GE(angle, -1e-12);
  }
  std::cout << "worst ramp tangent " << worst << " m\n";
  EXPECT_LT(worst, 1e-12);
  EXPECT_NEAR(ramp_angle(0.5 * metre, 0.0 * metre, 0.25 * metre).si(), 0.0, 1e-12);
}

TEST(Balance, RideOnASpring) {
  // 1 kg on 4 pi^2 N/m swings once a second; half the motion ratio is a quarter of the rate.
  EXPECT_NEAR(ride_frequency(1.0 * kg, Stiffness::from_si(4.0 * std::numbers::pi * std::numbers::pi)).si(), 1.0, 1e-12);
  EXPECT_NEAR(wheel_rate(40.0 * N_per_mm, 0.5).in(N_per_mm), 10.0, 1e-12);
  EXPECT_NEAR(in_series(30.0 * N_per_mm, 150.0 * N_per_mm).in(N_per_mm), 25.0, 1e-12);
  EXPECT_NEAR(ride_height_change(100.0 * kg, 49.03325 * N_per_mm).in(mm), -20.0, 1e-12);
}

TEST_F(RandomCarts, ThreePointsCarryTheCartWhileItsCentreIsInside) {
  double worst = 0.0;
  int inside = 0;
  for (int n = 0; n < 500; ++n) {
    const auto whole = sum(cart(0.5)).whole;
    const auto point = [&] { return Vector3<Length>{within(-2.2, 0.4) * metre, within(-0.7, 0.7) * metre, {}}; };
    const std::array<Vector3<Length>, 3> p{point(), point(), point()};
    const auto on = loads_on<double>(whole, p);
    const std::array load{on[0].even, on[1].even, on[2].even};
    Vector3<double> off{whole.mass.si(), whole.mass.si() * whole.at.x.si(), whole.mass.si() * whole.at.y.si()};
    for (int i = 0; i < 3; ++i) off -= load[i].si() * Vector3<double>{1.0, p[i].x.si(), p[i].y.si()};
    const double area = std::abs(((p[1].x - p[0].x) * (p[2].y - p[0].y) - (p[1].y - p[0].y) * (p[2].x - p[0].x)).si());
    if (area > 0.05) worst = std::max(worst, norm(off));
    const auto hold = hold_on<double>(whole, p);
    const bool all = std::min({load[0], load[1], load[2]}) > Mass();
    EXPECT_EQ(all, hold.inside > Length());
    inside += all;

    // Inside, one more point never makes it worse, and the mirror changes nothing.
    std::vector<Vector3<Length>> more(p.begin(), p.end());
    more.push_back(point());
    if (all) { EXPECT_GE(hold_on<double>(whole, more).inside, hold.inside - 1e-12 * metre); }
    LumpedMass<double> other{whole.mass, mirrored(whole.at)};
    for (auto& q : more) q = mirrored(q);
    more.pop_back();
    EXPECT_NEAR(hold_on<double>(other, more).inside.si(), hold.inside.si(), 1e-12);
  }
  std::cout << "worst three-point balance " << worst << " kg or kg m\n";
  EXPECT_GT(inside, 20);
  EXPECT_LT(worst, 1e-9);
}

TEST(Balance, PullTipsOverTheNearestEdge) {
  // Stands 0.4 m apart under one end, wheels 0.9 m apart at the other: the line from wheel to stand is the near edge.
  const LumpedMass<double> whole{600.0 * kg, {-1.0 * metre, {}, 0.5 * metre}};
  const std::vector<Vector3<Length>> p{{{}, 0.45 * metre, {}},
                                       {{}, -0.45 * metre, {}},
                                       {-1.5 * metre, 0.2 * metre, {}},
                                       {-1.5 * metre, -0.2 * metre, {}}};
  const auto hold = hold_on<double>(whole, p);
  const double here = 0.45 - 0.25 / 1.5, across = 1.5 / std::hypot(1.5, 0.25);
  EXPECT_NEAR(hold.inside.in(metre), here * across, 1e-12);
  EXPECT_NEAR(pull_to_tip(whole, hold, 0.6 * metre).si(), 600.0 * 9.80665 * here * across / 0.6, 1e-9);
  EXPECT_LE(hold_on<double>(whole, std::span(p).first(2)).inside, Length());
}

TEST(Balance, JackUnderAnAxleCanUnloadTheStands) {
  // A jack that lifts at the rear, behind the stands, with more than the stands carry leaves them empty.
  const LumpedMass<double> whole{612.0 * kg, {-1.015 * metre, {}, 0.45 * metre}};
  const auto stands = rear_stands(-1.5 * metre, 0.3 * metre);
  const LumpedMass<double> jack{345.0 * kg, {-1.8 * metre, {}, {}}};
  const auto left = [&](const LumpedMass<double>& held) {
    return loads_on<double>(without(whole, held), stands)[1].even;
  };
  EXPECT_GT(left({100.0 * kg, jack.at}), Mass());
  EXPECT_LT(left(jack), 1.0 * kg);
}

// A rigid cart on four springs that push only, by Gauss on its three motions; a spring that would pull lets go.
std::array<double, 4> on_springs(const LumpedMass<double>& whole, const std::array<Vector3<Length>, 4>& p,
                                 std::array<double, 4> stiff) {
  std::array<double, 4> load{};
  for (int round = 0; round < 4; ++round) {
    std::array<std::array<double, 4>, 3> m{};
    for (int i = 0; i < 4; ++i) {
      const std::array<double, 3> row{1.0, p[i].x.si(), p[i].y.si()};
      for (int a = 0; a < 3; ++a)
        for (int b = 0; b < 3; ++b) m[a][b] += stiff[i] * row[a] * row[b];
    }
    const std::array<double, 3> wanted{whole.mass.si(), whole.mass.si() * whole.at.x.si(),
                                       whole.mass.si() * whole.at.y.si()};
    for (int a = 0; a < 3; ++a) m[a][3] = wanted[a];
    for (int a = 0; a < 3; ++a) {
      const auto pivot = std::max_element(
          m.begin() + a, m.end(), [&](const auto& x, const auto& y) { return std::abs(x[a]) < std::abs(y[a]); });
      std::swap(m[a], *pivot);
      for (int b = 0; b < 3; ++b)
        if (b != a)
          for (int c = 3; c >= a; --c) m[b][c] -= m[b][a] / m[a][a] * m[a][c];
    }
    bool pulls = false;
    for (int i = 0; i < 4; ++i) {
      load[i] = stiff[i] * (m[0][3] / m[0][0] + m[1][3] / m[1][1] * p[i].x.si() + m[2][3] / m[2][2] * p[i].y.si());
      if (load[i] < -1e-9) {
        stiff[i] = 0.0;
        pulls = true;
      }
    }
    if (!pulls) break;
  }
  return load;
}

TEST_F(RandomCarts, FourPointsBearWhatTheirGiveDecides) {
  double worst = 0.0, end = 0.0;
  for (int n = 0; n < 300; ++n) {
    const auto whole = sum(cart(0.3)).whole;
    const std::array<Vector3<Length>, 4> p{{{within(-0.5, 0.1) * metre, within(0.4, 0.6) * metre, {}},
                                            {within(-0.5, 0.1) * metre, within(-0.6, -0.4) * metre, {}},
                                            {within(-2.2, -1.4) * metre, within(0.4, 0.6) * metre, {}},
                                            {within(-2.2, -1.4) * metre, within(-0.6, -0.4) * metre, {}}}};
    if (hold_on<double>(whole, p).inside < 0.02 * metre) continue;
    const auto on = loads_on<double>(whole, p);
    // Both ends of the range balance and bare a point.
    Mass barest = on[0].least;
    for (const auto& l : on) barest = std::min(barest, l.least);
    EXPECT_NEAR(barest.si(), 0.0, 1e-9);
    // Alike: the even share. Any other give: within the range, and soft under one point comes near its ends.
    const auto alike = on_springs(whole, p, {1.0, 1.0, 1.0, 1.0});
    if (*std::min_element(alike.begin(), alike.end()) > 0.0)
      for (int i = 0; i < 4; ++i) worst = std::max(worst, std::abs(alike[i] - on[i].even.si()));
    for (int tries = 0; tries < 10; ++tries) {
      std::array<double, 4> stiff{within(0, 1), within(0, 1), within(0, 1), within(0, 1)};
      const auto load = on_springs(whole, p, stiff);
      for (int i = 0; i < 4; ++i) {
        EXPECT_GE(load[i], on[i].least.si() - 1e-6);
        EXPECT_LE(load[i], on[i].most.si() + 1e-6);
      }
    }
    for (int soft = 0; soft < 4; ++soft) {
      std::array<double, 4> stiff{1.0, 1.0, 1.0, 1.0};
      stiff[soft] = 1e-7;
      const auto load = on_springs(whole, p, stiff);
      for (int i = 0; i < 4; ++i) end = std::max(end, std::min(on[i].most.si() - load[i], load[i] - on[i].least.si()));
    }
  }
  std::cout << "worst even share " << worst << " kg, of an end of the range " << end << " kg\n";
  EXPECT_LT(worst, 1e-8);
  EXPECT_LT(end, 1e-3);
  // By hand: 400 kg in the middle of a square; nothing or 200 kg on each.
  const LumpedMass<double> middle{400.0 * kg, {}};
  const std::array<Vector3<Length>, 4> square{{{1.0 * metre, 1.0 * metre, {}},
                                               {1.0 * metre, -1.0 * metre, {}},
                                               {-1.0 * metre, 1.0 * metre, {}},
                                               {-1.0 * metre, -1.0 * metre, {}}}};
  for (const auto& l : loads_on<double>(middle, square)) {
    EXPECT_NEAR(l.least.si(), 0.0, 1e-12);
    EXPECT_NEAR(l.even.si(), 100.0, 1e-12);
    EXPECT_NEAR(l.most.si(), 200.0, 1e-12);
  }
  // Outside the square nothing stands, and the even share shows it.
  const auto off = loads_on<double>({400.0 * kg, {1.5 * metre, {}, {}}}, square);
  EXPECT_LT(off[2].even, Mass());
  EXPECT_EQ(off[2].least, off[2].even);
}

TEST(Balance, WhatHoldsDependsOnWhereTheBrakeSits) {
  const WheelLoads<double> floor{130.0 * kg, 130.0 * kg, 170.0 * kg, 170.0 * kg};
  const WheelLoads<double> one_up{130.0 * kg, 130.0 * kg, {}, 340.0 * kg};
  const WheelLoads<double> rear_up{130.0 * kg, 130.0 * kg, {}, {}};
  const AxleHold free, wheels{BrakeReach::wheels}, shaft{BrakeReach::motor_shaft},
      chocked{BrakeReach::none, true, true};
  const auto kilograms = [](Force f) { return f.si() / 0.5 / 9.80665; };
  EXPECT_NEAR(kilograms(rolling_hold(free, wheels, floor, 0.5)), 340.0, 1e-9);
  EXPECT_NEAR(kilograms(rolling_hold(free, shaft, floor, 0.5)), 340.0, 1e-9);
  EXPECT_NEAR(kilograms(rolling_hold(free, wheels, one_up, 0.5)), 340.0, 1e-9);
  EXPECT_NEAR(kilograms(rolling_hold(free, shaft, one_up, 0.5)), 0.0, 1e-9);
  EXPECT_NEAR(kilograms(rolling_hold(free, wheels, rear_up, 0.5)), 0.0, 1e-9);
  EXPECT_NEAR(kilograms(rolling_hold(chocked, shaft, rear_up, 0.5)), 260.0, 1e-9);
}

TEST_F(RandomCarts, AxlesLockWhereTheirBrakeMeetsTheirGrip) {
  double worst = 0.0;
  for (int n = 0; n < 300; ++n) {
    const auto whole = sum(cart(0.0)).whole;
    const double share = within(0.05, 0.95), mu = within(0.2, 0.9);
    const auto lock = locking(whole, wheelbase, share, mu);
    const auto used = [&](Acceleration b, Braked axle, double part) {
      return (part * whole.mass * b / braked_load(whole, wheelbase, axle, b, 0.0 * degree)) - mu;
    };
    if (std::isfinite(lock.front.si())) worst = std::max(worst, std::abs(used(lock.front, Braked::front, share)));
    if (std::isfinite(lock.rear.si())) worst = std::max(worst, std::abs(used(lock.rear, Braked::rear, 1 - share)));
  }
  std::cout << "worst locking " << worst << " of mu\n";
  EXPECT_LT(worst, 1e-11);
  const LumpedMass<double> whole{600.0 * kg, {-1.0 * metre, {}, 0.5 * metre}};
  EXPECT_TRUE(locking(whole, wheelbase, 0.0, 0.7).rear_first());
  EXPECT_FALSE(locking(whole, wheelbase, 1.0, 0.7).rear_first());
}

}  // namespace
}  // namespace trammel::vehicle
