// A scalar that carries its uncertainty, and where each part of it came from.
//
// Model: y = f(x1..xn) with independent inputs xi of standard uncertainty u(xi). An Uncertain keeps y and
// the shares si = (df/dxi) u(xi), carried exactly through every operation; u(y)^2 = sum si^2, and the
// covariance of two results is the sum of the products of their shares. It is the joint linear form of
// JCGM 100:2008 5.1.2 and F.1.2.3: what two results have in common (the same scale, the same passenger)
// cancels in their difference, so "before minus after" is not twice as uncertain as it should be.
// Use it as the scalar of a quantity: Quantity<D, Uncertain>. Compared by value alone.
//
// Law 1: u(x - x) is zero; u(x + x) is 2 u(x). Law 2: the shares of a result name the reading that would help most.
// Ignores: curvature of f over +-u (JCGM 100 5.1.2 note). Error: rounding. Where readings are correlated among
// themselves, write them as sums of independent inputs, or keep them in a Gaussian (measure/gaussian.h).
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <vector>

#include "measure/quantity.h"
#include "measure/vector3.h"

namespace trammel::vehicle {

class Uncertain {
 public:
  struct Share {
    std::uint32_t source = 0;  // index into Sources
    double amount = 0.0;       // signed, in the unit of the value
  };

  constexpr Uncertain(double value = 0.0) : value_(value) {}  // NOLINT: a constant has no uncertainty
  Uncertain(double value, std::uint32_t source, double u) : value_(value) {
    if (u != 0.0) shares_.push_back({source, u});
  }

  constexpr double value() const { return value_; }
  double u() const;
  const std::vector<Share>& shares() const { return shares_; }

  Uncertain& operator+=(const Uncertain& b) { return *this = combined(value_ + b.value_, *this, 1.0, b, 1.0); }
  Uncertain& operator-=(const Uncertain& b) { return *this = combined(value_ - b.value_, *this, 1.0, b, -1.0); }
  Uncertain& operator*=(const Uncertain& b) { return *this = *this * b; }
  Uncertain& operator/=(const Uncertain& b) { return *this = *this / b; }

  // f with slope `d` at this value.
  Uncertain chain(double f, double d) const;
  // f(a, b) with partial slopes da and db.
  static Uncertain combined(double f, const Uncertain& a, double da, const Uncertain& b, double db);

  friend Uncertain operator-(const Uncertain& a) { return a.chain(-a.value_, -1.0); }
  friend Uncertain operator+(Uncertain a, const Uncertain& b) { return a += b; }
  friend Uncertain operator-(Uncertain a, const Uncertain& b) { return a -= b; }
  friend Uncertain operator*(const Uncertain& a, const Uncertain& b) {
    return combined(a.value_ * b.value_, a, b.value_, b, a.value_);
  }
  friend Uncertain operator/(const Uncertain& a, const Uncertain& b) {
    const double q = a.value_ / b.value_;
    return combined(q, a, 1.0 / b.value_, b, -q / b.value_);
  }
  friend constexpr std::partial_ordering operator<=>(const Uncertain& a, const Uncertain& b) {
    return a.value_ <=> b.value_;
  }
  friend constexpr bool operator==(const Uncertain& a, const Uncertain& b) { return a.value_ == b.value_; }

 private:
  double value_;
  std::vector<Share> shares_;  // by rising source
};

double covariance(const Uncertain& a, const Uncertain& b);
// The chance that the true value is above zero, normal distribution (JCGM 106:2012 7.2); 0 or 1 where it has no
// uncertainty. Of a margin it is the chance that the limit is kept.
double chance_above_zero(const Uncertain& margin);
Uncertain sqrt(const Uncertain& a);
Uncertain sin(const Uncertain& a);
Uncertain cos(const Uncertain& a);
Uncertain tan(const Uncertain& a);
Uncertain asin(const Uncertain& a);
Uncertain atan(const Uncertain& a);
Uncertain atan2(const Uncertain& y, const Uncertain& x);

// The independent inputs of one job, each with the name it is shown under.
class Sources {
 public:
  template <class D>
  Quantity<D, Uncertain> input(std::string name, Quantity<D, double> value, Quantity<D, double> u) {
    return Quantity<D, Uncertain>::from_si(input(std::move(name), value.si(), u.si()));
  }
  Uncertain input(std::string name, double value, double u) {
    names_.push_back(std::move(name));
    return {value, static_cast<std::uint32_t>(names_.size() - 1), u};
  }
  const std::string& name(std::uint32_t source) const { return names_[source]; }
  // The input with the largest share in a result; empty where the result has no uncertainty.
  std::string largest_in(const Uncertain& result) const;

 private:
  std::vector<std::string> names_;
};

// A plain value in the scalar that a kernel runs in, and the way back.
template <class R, class D>
Quantity<D, R> as(Quantity<D, double> q) {
  return Quantity<D, R>::from_si(R(q.si()));
}
inline double value_of(double x) { return x; }
inline double value_of(const Uncertain& x) { return x.value(); }
template <class D, class R>
Quantity<D> value_of(const Quantity<D, R>& q) {
  return Quantity<D>::from_si(value_of(q.si()));
}
template <class D>
Quantity<D> standard_uncertainty(const Quantity<D, Uncertain>& q) {
  return Quantity<D>::from_si(q.si().u());
}

template <class R>
using MassOf = Quantity<dim::Mass, R>;
template <class R>
using ForceOf = Quantity<dim::Force, R>;
template <class R>
using TorqueOf = Quantity<dim::Torque, R>;
template <class R>
using SpeedOf = Quantity<dim::Speed, R>;
template <class R>
using AccelerationOf = Quantity<dim::Acceleration, R>;
template <class R>
using StiffnessOf = Quantity<dim::Stiffness, R>;
template <class R>
using RollStiffnessOf = Quantity<dim::RollStiffness, R>;

}  // namespace trammel::vehicle
