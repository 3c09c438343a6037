// Uncertainty carried through the kernels, against Monte Carlo (JCGM 101:2008) and by hand (JCGM 100:2008).
#include <gtest/gtest.h>

#include <iostream>
#include <random>

#include "vehicle/centre_of_gravity.h"
#include "vehicle/stability.h"
#include "vehicle/worked_example.h"

namespace trammel::vehicle {
namespace {

using namespace trammel::units;

TEST(Uncertain, LawsOfOneInput) {
  Sources s;
  const Uncertain x = s.input("x", 3.0, 0.2);
  EXPECT_EQ((x - x).u(), 0.0);
  EXPECT_NEAR((x + x).u(), 0.4, 1e-15);
  EXPECT_NEAR((x * x).u(), 1.2, 1e-15);
  EXPECT_NEAR((x / x).u(), 0.0, 1e-15);
  EXPECT_NEAR((Uncertain(1.0) / x).u(), 0.2 / 9.0, 1e-15);
  EXPECT_NEAR(sqrt(x).u(), 0.1 / std::sqrt(3.0), 1e-15);
  EXPECT_NEAR(atan2(x, Uncertain(4.0)).u(), 0.2 * 4.0 / 25.0, 1e-15);
}

TEST(Uncertain, CovarianceOfWhatTwoResultsShare) {
  Sources s;
  const Uncertain a = s.input("a", 1.0, 0.3), b = s.input("b", 2.0, 0.4);
  EXPECT_NEAR((a + b).u(), 0.5, 1e-15);
  EXPECT_NEAR(covariance(a + b, a - b), 0.09 - 0.16, 1e-15);
  EXPECT_EQ(covariance(a, b), 0.0);
  EXPECT_EQ(s.largest_in(a + b), "b");
  EXPECT_EQ(s.largest_in(Uncertain(1.0)), "");
}

// GUM-H2: JCGM 100:2008 Annex H.2, resistance, reactance and impedance of one element from three correlated readings.
// As published (secondary); GUM prints R 127.732 u 0.071, X 219.847 u 0.295, Z 254.260 u 0.236 from rounded
// correlations, the row the figures of a metrology library to all digits.
TEST(Uncertain, GumH2) {
  const WorkedExample e = worked_example("GUM-H2");
  const double uv = 0.0032, ui = 0.0095e-3, up = 0.00075, vi = -0.36, vp = 0.86, ip = -0.65;
  ASSERT_NE(e.inputs.find("V=4.999 (0.0032) V; I=19.661 (0.0095) mA; phi=1.04446 (0.00075) rad; r(V,I)=-0.36"),
            std::string::npos);
  // Correlated readings as sums of three independent inputs (Cholesky of the correlations).
  Sources s;
  const Uncertain a = s.input("a", 0.0, 1.0), b = s.input("b", 0.0, 1.0), c = s.input("c", 0.0, 1.0);
  const double l11 = std::sqrt(1 - vi * vi), l21 = (ip - vi * vp) / l11, l22 = std::sqrt(1 - vp * vp - l21 * l21);
  const Uncertain v = 4.999 + uv * a, i = 19.661e-3 + ui * (vi * a + l11 * b);
  const Uncertain phi = 1.04446 + up * (vp * a + l21 * b + l22 * c);
  const Uncertain r = v / i * cos(phi), x = v / i * sin(phi), z = v / i;
  const auto correlation = [](const Uncertain& p, const Uncertain& q) { return covariance(p, q) / p.u() / q.u(); };
  const auto after = [&](const std::string& key, const std::string& next) {
    return number_after(e.expected.substr(e.expected.find(key)), next);
  };
  const double worst =
      std::max({std::abs(r.value() - number_after(e.expected, "R=")), std::abs(r.u() - after("R=", "u="))});
  std::cout << "worst GUM-H2: " << worst << " ohm of resistance and its u\n";
  EXPECT_LT(worst, 1e-11);
  EXPECT_NEAR(x.value(), number_after(e.expected, "X="), 5e-6);
  EXPECT_NEAR(x.u(), after("X=", "u="), 5e-7);
  EXPECT_NEAR(z.value(), number_after(e.expected, "Z="), 5e-6);
  EXPECT_NEAR(z.u(), after("Z=", "u="), 5e-7);
  EXPECT_NEAR(correlation(r, x), number_after(e.expected, "r(R,X)="), 5e-5);
  EXPECT_NEAR(correlation(r, z), number_after(e.expected, "r(R,Z)="), 5e-5);
  EXPECT_NEAR(correlation(x, z), number_after(e.expected, "r(X,Z)="), 5e-5);
}

// One cart in either scalar: the uncertain inputs are its masses, places, tracks, springs.
constexpr double nominal[] = {460, -0.95, 0.55, 170,  -1.0, 0.9,   46,   0.217,
                              104, 0.225, 0.92, 0.96, 7000, 11000, 0.12, 0.2};
constexpr double u[] = {3, 0.01, 0.012, 5, 0.02, 0.03, 1, 0.003, 1.5, 0.003, 0.003, 0.003, 400, 500, 0.01, 0.01};

template <class R>
RollModel<R> model(const std::vector<R>& x) {
  const auto len = [](const R& v) { return LengthOf<R>::from_si(v); };
  const auto item = [&](const R& m, const R& at, const R& z, Rides r) {
    return MassItem<R>{"", MassOf<R>::from_si(m), {len(at), len(R(0.0)), len(z)}, r};
  };
  RollModel<R> m;
  m.mass = sum(std::vector<MassItem<R>>{item(x[0], x[1], x[2], Rides::sprung), item(x[3], x[4], x[5], Rides::sprung),
                                        item(x[6], R(0.0), x[7], Rides::front_unsprung),
                                        item(x[8], R(-1.8), x[9], Rides::rear_unsprung)});
  m.footprint = {len(R(1.8)), len(x[10]), len(x[11])};
  m.front = {RollStiffnessOf<R>::from_si(x[12]), len(x[14]), {}};
  m.rear = {RollStiffnessOf<R>::from_si(x[13]), len(x[15]), as<R>(150.0 * N_per_mm)};
  return m;
}

TEST(Uncertain, RollThresholdCarriesItsDerivativesThroughTheSolve) {
  Sources s;
  std::vector<Uncertain> x;
  const int n = std::size(nominal);
  for (int i = 0; i < n; ++i) x.push_back(s.input("x", nominal[i], u[i]));
  const auto t = roll_threshold(model(x));
  ASSERT_EQ(t.outcome, RollOutcome::found);
  const auto tilt = sprung_tilt_angle(model(x));

  // Value and every share against central differences of the plain solve.
  const std::vector<double> at(std::begin(nominal), std::end(nominal));
  const auto plain = roll_threshold(model(at));
  EXPECT_NEAR(t.threshold.value(), plain.threshold, 1e-12);
  double worst = 0.0;
  for (int i = 0; i < n; ++i) {
    auto high = at, low = at;
    const double step = 1e-4 * std::abs(nominal[i]);
    high[i] += step;
    low[i] -= step;
    const auto up = roll_threshold(model(high)), down = roll_threshold(model(low));
    const auto compare = [&](const Uncertain& carried, double a, double b) {
      double share = 0.0;
      for (const auto& c : carried.shares())
        if (c.source == static_cast<std::uint32_t>(i)) share = c.amount;
      worst = std::max(worst, std::abs(share - (a - b) / (2 * step) * u[i]) / carried.u());
    };
    compare(t.threshold, up.threshold, down.threshold);
    compare(t.roll.si(), up.roll.si(), down.roll.si());
    compare(t.roll_per_g.si(), up.roll_per_g.si(), down.roll_per_g.si());
    compare(t.first_lift, up.first_lift, down.first_lift);
    compare(tilt.roll.si(), sprung_tilt_angle(model(high)).roll.si(), sprung_tilt_angle(model(low)).roll.si());
    compare(tilt.angle.si(), sprung_tilt_angle(model(high)).angle.si(), sprung_tilt_angle(model(low)).angle.si());
  }
  std::cout << "worst share of uncertainty against differences " << worst << " of the whole\n";
  EXPECT_LT(worst, 1e-6);
}

TEST(Uncertain, AgreesWithMonteCarlo) {
  Sources s;
  std::vector<Uncertain> x;
  for (std::size_t i = 0; i < std::size(nominal); ++i) x.push_back(s.input("x", nominal[i], u[i]));
  const auto m = model(x);
  const Uncertain rigid = rigid_threshold(m.mass.whole, m.footprint), sprung = roll_threshold(m).threshold;

  std::mt19937 random(12);
  std::normal_distribution<> normal;
  const int trials = 20000;
  double sum1 = 0, sum2 = 0, sum11 = 0, sum22 = 0, sum12 = 0;
  for (int k = 0; k < trials; ++k) {
    std::vector<double> v;
    for (std::size_t i = 0; i < std::size(nominal); ++i) v.push_back(nominal[i] + u[i] * normal(random));
    const auto d = model(v);
    const double a = rigid_threshold(d.mass.whole, d.footprint) - rigid.value();
    const double b = roll_threshold(d).threshold - sprung.value();
    sum1 += a, sum2 += b, sum11 += a * a, sum22 += b * b, sum12 += a * b;
  }
  const double n = trials, u1 = std::sqrt(sum11 / n - sum1 * sum1 / n / n),
               u2 = std::sqrt(sum22 / n - sum2 * sum2 / n / n);
  const double r = (sum12 / n - sum1 * sum2 / n / n) / u1 / u2;
  std::cout << "worst u against Monte Carlo: rigid " << rigid.u() / u1 - 1 << ", on springs " << sprung.u() / u2 - 1
            << "; correlation " << covariance(rigid, sprung) / rigid.u() / sprung.u() << " against " << r << "\n";
  EXPECT_NEAR(rigid.u() / u1, 1.0, 0.02);
  EXPECT_NEAR(sprung.u() / u2, 1.0, 0.02);
  EXPECT_NEAR(covariance(rigid, sprung) / rigid.u() / sprung.u(), r, 0.02);
}

TEST(Uncertain, BeforeAndAfterShareTheirCart) {
  // The loss of stability by a lift of 100 mm is known far better than either figure.
  Sources s;
  std::vector<MassItem<Uncertain>> items{{"body",
                                          s.input("body", 460.0 * kg, 3.0 * kg),
                                          {s.input("x", -0.95 * metre, 0.01 * metre), as<Uncertain>(0.0 * metre),
                                           s.input("height", 0.55 * metre, 0.02 * metre)},
                                          Rides::sprung}};
  const Footprint<Uncertain> f{as<Uncertain>(1.8 * metre), as<Uncertain>(0.92 * metre), as<Uncertain>(0.92 * metre)};
  const auto rise = as<Uncertain>(0.1 * metre), none = as<Uncertain>(0.0 * metre);
  const Uncertain before = rigid_threshold(sum(items).whole, f);
  const Uncertain after =
      rigid_threshold(sum(raised(items, Raise<Uncertain>{rise, rise, none, none, f.wheelbase, none})).whole, f);
  EXPECT_GT(before.u(), 0.02);
  EXPECT_LT((before - after).u(), 0.4 * before.u());
  EXPECT_EQ(s.largest_in(before), "height");
}

TEST(Uncertain, ScalesAndLiftByHand) {
  // u(z) from the lifted reading alone: l u(m') / (m tan theta).
  Sources s;
  const LumpedMass<Uncertain> level{as<Uncertain>(600.0 * kg), {as<Uncertain>(-1.0 * metre), {}, {}}};
  const auto reading = s.input("front scale", 300.0 * kg, 0.5 * kg);
  const auto z = centre_height(level, as<Uncertain>(1.8 * metre), as<Uncertain>(0.22 * metre),
                               as<Uncertain>(0.22 * metre), LiftedEnd::rear, reading, as<Uncertain>(10.0 * degree));
  EXPECT_NEAR(standard_uncertainty(z).si(), 1.8 * 0.5 / (600.0 * std::tan(10.0 * std::numbers::pi / 180.0)), 1e-12);
}

}  // namespace
}  // namespace trammel::vehicle
