// Physical quantities that cannot be mixed up.
//
// Model: a Quantity<D, Rep> is a number in coherent SI units with its dimension in the type.
//   D    exponents of length, mass, time, temperature and plane angle
//   Rep  the scalar: double, a dual number, a SIMD lane
// Sums need equal dimensions; products and quotients add and subtract exponents. Plane angle is kept
// as a dimension of its own, so that a length divided by a length is a ratio and never an angle:
// atan2(Length, Length) gives an Angle and sin(Angle) a plain number.
// Torque is force times length (kg m2 s-2); no energy type shares its place in the trade's texts.
// Temperature is absolute, in kelvin; Celsius and Fahrenheit exist only where text is read or printed.
//
// Range: that of Rep. Error: none but rounding in Rep. Source: SI Brochure 9th ed. (2019), 2.3.
#pragma once

#include <cmath>
#include <compare>
#include <numbers>

namespace trammel {

template <int L, int M, int T, int K, int A>
struct Dimension {
  static constexpr int length = L, mass = M, time = T, temperature = K, angle = A;
};

template <class D, class E>
using DimensionProduct = Dimension<D::length + E::length, D::mass + E::mass, D::time + E::time,
                                   D::temperature + E::temperature, D::angle + E::angle>;
template <class D, class E>
using DimensionQuotient = Dimension<D::length - E::length, D::mass - E::mass, D::time - E::time,
                                    D::temperature - E::temperature, D::angle - E::angle>;
using NoDimension = Dimension<0, 0, 0, 0, 0>;

template <class D, class Rep = double>
class Quantity {
 public:
  using dimension = D;
  using rep = Rep;

  constexpr Quantity() : value_(Rep(0)) {}
  // The one door from a bare number: its unit is the coherent SI unit of D.
  static constexpr Quantity from_si(Rep value) { return Quantity(value); }
  constexpr const Rep& si() const { return value_; }
  // How many `unit` this is: (25.4 * units::mm).in(units::inch) is 1.
  constexpr Rep in(Quantity<D, double> unit) const { return value_ / unit.si(); }

  constexpr Quantity operator+() const { return *this; }
  constexpr Quantity operator-() const { return Quantity(-value_); }
  constexpr Quantity& operator+=(Quantity b) {
    value_ += b.value_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity b) {
    value_ -= b.value_;
    return *this;
  }
  constexpr Quantity& operator*=(const Rep& b) {
    value_ *= b;
    return *this;
  }
  constexpr Quantity& operator/=(const Rep& b) {
    value_ /= b;
    return *this;
  }

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator*(Quantity a, const Rep& b) { return Quantity(a.value_ * b); }
  friend constexpr Quantity operator*(const Rep& a, Quantity b) { return Quantity(a * b.value_); }
  friend constexpr Quantity operator/(Quantity a, const Rep& b) { return Quantity(a.value_ / b); }
  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
  friend constexpr bool operator==(const Quantity&, const Quantity&) = default;

 private:
  explicit constexpr Quantity(Rep value) : value_(value) {}
  Rep value_;
};

// A quantity whose dimensions cancel is a plain number again.
template <class D, class Rep>
constexpr auto make_quantity(Rep si) {
  if constexpr (D::length == 0 && D::mass == 0 && D::time == 0 && D::temperature == 0 && D::angle == 0)
    return si;
  else
    return Quantity<D, Rep>::from_si(si);
}

template <class D, class E, class Rep>
constexpr auto operator*(Quantity<D, Rep> a, Quantity<E, Rep> b) {
  return make_quantity<DimensionProduct<D, E>, Rep>(a.si() * b.si());
}
template <class D, class E, class Rep>
constexpr auto operator/(Quantity<D, Rep> a, Quantity<E, Rep> b) {
  return make_quantity<DimensionQuotient<D, E>, Rep>(a.si() / b.si());
}
template <class D, class Rep>
constexpr auto operator/(const Rep& a, Quantity<D, Rep> b) {
  return make_quantity<DimensionQuotient<NoDimension, D>, Rep>(a / b.si());
}

namespace dim {
using Length = Dimension<1, 0, 0, 0, 0>;
using Area = Dimension<2, 0, 0, 0, 0>;
using Angle = Dimension<0, 0, 0, 0, 1>;
using Mass = Dimension<0, 1, 0, 0, 0>;
using Time = Dimension<0, 0, 1, 0, 0>;
using Temperature = Dimension<0, 0, 0, 1, 0>;
using Speed = Dimension<1, 0, -1, 0, 0>;
using Acceleration = Dimension<1, 0, -2, 0, 0>;
using Force = Dimension<1, 1, -2, 0, 0>;
using Torque = Dimension<2, 1, -2, 0, 0>;
using Pressure = Dimension<-1, 1, -2, 0, 0>;
using Power = Dimension<2, 1, -3, 0, 0>;
using Stiffness = Dimension<0, 1, -2, 0, 0>;
using AnglePerLength = Dimension<-1, 0, 0, 0, 1>;
using LengthPerAngle = Dimension<1, 0, 0, 0, -1>;
using RollStiffness = Dimension<2, 1, -2, 0, -1>;
}  // namespace dim

template <class Rep>
using LengthOf = Quantity<dim::Length, Rep>;
template <class Rep>
using AngleOf = Quantity<dim::Angle, Rep>;
template <class Rep>
using AnglePerLengthOf = Quantity<dim::AnglePerLength, Rep>;

using Length = Quantity<dim::Length>;
using Area = Quantity<dim::Area>;
using Angle = Quantity<dim::Angle>;
using Mass = Quantity<dim::Mass>;
using Time = Quantity<dim::Time>;
using Temperature = Quantity<dim::Temperature>;
using Speed = Quantity<dim::Speed>;
using Acceleration = Quantity<dim::Acceleration>;
using Force = Quantity<dim::Force>;
using Torque = Quantity<dim::Torque>;
using Pressure = Quantity<dim::Pressure>;
using Power = Quantity<dim::Power>;
using Stiffness = Quantity<dim::Stiffness>;
using AnglePerLength = Quantity<dim::AnglePerLength>;
using LengthPerAngle = Quantity<dim::LengthPerAngle>;  // an adjuster's pitch: metres per radian of turn
using RollStiffness = Quantity<dim::RollStiffness>;

// Exact by definition: inch, foot (25.4 mm, 12 in); pound 0.453 592 37 kg; standard gravity
// 9.806 65 m/s2; hence lbf, lbf·ft, psi. Source: NIST SP 811 (2008) B.8; SI Brochure Table 8 for bar, degree.
namespace units {
inline constexpr Length metre = Length::from_si(1.0), mm = Length::from_si(1e-3), cm = Length::from_si(1e-2);
inline constexpr Length inch = Length::from_si(0.0254), foot = Length::from_si(0.3048);
inline constexpr Angle radian = Angle::from_si(1.0), degree = Angle::from_si(std::numbers::pi / 180.0);
inline constexpr Angle minute_of_arc = Angle::from_si(std::numbers::pi / 10800.0);
inline constexpr Angle turn = Angle::from_si(2.0 * std::numbers::pi);
inline constexpr Mass kg = Mass::from_si(1.0), lb = Mass::from_si(0.45359237);
inline constexpr Time second = Time::from_si(1.0), minute = Time::from_si(60.0), hour = Time::from_si(3600.0);
inline constexpr Temperature kelvin = Temperature::from_si(1.0);
inline constexpr Acceleration g = Acceleration::from_si(9.80665);
inline constexpr Force newton = Force::from_si(1.0), kN = Force::from_si(1e3);
inline constexpr Force lbf = Force::from_si(0.45359237 * 9.80665);
inline constexpr Torque Nm = Torque::from_si(1.0), lbf_ft = Torque::from_si(0.45359237 * 9.80665 * 0.3048);
inline constexpr Torque lbf_in = Torque::from_si(0.45359237 * 9.80665 * 0.0254);
inline constexpr Pressure pascal = Pressure::from_si(1.0), kPa = Pressure::from_si(1e3), MPa = Pressure::from_si(1e6);
inline constexpr Pressure bar = Pressure::from_si(1e5);
inline constexpr Pressure psi = Pressure::from_si(0.45359237 * 9.80665 / (0.0254 * 0.0254));
inline constexpr Speed m_per_s = Speed::from_si(1.0), km_per_h = Speed::from_si(1.0 / 3.6);
inline constexpr Speed mph = Speed::from_si(1609.344 / 3600.0);
inline constexpr Power watt = Power::from_si(1.0), kW = Power::from_si(1e3);
inline constexpr Area m2 = Area::from_si(1.0), mm2 = Area::from_si(1e-6);
inline constexpr Stiffness N_per_mm = Stiffness::from_si(1e3);
}  // namespace units

template <class D, class Rep>
constexpr Quantity<D, Rep> abs(Quantity<D, Rep> a) {
  return a.si() < Rep(0) ? -a : a;
}
// The side of a square: sqrt(Area) is a Length.
template <class D, class Rep>
requires(D::length % 2 == 0 && D::mass % 2 == 0 && D::time % 2 == 0 && D::temperature % 2 == 0 &&
         D::angle % 2 == 0) auto sqrt(Quantity<D, Rep> a) {
  using std::sqrt;
  using Half = Dimension<D::length / 2, D::mass / 2, D::time / 2, D::temperature / 2, D::angle / 2>;
  return Quantity<Half, Rep>::from_si(sqrt(a.si()));
}
template <class Rep>
Rep sin(AngleOf<Rep> a) {
  using std::sin;
  return sin(a.si());
}
template <class Rep>
Rep cos(AngleOf<Rep> a) {
  using std::cos;
  return cos(a.si());
}
template <class Rep>
Rep tan(AngleOf<Rep> a) {
  using std::tan;
  return tan(a.si());
}
template <class D, class Rep>
AngleOf<Rep> atan2(Quantity<D, Rep> y, Quantity<D, Rep> x) {
  using std::atan2;
  return AngleOf<Rep>::from_si(atan2(y.si(), x.si()));
}
template <class D, class Rep>
Quantity<D, Rep> hypot(Quantity<D, Rep> a, Quantity<D, Rep> b) {
  using std::sqrt;
  return Quantity<D, Rep>::from_si(sqrt(a.si() * a.si() + b.si() * b.si()));
}

}  // namespace trammel
