// Quantities keep their dimension, units have their published size, dual numbers the exact derivative.
#include "measure/quantity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <iostream>
#include <numbers>

#include "measure/dual.h"
#include "measure/fraction.h"
#include "measure/kind.h"
#include "measure/uncertainty.h"
#include "measure/vector3.h"

namespace trammel {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept Assignable = requires(A a, B b) {
  a = b;
};
template <class A>
concept HasSine = requires(A a) {
  sin(a);
};
template <class A>
concept HasRoot = requires(A a) {
  sqrt(a);
};

// What means nothing does not compile.
static_assert(Addable<Length, Length>);
static_assert(!Addable<Length, Force>);
static_assert(!Addable<Length, Area>);
static_assert(!Addable<Length, double>);
static_assert(!Addable<Mass, Force>);
static_assert(!Addable<Torque, Force>);
static_assert(!Comparable<Length, Angle>);
static_assert(!Comparable<Length, double>);
static_assert(!Assignable<Length, double>);
static_assert(!Assignable<double, Length>);
static_assert(!Assignable<Pressure, Force>);
static_assert(!std::is_convertible_v<double, Length>);
static_assert(!std::is_constructible_v<Length, double>);
static_assert(HasSine<Angle> && !HasSine<Length>);
static_assert(HasRoot<Area> && !HasRoot<Length>);

// What means something has the dimension it should have.
static_assert(std::is_same_v<decltype(Length{} * Length{}), Area>);
static_assert(std::is_same_v<decltype(Force{} * Length{}), Torque>);
static_assert(std::is_same_v<decltype(Force{} / Area{}), Pressure>);
static_assert(std::is_same_v<decltype(Force{} * Speed{}), Power>);
static_assert(std::is_same_v<decltype(Mass{} * Acceleration{}), Force>);
static_assert(std::is_same_v<decltype(Force{} / Length{}), Stiffness>);
static_assert(std::is_same_v<decltype(Length{} / Length{}), double>);
static_assert(std::is_same_v<decltype(Length{} / Angle{}), LengthPerAngle>);
static_assert(std::is_same_v<decltype(1.0 / Time{} * Length{}), Speed>);
static_assert(std::is_same_v<decltype(sqrt(Area{})), Length>);
static_assert(std::is_same_v<decltype(atan2(Length{}, Length{})), Angle>);
static_assert(std::is_same_v<decltype(dot(Vector3<Length>{}, Vector3<Force>{})), Torque>);
static_assert(std::is_same_v<decltype(cross(Vector3<Length>{}, Vector3<Force>{})), Vector3<Torque>>);

// All of it is known to the compiler.
static_assert((25.4 * units::mm).in(units::inch) == 1.0);
static_assert(mirrored(Vector3<double>{1, 2, 3}) == Vector3<double>{1, -2, 3});
static_assert(number(2.0 * units::metre, 1.0 * units::mm).u == 0.001);

// NIST Special Publication 811 (2008), appendix B.8: the factor to SI as printed, to seven digits
// (those printed in bold there are exact).
TEST(Units, HaveTheirPublishedSize) {
  struct Row {
    const char* name;
    double si, published;
    bool exact;
  };
  const Row rows[] = {
      {"inch", units::inch.si(), 2.54e-2, true},
      {"foot", units::foot.si(), 3.048e-1, true},
      {"degree", units::degree.si(), 1.745329e-2, false},
      {"minute of arc", units::minute_of_arc.si(), 2.908882e-4, false},
      {"revolution", units::turn.si(), 6.283185, false},
      {"pound", units::lb.si(), 4.535924e-1, false},
      {"minute", units::minute.si(), 60, true},
      {"hour", units::hour.si(), 3600, true},
      {"standard gravity", units::g.si(), 9.80665, true},
      {"pound-force", units::lbf.si(), 4.448222, false},
      {"pound-force foot", units::lbf_ft.si(), 1.355818, false},
      {"pound-force inch", units::lbf_in.si(), 1.129848e-1, false},
      {"bar", units::bar.si(), 1e5, true},
      {"psi", units::psi.si(), 6.894757e3, false},
      {"mile per hour", units::mph.si(), 4.4704e-1, true},
      {"kilometre per hour", units::km_per_h.si(), 2.777778e-1, false},
  };
  double worst = 0.0;
  for (const Row& row : rows) {
    const double error = std::abs(row.si - row.published) / row.published;
    EXPECT_LE(error, row.exact ? 2e-16 : 5e-7) << row.name;
    worst = std::max(worst, error);
  }
  std::cout << "worst relative difference from NIST SP 811's printed digits " << worst << "\n";
}

TEST(Fractions, StayInLowestTermsAndInRange) {
  static_assert(Fraction::make(6, 16) == Fraction::make(3, 8));
  static_assert(Fraction::make(-6, -16) == Fraction::make(3, 8));
  static_assert(!Fraction::make(1, 0));
  static_assert(!Fraction::make(std::numeric_limits<std::int64_t>::min(), 3));
  static_assert(*Fraction::make(5, 8) < *Fraction::make(2, 3));
  static_assert(add(*Fraction::make(5, 8), *Fraction::make(3, 16)) == Fraction::make(13, 16));
  constexpr auto top = std::numeric_limits<std::int64_t>::max();
  static_assert(!add(Fraction(top), Fraction(1)));
  static_assert(!multiply(Fraction(top), Fraction(2)));
  static_assert(multiply(Fraction(top), *Fraction::make(1, top)) == Fraction(1));
}

TEST(Uncertainty, OfSingleReadings) {
  // JCGM 100:2008 4.3.7: a rectangular distribution of half-width a has u = a / sqrt 3; its example of
  // thermal expansion, half-width 0.40e-6 /degC, gives 0.23e-6.
  EXPECT_NEAR(rectangular(0.40 * units::mm).in(units::mm), 0.23, 0.005);
  // F.2.2.1: a display with step d has u = 0.29 d.
  EXPECT_NEAR(resolution(1.0 * units::mm).in(units::mm), 0.29, 0.005);
  EXPECT_NEAR(tape_resolution(16).in(units::mm), 25.4 / 16 / std::sqrt(12.0), 1e-12);
  EXPECT_DOUBLE_EQ(repeated(2.0 * units::mm, 4).in(units::mm), 1.0);
}

// Each function against the derivative written down by hand (derived).
TEST(DualNumbers, GiveTheExactDerivative) {
  using D = Dual<double, 2>;
  struct Case {
    const char* name;
    std::function<D(D, D)> f;
    std::function<double(double, double)> dx, dy;
  };
  const Case cases[] = {
      {"x y", [](D x, D y) { return x * y; }, [](double, double y) { return y; }, [](double x, double) { return x; }},
      {"x / y", [](D x, D y) { return x / y; }, [](double, double y) { return 1 / y; },
       [](double x, double y) { return -x / (y * y); }},
      {"sqrt(x) - y", [](D x, D y) { return sqrt(x) - y; }, [](double x, double) { return 0.5 / std::sqrt(x); },
       [](double, double) { return -1.0; }},
      {"sin(x y)", [](D x, D y) { return sin(x * y); }, [](double x, double y) { return y * std::cos(x * y); },
       [](double x, double y) { return x * std::cos(x * y); }},
      {"cos x tan y", [](D x, D y) { return cos(x) * tan(y); },
       [](double x, double y) { return -std::sin(x) * std::tan(y); },
       [](double x, double y) { return std::cos(x) / (std::cos(y) * std::cos(y)); }},
      {"asin x + acos y", [](D x, D y) { return asin(x) + acos(y); },
       [](double x, double) { return 1 / std::sqrt(1 - x * x); },
       [](double, double y) { return -1 / std::sqrt(1 - y * y); }},
      {"atan x", [](D x, D) { return atan(x); }, [](double x, double) { return 1 / (1 + x * x); },
       [](double, double) { return 0.0; }},
      {"atan2(y, x)", [](D x, D y) { return atan2(y, x); }, [](double x, double y) { return -y / (x * x + y * y); },
       [](double x, double y) { return x / (x * x + y * y); }},
      {"exp(x) log(y)", [](D x, D y) { return exp(x) * log(y); },
       [](double x, double y) { return std::exp(x) * std::log(y); },
       [](double x, double y) { return std::exp(x) / y; }},
      {"|x - y|", [](D x, D y) { return abs(x - y); }, [](double x, double y) { return x < y ? -1.0 : 1.0; },
       [](double x, double y) { return x < y ? 1.0 : -1.0; }},
  };
  double worst = 0.0;
  for (const Case& c : cases) {
    for (double x = 0.05; x < 0.95; x += 0.0625) {
      for (double y = 0.07; y < 0.95; y += 0.0625) {
        const D d = c.f(D::variable(x, 0), D::variable(y, 1));
        const double ex = std::abs(d.slope[0] - c.dx(x, y)) / std::max(1.0, std::abs(c.dx(x, y)));
        const double ey = std::abs(d.slope[1] - c.dy(x, y)) / std::max(1.0, std::abs(c.dy(x, y)));
        EXPECT_LT(std::max(ex, ey), 2e-15) << c.name << " at " << x << ", " << y;
        worst = std::max({worst, ex, ey});
      }
    }
  }
  std::cout << "worst relative error of a derivative " << worst << "\n";
}

// A quantity over dual numbers: the same text gives the value and its rate.
TEST(DualNumbers, PassThroughQuantities) {
  using D = Dual<double, 1>;
  const auto gap = LengthOf<D>::from_si(D::variable(0.007, 0)), height = LengthOf<D>::from_si(D(0.4));
  const AngleOf<D> camber = atan2(gap, height);
  EXPECT_NEAR(camber.si().value, std::atan2(0.007, 0.4), 1e-16);
  EXPECT_NEAR(camber.si().slope[0], 0.4 / (0.4 * 0.4 + 0.007 * 0.007), 1e-15);
}

}  // namespace
}  // namespace trammel
